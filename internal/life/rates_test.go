package life

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// TestRatesByHand: three burns of 4, 4 and 2 h lose 24, 28 and 12 g: 6, 7 and
// 6 g/h. Overall 64 g in 10 h = 6.4 g/h. Mean 6.333, SD 0.57735, t(2) 4.30265,
// so give or take 4.30265 x 0.57735/sqrt(3) = 1.43422.
// Of the ratio: departures 24 - 25.6, 28 - 25.6, 12 - 12.8 = -1.6, 2.4, -0.8,
// squares 8.96; SE sqrt(3 x 8.96/2)/10 = 0.366606; give or take 1.577378.
func TestRatesByHand(t *testing.T) {
	t.Parallel()
	r := RatesOf(candle(one{4, 486, 462, ""}, one{4, 462, 434, ""}, one{2, 434, 422, ""}))
	if len(r.Burns) != 3 || len(r.Odd) != 0 || r.Hours != 10 || r.Lost != 64 {
		t.Fatalf("got %+v", r)
	}
	about(t, "overall", float64(r.Overall), 6.4, 1e-12)
	about(t, "overall low", r.OverallRange.Low, 6.4-1.577378, 1e-4)
	about(t, "overall high", r.OverallRange.High, 6.4+1.577378, 1e-4)
	about(t, "mean", float64(r.Mean), 19.0/3, 1e-12)
	about(t, "mean low", r.MeanRange.Low, 19.0/3-1.43422, 1e-4)
	about(t, "middle of the third", float64(r.Burns[2].Middle), 9, 1e-12)
}

// TestThreeReplicates: rates 5.9, 6.3 and 6.7 g/h have mean 6.30 and a 95 %
// half-width of 0.994 (t(2) = 4.30265, any table); burns of one length, so the
// ratio has the same interval.
func TestThreeReplicates(t *testing.T) {
	t.Parallel()
	r := RatesOf(candle(one{4, 500, 500 - 23.6, ""}, one{4, 476, 476 - 25.2, ""}, one{4, 450, 450 - 26.8, ""}))
	about(t, "mean", float64(r.Mean), 6.3, 1e-9)
	about(t, "half-width", (r.MeanRange.High-r.MeanRange.Low)/2, 0.994, 5e-4)
	about(t, "overall half-width", (r.OverallRange.High-r.OverallRange.Low)/2, 0.994, 5e-4)
}

func TestBurnsWithoutARateSayWhy(t *testing.T) {
	t.Parallel()
	l := candle(one{4, 486, 462, ""}, one{3, 462, 0, ""}, one{3, 0, 440, ""}, one{0, 440, 440, ""}, one{3, 440, 440, ""}, one{3, 440, 440.5, ""}, one{3, 430, 410, ""}, one{2, 410, 400, ""})
	r := RatesOf(lit(withdrawn(l, 6), 1))
	if len(r.Burns) != 1 || r.Burns[0].Number != 1 {
		t.Fatalf("got %+v", r.Burns)
	}
	var got []string
	for _, o := range r.Odd {
		got = append(got, o.Why)
	}
	want := []string{"it was not weighed before and after", "it was not weighed before and after", "it was lit for no time", "it weighed the same before and after", "it weighed more after than before"}
	if len(got) != len(want) {
		t.Fatalf("got %q", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("burn %d: got %q, want %q", r.Odd[i].Number, got[i], want[i])
		}
	}
	if r.OverallRange.Known || r.MeanRange.Known || r.DriftRange.Known {
		t.Errorf("one burn has no interval: %+v", r)
	}
}

func TestRatesOfNothing(t *testing.T) {
	t.Parallel()
	for _, l := range []journal.CandleLog{candle(), withdrawn(candle(one{4, 486, 462, ""}), 0), lit(candle(one{4, 486, 0, ""}), 2)} {
		r := RatesOf(l)
		if r.Any() || r.Overall != 0 || r.First.Told() {
			t.Errorf("got %+v", r)
		}
		if r.Pace() != FewBurns {
			t.Errorf("nothing was told %s", r.Pace())
		}
	}
}

