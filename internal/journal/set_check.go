package journal

import (
	"time"

	"rimward/internal/quantity"
)

// Top is the shape of a set candle's surface; empty is not noted.
type Top string

// The shapes of a surface.
const (
	TopSmooth Top = "smooth"
	TopDip    Top = "dip" // sunken around the wick
	TopRough  Top = "rough"
)

// Tops lists the shapes in the order a form shows them.
var Tops = []Top{TopSmooth, TopDip, TopRough}

// Amount is how much of a fault was seen; empty is not noted.
type Amount string

// How much of a fault was seen.
const (
	AmountNone   Amount = "none"
	AmountSlight Amount = "slight"
	AmountHeavy  Amount = "heavy"
)

// Amounts lists the amounts in the order a form shows them.
var Amounts = []Amount{AmountNone, AmountSlight, AmountHeavy}

// Seen reports whether there was any of it.
func (a Amount) Seen() bool { return a == AmountSlight || a == AmountHeavy }

// SetCheck is one look at a set, unlit candle, usually a day after the pour.
type SetCheck struct {
	Meta
	Candle    ID                    `json:"candle"`
	At        time.Time             `json:"at"`
	Top       Top                   `json:"top"`
	Dip       *quantity.Millimetres `json:"dip,omitempty"` // how deep the dip is
	SinkHole  Amount                `json:"sink_hole"`
	Cracks    Amount                `json:"cracks"`
	Frosting  Amount                `json:"frosting"`
	Sweating  Amount                `json:"sweating"`
	Stuck     *quantity.Fraction    `json:"stuck,omitempty"`      // share of the wall that the wax adheres to
	ColdThrow *int                  `json:"cold_throw,omitempty"` // 0 none to 5 very strong
	Note      string                `json:"note,omitempty"`
}
