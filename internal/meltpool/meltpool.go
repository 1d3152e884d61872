// Package meltpool has the geometry of melt pools and of the wax under them:
// how far a pool reaches across its vessel, between which checks it met the
// wall, how likely the readings of a burn are for every growth curve, and how
// much wax is left.
//
// It takes plain series of hours and widths, so that ten numbers are enough
// to try it. It refuses to take a full pool for a width: that is a bound. It
// knows no journal, no storage and no clock.
package meltpool

import (
	"math"

	"rimward/internal/quantity"
)

// Outline is a vessel's shape seen from above, as far as areas need it.
type Outline string

// The outlines whose areas differ. The zero value is taken as an ellipse.
const (
	Ellipse   Outline = "ellipse" // round and oval vessels
	Rectangle Outline = "rectangle"
)

// Vessel is the inside of a vessel at the wax line.
type Vessel struct {
	Outline Outline
	Length  quantity.Millimetres // the longer way across; the diameter when round
	Width   quantity.Millimetres // the shorter way across
}

// Across is the one number that stands for the inside: the geometric mean of
// length and width, the diameter of a round vessel.
func (v Vessel) Across() quantity.Millimetres {
	return quantity.Millimetres(math.Sqrt(float64(v.Length) * float64(v.Width)))
}

// Reach is how far a pool goes across its vessel: a is its width along the
// vessel's length, b its width at right angles. The ratio is the geometric
// mean of the two widths over the inner widths, at most 1; an axis that was
// not measured is taken to be like the other, and oneAxis says so. A full pool
// has ratio 1. ok is false when there is nothing to go by.
func Reach(v Vessel, a, b *quantity.Millimetres, full bool) (ratio float64, oneAxis, ok bool) {
	ra, rb, oneAxis, ok := axes(v, a, b, full)
	return math.Sqrt(ra * rb), oneAxis, ok
}

// axes gives the pool's share of the inner width along both axes.
func axes(v Vessel, a, b *quantity.Millimetres, full bool) (ra, rb float64, oneAxis, ok bool) {
	switch {
	case full:
		return 1, 1, false, true
	case v.Length <= 0 || v.Width <= 0 || (a == nil && b == nil):
		return 0, 0, false, false
	case b == nil:
		ra = shareOf(*a, v.Length)
		return ra, ra, true, true
	case a == nil:
		rb = shareOf(*b, v.Width)
		return rb, rb, true, true
	}
	return shareOf(*a, v.Length), shareOf(*b, v.Width), false, true
}

// shareOf keeps a share within 0 and 1: no pool is wider than its vessel,
// whatever the ruler said.
func shareOf(pool, inner quantity.Millimetres) float64 {
	return min(max(float64(pool/inner), 0), 1)
}

// touching absorbs the noise of adding decimal widths, far below any ruler.
const touching quantity.Millimetres = 1e-9

// IsFull reports whether a reading counts as a full pool: it was ticked so, or
// every measured width is within half a step of the ruler of the inner width.
// An axis that was not measured is taken to be like the other.
func IsFull(v Vessel, a, b *quantity.Millimetres, ticked bool, ruler quantity.Millimetres) bool {
	if ticked {
		return true
	}
	near := func(pool *quantity.Millimetres, inner quantity.Millimetres) bool {
		return pool == nil || *pool >= inner-ruler/2-touching
	}
	return (a != nil || b != nil) && near(a, v.Length) && near(b, v.Width)
}
