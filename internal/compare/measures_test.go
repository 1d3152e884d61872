package compare_test

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"pgregory.net/rapid"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/standings"
)

// Dried weights of plants stand in for burn rates: R prints the interval of
// their difference, t.test(weight ~ group, PlantGrowth) of ctrl and trt1, with
// the groups the other way round: -0.2875162 to 1.0295162.
func TestRatesAgainstPlantGrowth(t *testing.T) {
	t.Parallel()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", "plantgrowth.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	groups := map[string][]journal.BurnLog{}
	for _, r := range rows[1:] {
		g, err := strconv.ParseFloat(r[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		groups[r[1]] = append(groups[r[1]], burned(g))
	}
	m, _ := measure(compare.Measures(unjudged(candle("A", 6, nil, groups["ctrl"]...), candle("B", 7, nil, groups["trt1"]...))), compare.Rate)
	d := m.Figures[1].From
	if d.Verdict != compare.Open || d.NA != 10 || d.NB != 10 || math.Abs(d.By+0.371) > 1e-6 || math.Abs(d.Low+1.0295162) > 1e-6 || math.Abs(d.High-0.2875162) > 1e-6 {
		t.Errorf("%+v", d)
	}
	// The difference is 0.371/0.6964 = 0.53 standard deviations (R's residual
	// standard error of the two groups): Cohen's table 2.4.1 wants 64 of each for
	// 0.5, which is more than is advised.
	if d.Wanted != 0 {
		t.Errorf("%d burns of each are advised", d.Wanted)
	}
}

// What can be said of two burn rates. Working: 5 and 5.2 beside 6 and 6.2 lie
// 1 apart, each with a variance of 0.02, so the standard error is
// sqrt(0.02/2 + 0.02/2) = 0.1414 on 2 degrees of freedom, t 4.3027, and the
// interval 1 give or take 0.6085. Of 5 and 6 beside 6 and 7 the error is 0.7071
// and the interval 1 give or take 3.0424; 1 is 1.414 standard deviations, for
// which 9 of each have the power 0.8 (Cohen's table
// 2.4.1 has 9 for 1.40, from memory).
func TestVerdicts(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name      string
		a, b      []float64
		want      compare.Verdict
		low, high float64
		wanted    int
	}{
		{"told", []float64{5, 5.2}, []float64{6, 6.2}, compare.Told, 0.3915, 1.6085, 0},
		{"open", []float64{5, 6}, []float64{6, 7}, compare.Open, -2.0424, 4.0424, 9},
		{"the same", []float64{5, 6}, []float64{5, 6}, compare.Open, -3.0424, 3.0424, 0},
		{"one burn", []float64{5}, []float64{6, 6.2}, compare.TooFew, 0, 0, 0},
		{"no spread", []float64{5, 5}, []float64{6, 6}, compare.NoSpread, 0, 0, 0},
		{"nothing", []float64{5, 6}, nil, compare.Nothing, 0, 0, 0},
	} {
		side := func(letter string, gs []float64) journal.CandleLog {
			l := candle(letter, 6, nil)
			for i, g := range gs {
				l.Burns = append(l.Burns, shifted(burned(g), i, journal.ID(i+1)))
			}
			return l
		}
		m, ok := measure(compare.Measures(unjudged(side("A", c.a), side("B", c.b))), compare.Rate)
		if !ok {
			t.Fatalf("%s: no rate", c.name)
		}
		d := m.Figures[1].From
		if d.Verdict != c.want || math.Abs(d.Low-c.low) > 5e-4 || math.Abs(d.High-c.high) > 5e-4 || d.Wanted != c.wanted {
			t.Errorf("%s: %+v", c.name, d)
		}
		if first := m.Figures[0].From; first.Verdict != "" {
			t.Errorf("%s: the first lies %+v from itself", c.name, first)
		}
	}
}

// Readings speak for the target hour of 3 h when they lie within half an hour
// of it, the nearest first.
func TestReadingsAtTheTargetHour(t *testing.T) {
	t.Parallel()
	deep := func(hour, mm float64) journal.Check {
		return check(hour, func(c *journal.Check) { c.Depth = ptr(quantity.Millimetres(mm)) })
	}
	for _, c := range []struct {
		name string
		cs   []journal.Check
		want float64
	}{
		{"nearest", []journal.Check{deep(2, 5), deep(2.9, 8), deep(3.2, 9)}, 8},
		{"the earlier of two", []journal.Check{deep(2.75, 7), deep(3.25, 9)}, 7},
		{"at the edge", []journal.Check{deep(2.5, 6)}, 6},
		{"too far", []journal.Check{deep(2.4, 6), deep(3.6, 9)}, math.NaN()},
		{"left out by hand", []journal.Check{deep(2.75, 7), leftOut(deep(3, 90))}, 7},
		{"read after the flame was out", []journal.Check{deep(2.75, 7), deep(4.1, 90)}, 7},
		{"not read", []journal.Check{width(3, 70), deep(3.3, 9)}, 9},
	} {
		ms := compare.Measures(unjudged(candle("A", 6, nil, burn(c.cs...)), candle("B", 6, nil, burn(deep(3, 4)))))
		m, _ := measure(ms, compare.Depth)
		if got := m.Figures[0].Mean; got != c.want && !(math.IsNaN(got) && math.IsNaN(c.want)) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// What the standings leave out is left out here: readings after the flame was
// out, and burns in a strong draught (common practice, no source).
func TestReadingsThatDoNotCount(t *testing.T) {
	t.Parallel()
	hot := func(mm float64) journal.BurnLog {
		return burn(check(3, func(c *journal.Check) { c.Flame = ptr(quantity.Millimetres(mm)) }))
	}
	l := candle("A", 6, func(l *journal.CandleLog) {
		l.Burns[1].Burn.Draught = journal.DraughtStrong
		l.Burns[2].Burn.OutAt = ptr(l.Burns[2].Burn.LitAt.Add(2 * time.Hour))
	}, hot(20), hot(90), hot(80))
	m, _ := measure(compare.Measures(unjudged(l, candle("B", 6, nil, hot(20)))), compare.Flame)
	if f := m.Figures[0]; f.Mean != 20 || f.N != 1 || f.Seen != 1 {
		t.Errorf("%+v", f)
	}
}

// Widths come from the curves that the standings fit to the burns, so two
// candles 8 mm apart at the hour are told apart by about that.
func TestWidthsOfCandles(t *testing.T) {
	t.Parallel()
	sides := judged(t, candle("A", 6, nil, reads(78), reads(80), reads(79)), candle("B", 7, nil, reads(86), reads(88), reads(87)))
	m, _ := measure(compare.Measures(sides), compare.Width)
	d := m.Figures[1].From
	if d.Verdict != compare.Told || math.Abs(d.By-8) > 1.5 || d.NA != 3 || !(d.Low > 3 && d.High < 13) {
		t.Errorf("%+v", d)
	}
	// Where the vessels differ, widths are told as shares of the wall.
	wide := candle("B", 7, func(l *journal.CandleLog) { l.Vessel.ID, l.Vessel.InnerWidth = 2, 200 }, reads(172), reads(176), reads(174))
	sides = append(judged(t, candle("A", 6, nil, reads(78), reads(80), reads(79))), judged(t, wide)...)
	m, ok := measure(compare.Measures(sides), compare.Reach)
	if !ok || math.Abs(m.Figures[0].Mean-0.79) > 0.02 || math.Abs(m.Figures[1].Mean-0.87) > 0.02 {
		t.Errorf("reaches %+v", m.Figures)
	}
}

// A burn that was full at every look only bounds its width; one that was never
// full, or full at the first look, only bounds its time.
func TestBoundsAreNotSubtracted(t *testing.T) {
	t.Parallel()
	sides := judged(t, candle("A", 6, nil, reads(78), reads(80)), candle("B", 9, nil, burn(full(1), full(2)), burn(width(1, 90), full(2))))
	ms := compare.Measures(sides)
	w, _ := measure(ms, compare.Width)
	if f := w.Figures[1]; f.From.Verdict != compare.BoundOnly || f.Bounded != 1 || f.Seen != 2 || f.N != 1 {
		t.Errorf("width %+v", f)
	}
	// B was full by 1 h, from nobody knows when, and between 1 and 2 h: 1.5 h; A
	// never.
	u, _ := measure(ms, compare.Full)
	if a, b := u.Figures[0], u.Figures[1]; a.Bounded != 2 || a.Early != 0 || a.N != 0 || b.Mean != 1.5 || b.N != 1 || b.Bounded != 1 || b.Early != 1 || b.From.Verdict != compare.BoundOnly {
		t.Errorf("full after %+v, %+v", a, b)
	}
}

// Of pools that were full at the first look nobody knows since when, however
// late the look: nothing is told of the time.
func TestFullAtTheFirstLookTellsNoTime(t *testing.T) {
	t.Parallel()
	late := candle("A", 9, nil, burn(full(3)), burn(full(3)), burn(full(1)))
	seen := candle("B", 9, nil, burn(width(2, 80), full(3)), burn(width(2, 80), full(3)), burn(width(3, 80), full(4)))
	m, _ := measure(compare.Measures(judged(t, late, seen)), compare.Full)
	if a, b := m.Figures[0], m.Figures[1]; a.N != 0 || a.Early != 3 || a.Bounded != 3 || b.N != 3 || b.Bounded != 0 || b.From.Verdict != compare.BoundOnly {
		t.Errorf("%+v, %+v", a, b)
	}
}

// A pairing's burn rate is the one that package life gives its own page, and
// burns that weighed the same or more after are no rates. A burned 40 g in 4 h
// and 6 g in 1 h: 46/5 = 9.2 g/h, where the mean of 10 and 6 would be 8.
func TestOneBurnRatePerPairing(t *testing.T) {
	t.Parallel()
	four := burn()
	four.Burn.MassBefore, four.Burn.MassAfter = ptr(quantity.Grams(100)), ptr(quantity.Grams(60))
	logs := []journal.CandleLog{candle("A", 6, nil, four, burned(6), burned(0), burned(-2)), candle("B", 6, nil, burned(7))}
	p := compare.OfPairing(*pairings(t, logs...)[6], logs)
	m, _ := measure(compare.Measures([]compare.Side{p, p}), compare.Rate)
	over := life.RatesOver(logs)
	if f := m.Figures[0]; math.Abs(f.Mean-8.1) > 1e-9 || f.Mean != float64(over.Mean) || f.N != over.Candles || f.Seen != over.Burns {
		t.Errorf("%+v, on its own page %+v", f, over)
	}
	m, _ = measure(compare.Measures(unjudged(logs[0], logs[1])), compare.Rate)
	if f := m.Figures[0]; f.N != 2 || math.Abs(f.Mean-8) > 1e-9 {
		t.Errorf("of the candle %+v", f)
	}
}

// Pairings are compared by their candles' means, and by the widths that the
// standings believe; a candle beside a pairing has no interval.
func TestPairings(t *testing.T) {
	t.Parallel()
	weighed := func(letter string, rung int, mm, g float64) journal.CandleLog {
		l := candle(letter, rung, nil, reads(mm), reads(mm+1))
		for i := range l.Burns {
			l.Burns[i].Burn.MassBefore, l.Burns[i].Burn.MassAfter = ptr(quantity.Grams(100)), ptr(quantity.Grams(100-4*g-float64(i)))
		}
		return l
	}
	logs := []journal.CandleLog{weighed("A", 6, 75, 5), weighed("B", 6, 76, 5.1), weighed("C", 7, 88, 6), weighed("D", 7, 89, 6.2)}
	ps := pairings(t, logs...)
	six, seven := compare.OfPairing(*ps[6], logs[:2]), compare.OfPairing(*ps[7], logs[2:])
	ms := compare.Measures([]compare.Side{six, seven, compare.OfCandle(logs[0], ps[6])})
	w, _ := measure(ms, compare.Width)
	d := w.Figures[1].From
	sd := math.Hypot(ps[6].Width.P90-ps[6].Width.P10, ps[7].Width.P90-ps[7].Width.P10) / 2.563103
	if math.Abs(d.By-(ps[7].Width.P50-ps[6].Width.P50)) > 1e-9 || math.Abs(d.High-d.By-1.959964*sd) > 1e-4 || d.NA != 2 {
		t.Errorf("width %+v", d)
	}
	// Candles' means: A burned 20 and 21 g in 4 h, 5.125 g/h; B 5.225; C 6.125; D 6.325.
	r, _ := measure(ms, compare.Rate)
	if d := r.Figures[1].From; math.Abs(r.Figures[0].Mean-5.175) > 1e-9 || math.Abs(d.By-1.05) > 1e-9 || d.NB != 2 || d.Verdict != compare.Told {
		t.Errorf("rate %+v from %+v", d, r.Figures[0])
	}
	for _, m := range ms {
		if v := m.Figures[2].From.Verdict; v != compare.NotAlike && v != compare.BoundOnly {
			t.Errorf("%s: a candle beside a pairing is %s", m.Name, v)
		}
	}
}

// How many candles would tell two pairings' widths apart, by the normal
// approximation 2 (1.960 + 0.842)² / d² (any book on sample sizes) for the
// spread of candles: what is known of the mean of n candles, times the root of
// n. Student's test wants one or two more.
func TestCandlesWantedForWidths(t *testing.T) {
	t.Parallel()
	logs := []journal.CandleLog{candle("A", 6, nil, reads(78)), candle("B", 6, nil, reads(82)), candle("C", 6, nil, reads(80)),
		candle("D", 7, nil, reads(80)), candle("E", 7, nil, reads(86)), candle("F", 7, nil, reads(84))}
	ps := pairings(t, logs...)
	m, _ := measure(compare.Measures([]compare.Side{compare.OfPairing(*ps[6], logs[:3]), compare.OfPairing(*ps[7], logs[3:])}), compare.Width)
	d := m.Figures[1].From
	candles := func(x *standings.Pairing) float64 { return math.Sqrt(3) * (x.Width.P90 - x.Width.P10) / 2.563103 }
	effect := d.By / math.Sqrt((math.Pow(candles(ps[6]), 2)+math.Pow(candles(ps[7]), 2))/2)
	want := 2 * math.Pow((1.959964+0.841621)/effect, 2)
	if d.Verdict != compare.Open || !d.Believed || float64(d.Wanted) < want || float64(d.Wanted) > want+2.5 {
		t.Errorf("%+v, wanted about %.1f", d, want)
	}
}

// The width of one candle is no width of a pairing, whatever the standings
// expect of its ladder.
func TestOneCandleIsTooFewForWidths(t *testing.T) {
	t.Parallel()
	logs := []journal.CandleLog{candle("A", 6, nil, reads(70)), candle("B", 9, nil, reads(95)), candle("C", 9, nil, reads(96))}
	ps := pairings(t, logs...)
	m, _ := measure(compare.Measures([]compare.Side{compare.OfPairing(*ps[6], logs[:1]), compare.OfPairing(*ps[9], logs[1:])}), compare.Width)
	if d := m.Figures[1].From; d.Verdict != compare.TooFew || d.Low != 0 || d.High != 0 {
		t.Errorf("%+v", d)
	}
}

// Turning two columns round turns the difference round.
func TestDifferencesTurnRound(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		side := func(letter string) journal.CandleLog {
			l := candle(letter, 6, nil)
			for i, g := range rapid.SliceOfN(rapid.Float64Range(3, 9), 1, 5).Draw(t, letter) {
				l.Burns = append(l.Burns, shifted(burned(g), i, journal.ID(i+1)))
			}
			return l
		}
		a, b := side("A"), side("B")
		from := func(ls ...journal.CandleLog) compare.Difference {
			m, _ := measure(compare.Measures(unjudged(ls...)), compare.Rate)
			return m.Figures[1].From
		}
		there, back := from(a, b), from(b, a)
		if there.Verdict != back.Verdict || there.Wanted != back.Wanted || math.Abs(there.By+back.By) > 1e-9 || math.Abs(there.Low+back.High) > 1e-6 {
			t.Fatalf("%+v turned round is %+v", there, back)
		}
		if self := from(a, a); self.By != 0 || self.Verdict == compare.Told {
			t.Fatalf("differs from itself: %+v", self)
		}
	})
}
