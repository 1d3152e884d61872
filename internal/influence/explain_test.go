package influence_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/stats"
)

// The truth of a made-up studio: one hundredth of oil takes 1.5 % of the width,
// a degree of pouring heat adds 0.2 %, cure does nothing; candles scatter by 4 %.
const (
	perLoad   = -1.5
	perDegree = 0.002
	scatter   = 0.04
)

// world pours three pairings at three loads and two temperatures, with cures of
// one to three weeks. rise lifts all pools, so that more of them stand at the
// wall and are known only from below.
func world(seed uint64, copies int, rise float64) []influence.Candle {
	rng := rand.New(rand.NewPCG(seed, 99))
	var out []influence.Candle
	for wick := range 3 {
		for _, load := range []float64{0.06, 0.08, 0.10} {
			for _, heat := range []float64{55, 65} {
				for range copies {
					y := 0.04*float64(wick-1) + perLoad*(load-0.08) + perDegree*(heat-60) + scatter*rng.NormFloat64() + rise
					c := influence.Candle{
						Code: fmt.Sprint(len(out)), Stratum: influence.Stratum{Vessel: 1, Wick: journal.ID(wick + 1), Fragrance: 1, Wicks: 1},
						Pour: journal.ID(100*load + heat), Wall: 76, Burns: 2,
						Values: map[influence.Factor]float64{influence.Load: load, influence.PouredAt: heat, influence.Warmed: 0, influence.Cured: float64(7 + rng.IntN(15))},
						Width:  stats.Censored{Low: y, High: y},
					}
					if y > 0 {
						c.Width = stats.Censored{Low: 0, High: math.Inf(1)}
					}
					out = append(out, c)
				}
			}
		}
	}
	return out
}

var truth = map[influence.Factor]float64{influence.Load: perLoad, influence.PouredAt: perDegree, influence.Cured: 0}

// Eight intervals in ten hold the truth, with and without pools at the wall,
// and the estimates are right on average. The band is four standard errors of a
// share of 300 about 0.8, and a little more where values are open, for the
// intervals are then a large-sample rule.
func TestIntervalsHoldTheTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("many worlds, one after the other: nothing for the race detector")
	}
	t.Parallel()
	for name, c := range map[string]struct {
		copies    int
		rise      float64
		low, high float64
	}{
		"all short of the wall":  {1, -0.4, 0.7, 0.9},
		"a third at the wall":    {2, -0.02, 0.69, 0.92},
		"over half at the wall":  {3, 0.02, 0.68, 0.93},
		"only a few at the wall": {1, -0.06, 0.69, 0.92},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			const worlds = 300
			hits, sum, n := map[influence.Factor]int{}, map[influence.Factor]float64{}, 0
			for seed := range uint64(worlds) {
				a := influence.Explain(world(seed, c.copies, c.rise))
				if len(a.Effects) != 3 {
					continue
				}
				n++
				for _, e := range a.Effects {
					sum[e.Factor] += e.Estimate
					if e.Low <= truth[e.Factor] && truth[e.Factor] <= e.High {
						hits[e.Factor]++
					}
				}
			}
			if n < worlds*95/100 {
				t.Errorf("only %d of %d worlds could be told", n, worlds)
			}
			for f, want := range truth {
				share := float64(hits[f]) / float64(n)
				t.Logf("factor %d: covered %.3f, mean %.4f, truth %v (%d)", f, share, sum[f]/float64(n), want, n)
				if share < c.low || share > c.high {
					t.Errorf("factor %d: %.3f of the intervals hold the truth", f, share)
				}
			}
			if mean := sum[influence.Load] / float64(n); math.Abs(mean-perLoad) > 0.12*math.Abs(perLoad) {
				t.Errorf("load comes to %v on average, not %v", mean, perLoad)
			}
		})
	}
}

func TestCountsAndOrder(t *testing.T) {
	t.Parallel()
	cs := world(1, 1, -0.4)
	a := influence.Explain(cs)
	if a.Candles != 18 || a.Pairings != 3 || a.Burns != 36 || a.Open != 0 || a.DF != 18-3-3 {
		t.Errorf("%+v", a)
	}
	load := a.Effects[0]
	if load.Factor != influence.Load || load.Candles != 18 || load.Pairings != 3 || load.Batches != 6 || load.From != 0.06 || load.To != 0.10 {
		t.Errorf("%+v", load)
	}
	if d := cmp.Diff([]influence.Untold{{Factor: influence.Warmed, Why: influence.NeverVaried, Noted: 18, Of: 18}}, a.Untold); d != "" {
		t.Error(d)
	}
	rng := rand.New(rand.NewPCG(5, 5))
	for range 5 {
		rng.Shuffle(len(cs), func(i, j int) { cs[i], cs[j] = cs[j], cs[i] })
		if d := cmp.Diff(a, influence.Explain(cs)); d != "" {
			t.Errorf("another order, another answer: %s", d)
		}
	}
}

