package journal

import (
	"slices"
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

// SetsBy is when a candle poured at a moment is set.
func SetsBy(poured time.Time) time.Time { return poured.Add(SetsAfter) }

// Early reports whether a set check was made before the candle was set: what
// it saw may still change.
func (s SetCheck) Early(poured time.Time) bool { return s.At.Before(SetsBy(poured)) }

// SetLooked reports whether the candle was looked at after it had set.
func (f Life) SetLooked() bool {
	return f.SetSeen != nil && !f.SetSeen.Before(SetsBy(f.PouredAt))
}

// CountedSetChecks are the set checks that were not withdrawn, in order of
// time.
func (l CandleLog) CountedSetChecks() []SetCheck {
	cs := slices.DeleteFunc(slices.Clone(l.SetChecks), func(c SetCheck) bool { return c.IsGone() })
	slices.SortStableFunc(cs, func(a, b SetCheck) int { return a.At.Compare(b.At) })
	return cs
}

// WallSeen reports whether the wall can be looked at through the vessel, so
// that wet spots would show.
func (v Vessel) WallSeen() bool { return v.Material == "glass" }

// AsItShouldBe fills in what was left open with what is wanted: a smooth top,
// none of any fault, and the wax stuck to the wall all round where the wall can
// be seen. The cold throw is left open.
func (s SetCheck) AsItShouldBe(wallSeen bool) SetCheck {
	if s.Top == "" {
		s.Top = TopSmooth
	}
	for _, a := range []*Amount{&s.SinkHole, &s.Cracks, &s.Frosting, &s.Sweating} {
		if *a == "" {
			*a = AmountNone
		}
	}
	if s.Stuck == nil && wallSeen {
		all := quantity.Fraction(1)
		s.Stuck = &all
	}
	return s
}
