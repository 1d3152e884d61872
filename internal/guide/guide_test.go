package guide_test

import (
	"math"
	"testing"
	"time"

	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

func ptr[T any](v T) *T { return &v }

func between[T ~float64](low, high T) journal.Range[T] {
	return journal.Range[T]{Low: &low, High: &high}
}

// fahrenheit is a temperature read off a Fahrenheit scale: C = (F − 32)/1.8
// (NIST SP 811).
func fahrenheit(f float64) quantity.Celsius { return quantity.Celsius((f - 32) / 1.8) }

func near[T ~float64](got, want, tol T) bool { return math.Abs(float64(got-want)) <= float64(tol) }

// A soy-dominant container blend is heated and poured at about 145 to 150 °F,
// 62.8 to 65.6 °C (common practice, no source).
func TestBesideARange(t *testing.T) {
	t.Parallel()
	soy := between(fahrenheit(145), fahrenheit(150))
	for _, c := range []struct {
		name string
		at   *quantity.Celsius
		r    journal.Range[quantity.Celsius]
		side guide.Side
		by   quantity.Celsius
	}{
		{"just below", ptr(fahrenheit(144.9)), soy, guide.Below, 0.1 / 1.8},
		{"at the low end", ptr(fahrenheit(145)), soy, guide.Inside, 0},
		{"at the high end", ptr(fahrenheit(150)), soy, guide.Inside, 0},
		{"just above", ptr(fahrenheit(150.1)), soy, guide.Above, 0.1 / 1.8},
		// ASTM C149 takes 2 °F of difference as 1.1 °C: no 32 is added.
		{"two degrees Fahrenheit above", ptr(fahrenheit(152)), soy, guide.Above, 1.1111},
		// A coconut-rich blend is heated to 200 to 220 °F (common practice, no
		// source): the soy blend's heat lies 50 °F, 27.8 °C, below.
		{"soy's heat for a coconut-rich blend", ptr(fahrenheit(150)), between(fahrenheit(200), fahrenheit(220)), guide.Below, 27.7778},
		{"no low end", ptr[quantity.Celsius](5), journal.Range[quantity.Celsius]{High: ptr[quantity.Celsius](65)}, guide.Inside, 0},
		{"no high end", ptr[quantity.Celsius](50), journal.Range[quantity.Celsius]{Low: ptr[quantity.Celsius](55)}, guide.Below, 5},
		{"not recorded", nil, soy, guide.NotRecorded, 0},
		{"not stated", ptr[quantity.Celsius](60), journal.Range[quantity.Celsius]{}, guide.NotStated, 0},
		{"neither", nil, journal.Range[quantity.Celsius]{}, guide.NotStated, 0},
	} {
		got := guide.Beside(c.at, c.r)
		if got.Side != c.side || !near(got.By, c.by, 1e-4) {
			t.Errorf("%s: %+v, want %s by %v", c.name, got, c.side, c.by)
		}
	}
}

// The pairs of trade figures that are said to be the same temperature.
func TestTradeFiguresInBothScales(t *testing.T) {
	t.Parallel()
	for f, c := range map[float64]quantity.Celsius{145: 62.8, 150: 65.6, 200: 93.3, 220: 104.4, 140: 60, 130: 54.4} {
		if !near(fahrenheit(f), c, 0.05) {
			t.Errorf("%v °F is %v", f, fahrenheit(f))
		}
	}
}

func soyWax() journal.Wax {
	return journal.Wax{Load: between[quantity.Fraction](0.09, 0.10), LoadBasis: journal.OfWax}
}

// A load of 9 to 10 % of the wax is a soy-dominant blend's range and is best
// not exceeded (common practice, no source). Of the total, x % is x/(100 − x)
// of the wax: 9.0909 % of the total is 10 % of the wax (arithmetic).
func TestLoadIsComparedOnTheGuidancesBasis(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		load  quantity.Fraction
		basis journal.Basis
		side  guide.Side
		by    quantity.Fraction
	}{
		{0.0899, journal.OfWax, guide.Below, 0.0001},
		{0.09, journal.OfWax, guide.Inside, 0},
		{0.10, journal.OfWax, guide.Inside, 0},
		{0.1001, journal.OfWax, guide.Above, 0.0001},
		{0.0909, journal.OfTotal, guide.Inside, 0},
		{0.091, journal.OfTotal, guide.Above, 0.091/0.909 - 0.10},
		// 9 % of the total reads like the range's low end and is 9.8901 % of the wax.
		{0.09, journal.OfTotal, guide.Inside, 0},
		{0.0825, journal.OfTotal, guide.Below, 0.09 - 0.0825/0.9175},
	} {
		p := journal.Pour{Load: &c.load, LoadBasis: c.basis}
		got := guide.Of(p, soyWax(), &journal.Fragrance{}).Load
		if got.Side != c.side || got.Basis != journal.OfWax || !near(got.By, c.by, 1e-9) {
			t.Errorf("%v of the %s: %+v, want %s by %v", c.load, c.basis, got.Place, c.side, c.by)
		}
	}
}

