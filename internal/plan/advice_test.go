package plan_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
	"rimward/internal/stats"
)

func TestProblemsOfARound(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		change func(*plan.Spec)
		field  string
		says   string
	}{
		"nothing to put wax in": {func(s *plan.Spec) { s.Factors.Vessels = nil }, "vessels", "at least one vessel"},
		"no wick":               {func(s *plan.Spec) { s.Factors.Wicks = nil }, "wicks", "at least one wick"},
		"one cell":              {func(s *plan.Spec) { s.Factors.Wicks = s.Factors.Wicks[:1] }, "wicks", "nothing to compare"},
		"a vessel twice":        {func(s *plan.Spec) { s.Factors.Vessels = []journal.ID{4, 4} }, "vessels", "once"},
		"a wick twice":          {func(s *plan.Spec) { s.Factors.Wicks = append(s.Factors.Wicks, s.Factors.Wicks[0]) }, "wicks", "once"},
		"a load twice":          {func(s *plan.Spec) { s.Factors.Loads = []quantity.Fraction{0.08, 0.08} }, "loads", "once"},
		"a temperature twice":   {func(s *plan.Spec) { s.Factors.PourAts = []quantity.Celsius{60, 60} }, "pour_ats", "once"},
		"no wick in a vessel":   {func(s *plan.Spec) { s.Factors.Wicks[0].Wicks = 0 }, "wicks", "at least one wick"},
		"all oil":               {func(s *plan.Spec) { s.Factors.Loads = []quantity.Fraction{0.08, 1} }, "loads", "50 %"},
		"less than no oil":      {func(s *plan.Spec) { s.Factors.Loads = []quantity.Fraction{-0.01} }, "loads", "50 %"},
		"no number of oil":      {func(s *plan.Spec) { s.Factors.Loads = []quantity.Fraction{quantity.Fraction(math.NaN())} }, "loads", "50 %"},
		"solid wax":             {func(s *plan.Spec) { s.Factors.PourAts = []quantity.Celsius{5} }, "pour_ats", "20 °C"},
		"no copies":             {func(s *plan.Spec) { s.Copies = 0 }, "copies", "12"},
		"many copies":           {func(s *plan.Spec) { s.Copies = 13 }, "copies", "12"},
		"500 candles":           {func(s *plan.Spec) { *s = spec(5, 25, 0, 0); s.Copies = 4 }, "copies", "500 candles"},
		"more than can be made": {func(s *plan.Spec) { *s = spec(3000, 3000, 1, 1) }, "copies", "400"},
		"no bench":              {func(s *plan.Spec) { s.BenchPlaces = 0 }, "bench_places", "one place"},
		"a thimble":             {func(s *plan.Spec) { s.PerMelt = -2 }, "melter", "smaller"},
		"square, few copies":    {func(s *plan.Spec) { s.Square = true; s.Copies = 2 }, "copies", "3 candles"},
		"square, small bench":   {func(s *plan.Spec) { s.Square = true; s.BenchPlaces = 2 }, "bench_places", "3 places"},
	} {
		s := spec(1, 3, 0, 0)
		c.change(&s)
		places, ps := plan.Draw(s)
		if len(ps) == 0 || places != nil || !slices.Equal(ps, plan.Problems(s)) {
			t.Errorf("%s: drawn", name)
			continue
		}
		if s.PerMelt++; plan.Warnings(s) != nil || plan.Contrasts(s, 3, 73, effect(1)) != nil {
			t.Errorf("%s: what cannot be drawn is judged", name)
		}
		if ps[0].Field != c.field || !strings.Contains(ps[0].Says, c.says) || !strings.HasSuffix(ps[0].Says, ".") {
			t.Errorf("%s: %+v", name, ps)
		}
	}
	s := spec(1, 2, 0, 0)
	s.Factors.Loads, s.Factors.PourAts = []quantity.Fraction{0, 0.5}, []quantity.Celsius{20, 200}
	s.Copies = 12
	if ps := plan.Problems(s); len(ps) > 0 {
		t.Errorf("at the limits: %+v", ps)
	}
	s = spec(1, 40, 0, 0)
	s.Copies = 10
	if ps := plan.Problems(s); len(ps) > 0 {
		t.Errorf("400 candles: %+v", ps)
	}
}

func kindsOf(s plan.Spec) (out []plan.WarningKind) {
	for _, w := range plan.Warnings(s) {
		out = append(out, w.Kind)
	}
	return out
}

