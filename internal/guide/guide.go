// Package guide holds what a pour did against what the suppliers of its wax
// and its fragrance advise: inside, below or above, by how much, or that one
// side of the comparison is missing.
//
// It compares and says nothing in words. It refuses to fill in a guidance that
// no supplier stated, and to call a pour safe: that a number lies inside a
// supplier's range means that and no more.
package guide

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Side is where a practice lies beside its guidance.
type Side string

// The sides. A guidance that no supplier stated is NotStated whatever was
// recorded.
const (
	Inside      Side = "inside"
	Below       Side = "below"
	Above       Side = "above"
	NotStated   Side = "not stated"
	NotRecorded Side = "not recorded"
)

// Place is where a value lies beside a range.
type Place[T ~float64] struct {
	Side Side
	By   T // how far below or above, never negative; of temperatures a difference, without the 32 of Fahrenheit
}

// Hair absorbs the noise of converting units, far below any instrument: a
// value that leaves a range by less lies inside.
const Hair = 1e-9

// Beside holds a value, nil when it was not recorded, against a range whose
// ends belong to it.
func Beside[T ~float64](x *T, r journal.Range[T]) Place[T] {
	switch {
	case r.IsZero():
		return Place[T]{Side: NotStated}
	case x == nil:
		return Place[T]{Side: NotRecorded}
	case r.Low != nil && *x < *r.Low-Hair:
		return Place[T]{Below, *r.Low - *x}
	case r.High != nil && *x > *r.High+Hair:
		return Place[T]{Above, *x - *r.High}
	}
	return Place[T]{Side: Inside}
}

// Compared is one practice beside its guidance.
type Compared[T ~float64] struct {
	Value *T // as recorded; nil when it was not
	Guide journal.Range[T]
	Place[T]
}

func compared[T ~float64](x *T, r journal.Range[T]) Compared[T] {
	return Compared[T]{x, r, Beside(x, r)}
}

// Guidance is everything about one pour that a supplier may speak of.
type Guidance struct {
	Scented bool // a fragrance went in; without one the last four say nothing
	Heated  Compared[quantity.Celsius]
	Poured  Compared[quantity.Celsius]

	OilAdded Compared[quantity.Celsius]
	Load     Load
	Most     Maximum
	Flash    Flash
}

// Of holds a pour against the guidance of its wax and its fragrance, which is
// nil where none went in.
func Of(p journal.Pour, w journal.Wax, f *journal.Fragrance) Guidance {
	g := Guidance{Scented: f != nil, Heated: compared(p.HeatedTo, w.HeatTo), Poured: compared(p.PouredAt, w.PourAt)}
	if f != nil {
		g.OilAdded = compared(p.OilAt, w.AddOilAt)
		g.Load, g.Most, g.Flash = loadOf(p, w), MostOf(p, w, *f), FlashOf(p, *f)
	}
	return g
}
