package meltpool

import (
	"math"

	"rimward/internal/quantity"
)

// SquareCentimetres is an area.
type SquareCentimetres float64

// MillimetresPerHour is how fast the level of the wax falls.
type MillimetresPerHour float64

// Area is the wax's surface in the vessel.
func (v Vessel) Area() SquareCentimetres {
	box := float64(v.Length*v.Width) / 100
	if v.Outline == Rectangle {
		return SquareCentimetres(box)
	}
	return SquareCentimetres(box * math.Pi / 4)
}

// VolumeTo is what fits into the vessel up to a height, as if its walls stood
// upright.
func (v Vessel) VolumeTo(height quantity.Millimetres) quantity.Millilitres {
	return quantity.Millilitres(float64(v.Area()) * float64(height) / 10)
}

// MassTo is the mass of wax that fills the vessel up to a height.
func (v Vessel) MassTo(height quantity.Millimetres, density quantity.GramsPerMillilitre) quantity.Grams {
	return quantity.Grams(float64(v.VolumeTo(height)) * float64(density))
}

// HeightOf is how high a mass of wax stands in the vessel; false when the
// vessel or the density is nothing.
func (v Vessel) HeightOf(wax quantity.Grams, density quantity.GramsPerMillilitre) (quantity.Millimetres, bool) {
	if v.Area() <= 0 || density <= 0 {
		return 0, false
	}
	return quantity.Millimetres(10 * float64(wax) / float64(density) / float64(v.Area())), true
}

// LevelDrop is how fast the level falls at a burn rate; false when the vessel
// or the density is nothing.
func (v Vessel) LevelDrop(rate quantity.GramsPerHour, density quantity.GramsPerMillilitre) (MillimetresPerHour, bool) {
	h, ok := v.HeightOf(quantity.Grams(rate), density)
	return MillimetresPerHour(h), ok
}

// Usable is the wax that may burn before the level is down to stop; never
// below nothing.
func (v Vessel) Usable(wax quantity.Grams, density quantity.GramsPerMillilitre, stop quantity.Millimetres) quantity.Grams {
	return max(wax-v.MassTo(stop, density), 0)
}

// HoursLeft is how long a mass of wax lasts at a burn rate; false when nothing
// burns.
func HoursLeft(usable quantity.Grams, rate quantity.GramsPerHour) (quantity.Hours, bool) {
	if rate <= 0 {
		return 0, false
	}
	return quantity.Hours(float64(usable) / float64(rate)), true
}