// burned is a candle that burned so many g in so many h, burn by burn.
func burned(hours, lost []float64) journal.CandleLog {
	mass, list := 2000.0, []one{}
	for i := range hours {
		list = append(list, one{hours[i], mass, mass - lost[i], ""})
		mass -= lost[i]
	}
	return candle(list...)
}

// TestDrift: rates 5, 6, 7, 8 and 9 g/h in burns of 4 h, whose middles lie 4 h
// apart, rise by 0.25 g/h every hour.
func TestDrift(t *testing.T) {
	t.Parallel()
	r := RatesOf(burned([]float64{4, 4, 4, 4, 4}, []float64{20, 24.4, 28, 32, 36}))
	about(t, "drift", r.Drift, 0.245, 0.01)
	if r.Pace() != SpeedsUp {
		t.Errorf("a candle that speeds up: got %q", r.Pace())
	}
}

// TestPaceByHand: burns of 4 h, middles 4 h apart, so their squares about the
// mean sum to 80 h2. The rates depart from r by d, -d, -d, d, which leaves the
// line level: SE sqrt(4 d2/2/80) = 0.158114 d, t(2) 4.30265, so the drift over
// ten hours lies within 6.80309 d. At r = 6 g/h a tenth is 0.6 g/h: d must be
// 0.0882 or less.
func TestPaceByHand(t *testing.T) {
	t.Parallel()
	level := func(d float64) Rates {
		return RatesOf(burned([]float64{4, 4, 4, 4}, []float64{24 + 4*d, 24 - 4*d, 24 - 4*d, 24 + 4*d}))
	}
	about(t, "drift's interval", 10*level(0.1).DriftRange.High, 0.680309, 1e-5)
	hours := []float64{4, 4, 4, 4}
	for name, c := range map[string]struct {
		r    Rates
		want Pace
	}{
		"narrow":             {level(0.088), Steady},
		"a little wider":     {level(0.0885), NoDrift},
		"wide":               {level(2), NoDrift},
		"nothing scatters":   {RatesOf(burned(hours, []float64{20, 20, 20, 20})), NoDrift},
		"all on a rising":    {RatesOf(burned(hours, []float64{20, 22, 24, 26})), SpeedsUp},
		"all on a falling":   {RatesOf(burned(hours, []float64{26, 24, 22, 20})), SlowsDown},
		"scatters and falls": {RatesOf(burned(hours, []float64{26, 24.1, 22, 20})), SlowsDown},
		"three burns":        {RatesOf(burned(hours[:3], []float64{20, 21, 20})), FewBurns},
	} {
		if got := c.r.Pace(); got != c.want {
			t.Errorf("%s: got %q, want %q", name, got, c.want)
		}
	}
}

// Equal values say nothing of how far others may lie: a kitchen scale reads
// whole grams and a ruler whole millimetres, so they are seldom equal in truth.
func TestEqualValuesHaveNoInterval(t *testing.T) {
	t.Parallel()
	two := RatesOf(burned([]float64{4, 4}, []float64{20, 20}))
	four := RatesOf(burned([]float64{4, 4, 4, 4}, []float64{20, 20, 20, 20}))
	again := RatesOf(burned([]float64{3, 4, 3}, []float64{18.3, 24.4, 18.3})) // alike but for the last digits
	over := RatesOver([]journal.CandleLog{burned([]float64{4}, []float64{20}), burned([]float64{4}, []float64{20})})
	line, err := Weighed([]float64{0, 1, 2, 3}, []float64{9, 8, 7, 6})
	if err != nil {
		t.Fatal(err)
	}
	for name, i := range map[string]Interval{
		"overall": two.OverallRange, "mean": two.MeanRange, "drift": four.DriftRange, "overall of three": again.OverallRange,
		"mean of three": again.MeanRange, "over candles": over.Range, "weighings": line.RateRange,
	} {
		if i.Known || !i.Alike || i.Low != 0 || i.High != 0 {
			t.Errorf("%s: got %+v", name, i)
		}
	}
	one := RatesOf(burned([]float64{4}, []float64{20}))
	if one.OverallRange.Alike || one.MeanRange.Alike || one.DriftRange.Alike {
		t.Errorf("one burn is not alike to others: %+v", one)
	}
	exact := RatesOf(burned([]float64{1, 2, 3, 4}, []float64{8, 14, 20, 26})).First
	if exact.Told() {
		t.Errorf("a first hour without any scatter: %+v", exact)
	}
}

