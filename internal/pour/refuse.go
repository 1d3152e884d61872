package pour

import (
	"math"

	"rimward/internal/quantity"
)

// Limits of what is taken for a pour; app defaults that catch a slipped key.
const (
	mostCount = 2000
	mostLoad  = 0.5
	mostSpare = 1
	mostGrams = 1e6
)

// problems are what is wrong with what was asked, or missing in it; densities
// are looked at later.
func (a Ask) problems() []Problem {
	var ps []Problem
	add := func(bad bool, field, text string) {
		if bad {
			ps = append(ps, Problem{Field: field, Filling: -1, Text: text})
		}
	}
	add(len(a.Fillings) == 0, "fillings", "There is nothing to fill yet. Say how many of which vessel or mould.")
	for i, f := range a.Fillings {
		ps = append(ps, f.problems(i)...)
	}
	if o := a.Oil; o != nil {
		add(!(o.Load >= 0 && o.Load <= mostLoad), "load", "A load lies between 0 % and 50 %; with more there is hardly a candle left.")
		add(o.Basis != OfWax && o.Basis != OfTotal, "load", "Say whether the load is a share of the wax or of the total.")
		add(o.Density != nil && !dense(*o.Density), "oil", "The density of the fragrance oil cannot be right; see the shelf.")
	}
	add(!(a.Spare >= 0 && a.Spare <= mostSpare), "spare", "Spare lies between 0 % and 100 % of what is needed.")
	add(!(a.Waste >= 0 && a.Waste <= mostGrams), "waste", "What stays in the jug cannot be less than nothing.")
	add(!(a.Step > 0 && a.Step <= 100), "step", "The scale’s step lies above nothing and up to 100 g.")
	add(a.Melter != nil && !(*a.Melter > 0 && *a.Melter <= mostGrams), "melter", "What the melter holds must be more than nothing.")
	return append(ps, a.Wax.problems()...)
}

func dense(d quantity.GramsPerMillilitre) bool { return d > 0.1 && d < 5 }

func (w Wax) problems() []Problem {
	var ps []Problem
	if (w.Liquid != nil && !dense(*w.Liquid)) || (w.Solid != nil && !dense(*w.Solid)) {
		ps = append(ps, Problem{"wax", -1, "A density of the wax cannot be right; see the shelf.", false})
	}
	if w.Shrinkage != nil && !(*w.Shrinkage >= 0 && *w.Shrinkage < 0.5) {
		ps = append(ps, Problem{"wax", -1, "The shrinkage of the wax cannot be right; see the shelf.", false})
	}
	if len(ps) == 0 && w.Liquid != nil && w.Solid != nil && *w.Liquid > *w.Solid {
		ps = append(ps, Problem{"wax", -1, "The wax is noted as denser liquid than solid. Wax shrinks as it sets, so one of the two densities is wrong; see the shelf.", false})
	}
	return ps
}

func (f Filling) problems(i int) []Problem {
	name := nameOr(f.Name, "this line")
	switch {
	case f.Count < 1:
		return []Problem{{"fillings", i, "Say how many of " + name + ", at least one.", false}}
	case f.Cavities < 1:
		return []Problem{{"fillings", i, "There is no cavity to fill in " + name + ": a mould has at least one.", false}}
	case f.Count > mostCount || f.Cavities > mostCount || f.Count*f.Cavities > mostCount:
		return []Problem{{"fillings", i, "That is more of " + name + " than one sheet takes; 2000 pieces are the most.", false}}
	case f.TestFill != nil && !amount(float64(*f.TestFill)):
		return []Problem{{"fillings", i, "The mass that filled one of " + name + " must be more than nothing.", false}}
	case f.TestFill != nil:
		return nil
	case f.Volume == nil:
		return []Problem{{"fillings", i, "This needs the volume of " + name + ". Note it on the shelf, or fill one, weigh what it took and write that down instead.", true}}
	case !amount(float64(*f.Volume)):
		return []Problem{{"fillings", i, "The volume of " + name + " must be more than nothing; see the shelf.", false}}
	}
	return nil
}

func amount(x float64) bool { return x > 0 && x <= mostGrams && !math.IsNaN(x) }
