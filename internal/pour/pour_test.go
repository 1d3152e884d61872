package pour

import (
	"math"
	"strings"
	"testing"

	"rimward/internal/quantity"
)

func ptr[T any](x T) *T { return &x }

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s: %.6f, want %.6f (± %g)", what, got, want, tol)
	}
}

func worked(t *testing.T, a Ask) Sheet {
	t.Helper()
	s, ps := Work(a)
	if len(ps) > 0 {
		t.Fatalf("refused: %+v", ps)
	}
	return s
}

// Pure geometry: a cylinder 76.2 mm (3 in) wide filled 69.85 mm (2.75 in) deep
// holds π/4 · 7.62² · 6.985 = 45.6037 cm² · 6.985 cm = 318.542 mL, which is
// 286.687 g at 0.90 g/mL. At 8 % of the wax: 286.687 / 1.08 = 265.451 g wax and
// 21.236 g oil. Wax and oil are both given 0.90, so that the mixture has it.
func TestACylinderOfThreeInches(t *testing.T) {
	volume := math.Pi / 4 * 7.62 * 7.62 * 6.985
	near(t, "volume in mL", volume, 318.542, 5e-4)
	s := worked(t, Ask{
		Fillings: []Filling{{Name: "three-inch tumbler", Count: 1, Cavities: 1, Volume: ptr(quantity.Millilitres(volume))}},
		Wax:      Wax{Liquid: ptr(quantity.GramsPerMillilitre(0.90))},
		Oil:      &Oil{Load: 0.08, Basis: OfWax, Density: ptr(quantity.GramsPerMillilitre(0.90))},
		Step:     0.001,
	})
	near(t, "fill", float64(s.Lines[0].Each), 286.687, 5e-4)
	// The scale's step is 0.001 g: rounded up there is at most one step more.
	near(t, "total", float64(s.Total), 286.687, 1.5e-3)
	near(t, "wax", float64(s.Wax), 265.451, 1.5e-3)
	near(t, "oil", float64(s.Oil), 21.236, 1.5e-3)
}

// A fluid ounce is a volume, an ounce a mass (16 CFR 500.19: 1 US fl oz is
// 29.5735 mL, 1 oz is 28.3495 g). A vessel of 10 fl oz holds 295.735 mL: at 0.90
// g/mL 266.2 g = 9.39 oz of wax, at 0.86 g/mL 254.3 g = 8.97 oz, and never 10 oz.
func TestAFluidOunceIsNoOunce(t *testing.T) {
	for _, c := range []struct{ density, grams, ounces float64 }{{0.90, 266.2, 9.39}, {0.86, 254.3, 8.97}} {
		s := worked(t, Ask{
			Fillings: []Filling{{Count: 1, Cavities: 1, Volume: ptr(quantity.Millilitres(10 * 29.5735295625))}},
			Wax:      Wax{Liquid: ptr(quantity.GramsPerMillilitre(c.density))}, Step: 0.01,
		})
		near(t, "grams", float64(s.Lines[0].Each), c.grams, 0.05)
		near(t, "ounces", float64(s.Lines[0].Each)/28.349523125, c.ounces, 0.005)
	}
}

// Loads on either basis (arithmetic): 8 % of wax on 100 g wax is 8 g oil of 108 g,
// 7.4074 % of the total; 8 % of the total of 108 g is 8.64 g oil and 99.36 g wax,
// 8.6957 % of the wax.
func TestALoadOnEitherBasis(t *testing.T) {
	for _, c := range []struct{ a, b float64 }{{6, 5.6604}, {8, 7.4074}, {10, 9.0909}} {
		near(t, "of total", float64(ShareOfTotal(quantity.Fraction(c.a/100), OfWax))*100, c.b, 5e-5)
	}
	for _, c := range []struct{ b, a float64 }{{6, 6.383}, {8, 8.6957}, {10, 11.1111}} {
		near(t, "of wax", float64(ShareOfWax(quantity.Fraction(c.b/100), OfTotal))*100, c.a, 5e-4)
	}
	a := Ask{Fillings: []Filling{{Count: 1, Cavities: 1, TestFill: ptr(quantity.Grams(108))}}, Step: 0.01, Oil: &Oil{Load: 0.08, Basis: OfTotal}}
	s := worked(t, a)
	near(t, "oil of total", float64(s.Oil), 8.64, 1e-9)
	near(t, "wax of total", float64(s.Wax), 99.36, 1e-9)
	a.Oil.Basis = OfWax
	s = worked(t, a)
	near(t, "oil of wax", float64(s.Oil), 8, 1e-9)
	near(t, "wax of wax", float64(s.Wax), 100, 1e-9)
}

