package pour

import "rimward/internal/quantity"

// ShareOfTotal is a load as a share of wax and oil together.
func ShareOfTotal(load quantity.Fraction, b Basis) quantity.Fraction {
	if b == OfTotal {
		return load
	}
	return load / (1 + load)
}

// ShareOfWax is a load as a share of the wax alone.
func ShareOfWax(load quantity.Fraction, b Basis) quantity.Fraction {
	if b == OfWax {
		return load
	}
	return load / (1 - load)
}

// Shrinkage is the share of its volume that a wax loses as it sets:
// 1 - liquid density / solid density.
func Shrinkage(liquid, solid quantity.GramsPerMillilitre) quantity.Fraction {
	return quantity.Fraction(1 - liquid/solid)
}

// mixture is what goes into the vessels, hot.
type mixture struct {
	density *quantity.GramsPerMillilitre
	shrink  *quantity.Fraction
	derived bool
}

// mixture works out the density of the hot wax with its oil, and by how much
// the wax shrinks. Where every filling was weighed no density is needed; a second
// pour needs the shrinkage.
func (a Ask) mixture() (mixture, []Problem) {
	shrink := a.shrinkage()
	wax, derived := a.liquid()
	m := mixture{shrink: shrink, derived: derived && a.needsDensity()}
	if wax != nil && (a.oilShare() == 0 || a.Oil.Density != nil) {
		d := a.mixed(*wax)
		m.density = &d
	}
	var ps []Problem
	if m.density == nil && a.needsDensity() {
		ps = a.missingDensities(wax)
	}
	if a.TopUp && shrink == nil {
		ps = append(ps, Problem{"wax", -1, "A second pour needs to know how much " + nameOr(a.Wax.Name, "the wax") + " sinks as it sets. Note its shrinkage or both its densities on the shelf, or leave the second pour out.", true})
	}
	return m, ps
}

func (a Ask) oilShare() quantity.Fraction {
	if a.Oil == nil {
		return 0
	}
	return ShareOfTotal(a.Oil.Load, a.Oil.Basis)
}

func (a Ask) needsDensity() bool {
	for _, f := range a.Fillings {
		if f.TestFill == nil {
			return true
		}
	}
	return false
}

// liquid is the wax's density when it is poured: as recorded, or worked out
// from the solid one and the shrinkage that were.
func (a Ask) liquid() (d *quantity.GramsPerMillilitre, derived bool) {
	if a.Wax.Liquid != nil || a.Wax.Solid == nil || a.Wax.Shrinkage == nil {
		return a.Wax.Liquid, false
	}
	x := *a.Wax.Solid * quantity.GramsPerMillilitre(1-*a.Wax.Shrinkage)
	return &x, true
}

// shrinkage is as measured, or as the two densities say; nil when neither is
// recorded.
func (a Ask) shrinkage() *quantity.Fraction {
	if a.Wax.Shrinkage != nil || a.Wax.Liquid == nil || a.Wax.Solid == nil {
		return a.Wax.Shrinkage
	}
	s := Shrinkage(*a.Wax.Liquid, *a.Wax.Solid)
	return &s
}

// mixed is the density of wax and oil whose volumes add up: the shares are of
// mass.
func (a Ask) mixed(wax quantity.GramsPerMillilitre) quantity.GramsPerMillilitre {
	f := quantity.GramsPerMillilitre(a.oilShare())
	if f == 0 {
		return wax
	}
	return 1 / ((1-f)/wax + f / *a.Oil.Density)
}

func (a Ask) missingDensities(wax *quantity.GramsPerMillilitre) []Problem {
	var ps []Problem
	if wax == nil {
		ps = append(ps, Problem{"wax", -1, "This needs the density of " + nameOr(a.Wax.Name, "the wax") + " when it is liquid. Note it on the shelf, or fill one vessel, weigh what it took and write that down instead.", true})
	}
	if a.oilShare() > 0 && a.Oil.Density == nil {
		ps = append(ps, Problem{"oil", -1, "This needs the density of " + nameOr(a.Oil.Name, "the fragrance oil") + ". Note it on the shelf, or fill one vessel, weigh what it took and write that down instead.", true})
	}
	return ps
}

// line works one filling out.
func (m mixture) line(f Filling) Line {
	l := Line{Name: f.Name, Pieces: f.Count * f.Cavities, Weighed: f.TestFill != nil}
	if f.TestFill != nil {
		l.Each = *f.TestFill
	} else {
		l.Each = quantity.Grams(float64(*f.Volume) * float64(*m.density))
	}
	l.Total = l.Each * quantity.Grams(l.Pieces)
	m.topUp(f, &l)
	return l
}

// topUp is what a piece sinks by as it sets, and the mass that fills it up
// again. The mass is a share of the fill: it is the same mixture.
func (m mixture) topUp(f Filling, l *Line) {
	if m.shrink == nil {
		return
	}
	mass := l.Each * quantity.Grams(*m.shrink)
	l.TopMass = &mass
	if f.Volume != nil {
		sinks := *f.Volume * quantity.Millilitres(*m.shrink)
		l.TopUp = &sinks
	}
}

func nameOr(name, or string) string {
	if name == "" {
		return or
	}
	return name
}