// 63 g in 700 g is 9 % of the wax (arithmetic).
func TestLoadAsWeighedWhereNoneIsWritten(t *testing.T) {
	t.Parallel()
	p := journal.Pour{WaxMass: ptr[quantity.Grams](700), OilMass: ptr[quantity.Grams](63), LoadBasis: journal.OfWax}
	if got := guide.Of(p, soyWax(), &journal.Fragrance{}).Load; !got.Weighed || got.Side != guide.Inside || !near(*got.Value, 0.09, 1e-12) {
		t.Errorf("as weighed: %+v", got)
	}
	p.Load = ptr[quantity.Fraction](0.11)
	if got := guide.Of(p, soyWax(), &journal.Fragrance{}).Load; got.Weighed || got.Side != guide.Above {
		t.Errorf("what was written comes first: %+v", got)
	}
}

// 8 % of the wax is 7.4074 % of the total; 6, 8 and 10 % of the total are
// 6.3830, 8.6957 and 11.1111 % of the wax (arithmetic: A = B/(1 − B)).
func TestWhichMaximumBinds(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		wax, oil *quantity.Fraction
		waxOn    journal.Basis
		oilOn    journal.Basis
		on       journal.Basis
		binds    guide.Binding
		most     quantity.Fraction
	}{
		{"the same figure of the total is more oil", ptr[quantity.Fraction](0.08), ptr[quantity.Fraction](0.08), journal.OfWax, journal.OfTotal, journal.OfTotal, guide.BindsWax, 0.074074},
		{"the same on the basis of the wax", ptr[quantity.Fraction](0.08), ptr[quantity.Fraction](0.08), journal.OfWax, journal.OfTotal, journal.OfWax, guide.BindsWax, 0.08},
		{"the fragrance's is lower", ptr[quantity.Fraction](0.10), ptr[quantity.Fraction](0.08), journal.OfWax, journal.OfTotal, journal.OfWax, guide.BindsFragrance, 0.086957},
		{"both, written differently", ptr[quantity.Fraction](0.08), ptr[quantity.Fraction](0.08 / 1.08), journal.OfWax, journal.OfTotal, journal.OfWax, guide.BindsBoth, 0.08},
		{"only the wax's", ptr[quantity.Fraction](0.10), nil, journal.OfTotal, "", journal.OfWax, guide.BindsWax, 0.111111},
		{"only the fragrance's", nil, ptr[quantity.Fraction](0.06), "", journal.OfTotal, journal.OfWax, guide.BindsFragrance, 0.063830},
		{"neither", nil, nil, "", "", journal.OfWax, guide.BindsNone, 0},
	} {
		w := journal.Wax{Load: journal.Range[quantity.Fraction]{High: c.wax}, LoadBasis: c.waxOn}
		got := guide.Most(w, journal.Fragrance{MaxLoad: c.oil, MaxBasis: c.oilOn}, c.on)
		if got.Binds != c.binds || (got.Guide.High != nil) != (c.binds != guide.BindsNone) {
			t.Errorf("%s: %q binds", c.name, got.Binds)
		}
		if got.Guide.High != nil && !near(*got.Guide.High, c.most, 5e-7) {
			t.Errorf("%s: at most %v, want %v", c.name, float64(*got.Guide.High), float64(c.most))
		}
	}
}

// At 8 % of the total at most, 8.6957 % of the wax is the limit (arithmetic).
func TestLoadBesideItsMaximum(t *testing.T) {
	t.Parallel()
	for load, side := range map[quantity.Fraction]guide.Side{0.0869: guide.Inside, 0.08 / 0.92: guide.Inside, 0.087: guide.Above} {
		g := guide.Of(journal.Pour{Load: &load, LoadBasis: journal.OfWax}, journal.Wax{}, &journal.Fragrance{MaxLoad: ptr[quantity.Fraction](0.08), MaxBasis: journal.OfTotal})
		if g.Most.Side != side {
			t.Errorf("%v: %s", float64(load), g.Most.Side)
		}
	}
}

// 16.7 °C is 30 °F as a difference (29 CFR 1910.106, read in a secondary
// source): an oil that flashes at 60 °C is warned of above 43.3 °C, one of
// 93 °C above 76.3 °C.
func TestNearTheFlashPoint(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		flash, oil    quantity.Celsius
		near, reached bool
	}{
		{60, 43.3, false, false}, {60, 60 - guide.FlashMargin, false, false}, {60, 43.4, true, false},
		{93, 76.3, false, false}, {93, 76.4, true, false}, {93, 92.9, true, false}, {93, 93, true, true}, {93, 94, true, true},
	} {
		got := guide.FlashOf(journal.Pour{OilAt: &c.oil}, journal.Fragrance{FlashPoint: &c.flash})
		if got.Near() != c.near || got.Reached() != c.reached {
			t.Errorf("%v for a flash point of %v: near %v, reached %v", c.oil, c.flash, got.Near(), got.Reached())
		}
	}
	if got := guide.FlashOf(journal.Pour{}, journal.Fragrance{FlashPoint: ptr[quantity.Celsius](60)}); got.Near() || got.Reached() || got.Side != guide.NotRecorded {
		t.Errorf("an oil whose temperature was not noted: %+v", got)
	}
	if got := guide.FlashOf(journal.Pour{OilAt: ptr[quantity.Celsius](80)}, journal.Fragrance{}); got.Near() || got.Reached() || got.Side != guide.NotStated {
		t.Errorf("an oil without a flash point: %+v", got)
	}
}