// Worked by hand. Wax 0.86 liquid, 0.90 solid, so it shrinks by 1 - 0.86/0.90 =
// 4.4444 %. Oil 1.00 at 10 % of wax, 1/11 of the total: density of the mixture is
// 1 / ((10/11)/0.86 + (1/11)/1.00) = 1 / (1.0570825 + 0.0909091) = 0.8710866.
// A vessel of 200 mL takes 174.21731 g; it sinks by 200 · 0.044444 = 8.889 mL,
// which is 7.74299 g. A mould of 6 cavities of 30 mL, twice: 12 · 26.132597 =
// 313.591 g. Four vessels and the mould: 696.869 + 313.591 = 1010.460 g; with the
// top-up 1010.460 · 1.044444 = 1055.370 g; with 5 % spare 1108.138 g; with 15 g
// left in the jug 1123.138 g, on a scale of 1 g 1124 g: oil 1124/11 = 102.18, so
// 102 g, and 1022 g wax.
func TestASheetWorkedByHand(t *testing.T) {
	a := Ask{
		Fillings: []Filling{
			{Name: "tumbler", Count: 4, Cavities: 1, Volume: ptr(quantity.Millilitres(200))},
			{Name: "hexagons", Count: 2, Cavities: 6, Volume: ptr(quantity.Millilitres(30))},
		},
		Wax:   Wax{Liquid: ptr(quantity.GramsPerMillilitre(0.86)), Solid: ptr(quantity.GramsPerMillilitre(0.90)), Price: ptr(9.5)},
		Oil:   &Oil{Load: 0.10, Basis: OfWax, Density: ptr(quantity.GramsPerMillilitre(1))},
		Spare: 0.05, Waste: 15, Step: 1, TopUp: true,
		Things: []Priced{{"tumbler", 4, ptr(2.25)}, {"wick 4", 4, nil}},
	}
	s := worked(t, a)
	near(t, "density", float64(*s.Density), 0.8710866, 1e-7)
	near(t, "shrinkage", float64(*s.Shrink), 0.0444444, 1e-7)
	near(t, "vessel", float64(s.Lines[0].Each), 174.21731, 1e-4)
	near(t, "sinks by", float64(*s.Lines[0].TopUp), 8.8889, 1e-4)
	near(t, "top-up", float64(*s.Lines[0].TopMass), 7.74299, 1e-4)
	near(t, "moulds", float64(s.Lines[1].Total), 313.591, 1e-3)
	near(t, "wax", float64(s.Wax), 1022, 0)
	near(t, "oil", float64(s.Oil), 102, 0)
	near(t, "total", float64(s.Total), 1124, 0)
	if s.Pieces() != 16 || len(s.Melts) != 1 {
		t.Errorf("%d pieces in %d melts", s.Pieces(), len(s.Melts))
	}
	// 1.022 kg · 9.50 = 9.709; 4 · 2.25 = 9.00; the oil and the wick have no price.
	near(t, "cost", s.Cost.Known, 18.709, 1e-9)
	if s.Cost.Whole() || strings.Join(s.Cost.Missing, ", ") != "fragrance oil, wick 4" {
		t.Errorf("missing prices: %q", s.Cost.Missing)
	}
	// Without the second pour: 1010.460 · 1.05 + 15 = 1075.98, so 1076 g.
	a.TopUp = false
	near(t, "total without top-up", float64(worked(t, a).Total), 1076, 0)
}

// Three vessels of 300 g each in a melter of 700 g with 20 g left in the jug: two
// fit at once (620 g), the third is a melt of its own (320 g).
func TestMeltsHoldWholePieces(t *testing.T) {
	a := Ask{Fillings: []Filling{{Count: 3, Cavities: 1, TestFill: ptr(quantity.Grams(300))}}, Waste: 20, Step: 1, Melter: ptr(quantity.Grams(700))}
	s := worked(t, a)
	if len(s.Melts) != 2 || s.Melts[0].Total != 620 || s.Melts[1].Total != 320 || s.Melts[0].Parts[0].Pieces != 2 || s.Waste != 40 {
		t.Errorf("melts: %+v", s.Melts)
	}
	// Just full, and one gram too small.
	a.Melter = ptr(quantity.Grams(320))
	if n := len(worked(t, a).Melts); n != 3 {
		t.Errorf("%d melts of a melter that just takes one", n)
	}
	a.Melter = ptr(quantity.Grams(319))
	if _, ps := Work(a); len(ps) != 1 || ps[0].Field != "melter" || !strings.Contains(ps[0].Text, "too small") {
		t.Errorf("a melter too small for one: %+v", ps)
	}
}