// TestSteadyCandlesAreSeldomCalledDrifting draws 2000 candles of nine burns
// without drift from a fixed seed: one in twenty may be called drifting, give
// or take four standard errors (0.0195).
func TestSteadyCandlesAreSeldomCalledDrifting(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(1, 2))
	const rounds = 2000
	called := 0.0
	for range rounds {
		var hours, lost []float64
		for range 9 {
			h := 3 + random.Float64()
			hours, lost = append(hours, h), append(lost, 6*h*(1+0.05*random.NormFloat64()))
		}
		if p := RatesOf(burned(hours, lost)).Pace(); p == SpeedsUp || p == SlowsDown {
			called++
		}
	}
	about(t, "called drifting", called/rounds, 0.05, 0.0195)
}

// TestFirstHourIsToldApart: 8 g in the first hour and 6 g in every other, give
// or take a little. Burns of 1, 1, 2, 3, 4 and 4 h lose 8, 8, 14, 20, 26, 26 g.
func TestFirstHourIsToldApart(t *testing.T) {
	t.Parallel()
	f := RatesOf(burned([]float64{1, 1, 2, 3, 4, 4}, []float64{8.1, 7.9, 14.1, 19.9, 26.1, 25.9})).First
	if !f.Told() || f.N != 6 {
		t.Fatalf("got %+v", f)
	}
	about(t, "first hour", float64(f.Hour), 8, 0.1)
	about(t, "later", float64(f.Later), 6, 0.1)
	about(t, "extra", float64(f.Extra), 2, 0.15)
	about(t, "extra is the difference", float64(f.Extra), float64(f.Hour-f.Later), 1e-9)
	if !f.ExtraRange.Apart() {
		t.Errorf("interval %+v", f.ExtraRange)
	}
}

func TestFirstHourThatCannotBeToldApart(t *testing.T) {
	t.Parallel()
	for name, l := range map[string]journal.CandleLog{
		"three burns":     burned([]float64{1, 2, 4}, []float64{8, 14, 26}),
		"all alike":       burned([]float64{4, 4, 4, 3.9, 3.8, 4}, []float64{24, 25, 24, 25, 24, 24}),
		"wild":            burned([]float64{2, 3, 4, 3, 2}, []float64{20, 9, 24, 30, 6}),
		"under an hour":   burned([]float64{0.5, 0.5, 0.6, 0.7, 0.8}, []float64{4, 4, 4, 5, 5}),
		"lighter by less": burned([]float64{1, 2, 3, 4}, []float64{24, 20, 16, 12}),
	} {
		if f := RatesOf(l).First; f.Told() {
			t.Errorf("%s: got %+v", name, f)
		}
	}
}

// TestFirstHourCoversItsTruth draws 1000 candles of burns from 1 to 4 h from a
// fixed seed: the interval of the extra holds the true 1.5 g/h in 19 of 20, give
// or take four standard errors (0.0276), whether told apart or not.
func TestFirstHourCoversItsTruth(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(5, 6))
	const rounds = 1000
	held := 0.0
	for range rounds {
		hours, lost := []float64{1, 4}, []float64{7.5 + 0.4*random.NormFloat64(), 25.5 + 0.4*random.NormFloat64()}
		for range 6 {
			h := 1 + 3*random.Float64()
			hours, lost = append(hours, h), append(lost, 1.5+6*h+0.4*random.NormFloat64())
		}
		if f := RatesOf(burned(hours, lost)).First; f.ExtraRange.Low <= 1.5 && f.ExtraRange.High >= 1.5 {
			held++
		}
	}
	about(t, "held", held/rounds, 0.95, 0.0276)
}

