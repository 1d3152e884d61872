package guide

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Load is the fragrance load beside the wax's range, both a share of what the
// wax's guidance counts.
type Load struct {
	Compared[quantity.Fraction]
	Basis   journal.Basis
	Weighed bool // no load was written: it is what was weighed in
}

func loadOf(p journal.Pour, w journal.Wax) Load {
	b := basisOf(w.LoadBasis)
	load := LoadIn(p, b)
	return Load{compared(load, w.Load), b, p.Load == nil && load != nil}
}

// LoadIn is the fragrance load of a pour as a share of the basis: as it was
// written, or else as it was weighed in; nil where neither is known.
func LoadIn(p journal.Pour, b journal.Basis) *quantity.Fraction {
	if load := p.LoadOn(b); load != nil {
		return load
	}
	return p.LoadWeighed(b)
}

// basisOf is a basis, the wax where none was stated.
func basisOf(b journal.Basis) journal.Basis {
	if b == journal.OfTotal {
		return b
	}
	return journal.OfWax
}

// Binding says whose limit is the lower one.
type Binding string

// Whose limit binds; BindsNone where neither states one.
const (
	BindsNone      Binding = ""
	BindsWax       Binding = "wax"
	BindsFragrance Binding = "fragrance"
	BindsBoth      Binding = "both"
)

// Maximum is the most oil that a pour may hold: the lower of what the wax is
// said to take and what the fragrance's supplier allows in candles. The first
// is a matter of the wax's holding it, the second of the skin that touches it:
// a candle has to keep to both. Everything is a share of Basis.
type Maximum struct {
	Basis journal.Basis
	Wax   *quantity.Fraction // the upper end of the wax's range; nil when not stated
	Oil   *quantity.Fraction // the fragrance supplier's maximum; nil when not stated
	Binds Binding
	Compared[quantity.Fraction]
}

// MostOf holds a pour's load against its effective maximum, on the basis that
// the load was recorded on.
func MostOf(p journal.Pour, w journal.Wax, f journal.Fragrance) Maximum {
	m := Most(w, f, basisOf(p.LoadBasis))
	m.Compared = compared(LoadIn(p, m.Basis), m.Guide)
	return m
}

// Most is the effective maximum of a wax with a fragrance, as shares of one
// basis. The comparison in it has the guidance and no value.
func Most(w journal.Wax, f journal.Fragrance, b journal.Basis) Maximum {
	m := Maximum{Basis: b, Wax: onBasis(w.Load.High, w.LoadBasis, b), Oil: onBasis(f.MaxLoad, f.MaxBasis, b)}
	m.Binds = binding(m.Wax, m.Oil)
	switch m.Binds {
	case BindsWax, BindsBoth:
		m.Guide.High = m.Wax
	case BindsFragrance:
		m.Guide.High = m.Oil
	}
	m.Place = Beside(nil, m.Guide)
	return m
}

// onBasis is a limit as a share of another basis; nil stays nil.
func onBasis(x *quantity.Fraction, from, to journal.Basis) *quantity.Fraction {
	if x == nil {
		return nil
	}
	y := journal.ConvertLoad(*x, basisOf(from), to)
	return &y
}

func binding(wax, oil *quantity.Fraction) Binding {
	switch {
	case wax == nil && oil == nil:
		return BindsNone
	case oil == nil:
		return BindsWax
	case wax == nil:
		return BindsFragrance
	}
	switch d := *wax - *oil; {
	case d > Hair:
		return BindsFragrance
	case d < -Hair:
		return BindsWax
	}
	return BindsBoth
}