// change makes another world of one, candle by candle.
func change(cs []influence.Candle, do func(int, *influence.Candle)) []influence.Candle {
	for i := range cs {
		do(i, &cs[i])
	}
	return cs
}

// why lists what cannot be told and why.
func why(a influence.Answer) map[influence.Factor]influence.Why {
	out := map[influence.Factor]influence.Why{}
	for _, u := range a.Untold {
		out[u.Factor] = u.Why
	}
	return out
}

func TestWhatCannotBeToldIsSaid(t *testing.T) {
	t.Parallel()
	const load, heat, warmed, cured = influence.Load, influence.PouredAt, influence.Warmed, influence.Cured
	for name, c := range map[string]struct {
		cs   []influence.Candle
		want map[influence.Factor]influence.Why
		told int
	}{
		"load and temperature always changed together": {
			change(world(1, 2, -0.4), func(_ int, c *influence.Candle) { c.Values[heat] = 50 + 100*c.Values[load] }),
			map[influence.Factor]influence.Why{load: influence.Together, heat: influence.Together, warmed: influence.NeverVaried}, 1},
		"nearly together": {
			change(world(1, 2, -0.4), func(i int, c *influence.Candle) { c.Values[heat] = 50 + 100*c.Values[load] + 0.1*float64(i%3) }),
			map[influence.Factor]influence.Why{load: influence.Together, heat: influence.Together, warmed: influence.NeverVaried}, 1},
		"each load in a pairing of its own": {
			change(world(1, 2, -0.4), func(_ int, c *influence.Candle) { c.Values[load] = 0.06 + 0.02*float64(c.Stratum.Wick) }),
			map[influence.Factor]influence.Why{load: influence.NotWithin, warmed: influence.NeverVaried}, 2},
		"temperature seldom noted": {
			change(world(1, 2, -0.4), func(i int, c *influence.Candle) {
				if i%3 > 0 {
					delete(c.Values, heat)
				}
			}),
			map[influence.Factor]influence.Why{heat: influence.HardlyNoted, warmed: influence.NeverVaried}, 2},
		"hardly a degree apart": {
			change(world(1, 2, -0.4), func(i int, c *influence.Candle) { c.Values[heat] = 60 + 0.5*float64(i%2) }),
			map[influence.Factor]influence.Why{heat: influence.TooAlike, warmed: influence.NeverVaried}, 2},
		"too few": {
			world(1, 1, -0.4)[:9],
			map[influence.Factor]influence.Why{load: influence.TooFew, heat: influence.TooFew, cured: influence.TooFew, warmed: influence.NeverVaried}, 0},
		"the wall hides one side": {
			change(world(1, 2, -0.4), func(_ int, c *influence.Candle) {
				if c.Values[load] < 0.07 {
					c.Width = stats.Censored{Low: 0, High: math.Inf(1)}
				}
				c.Values[load] = map[bool]float64{true: 0.06, false: 0.1}[c.Values[load] < 0.07]
			}),
			map[influence.Factor]influence.Why{load: influence.WallHidesAll, heat: influence.WallHidesAll, cured: influence.WallHidesAll, warmed: influence.NeverVaried}, 0},
		"nothing at all": {nil, map[influence.Factor]influence.Why{load: influence.NeverVaried, heat: influence.NeverVaried, cured: influence.NeverVaried, warmed: influence.NeverVaried}, 0},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			a := influence.Explain(c.cs)
			if d := cmp.Diff(c.want, why(a)); d != "" || len(a.Effects) != c.told || len(a.Untold) != len(c.want) {
				t.Errorf("%d told, %s", len(a.Effects), d)
			}
			for _, u := range a.Untold {
				if (u.Why == influence.Together) != (len(u.With) > 0) || (u.Why == influence.TooFew) != (u.Lacks > 0) {
					t.Errorf("%+v", u)
				}
			}
		})
	}
}

