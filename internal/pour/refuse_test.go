package pour

import (
	"math"
	"strings"
	"testing"

	"rimward/internal/quantity"
)

// Every bad entry is answered with a sentence that says which it is; nothing
// panics and nothing is guessed.
func TestBadEntriesAreSentences(t *testing.T) {
	vessel := func() Filling {
		return Filling{Name: "tin", Count: 2, Cavities: 1, Volume: ptr(quantity.Millilitres(100))}
	}
	good := func() Ask {
		return Ask{Fillings: []Filling{vessel()}, Wax: Wax{Name: "Meadow", Liquid: ptr(quantity.GramsPerMillilitre(0.85))},
			Oil: &Oil{Name: "Fig", Load: 0.08, Basis: OfWax, Density: ptr(quantity.GramsPerMillilitre(0.98))}, Step: 1}
	}
	worked(t, good())
	for name, c := range map[string]struct {
		spoil   func(*Ask)
		field   string
		says    string
		missing bool
	}{
		"nothing to fill":     {func(a *Ask) { a.Fillings = nil }, "fillings", "nothing to fill", false},
		"no count":            {func(a *Ask) { a.Fillings[0].Count = 0 }, "fillings", "at least one", false},
		"negative count":      {func(a *Ask) { a.Fillings[0].Count = -3 }, "fillings", "at least one", false},
		"zero cavities":       {func(a *Ask) { a.Fillings[0].Cavities = 0 }, "fillings", "no cavity", false},
		"too many":            {func(a *Ask) { a.Fillings[0].Count = math.MaxInt }, "fillings", "2000", false},
		"no volume":           {func(a *Ask) { a.Fillings[0].Volume = nil }, "fillings", "needs the volume of tin", true},
		"negative volume":     {func(a *Ask) { *a.Fillings[0].Volume = -5 }, "fillings", "more than nothing", false},
		"unreal volume":       {func(a *Ask) { *a.Fillings[0].Volume = quantity.Millilitres(math.NaN()) }, "fillings", "more than nothing", false},
		"empty test fill":     {func(a *Ask) { a.Fillings[0].TestFill = ptr(quantity.Grams(0)) }, "fillings", "more than nothing", false},
		"load of a hundred":   {func(a *Ask) { a.Oil.Load = 1 }, "load", "between 0 % and 50 %", false},
		"all of it oil":       {func(a *Ask) { a.Oil.Load, a.Oil.Basis = 1, OfTotal }, "load", "between 0 % and 50 %", false},
		"negative load":       {func(a *Ask) { a.Oil.Load = -0.01 }, "load", "between 0 % and 50 %", false},
		"unreal load":         {func(a *Ask) { a.Oil.Load = quantity.Fraction(math.NaN()) }, "load", "between 0 % and 50 %", false},
		"no basis":            {func(a *Ask) { a.Oil.Basis = "" }, "load", "share of the wax or of the total", false},
		"negative spare":      {func(a *Ask) { a.Spare = -0.1 }, "spare", "Spare", false},
		"negative waste":      {func(a *Ask) { a.Waste = -1 }, "waste", "less than nothing", false},
		"no step":             {func(a *Ask) { a.Step = 0 }, "step", "step", false},
		"no melter":           {func(a *Ask) { a.Melter = ptr(quantity.Grams(0)) }, "melter", "more than nothing", false},
		"melter too small":    {func(a *Ask) { a.Melter = ptr(quantity.Grams(84)) }, "melter", "too small for a single piece of tin", false},
		"no wax density":      {func(a *Ask) { a.Wax.Liquid = nil }, "wax", "density of Meadow when it is liquid", true},
		"no oil density":      {func(a *Ask) { a.Oil.Density = nil }, "oil", "density of Fig", true},
		"shrinkage of a half": {func(a *Ask) { a.Wax.Shrinkage = ptr(quantity.Fraction(0.5)) }, "wax", "shrinkage", false},
		// A widely copied line gives melted beeswax 0.9822 at 98 °C, where solid
		// beeswax is 0.958 to 0.970: denser than the solid is impossible.
		"melted beeswax denser than solid": {func(a *Ask) {
			a.Wax.Liquid, a.Wax.Solid = ptr(quantity.GramsPerMillilitre(0.9822)), ptr(quantity.GramsPerMillilitre(0.965))
		}, "wax", "denser liquid than solid", false},
	} {
		t.Run(name, func(t *testing.T) {
			a := good()
			c.spoil(&a)
			s, ps := Work(a)
			if len(ps) != 1 || ps[0].Field != c.field || ps[0].Missing != c.missing || !strings.Contains(ps[0].Text, c.says) {
				t.Errorf("%+v", ps)
			}
			if len(s.Lines) > 0 || s.Total != 0 {
				t.Errorf("a sheet came with it: %+v", s)
			}
		})
	}
}

// A load of nothing is a load: no oil, no density needed of it.
func TestALoadOfNothing(t *testing.T) {
	s := worked(t, Ask{Fillings: []Filling{{Count: 1, Cavities: 1, Volume: ptr(quantity.Millilitres(100))}},
		Wax: Wax{Liquid: ptr(quantity.GramsPerMillilitre(0.85))}, Oil: &Oil{Load: 0, Basis: OfWax}, Step: 1})
	if s.Oil != 0 || s.Wax != 85 || s.Load != 0 {
		t.Errorf("%+v", s)
	}
}
