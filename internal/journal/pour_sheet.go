package journal

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/quantity"
)

// PourSheet is what is to be melted and weighed for one pour, kept while it is
// weighed and afterwards.
type PourSheet struct {
	Meta
	Wax       ID                 `json:"wax"`
	Fragrance *ID                `json:"fragrance,omitempty"`
	Load      *quantity.Fraction `json:"load,omitempty"`
	LoadBasis Basis              `json:"load_basis"`
	Pour      *ID                `json:"pour,omitempty"`  // the pour that was made of it last
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
	TopUp  bool               `json:"top_up,omitempty"` // the wax of a second pour is melted too
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

// SheetTick says that one thing on a sheet was done, and what the scale or the
// thermometer said.
type SheetTick struct {
	Key     string            `json:"key"` // which, as the sheet names it: a SheetStep of a melt
	Weighed *quantity.Grams   `json:"weighed,omitempty"`
	Read    *quantity.Celsius `json:"read,omitempty"`
}

// SheetStep is one thing to do for a melt.
type SheetStep string

// The things to do for a melt, in their order.
const (
	WeighWax SheetStep = "wax"
	HeatWax  SheetStep = "heat"
	WeighOil SheetStep = "oil"
	StirOil  SheetStep = "stir"
	PourWax  SheetStep = "pour"
)

// SheetSteps lists them in the order they are done.
var SheetSteps = []SheetStep{WeighWax, HeatWax, WeighOil, StirOil, PourWax}

// Weighs reports whether the step is read off a scale; if not, off a
// thermometer.
func (s SheetStep) Weighs() bool { return s == WeighWax || s == WeighOil }

// Key names a step of a melt, counted from 1.
func (s SheetStep) Key(melt int) string { return "m" + strconv.Itoa(melt) + "." + string(s) }

// MeltSheet is the pour sheet of one melt of a round: its candles, those alike
// on one line, with their places in the order of pouring. Places that left out
// names are not on it: they are poured already. Scale and melter are the
// studio's; load and pour temperature are the melt's.
func (r TestRound) MeltSheet(melt int, set Settings, leftOut ...int) PourSheet {
	s := PourSheet{Wax: r.Wax, Fragrance: r.Fragrance, LoadBasis: r.Factors.LoadBasis, Body: SheetBody{Step: set.ScaleStep, Melter: set.Melter}}
	if s.LoadBasis == "" {
		s.LoadBasis = OfWax
	}
	if r.ID != 0 {
		s.Round = &r.ID
	}
	for _, p := range r.Places {
		if p.Melt == melt && !slices.Contains(leftOut, p.Number) {
			s.Load, s.Body.PourAt = p.Load, p.PourAt
			s.Body.place(p)
		}
	}
	return s
}

// place puts a place of a round on the line of its like.
func (b *SheetBody) place(p RoundPlace) {
	for i, l := range b.Lines {
		if l.Vessel != nil && *l.Vessel == p.Vessel && l.Wick != nil && *l.Wick == p.Wick && l.Wicks == p.Wicks {
			b.Lines[i].Count++
			b.Lines[i].Places = append(b.Lines[i].Places, p.Number)
			return
		}
	}
	b.Lines = append(b.Lines, SheetLine{Vessel: &p.Vessel, Wick: &p.Wick, Wicks: p.Wicks, Count: 1, Places: []int{p.Number}})
}

// Ticked is what was noted under a key; false when it is not ticked.
func (b SheetBody) Ticked(key string) (SheetTick, bool) {
	i := slices.IndexFunc(b.Ticks, func(t SheetTick) bool { return t.Key == key })
	if i < 0 {
		return SheetTick{}, false
	}
	return b.Ticks[i], true
}

// stepOf is the step that a key names; false when it names none.
func stepOf(key string) (SheetStep, bool) {
	melt, step, ok := strings.Cut(key, ".")
	n, err := strconv.Atoi(strings.TrimPrefix(melt, "m"))
	return SheetStep(step), ok && err == nil && n >= 1 && n <= 2000 && SheetStep(step).Key(n) == key && slices.Contains(SheetSteps, SheetStep(step))
}

// Tick is the body with a tick put in the place of an earlier one under its
// key; off takes it away.
func (b SheetBody) Tick(t SheetTick, off bool) SheetBody {
	b.Ticks = slices.DeleteFunc(slices.Clone(b.Ticks), func(x SheetTick) bool { return x.Key == t.Key })
	if !off {
		b.Ticks = append(b.Ticks, t)
	}
	return b
}

// sameWork reports whether two sheets are worked out from the same.
func (s PourSheet) sameWork(o PourSheet) bool {
	s.Body.Ticks, o.Body.Ticks = nil, nil
	return s.Wax == o.Wax && s.LoadBasis == o.LoadBasis && reflect.DeepEqual(s.Fragrance, o.Fragrance) &&
		reflect.DeepEqual(s.Load, o.Load) && reflect.DeepEqual(s.Body, o.Body)
}

// StepOf is the step that a key names; "" when it names none.
func StepOf(key string) SheetStep {
	s, ok := stepOf(key)
	if !ok {
		return ""
	}
	return s
}