func TestWhoIsLeftOut(t *testing.T) {
	t.Parallel()
	none := stats.Censored{Low: math.Inf(-1), High: math.Inf(1)}
	full := stats.Censored{Low: 0.1, High: math.Inf(1)}
	cs := change(world(1, 2, -0.4), func(i int, c *influence.Candle) {
		switch {
		case i == 0:
			c.Width = none
		case i == 1:
			delete(c.Values, influence.Load)
		case i == 2:
			c.Stratum.Vessel = 9
		case i == 3 || i == 4:
			c.Stratum.Vessel, c.Width = 8, full
		case i == 5:
			c.Width = full
		}
	})
	a := influence.Explain(cs)
	if d := cmp.Diff(influence.LeftOut{NoWidth: 1, Incomplete: 1, Alone: 1, AtWall: 2}, a.LeftOut); d != "" || a.Candles != 31 || a.Open != 1 {
		t.Errorf("%+v %s", a, d)
	}
}

// By hand: two pairings of two candles and four of eight differ by load alone;
// the effect is the mean of the differences, over the two hundredths.
func TestByHand(t *testing.T) {
	t.Parallel()
	var cs []influence.Candle
	for p := range 8 {
		for k, y := range []float64{-0.10, -0.14 + 0.005*float64(p%3-1)} {
			cs = append(cs, influence.Candle{Code: fmt.Sprint(p, k), Stratum: influence.Stratum{Vessel: journal.ID(p + 1)}, Pour: journal.ID(2*p + k + 1), Wall: 80, Burns: 1,
				Values: map[influence.Factor]float64{influence.Load: 0.06 + 0.02*float64(k), influence.PouredAt: 60, influence.Warmed: 0, influence.Cured: 10},
				Width:  stats.Censored{Low: y, High: y}})
		}
	}
	a := influence.Explain(cs)
	// The third step of p%3 comes one time less: the mean difference is -0.04 - 0.005/8.
	want := (-0.04 - 0.005/8) / 0.02
	if len(a.Effects) != 1 || math.Abs(a.Effects[0].Estimate-want) > 1e-9 || !a.Effects[0].Told() || a.DF != 7 {
		t.Errorf("%+v, want %v", a, want)
	}
	if w := 80 * math.Exp((-0.10*8-0.14*8-0.005)/16); math.Abs(float64(a.Typical)-w) > 1e-9 {
		t.Errorf("typical %v, want %v", a.Typical, w)
	}
}

// Candles of which little but a least width is known do not count towards the
// degrees of freedom, whether their upper end is open or only far off: of 36
// candles with five such, three pairings and three things that varied, 25 are
// left. The interval of what lies inside pours is of its own 36-5-18-1.
func TestHardlyKnownWidthsDoNotCount(t *testing.T) {
	t.Parallel()
	cs := change(world(1, 2, -0.4), func(i int, c *influence.Candle) {
		c.Values[influence.Cured] = float64(7 + 7*(i%2))
		switch i {
		case 0, 7, 12:
			c.Width.High = math.Inf(1)
		case 17, 25:
			c.Width.High += 0.3
		case 30:
			c.Width.High += 0.14
		}
	})
	a := influence.Explain(cs)
	if a.Open != 5 || a.DF != 36-5-3-3 || len(a.Effects) != 3 {
		t.Fatalf("%d open, %d degrees of freedom, %d told", a.Open, a.DF, len(a.Effects))
	}
	if cure := a.Effects[2]; !cure.Inside || cure.DF != 36-5-18-1 {
		t.Errorf("%+v", cure)
	}
}

// A step is what a page tells a difference for, and what an interval is judged
// by: half a day between cures may say something of a day, but not of a week.
func TestStepsJudgeTheIntervals(t *testing.T) {
	t.Parallel()
	want := map[influence.Factor]float64{influence.Load: 0.01, influence.PouredAt: 5, influence.Warmed: 1, influence.Cured: 7}
	for f, step := range want {
		if f.Step() != step {
			t.Errorf("factor %d goes by %v", f, f.Step())
		}
	}
	cs := change(world(1, 2, -0.4), func(i int, c *influence.Candle) {
		c.Values[influence.Cured] = 10 + 0.5*float64(i%2)
	})
	a := influence.Explain(cs)
	if got := why(a)[influence.Cured]; got != influence.TooAlike {
		t.Errorf("%+v", a)
	}
	for _, u := range a.Untold {
		if width := u.Effect.High - u.Effect.Low; u.Why == influence.TooAlike && (width > 0.2 || 7*width < 0.2) {
			t.Errorf("%v wide for a day: the example does not tell the steps apart", width)
		}
	}
}
