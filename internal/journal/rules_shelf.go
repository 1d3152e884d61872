package journal

import (
	"strings"
	"unicode/utf8"

	"rimward/internal/quantity"
)

// within reports whether a pointer is nil or inside [low, high].
func within[T ~float64](v *T, low, high T) bool { return v == nil || (*v >= low && *v <= high) }

// addRange notes a range that is upside down or leaves [low, high].
func addRange[T ~float64](ps *problems, field string, r Range[T], low, high T, limits string) {
	ps.addIf(r.upside(), field+"_high", "The upper end stands below the lower end.")
	ps.addIf(!within(r.Low, low, high), field+"_low", limits)
	ps.addIf(!within(r.High, low, high), field+"_high", limits)
}

func (ps *problems) addName(name string) {
	ps.addIf(strings.TrimSpace(name) == "", "name", "Give it a name.")
	ps.addIf(utf8.RuneCountInString(name) > 120, "name", "Keep the name under 120 characters.")
}

const (
	hotLimits     = "Between 0 and 250 °C (32 and 482 °F)."
	loadLimits    = "Between 0 and 50 %."
	densityLimits = "Between 0.5 and 1.5 g/mL."
)

// Validate holds the rules of a wax.
func (w Wax) Validate() error {
	var ps problems
	ps.addName(w.Name)
	ps.addIf(!oneOf(w.Family, WaxFamilies), "family", "Choose the family from the list.")
	ps.addIf(!within(w.SolidDensity, 0.5, 1.5), "solid_density", densityLimits)
	ps.addIf(!within(w.LiquidDensity, 0.5, 1.5), "liquid_density", densityLimits)
	ps.addIf(!within(w.MeltingPoint, 20, 120), "melting_point", "Between 20 and 120 °C (68 and 248 °F).")
	addRange(&ps, "heat_to", w.HeatTo, 0, 250, hotLimits)
	addRange(&ps, "add_oil_at", w.AddOilAt, 0, 250, hotLimits)
	addRange(&ps, "pour_at", w.PourAt, 0, 250, hotLimits)
	addRange(&ps, "load", w.Load, 0, 0.5, loadLimits)
	addRange(&ps, "cure_days", w.CureDays, 0, 365, "Between 0 and 365 days.")
	ps.addIf(!within(w.Shrinkage, 0, 0.3), "shrinkage", "Between 0 and 30 %.")
	ps.addIf(!within(w.HeatOfCombustion, 10, 60), "heat_of_combustion", "Between 10 and 60 kJ/g.")
	addStock(&ps, w.Price, w.Stock, 1e9, massOnHand)
	return ps.err()
}

// Validate holds the rules of a fragrance.
func (f Fragrance) Validate() error {
	var ps problems
	ps.addName(f.Name)
	ps.addIf(!within(f.Density, 0.5, 1.5), "density", densityLimits)
	ps.addIf(!within(f.FlashPoint, 0, 300), "flash_point", "Between 0 and 300 °C (32 and 572 °F).")
	ps.addIf(!within(f.MaxLoad, 0, 0.5), "max_load", loadLimits)
	addStock(&ps, f.Price, f.Stock, 1e9, massOnHand)
	return ps.err()
}

// Validate holds the rules of a vessel.
func (v Vessel) Validate() error {
	var ps problems
	ps.addName(v.Name)
	ps.addIf(!oneOf(v.Shape, Shapes), "shape", "Choose the shape from the list.")
	ps.addIf(!oneOf(v.Material, Materials), "material", "Choose the material from the list.")
	ps.addIf(v.InnerWidth < 10 || v.InnerWidth > 500, "inner_width", "Between 10 and 500 mm (0.4 and 20 in).")
	ps.addIf(!within(v.InnerLength, 10, 500), "inner_length", "Between 10 and 500 mm (0.4 and 20 in).")
	ps.addIf(v.Shape == Round && v.InnerLength != nil && *v.InnerLength != v.InnerWidth, "inner_length",
		"A round vessel has one width. Leave the length empty, or choose another shape.")
	ps.addIf(v.Shape != Round && v.InnerLength == nil, "inner_length", "Give the longer way across too.")
	ps.addIf(v.InnerLength != nil && *v.InnerLength < v.InnerWidth, "inner_length", "The length is the longer way across; the width is the shorter.")
	ps.addIf(!within(v.FillHeight, 5, 500), "fill_height", "Between 5 and 500 mm (0.2 and 20 in).")
	ps.addIf(!within(v.Volume, 5, 20000), "volume", "Between 5 mL and 20 L.")
	ps.addIf(!within(v.WaterFill, 5, 20000), "water_fill", "Between 5 g and 20 kg.")
	ps.addIf(!within(v.EmptyMass, 1, 20000), "empty_mass", "Between 1 g and 20 kg.")
	ps.addIf(!within(v.TargetHours, 0.25, 24), "target_hours", "Between a quarter of an hour and 24 h.")
	ps.addIf(!within(v.FlameLimit, 5, 150), "flame_limit", "Between 5 and 150 mm (0.2 and 6 in).")
	ps.addIf(!within(v.WallLimit, 30, 150), "wall_limit", "Between 30 and 150 °C (86 and 302 °F).")
	addStock(&ps, v.Price, v.Stock, 1e6, piecesOnHand)
	return ps.err()
}

// Validate holds the rules of a ladder.
func (l Ladder) Validate() error {
	var ps problems
	ps.addName(l.Name)
	ps.addIf(!oneOf(l.Kind, WickKinds), "kind", "Choose how the wick is made from the list.")
	return ps.err()
}

// Validate holds the rules of a wick.
func (w Wick) Validate() error {
	var ps problems
	ps.addIf(strings.TrimSpace(w.Label) == "", "label", "Give the rung the label that stands on the wick's packet.")
	ps.addIf(utf8.RuneCountInString(w.Label) > 60, "label", "Keep the label under 60 characters.")
	ps.addIf(w.Rung < 1, "rung", "Rungs are counted from 1.")
	ps.addIf(!within(w.Width, 0.3, 60), "width", "Between 0.3 and 60 mm.")
	ps.addIf(w.Threads != nil && (*w.Threads < 1 || *w.Threads > 500), "threads", "Between 1 and 500 threads.")
	addStock(&ps, w.Price, w.Stock, 1e6, piecesOnHand)
	return ps.err()
}

func oneOf[T comparable](v T, list []T) bool {
	for _, x := range list {
		if x == v {
			return true
		}
	}
	return false
}

// WaterVolume is the volume that a mass of water at 20 °C takes up
// (0.9982 g/mL; CRC Handbook of Chemistry and Physics, from memory).
func WaterVolume(m quantity.Grams) quantity.Millilitres { return quantity.Millilitres(m / 0.9982) }

// Capacity is the volume to the fill line, measured or from the water that
// fills it; nil when neither was recorded.
func (v Vessel) Capacity() *quantity.Millilitres { return capacity(v.Volume, v.WaterFill) }

// capacity is a volume as measured, or from the water that fills it.
func capacity(volume *quantity.Millilitres, water *quantity.Grams) *quantity.Millilitres {
	if volume != nil || water == nil {
		return volume
	}
	c := WaterVolume(*water)
	return &c
}