// A solid density and a measured shrinkage make the liquid one: 0.90 · (1 - 0.05)
// = 0.855 g/mL, and the sheet says so.
func TestALiquidDensityIsWorkedOutOnlyFromWhatWasMeasured(t *testing.T) {
	a := Ask{Fillings: []Filling{{Count: 1, Cavities: 1, Volume: ptr(quantity.Millilitres(100))}}, Step: 0.1,
		Wax: Wax{Solid: ptr(quantity.GramsPerMillilitre(0.90)), Shrinkage: ptr(quantity.Fraction(0.05))}}
	s := worked(t, a)
	near(t, "fill", float64(s.Lines[0].Each), 85.5, 1e-9)
	if !s.Derived {
		t.Error("does not say that the density was worked out")
	}
	a.Wax.Shrinkage = nil
	if _, ps := Work(a); len(ps) != 1 || !ps[0].Missing || !strings.Contains(ps[0].Text, "weigh what it took") {
		t.Errorf("a solid density alone was taken: %+v", ps)
	}
}

func TestATestFillNeedsNoDensity(t *testing.T) {
	a := Ask{Fillings: []Filling{{Count: 2, Cavities: 1, TestFill: ptr(quantity.Grams(150))}}, Step: 1, Oil: &Oil{Load: 0.06, Basis: OfWax}}
	s := worked(t, a)
	if s.Total != 300 || !s.Lines[0].Weighed || s.Density != nil || s.Lines[0].TopUp != nil {
		t.Errorf("%+v", s)
	}
}

// 8 % of the wax is also the most. Of 287 g that is 21.259 g oil; rounded to whole
// grams 21 g is below. Of 290 g it is 21.481, still 21. Of 115 g it is 8.519 g, and
// 9 g on 106 g wax would be 8.49 %: it is held at 8 g.
func TestOilIsNeverRoundedAboveItsMost(t *testing.T) {
	a := Ask{Step: 1, Oil: &Oil{Load: 0.08, Basis: OfWax, Most: ptr(quantity.Fraction(0.08))}}
	for _, c := range []struct {
		total, oil quantity.Grams
		held       bool
	}{{287, 21, false}, {290, 21, false}, {115, 8, true}, {108, 8, false}} {
		a.Fillings = []Filling{{Count: 1, Cavities: 1, TestFill: &c.total}}
		s := worked(t, a)
		if s.Oil != c.oil || s.Held != c.held || s.Over || s.Wax+s.Oil != c.total {
			t.Errorf("of %v: oil %v, held %v, want %v, %v", c.total, s.Oil, s.Held, c.oil, c.held)
		}
	}
	a.Oil.Load = 0.09
	a.Fillings = []Filling{{Count: 1, Cavities: 1, TestFill: ptr(quantity.Grams(103))}}
	if s := worked(t, a); !s.Over || s.Oil != 8 { // 8.504 g would be 9 g to the nearest
		t.Errorf("a load above the most: over %v, oil %v", s.Over, s.Oil)
	}
}

// Wax that was weighed otherwise than planned takes its own oil: 8 % of 1239 g is
// 99.12 g, so 99 g; of 1244 g it is 99.52 g, 100 g, or 99 g where 8 % is the most.
// Of the total, 8 % is 8/92 of the wax: 1239 g take 107.74 g, 108 g.
func TestTheOilOfWaxAsItWasWeighed(t *testing.T) {
	a := Ask{Step: 1, Oil: &Oil{Load: 0.08, Basis: OfWax}}
	for _, c := range []struct {
		wax, want quantity.Grams
		basis     Basis
		most      *quantity.Fraction
	}{{1239, 99, OfWax, nil}, {1244, 100, OfWax, nil}, {1244, 99, OfWax, ptr(quantity.Fraction(0.08))}, {1239, 108, OfTotal, nil}, {0, 0, OfWax, nil}} {
		a.Oil.Basis, a.Oil.Most = c.basis, c.most
		if got := a.OilFor(c.wax); got != c.want {
			t.Errorf("oil for %v of wax: %v, want %v", c.wax, got, c.want)
		}
	}
}

// A second pour of a wax whose shrinkage nobody noted is asked about: 100 mL of
// 0.85 g/mL that shrink by 5 % take 85 g and then 4.25 g, by hand.
func TestASecondPourNeedsTheShrinkage(t *testing.T) {
	a := Ask{Fillings: []Filling{{Count: 1, Cavities: 1, Volume: ptr(quantity.Millilitres(100))}}, Step: 0.01, TopUp: true,
		Wax: Wax{Liquid: ptr(quantity.GramsPerMillilitre(0.85))}}
	if s, ps := Work(a); len(ps) != 1 || !ps[0].Missing || ps[0].Field != "wax" || !strings.Contains(ps[0].Text, "second pour") {
		t.Errorf("nothing was melted for the second pour, without a word: %+v %+v", s, ps)
	}
	a.Wax.Shrinkage = ptr(quantity.Fraction(0.05))
	s := worked(t, a)
	near(t, "second pour", float64(s.TopUp), 4.25, 1e-9)
	near(t, "together", float64(s.Total), 89.25, 1e-9)
}