func TestPlainPourHasNoOilToCompare(t *testing.T) {
	t.Parallel()
	g := guide.Of(journal.Pour{HeatedTo: ptr[quantity.Celsius](80)}, journal.Wax{HeatTo: between[quantity.Celsius](70, 75), Load: between[quantity.Fraction](0.06, 0.1)}, nil)
	if g.Scented || g.Heated.Side != guide.Above || g.Heated.By != 5 {
		t.Errorf("%+v", g)
	}
}

// noon is when everything here was poured.
var noon = time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)

func candle(cure journal.Range[quantity.Days], waited ...time.Duration) journal.CandleLog {
	l := journal.CandleLog{Made: journal.Made{Pour: journal.Pour{At: noon}, Wax: journal.Wax{CureDays: cure}}}
	for i, w := range waited {
		l.Burns = append(l.Burns, journal.BurnLog{Burn: journal.Burn{Number: i + 1, LitAt: noon.Add(w)}})
	}
	return l
}

const day = 24 * time.Hour

func TestEarlyBurns(t *testing.T) {
	t.Parallel()
	week := between[quantity.Days](7, 14)
	gone := candle(week, 3*day, 8*day)
	gone.Burns[0].Burn.Gone = &noon
	for _, c := range []struct {
		name string
		log  journal.CandleLog
		want []guide.Early
	}{
		{"a minute before a week", candle(week, 7*day-time.Minute), []guide.Early{{1, noon.Add(7*day - time.Minute), 7 - 1.0/1440, 7, 1.0 / 1440}}},
		{"after a week", candle(week, 7*day), nil},
		{"two burns early and one in time", candle(week, 4*day, 5*day, 9*day), []guide.Early{{1, noon.Add(4 * day), 4, 7, 3}, {2, noon.Add(5 * day), 5, 7, 2}}},
		{"a burn that was withdrawn", gone, nil},
		{"no cure stated: only the day to set counts", candle(journal.Range[quantity.Days]{}, 23*time.Hour, 25*time.Hour), []guide.Early{{1, noon.Add(23 * time.Hour), 23.0 / 24, 1, 1.0 / 24}}},
		{"only a longest cure", candle(journal.Range[quantity.Days]{High: ptr[quantity.Days](3)}, 2*day), []guide.Early{{1, noon.Add(2 * day), 2, 3, 1}}},
		{"poured nobody knows when", journal.CandleLog{Burns: candle(week, day).Burns}, nil},
	} {
		got := guide.EarlyBurns(c.log)
		if len(got) != len(c.want) {
			t.Errorf("%s: %+v", c.name, got)
			continue
		}
		for i, w := range c.want {
			g := got[i]
			if g.Burn != w.Burn || !g.LitAt.Equal(w.LitAt) || !near(g.Waited, w.Waited, 1e-9) || !near(g.Meant, w.Meant, 1e-9) || !near(g.By, w.By, 1e-9) {
				t.Errorf("%s: %+v, want %+v", c.name, g, w)
			}
		}
	}
}

func TestCureBesideItsGuidance(t *testing.T) {
	t.Parallel()
	week := between[quantity.Days](7, 14)
	for waited, side := range map[time.Duration]guide.Side{7*day - time.Minute: guide.Below, 7 * day: guide.Inside, 14 * day: guide.Inside, 20 * day: guide.Above} {
		if got := guide.Cure(candle(week, waited)); got.Side != side {
			t.Errorf("%v: %+v", waited, got)
		}
	}
	if got := guide.Cure(candle(week)); got.Side != guide.NotRecorded {
		t.Errorf("never lit: %+v", got)
	}
}

// The usual cures are common practice, no source: paraffin 3 to 5 days, soy 7
// to 14, coconut about 14, beeswax without scent 1 to 2.
func TestUsualCures(t *testing.T) {
	t.Parallel()
	for _, f := range journal.WaxFamilies {
		want, known := map[journal.WaxFamily][2]quantity.Days{"paraffin": {3, 5}, "soy": {7, 14}, "coconut": {14, 14}, "beeswax": {1, 2}}[f]
		got := guide.UsualCure(f)
		if got.IsZero() == known || known && (*got.Low != want[0] || *got.High != want[1]) {
			t.Errorf("%s: %+v", f, got)
		}
	}
}