func TestWarningsOfARound(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		spec   plan.Spec
		change func(*plan.Spec)
		want   []plan.WarningKind
	}{
		"rungs of a ladder":       {spec(1, 3, 0, 0), func(*plan.Spec) {}, []plan.WarningKind{plan.OneMelt}},
		"rungs, two apart":        {spec(1, 3, 0, 0), func(s *plan.Spec) { s.OwnMelts = true }, nil},
		"ladders":                 {spec(1, 2, 0, 0), func(s *plan.Spec) { s.OwnMelts, s.Ladders[21] = true, 2 }, []plan.WarningKind{plan.TwoLadders}},
		"one of each":             {spec(1, 3, 0, 0), func(s *plan.Spec) { s.Copies = 1 }, []plan.WarningKind{plan.OneCopy, plan.OneMelt}},
		"loads":                   {spec(1, 1, 2, 0), func(*plan.Spec) {}, []plan.WarningKind{plan.MeltTold}},
		"temperatures, own melts": {spec(1, 1, 0, 2), func(s *plan.Spec) { s.OwnMelts = true }, nil},
		"a small melter":          {spec(1, 4, 0, 0), func(s *plan.Spec) { s.PerMelt = 3 }, []plan.WarningKind{plan.SplitMelt}},
		"melts large enough":      {spec(1, 3, 2, 0), func(s *plan.Spec) { s.PerMelt = 3 }, []plan.WarningKind{plan.ManyThings}},
		"a small bench":           {spec(1, 3, 0, 0), func(s *plan.Spec) { s.BenchPlaces, s.OwnMelts = 2, true }, []plan.WarningKind{plan.SplitCopies}},
		"wicks and loads":         {spec(1, 2, 2, 1), func(s *plan.Spec) { s.OwnMelts = true }, []plan.WarningKind{plan.ManyThings}},
	} {
		c.change(&c.spec)
		if got := kindsOf(c.spec); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
	s := spec(2, 2, 2, 2)
	s.Factors.Wicks[1].Wicks = 2
	if got, want := plan.Warnings(s)[0].Says, "the vessel, the wick, the number of wicks, the fragrance load and the pour temperature."; !strings.Contains(got, want) {
		t.Errorf("%q does not say %q", got, want)
	}
	if got := plan.Varies(spec(1, 2, 1, 1).Factors); !slices.Equal(got, []plan.Factor{plan.ByWick}) {
		t.Errorf("a round of wicks varies %v", got)
	}
}

// effect are spreads under which 5 % of the width is so many standard
// deviations of a candle.
func effect(d float64) plan.Spreads {
	return plan.Spreads{Candle: math.Log(1.05) / d}
}

// Candles wanted of each level: Cohen, Statistical Power Analysis for the
// Behavioral Sciences, 1988, table 2.4.1, two-sided 5 %, power .80. Powers: R
// 4.2.2 power.t.test, strict.
func TestPowerOfTwoLevels(t *testing.T) {
	t.Parallel()
	for d, want := range map[float64]int{0.5: 64, 0.8: 26} {
		p := plan.PowerOf(plan.PowerSpec{Candles: 3, Burns: 4, Width: 73, Spreads: effect(d)})
		if c := p.Chances[1]; c.Difference != 0.05 || c.Wanted != want || !c.Enough || p.Units != 3 || p.ByMelt || !p.FromMelt {
			t.Errorf("effect %v: %+v", d, p)
		}
	}
	for _, c := range []struct {
		n    int
		d    float64
		want float64
	}{{3, 2, 0.462640812}, {2, 3, 0.387400129}, {5, 1.5, 0.549385598}} {
		p := plan.PowerOf(plan.PowerSpec{Candles: c.n, Burns: 1, Width: 73, Spreads: effect(c.d)})
		near(t, "power", p.Chances[1].Chance, c.want, 1e-7)
	}
	if c := plan.PowerOf(plan.PowerSpec{Candles: 3, Burns: 4, Width: 73, Spreads: effect(0.2)}).Chances[1]; c.Enough {
		t.Errorf("394 candles of each are called enough: %+v", c) // Cohen: 394 for an effect of .2
	}
}

