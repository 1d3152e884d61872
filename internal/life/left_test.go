package life

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

const (
	stop    quantity.Millimetres = 12.7 // half an inch
	longest quantity.Hours       = 4
)

// left works out the hours left of a candle that rests.
func left(l journal.CandleLog) Left { return LeftOf(l, RatesOf(l), stop, longest, noon) }

// TestHoursLeftOfAFullGlass: inside 76.2 mm, 69.85 mm of wax at 0.90 g/mL is
// 286.687 g; 12.7 mm of it 52.125 g; 234.562 g usable; at 6.3 g/h 37.23 h, 9.31
// burns of 4 h, so 10; the level falls 1.535 mm/h. (Geometry by hand.) The
// candle was filled with 25.2 g more, which one burn of 4 h took.
func TestHoursLeftOfAFullGlass(t *testing.T) {
	t.Parallel()
	l := candle(one{4, 512, 486.8, ""})
	l.Candle.Filled = of(quantity.Grams(286.687 + 25.2))
	x := left(l)
	if !x.Known() || x.HoursRange.Known || x.Reckoned != 0 || x.ByVessel {
		t.Fatalf("got %+v", x)
	}
	about(t, "wax", float64(x.Wax), 286.687, 1e-9)
	about(t, "height", float64(x.Height), 69.85, 1e-3)
	about(t, "usable", float64(x.Usable), 234.562, 1e-3)
	about(t, "fall", float64(x.Drop), 1.535, 5e-4)
	about(t, "hours", float64(x.Hours), 37.23, 5e-3)
	about(t, "burns", float64(x.Hours/longest), 9.31, 5e-3)
	if x.Sittings != 10 {
		t.Errorf("%d sittings", x.Sittings)
	}
	about(t, "when it was full", float64(x.Full), 37.23+4, 5e-3)
}

// TestHoursLeftCarryTheRatesInterval: two burns of 4 h, 24 and 28 g: 6.5 g/h
// give or take 12.7062 x sqrt(2 x 8 / 1)/8 g/h, = 6.3531, down to 0.147 g/h,
// so the longest would be 1243 h and there is no interval; four alike but for a little have one.
func TestHoursLeftCarryTheRatesInterval(t *testing.T) {
	t.Parallel()
	if x := left(candle(one{4, 486, 462, ""}, one{4, 462, 434, ""})); !x.Known() || x.HoursRange.Known {
		t.Errorf("got %+v", x)
	}
	l := candle(one{4, 486, 462, ""}, one{4, 462, 437, ""}, one{4, 437, 413, ""}, one{4, 413, 388, ""})
	x, r := left(l), RatesOf(l)
	about(t, "shortest", x.HoursRange.Low, float64(x.Usable)/r.OverallRange.High, 1e-12)
	about(t, "longest", x.HoursRange.High, float64(x.Usable)/r.OverallRange.Low, 1e-12)
	if !(x.HoursRange.Low < float64(x.Hours) && float64(x.Hours) < x.HoursRange.High) {
		t.Errorf("got %+v", x)
	}
}

func TestHoursLeftSayWhatIsMissing(t *testing.T) {
	t.Parallel()
	full := func() journal.CandleLog { return candle(one{4, 486, 462, ""}) }
	for name, c := range map[string]struct {
		change func(*journal.CandleLog)
		want   []Lacks
	}{
		"nothing":               {func(*journal.CandleLog) {}, nil},
		"no burns":              {func(l *journal.CandleLog) { l.Burns = nil }, []Lacks{LacksRate}},
		"burns withdrawn":       {func(l *journal.CandleLog) { *l = withdrawn(*l, 0) }, []Lacks{LacksRate}},
		"not weighed after":     {func(l *journal.CandleLog) { l.Burns[0].Burn.MassAfter = nil }, []Lacks{LacksRate}},
		"no density":            {func(l *journal.CandleLog) { l.Wax.SolidDensity = nil }, []Lacks{LacksDensity}},
		"density of nothing":    {func(l *journal.CandleLog) { l.Wax.SolidDensity = of(quantity.GramsPerMillilitre(0)) }, []Lacks{LacksDensity}},
		"no mass":               {func(l *journal.CandleLog) { l.Candle.Filled, l.Vessel.EmptyMass = nil, nil }, []Lacks{LacksMass}},
		"only the empty vessel": {func(l *journal.CandleLog) { l.Candle.Filled = nil }, nil},
		"irregular vessel":      {func(l *journal.CandleLog) { l.Vessel.Shape = journal.Irregular }, []Lacks{LacksShape}},
		"several":               {func(l *journal.CandleLog) { l.Burns, l.Wax.SolidDensity = nil, nil }, []Lacks{LacksRate, LacksDensity}},
	} {
		l := full()
		c.change(&l)
		if x := left(l); !slices.Equal(x.Lacks, c.want) {
			t.Errorf("%s: got %q, want %q", name, x.Lacks, c.want)
		} else if len(c.want) > 0 && (x.Hours != 0 || x.Down()) {
			t.Errorf("%s: hours from nothing: %+v", name, x)
		}
	}
}