// Burning twice as much doubles every rate and interval; the order in which
// burns are handed over makes no difference.
func TestRatesScaleAndDoNotMindOrder(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		hours := rapid.SliceOfN(rapid.Float64Range(1, 4), 2, 10).Draw(t, "hours")
		var lost, twice []float64
		for _, h := range hours {
			m := h * rapid.Float64Range(3, 9).Draw(t, "rate")
			lost, twice = append(lost, m), append(twice, 2*m)
		}
		a, b := RatesOf(burned(hours, lost)), RatesOf(burned(hours, twice))
		about(t, "overall", float64(b.Overall), 2*float64(a.Overall), 1e-6)
		about(t, "mean high", b.MeanRange.High, 2*a.MeanRange.High, 1e-5)
		about(t, "overall high", b.OverallRange.High, 2*a.OverallRange.High, 1e-5)
		l := burned(hours, lost)
		l.Burns = rapid.Permutation(l.Burns).Draw(t, "order")
		if c := RatesOf(l); c.Overall != a.Overall || c.Drift != a.Drift || c.First != a.First {
			t.Fatalf("order matters: %+v and %+v", c, a)
		}
	})
}

// TestPearsonCandle: a small candle weighed every ten minutes (Pearson study
// guide "Candle mass loss"), with the slope, its standard error and interval
// worked out apart from this program (t(4) = 2.77645). The rates between
// weighings fall from 2.64 to 1.20 g/h, so it is not steady although R2 is
// 0.975.
func TestPearsonCandle(t *testing.T) {
	t.Parallel()
	hours := []float64{0, 1. / 6, 2. / 6, 3. / 6, 4. / 6, 5. / 6}
	s, err := Weighed(hours, []float64{9.66, 9.22, 8.88, 8.61, 8.40, 8.20})
	if err != nil {
		t.Fatal(err)
	}
	about(t, "rate", float64(s.Rate), 1.71943, 1e-5)
	about(t, "intercept", s.Intercept, 9.544762, 1e-6)
	about(t, "R2", s.R2, 0.975213, 1e-6)
	about(t, "standard error", s.SlopeSE, 60*0.00228434, 1e-6)
	about(t, "low", s.RateRange.Low, 1.339, 5e-4)
	about(t, "high", s.RateRange.High, 2.100, 5e-4)
	about(t, "end to end", float64(s.EndToEnd), 1.752, 1e-9)
	if steady, told := s.Steady(); steady || !told {
		t.Errorf("not flagged: bend %v", s.Bend)
	}
}

// TestStraightSeriesAreSeldomCalledUnsteady draws 4000 straight noisy series of
// six weighings from a fixed seed: one in twenty is called not steady, give or
// take four standard errors (0.0138).
func TestStraightSeriesAreSeldomCalledUnsteady(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(7, 8))
	const rounds = 4000
	hours, called := []float64{0, 1. / 6, 2. / 6, 3. / 6, 4. / 6, 5. / 6}, 0.0
	for range rounds {
		var grams []float64
		for _, h := range hours {
			grams = append(grams, 9.5-1.7*h+0.05*random.NormFloat64())
		}
		s, err := Weighed(hours, grams)
		if err != nil {
			t.Fatal(err)
		}
		if steady, _ := s.Steady(); !steady {
			called++
		}
	}
	about(t, "called not steady", called/rounds, 0.05, 0.0138)
}

func TestSeriesOfLittle(t *testing.T) {
	t.Parallel()
	for _, n := range []int{0, 1} {
		if s, err := Weighed([]float64{0, 1}[:n], []float64{9, 8}[:n]); err == nil {
			t.Errorf("%d weighings: got %+v", n, s)
		}
	}
	s, err := Weighed([]float64{0, 1}, []float64{9, 7})
	if _, told := s.Steady(); err != nil || s.Rate != 2 || s.RateRange.Known || told {
		t.Errorf("got %+v, %v", s, err)
	}
}