// The spread of a candle's mean by hand: candles 0.06, burns 0.04 and a ruler of
// 1.46 mm on 73 mm, that is 0.02, over four burns: the root of
// 0.0036 + (0.0016 + 0.0004)/4 = 0.0041. With two melts of eight candles each,
// themselves 0.03 apart: the root of 0.0009 + 0.0041/4.
func TestPowerSpreads(t *testing.T) {
	t.Parallel()
	s := plan.PowerSpec{Candles: 8, Burns: 4, Width: 73, Spreads: plan.Spreads{Candle: 0.06, Burn: 0.04, Melt: 0.03, Reading: 1.46}}
	near(t, "candles", plan.PowerOf(s).SD, math.Sqrt(0.0041), 1e-12)
	s.Melts = 2
	p := plan.PowerOf(s)
	near(t, "melts", p.SD, math.Sqrt(0.0009+0.0041/4), 1e-12)
	if p.Units != 2 || !p.ByMelt || !p.FromMelt {
		t.Errorf("%+v", p)
	}
	s.Melts = 1
	if p := plan.PowerOf(s); p.FromMelt || p.ByMelt || p.Units != 8 {
		t.Errorf("one melt of each: %+v", p)
	}
	for _, s := range []plan.PowerSpec{{Burns: 1, Width: 70}, {Candles: 1, Width: 70}, {Candles: 1, Burns: 1}} {
		if p := plan.PowerOf(s); len(p.Chances) > 0 {
			t.Errorf("%+v: %+v", s, p)
		}
	}
}

func TestContrastsOfARound(t *testing.T) {
	t.Parallel()
	s := spec(2, 3, 2, 2)
	s.Copies, s.OwnMelts = 2, true
	spreads := plan.SpreadsOf(tree.Default(), false)
	got := plan.Contrasts(s, 3, 73, spreads)
	type row struct {
		factor                 plan.Factor
		levels, candles, melts int
	}
	want := []row{{plan.ByLoad, 2, 24, 4}, {plan.ByPourAt, 2, 24, 4}}
	for i, w := range want {
		if len(got) != len(want) || (row{got[i].Factor, got[i].Levels, got[i].Candles, got[i].Melts}) != w {
			t.Fatalf("%+v, want %+v", got, want)
		}
	}
	// Counted in the drawn plan.
	melts, candles := map[int]bool{}, 0
	for _, p := range draw(t, s) {
		if *p.Load == s.Factors.Loads[0] {
			melts[p.Melt], candles = true, candles+1
		}
	}
	if len(melts) != 4 || candles != 24 {
		t.Errorf("the plan has %d melts and %d candles of a load", len(melts), candles)
	}
	s.OwnMelts = false
	s.Factors.PourAts = s.Factors.PourAts[:1]
	if c := plan.Contrasts(s, 3, 73, spreads); len(c) != 1 || c[0].FromMelt || c[0].Melts != 1 {
		t.Errorf("one melt of each load: %+v", c)
	}
}

// The usual values by hand: 0.025^2*0.25 + 0.04^2*0.45 + 0.065^2*0.30 =
// 0.00214375; slope 0.002+0.0125+0.021+0.0225+0.012 = 0.07, its variance
// 0.10*0.0025 + 0.25*0.0004 + 0.25*0.0004 + 0.10*0.0025 = 0.0007.
func TestSpreadsOfTheDefaults(t *testing.T) {
	t.Parallel()
	s := plan.SpreadsOf(tree.Default(), true)
	near(t, "burn", s.Burn, math.Sqrt(0.00214375), 1e-12)
	near(t, "slope", s.Slope, 0.07, 1e-12)
	near(t, "slopes", s.SlopeSD, math.Sqrt(0.0007), 1e-12)
	if !s.Own || s.Reading != 1.5 || s.Rate != 0.9 || s.Melt != 0 {
		t.Errorf("%+v", s)
	}
}

// 200 g at 6.3 g/h are 31.746 h lit: eight sittings of four hours, the last
// shorter (common practice of a test burn: four hours on; no source).
func TestEffortOfARound(t *testing.T) {
	t.Parallel()
	s := spec(1, 3, 0, 0)
	s.BenchPlaces = 3
	places := draw(t, s)
	e := plan.EffortOf(plan.EffortSpec{Places: places, Spent: 200 / 6.3, Sitting: 4, PerEvening: 2})
	if e.Candles != 9 || e.Melts != 1 || e.Groups != 3 || e.Burns != 8 || e.Sittings != 24 || e.Evenings != 12 || !e.Known {
		t.Errorf("%+v", e)
	}
	near(t, "hours by the bench", float64(e.BenchHours), 3*31.746, 1e-3)
	near(t, "candle hours", float64(e.CandleHours), 9*31.746, 4e-3)
	e = plan.EffortOf(plan.EffortSpec{Places: places, Burns: 3, Spent: 30, Sitting: 4})
	if e.Burns != 3 || e.Sittings != 9 || e.Evenings != 9 || e.BenchHours != 36 || e.CandleHours != 108 {
		t.Errorf("three burns: %+v", e)
	}
	if e := plan.EffortOf(plan.EffortSpec{Places: places, Sitting: 4}); e.Known || e.Candles != 9 || e.Groups != 3 || e.Sittings != 0 {
		t.Errorf("until spent, nobody knows when: %+v", e)
	}
	if e := plan.EffortOf(plan.EffortSpec{Places: places, Spent: 12, Sitting: 4}); e.Burns != 3 {
		t.Errorf("twelve hours in sittings of four: %+v", e)
	}
}