// Equal burns give the hours without an interval, and say why.
func TestHoursLeftOfEqualBurns(t *testing.T) {
	t.Parallel()
	if x := left(candle(one{4, 486, 462, ""}, one{4, 462, 438, ""})); !x.Known() || x.HoursRange.Known || !x.HoursRange.Alike {
		t.Errorf("got %+v", x)
	}
}

// 180 g were filled in, and the weighings went from 350 over 300 to 215 g: 45 g
// are left, 10.96 mm in this glass, though 215 g less 180 g would be 35 g.
func TestWaxLeftGoesByWhatWasFilledIn(t *testing.T) {
	t.Parallel()
	l := candle(one{4, 350, 300, ""}, one{4, 300, 215, ""})
	l.Candle.Filled, l.Vessel.EmptyMass = of(quantity.Grams(180)), of(quantity.Grams(180))
	x := left(l)
	about(t, "wax", float64(x.Wax), 45, 1e-9)
	about(t, "height", float64(x.Height), 10.96, 5e-3)
}

// The two ways to reckon the wax are 286 g by the vessel and what was filled:
// 15 % of 286 g are 42.9 g, so 243.1 g is the least that is not told apart.
func TestWaxThatDisagrees(t *testing.T) {
	t.Parallel()
	for filled, want := range map[quantity.Grams]bool{243.2: false, 243.0: true, 336.4: false, 336.5: true} {
		l := candle(one{4, 486, 462, ""})
		l.Candle.Filled = of(filled)
		if x := left(l); x.Disagree != want {
			t.Errorf("%v: got %v", filled, x.Disagree)
		}
	}
}

// TestWaxByTheEmptyVessel: 462 g less 200 g of glass; the filled mass would say
// 286.687 - 24 = 262.687 g, close enough.
func TestWaxByTheEmptyVessel(t *testing.T) {
	t.Parallel()
	l := candle(one{4, 486, 462, ""})
	if x := left(l); x.Disagree || math.Abs(float64(x.Wax)-262.687) > 1e-9 {
		t.Errorf("got %+v", x)
	}
	l.Candle.Filled = nil
	if x := left(l); !x.ByVessel || x.Wax != 262 {
		t.Errorf("got %+v", x)
	}
	l.Candle.Filled = of(quantity.Grams(180))
	if x := left(l); !x.Disagree {
		t.Errorf("180 g against 286 g: got %+v", x)
	}
}

// TestWaxSinceTheLastWeighing: lit for 2 h now, at 6 g/h, 12 g more are gone.
func TestWaxSinceTheLastWeighing(t *testing.T) {
	t.Parallel()
	x := left(lit(candle(one{4, 486, 462, ""}, one{4, 462, 0, ""}), 2))
	about(t, "reckoned", float64(x.Reckoned), 2, 1e-9)
	about(t, "wax", float64(x.Wax), 262.687-12, 1e-9)
}

func TestNothingIsLeftOfASpentCandle(t *testing.T) {
	t.Parallel()
	l := candle(one{40, 486.687, 250, journal.Spent})
	x := left(l)
	if !x.Down() || x.Hours != 0 || x.Sittings != 0 {
		t.Errorf("got %+v", x)
	}
}

// Twice the rate halves the hours; the wider vessel has its geometry.
func TestHoursLeftScale(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.Float64Range(2, 6).Draw(t, "rate")
		slow, fast := candle(one{4, 500, 500 - 4*rate, ""}), candle(one{4, 500 + 4*rate, 500 - 4*rate, ""})
		slow.Candle.Filled, fast.Candle.Filled = of(quantity.Grams(280)), of(quantity.Grams(280+4*rate))
		about(t, "hours", float64(left(fast).Hours), float64(left(slow).Hours)/2, 1e-9)
	})
}