// TestHeat: 0.105 g/min of paraffin is 76.65 W, within the published 77 give or
// take 9 W (Hamins, Bundy & Dillon, J. Fire Prot. Eng. 15(4):265-285, 2005, as
// other authors quote it). Published burn rates of 4.7 and 7.1 g/h are 57.2 and
// 86.4 W, of 2.6 and 6.7 g/h 31.6 and 81.5 W. 1 g/h is 12.17 W of paraffin and
// 10.24 W of stearin.
func TestHeat(t *testing.T) {
	t.Parallel()
	paraffin, ok := HeatOf(journal.Wax{Family: "paraffin"})
	if !ok {
		t.Fatal("paraffin has no heat")
	}
	stearin, _ := HeatOf(journal.Wax{Family: "stearin"})
	about(t, "steady candle", float64(Power(0.105*60, paraffin.Net)), 76.65, 5e-3)
	for rate, want := range map[quantity.GramsPerHour]float64{4.7: 57.2, 7.1: 86.4, 2.6: 31.6, 6.7: 81.5} {
		about(t, rate.String(), float64(Power(rate, paraffin.Net)), want, 0.05)
	}
	about(t, "1 g/h of paraffin", float64(Power(1, paraffin.Net)), 12.17, 5e-3)
	about(t, "1 g/h of stearin", float64(Power(1, stearin.Net)), 10.24, 5e-3)
	if _, ok := HeatOf(journal.Wax{Family: "blend"}); ok {
		t.Error("a blend has a heat that nobody measured")
	}
	own, ok := HeatOf(journal.Wax{Family: "paraffin", HeatOfCombustion: of(quantity.KilojoulesPerGram(42))})
	if !ok || !own.Own || own.Net != 42 {
		t.Errorf("got %+v", own)
	}
}

// TestHeatsOfCombustion works the defaults out again. Stearic acid, liquid,
// C18H36O2: 11280.1 kJ/mol (NIST WebBook) over 284.484 g/mol is 39.651 kJ/g
// gross; less 18 mol of water at 44.004 kJ/mol 36.867 net. Eicosane, C20H42:
// 3183 kcal/mol (a table of heats of combustion, 4.184 kJ/kcal) over 282.556 g/mol is
// 47.133 gross and, less 21 mol of water, 43.862 net. C25H52 is five CH2 of
// 654.8 kJ/mol more, over 352.691 g/mol, less 26 mol of water.
func TestHeatsOfCombustion(t *testing.T) {
	t.Parallel()
	const water = 44.004
	stearin, _ := HeatOf(journal.Wax{Family: "stearin"})
	paraffin, _ := HeatOf(journal.Wax{Family: "paraffin"})
	about(t, "stearic acid, gross", 11280.1/284.484, 39.651, 5e-4)
	about(t, "stearin", float64(stearin.Net), (11280.1-18*water)/284.484, 5e-3)
	about(t, "eicosane", (3183*4.184-21*water)/282.556, 43.862, 5e-4)
	about(t, "paraffin", float64(paraffin.Net), (3183*4.184+5*654.8-26*water)/352.691, 0.01)
}

// A candle counts by its rate over all hours: 12 g in 1 h and 24 g in 4 h are
// 36 g in 5 h, 7.2 g/h, where the mean of its burns would be 9 g/h.
func TestRatesOverCandlesOfUnlikeBurns(t *testing.T) {
	t.Parallel()
	o := RatesOver([]journal.CandleLog{burned([]float64{1, 4}, []float64{12, 24}), burned([]float64{4}, []float64{24})})
	about(t, "mean", float64(o.Mean), 6.6, 1e-9)
	about(t, "fastest", float64(o.Fastest), 7.2, 1e-9)
}

// TestRatesOverCandles: candles of 6, 7 and 8 g/h have mean 7, SD 1 and t(2)
// 4.30265 over sqrt(3): give or take 2.48414. A candle that was not weighed
// does not count.
func TestRatesOverCandles(t *testing.T) {
	t.Parallel()
	o := RatesOver([]journal.CandleLog{burned([]float64{4, 2}, []float64{24, 12}), burned([]float64{4}, []float64{28}), burned([]float64{4}, []float64{32}), candle(one{4, 0, 0, ""})})
	if o.Candles != 3 || o.Burns != 4 || o.Slowest != 6 || o.Fastest != 8 {
		t.Errorf("got %+v", o)
	}
	about(t, "mean", float64(o.Mean), 7, 1e-9)
	about(t, "low", o.Range.Low, 7-2.48414, 1e-4)
	if o := RatesOver(nil); o.Candles != 0 || o.Mean != 0 || o.Range.Known {
		t.Errorf("none: got %+v", o)
	}
}