// Two loads by two temperatures, one melt of each of the four: a load has two
// melts, but holding the temperature leaves one degree of freedom, not two. For
// an effect of 3 standard deviations the chance is 0.186132 by numerical
// integration of the noncentral t of one degree of freedom (its same integral
// for two gives R's 0.387400 above), and 0.1855 in 400 000 simulated least
// squares of four melts.
func TestPowerHoldsTheOtherMeltFactor(t *testing.T) {
	t.Parallel()
	p := plan.PowerOf(plan.PowerSpec{Candles: 2, Melts: 2, Held: 1, Burns: 1, Width: 73, Spreads: effect(3)})
	near(t, "held", p.Chances[1].Chance, 0.186132, 1e-5)
	if !p.MeltsAlike {
		t.Error("melts are taken as alike without a word")
	}
	p = plan.PowerOf(plan.PowerSpec{Candles: 2, Melts: 2, Burns: 1, Width: 73, Spreads: effect(3)})
	near(t, "nothing held", p.Chances[1].Chance, 0.387400129, 1e-7)
	s := spec(1, 1, 2, 2)
	got := plan.Contrasts(s, 1, 73, effect(3))
	if len(got) != 2 || got[0].Melts != 2 {
		t.Fatalf("%+v", got)
	}
	want := plan.PowerOf(plan.PowerSpec{Candles: got[0].Candles, Melts: 2, Held: 1, Burns: 1, Width: 73, Spreads: effect(3)})
	near(t, "of the round", got[0].Power.Chances[1].Chance, want.Chances[1].Chance, 1e-12)
	known := plan.PowerOf(plan.PowerSpec{Candles: 2, Melts: 2, Burns: 1, Width: 73, Spreads: plan.Spreads{Candle: 0.05, Melt: 0.02}})
	if known.MeltsAlike {
		t.Error("a known spread of melts is said to be unknown")
	}
}

// Melts that hold another factor come in whole sets: one for each of its
// levels. For an effect of 1.5 the noncentral t, integrated numerically, gives
// powers of .7965 with eight of each and .8476 with nine; with one effect held
// .7919 and .8445. So nine are wanted and, with two temperatures, ten.
func TestMeltsWantedComeInWholeSets(t *testing.T) {
	t.Parallel()
	for _, d := range []float64{1, 1.5, 2, 3, 4} {
		for held := range 4 {
			p := plan.PowerOf(plan.PowerSpec{Candles: 12, Melts: 12, Held: held, Burns: 1, Width: 73, Spreads: effect(d)})
			for _, c := range p.Chances {
				want, ok := stats.ValuesWantedHeld(math.Log1p(float64(c.Difference))/p.SD, 0.95, 0.80, 200, held)
				if c.Enough != ok && want < 197 || c.Enough && (c.Wanted%(held+1) != 0 || c.Wanted < want || c.Wanted > want+held) {
					t.Errorf("effect %v, %d held, %v: %d wanted, at least %d", d, held, c.Difference, c.Wanted, want)
				}
			}
		}
	}
	p := plan.PowerOf(plan.PowerSpec{Candles: 12, Melts: 12, Burns: 1, Width: 73, Spreads: effect(1.5)})
	if c := p.Chances[1]; c.Wanted != 9 {
		t.Errorf("nothing held: %d", c.Wanted)
	}
	p = plan.PowerOf(plan.PowerSpec{Candles: 12, Melts: 12, Held: 1, Burns: 1, Width: 73, Spreads: effect(1.5)})
	if c := p.Chances[1]; c.Wanted != 10 {
		t.Errorf("two temperatures held: %d", c.Wanted)
	}
}
