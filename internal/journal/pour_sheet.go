package journal

import "rimward/internal/quantity"

// PourSheet is what is to be melted and weighed for one pour, kept while it is
// weighed and afterwards.
type PourSheet struct {
	Meta
	Wax       ID                 `json:"wax"`
	Fragrance *ID                `json:"fragrance,omitempty"`
	Load      *quantity.Fraction `json:"load,omitempty"`
	LoadBasis Basis              `json:"load_basis"`
	Pour      *ID                `json:"pour,omitempty"`  // the pour that was made of it
	Round     *ID                `json:"round,omitempty"` // the round that it is for
	Body      SheetBody          `json:"body"`
	Note      string             `json:"note,omitempty"`
}

// SheetBody is what a sheet's sums are worked out from, and what was weighed.
type SheetBody struct {
	Lines  []SheetLine        `json:"lines"`
	Spare  *quantity.Fraction `json:"spare,omitempty"`  // more than is needed, as a share of it
	Waste  *quantity.Grams    `json:"waste,omitempty"`  // what stays in the jug
	Step   quantity.Grams     `json:"step"`             // of the scale
	Melter *quantity.Grams    `json:"melter,omitempty"` // what the melter holds at once
	PourAt *quantity.Celsius  `json:"pour_at,omitempty"`
	Ticks  []SheetTick        `json:"ticks,omitempty"`
}

// SheetLine is some like things to fill: a vessel or a mould.
type SheetLine struct {
	Vessel *ID `json:"vessel,omitempty"`
	Mould  *ID `json:"mould,omitempty"`
	Wick   *ID `json:"wick,omitempty"` // makes candles of the line; nil for moulds, or where it is not chosen yet
	Wicks  int `json:"wicks,omitempty"`
	Count  int `json:"count"` // vessels, or fillings of the whole mould
	// TestFill is what one of them took when it was filled and weighed; it
	// stands for volume and density where given.
	TestFill *quantity.Grams `json:"test_fill,omitempty"`
	Places   []int           `json:"places,omitempty"` // of the round, one for each of Count
}

// SheetTick says that one thing on a sheet was done, and what the scale said.
type SheetTick struct {
	Key     string          `json:"key"` // which, as the sheet names it
	Weighed *quantity.Grams `json:"weighed,omitempty"`
}
