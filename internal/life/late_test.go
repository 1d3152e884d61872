package life

import (
	"math/rand/v2"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// readings are checks at 1, 2 and 3 h: widths in mm, 0 for a full pool, and a
// depth that grows by 2 mm an hour from a start.
func readings(b *journal.BurnLog, depth float64, widths ...float64) {
	for i, w := range widths {
		c := journal.Check{At: b.Burn.LitAt.Add(time.Duration(i+1)*time.Hour + 3*time.Minute), Depth: of(quantity.Millimetres(depth + 2*float64(i)))}
		if w == 0 {
			c.Full = true
		} else {
			c.WidthA, c.WidthB = of(quantity.Millimetres(w)), of(quantity.Millimetres(w))
		}
		b.Checks = append(b.Checks, c)
	}
}

// nine is a candle of nine burns of 4 h, burned to the end. By the middle of
// its burns, 2 to 3 are early (burn 1 is left out) and 7 to 9 late.
func nine() journal.CandleLog {
	var list []one
	for i := range 9 {
		list = append(list, one{4, 500 - 26*float64(i), 500 - 26*float64(i+1), ""})
	}
	list[8].ending = journal.Spent
	return candle(list...)
}

func changeOf(t *testing.T, kind Reading, logs ...journal.CandleLog) Change {
	t.Helper()
	for _, c := range LateEarly(logs, stop, noon) {
		if c.Reading == kind {
			return c
		}
	}
	t.Fatalf("no %s", kind)
	return Change{}
}

// TestLateByHand: at one hour the early burns read 50 and 52 mm and the late
// ones 56, 57 and 58: 6 mm more; at two hours 60, 60 and 66, 67, 65: also 6.
// Burn 1 and the middle burns read wildly and must not count. Departures
// from halfway (54 and 63 mm): early -4 and -3 (by 50-54, 60-63), -2 and -3;
// so burns -3.5, -2.5, late 2.5, 3.5, 3. Mean 3 - (-3) = 6. Squares within:
// 0.5 + 0.5 = 1, over 3 df, times 1/2 + 1/3: SE 0.527046; t(3) 3.18245: give
// or take 1.677295.
func TestLateByHand(t *testing.T) {
	t.Parallel()
	l := nine()
	for i, w := range [][]float64{{20, 25}, {50, 60}, {52, 60}, {30, 31}, {30, 31}, {30, 31}, {56, 66}, {57, 67}, {58, 65}} {
		readings(&l.Burns[i], 4, w...)
	}
	c := changeOf(t, PoolWidth, l)
	if !c.Told() || c.Candles != 1 || c.Early != 2 || c.Late != 3 || c.AtWall != 0 || c.Widths != 10 {
		t.Fatalf("got %+v", c)
	}
	about(t, "difference", c.Mean, 6, 1e-12)
	about(t, "low", c.Range.Low, 6-1.677295, 1e-5)
	about(t, "high", c.Range.High, 6+1.677295, 1e-5)
	if d := changeOf(t, PoolDepth, l); d.Mean != 0 || d.Early != 2 {
		t.Errorf("depth %+v", d)
	}
	if f := changeOf(t, Flame, l); f.Told() || f.Mean != 0 {
		t.Errorf("flame %+v", f)
	}
}

// TestLateOverCandles: three candles with differences of 5, 6 and 7 mm of depth
// have mean 6, SD 1, and t(2) = 4.30265 over sqrt(3): give or take 2.48414.
func TestLateOverCandles(t *testing.T) {
	t.Parallel()
	var logs []journal.CandleLog
	for i := range 3 {
		l := nine()
		readings(&l.Burns[1], 4, 50)
		readings(&l.Burns[7], 9+float64(i), 50)
		logs = append(logs, l)
	}
	c := changeOf(t, PoolDepth, logs...)
	about(t, "difference", c.Mean, 6, 1e-12)
	about(t, "low", c.Range.Low, 6-2.48414, 1e-4)
	if c.Candles != 3 || c.Early != 3 || c.Late != 3 {
		t.Errorf("got %+v", c)
	}
	if one := changeOf(t, PoolDepth, logs[0]); one.Mean != 5 || one.Range.Known {
		t.Errorf("one burn on each side has no interval: %+v", one)
	}
}

// Readings that do not count: withdrawn, left out, far from any half hour, at
// an hour that the other third has none of.
func TestLateLeavesOut(t *testing.T) {
	t.Parallel()
	base := func() journal.CandleLog {
		l := nine()
		readings(&l.Burns[1], 4, 50)
		readings(&l.Burns[7], 9, 50)
		return l
	}
	for name, change := range map[string]func(*journal.CandleLog){
		"withdrawn": func(l *journal.CandleLog) { l.Burns[7].Checks[0].Gone = of(noon) },
		"left out":  func(l *journal.CandleLog) { l.Burns[7].Checks[0].LeftOut = true },
		"no half hour": func(l *journal.CandleLog) {
			l.Burns[7].Checks[0].At = l.Burns[7].Burn.LitAt.Add(75 * time.Minute)
		},
		"another hour": func(l *journal.CandleLog) {
			l.Burns[7].Checks[0].At = l.Burns[7].Burn.LitAt.Add(2 * time.Hour)
		},
		"its burn withdrawn": func(l *journal.CandleLog) { l.Burns[7].Burn.Gone = of(noon) },
		"a strong draught":   func(l *journal.CandleLog) { l.Burns[7].Burn.Draught = journal.DraughtStrong },
		"read after it was out": func(l *journal.CandleLog) {
			l.Burns[7].Burn.OutAt = of(l.Burns[7].Burn.LitAt.Add(time.Hour))
		},
		"13 min off the hour": func(l *journal.CandleLog) {
			l.Burns[7].Checks[0].At = l.Burns[7].Burn.LitAt.Add(73 * time.Minute)
		},
		"no life known": func(l *journal.CandleLog) {
			l.Burns[8].Burn.Ending, l.Wax.SolidDensity = journal.Snuffed, nil
		},
	} {
		l := base()
		change(&l)
		if c := changeOf(t, PoolDepth, l); c.Told() {
			t.Errorf("%s: got %+v", name, c)
		}
	}
	if !changeOf(t, PoolDepth, base()).Told() {
		t.Error("the candle as it is tells nothing")
	}
	near := base()
	near.Burns[7].Checks[0].At = near.Burns[7].Burn.LitAt.Add(72 * time.Minute)
	if !changeOf(t, PoolDepth, near).Told() {
		t.Error("12 min off the hour is near enough")
	}
	for _, c := range LateEarly(nil, stop, noon) {
		if c.Told() || c.Range.Known {
			t.Errorf("no candles: %+v", c)
		}
	}
}

// Where every width of both thirds is at the wall it could not have changed:
// that hour is no evidence. Where some are short of it, the rest count as the
// wall and are named.
func TestLateAtTheWall(t *testing.T) {
	t.Parallel()
	l := nine()
	readings(&l.Burns[1], 4, 60, 0)
	readings(&l.Burns[7], 4, 70, 0)
	c := changeOf(t, PoolWidth, l)
	about(t, "difference", c.Mean, 10, 1e-12)
	if c.Widths != 2 || c.AtWall != 0 {
		t.Errorf("got %+v", c)
	}
	l.Burns[7].Checks[0].Full = true
	c = changeOf(t, PoolWidth, l)
	about(t, "difference to the wall", c.Mean, 16.2, 1e-12)
	if c.AtWall != 1 {
		t.Errorf("got %+v", c)
	}
}

// A candle that is not at its end yet has its life reckoned from what is left:
// 36 h lit of about 36 + 8 h.
func TestLateOfACandleNearItsEnd(t *testing.T) {
	t.Parallel()
	l := nine()
	l.Burns[8].Burn.Ending = journal.Snuffed
	l.Candle.Filled = of(quantity.Grams(52.125 + 36*6.5 + 4*6.5))
	readings(&l.Burns[1], 4, 50)
	readings(&l.Burns[8], 9, 50)
	if c := changeOf(t, PoolDepth, l); c.Mean != 5 {
		t.Errorf("got %+v", c)
	}
}

// Burns that are alike on each side, and candles whose differences are equal,
// have a difference without an interval.
func TestLateOfEqualReadingsHasNoInterval(t *testing.T) {
	t.Parallel()
	l := nine()
	for i, w := range []float64{20, 50, 50, 30, 30, 30, 53, 53, 53} {
		readings(&l.Burns[i], 4, w)
	}
	for n, logs := range map[string][]journal.CandleLog{"one candle": {l}, "two candles": {l, l}} {
		if c := changeOf(t, PoolWidth, logs...); c.Range.Known || !c.Range.Alike || c.Range.Apart() {
			t.Errorf("%s: got %+v", n, c)
		} else {
			about(t, n, c.Mean, 3, 1e-9)
		}
	}
}

// Its very first burn is the one numbered so: with that withdrawn, the second
// is none.
func TestLateKnowsTheFirstBurnByItsNumber(t *testing.T) {
	t.Parallel()
	l := withdrawn(nine(), 0)
	readings(&l.Burns[1], 4, 50)
	readings(&l.Burns[7], 9, 50)
	if c := changeOf(t, PoolDepth, l); c.Mean != 5 || c.Early != 1 {
		t.Errorf("got %+v", c)
	}
}

// 36 h were lit and 8 are left: burn 7, in whose middle 26 h were lit, lies at
// 0.59 of 44 h, short of the last third; of 36 h it would lie at 0.72.
func TestLateReckonsWithWhatIsLeft(t *testing.T) {
	t.Parallel()
	l := nine()
	l.Burns[8].Burn.Ending = journal.Snuffed
	l.Candle.Filled = of(quantity.Grams(52.125 + 36*6.5 + 8*6.5))
	readings(&l.Burns[1], 4, 50)
	readings(&l.Burns[6], 9, 50)
	if c := changeOf(t, PoolDepth, l); c.Told() {
		t.Errorf("got %+v", c)
	}
}

// Two early burns and one late leave one degree of freedom: too few for an
// interval. One more on either side makes two.
func TestLateOfThreeBurnsHasNoInterval(t *testing.T) {
	t.Parallel()
	l := nine()
	readings(&l.Burns[1], 4, 50)
	readings(&l.Burns[2], 5, 50)
	readings(&l.Burns[7], 9, 50)
	if c := changeOf(t, PoolDepth, l); c.Range.Known || c.Early != 2 || c.Late != 1 {
		t.Errorf("got %+v", c)
	}
	readings(&l.Burns[8], 10, 50)
	if c := changeOf(t, PoolDepth, l); !c.Range.Known {
		t.Errorf("got %+v", c)
	}
}

// TestLateCoversNoChange draws 1000 candles whose burns scatter by 2 mm and
// whose readings by 1 mm, without any change, from a fixed seed: the interval
// of one candle holds 0 in 19 of 20, give or take four standard errors (0.0276).
func TestLateCoversNoChange(t *testing.T) {
	t.Parallel()
	random := rand.New(rand.NewPCG(9, 10))
	const rounds = 1000
	held := 0.0
	for range rounds {
		l := nine()
		for i := range l.Burns {
			luck := 2 * random.NormFloat64()
			for h := 1; h <= 3; h++ {
				l.Burns[i].Checks = append(l.Burns[i].Checks, journal.Check{At: l.Burns[i].Burn.LitAt.Add(time.Duration(h) * time.Hour),
					VesselTemp: of(quantity.Celsius(40 + 5*float64(h) + luck + random.NormFloat64()))})
			}
		}
		if c := changeOf(t, VesselHeat, l); c.Range.Low <= 0 && c.Range.High >= 0 {
			held++
		}
	}
	about(t, "held", held/rounds, 0.95, 0.0276)
}
