package influence_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/stats"
)

// batches pours candles at the loads given, one pour for each: each pour has a
// chance of its own, with an SD, and its candles scatter by 2 %; neither load nor
// cure does anything. cure says how long the k-th candle of a pour was cured; the
// share of candles that stand at the wall, and so are open, grows with rise.
func batches(seed uint64, loads []float64, sd, rise float64, cure func(pour, k int) float64) []influence.Candle {
	rng := rand.New(rand.NewPCG(seed*0x9e3779b97f4a7c15, 7))
	var out []influence.Candle
	for p, load := range loads {
		chance := sd * rng.NormFloat64()
		for k := range 6 {
			y := rise - 0.2 + 0.04*float64(k%3) + chance + 0.02*rng.NormFloat64()
			c := influence.Candle{
				Code: fmt.Sprint(len(out)), Stratum: influence.Stratum{Vessel: 1, Wick: journal.ID(k%3 + 1), Fragrance: 1, Wicks: 1},
				Pour: journal.ID(p + 1), Wall: 76, Burns: 2, Width: stats.Censored{Low: y, High: y},
				Values: map[influence.Factor]float64{influence.Load: load, influence.PouredAt: 60, influence.Warmed: 0, influence.Cured: cure(p, k)},
			}
			if y > 0 {
				c.Width = stats.Censored{Low: 0, High: 2}
			}
			out = append(out, c)
		}
	}
	return out
}

func alike(int, int) float64 { return 7 }

// sides are loads of 6 and 10 %, so many pours of each.
func sides(low, high int) []float64 {
	var out []float64
	for i := range low + high {
		out = append(out, 0.06)
		if i >= low {
			out[i] = 0.10
		}
	}
	return out
}

// covered is the share of worlds whose interval holds nothing, the truth.
func covered(f influence.Factor, worlds uint64, of func(uint64) []influence.Candle) (share float64, n int) {
	held := 0
	for seed := range worlds {
		for _, e := range influence.Explain(of(seed)).Effects {
			if e.Factor == f {
				n++
				if e.Low <= 0 && 0 <= e.High {
					held++
				}
			}
		}
	}
	return float64(held) / float64(n), n
}

// However much of the scatter belongs to the pours, eight intervals in ten hold
// the truth. A share of 500 has a standard error of 0.018; the band is 0.75 to
// 0.87, as an interval may be somewhat too careful. Where pools stand at the wall,
// up to half of the worlds cannot be told at all.
func TestIntervalsHoldWhereCandlesShareAPour(t *testing.T) {
	if testing.Short() {
		t.Skip("many worlds, one after the other: nothing for the race detector")
	}
	t.Parallel()
	week := func(p, k int) float64 { return float64(7 + 7*(k/3)) }
	between := func(p, _ int) float64 { return float64(7 + 7*(p/2%2)) }
	for name, c := range map[string]struct {
		factor influence.Factor
		loads  []float64
		rise   float64
		cure   func(int, int) float64
	}{
		"load, three pours each":            {influence.Load, sides(3, 3), 0, alike},
		"load, six pours each":              {influence.Load, sides(6, 6), 0, alike},
		"load, two and four":                {influence.Load, sides(2, 4), 0, alike},
		"load, three each, some at wall":    {influence.Load, sides(3, 3), 0.15, alike},
		"load, beside cure between":         {influence.Load, sides(4, 4), 0, between},
		"cure, inside pours":                {influence.Cured, sides(3, 3), 0, week},
		"cure, inside three pours":          {influence.Cured, sides(1, 2), 0, week},
		"cure, between pours":               {influence.Cured, sides(4, 4), 0, between},
		"cure, inside, a third at the wall": {influence.Cured, sides(4, 4), 0.15, week},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, sd := range []float64{0, 0.01, 0.02, 0.03} {
				share, n := covered(c.factor, 500, func(seed uint64) []influence.Candle { return batches(seed, c.loads, sd, c.rise, c.cure) })
				t.Logf("pours differ by %.0f %%: %.3f of %d", 100*sd, share, n)
				if n < 250 || share < 0.75 || share > 0.87 {
					t.Errorf("pours differ by %.0f %%: %.3f of %d intervals hold the truth", 100*sd, share, n)
				}
			}
		})
	}
}

// Two, four or a lopsided nine pours are too few, whatever their candles say.
func TestTooFewPoursAreSaid(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ low, high, pours, lacks int }{{1, 1, 2, 3}, {2, 2, 4, 1}, {1, 5, 6, 1}, {8, 1, 9, 1}, {2, 8, 10, 1}} {
		a := influence.Explain(batches(1, sides(c.low, c.high), 0.01, 0, alike))
		if len(a.Effects) != 0 {
			t.Errorf("%+v: told %+v", c, a.Effects)
			continue
		}
		if u := a.Untold[0]; u.Factor != influence.Load || u.Why != influence.TooFewPours || u.Pours != c.pours || u.Lacks != c.lacks {
			t.Errorf("%+v: %+v", c, u)
		}
	}
	for _, c := range []struct{ low, high int }{{2, 3}, {2, 4}, {4, 9}} {
		a := influence.Explain(batches(1, sides(c.low, c.high), 0.01, 0, alike))
		if len(a.Effects) != 1 || a.Effects[0].Batches != c.low+c.high || a.Effects[0].Inside {
			t.Errorf("%+v: %+v", c, a)
			continue
		}
		t.Logf("%v: %.2f degrees of freedom", c, a.Effects[0].DF)
	}
}

// By hand: six pours of three pairings with two candles each, cure 7 and 14 days
// in each pour and pairing: 36 candles less 18 pairs and one slope leave 17
// degrees of freedom, and the estimate is the mean difference of the pairs, over
// the week, whatever the pours did.
func TestCureIsComparedInsidePours(t *testing.T) {
	t.Parallel()
	cs := batches(2, sides(3, 3), 0.03, 0, func(_, k int) float64 { return float64(7 + 7*(k/3)) })
	sum := 0.0
	for i := range cs {
		sum += cs[i].Width.Low * (cs[i].Values[influence.Cured]/3.5 - 3)
	}
	a := influence.Explain(cs)
	e := a.Effects[len(a.Effects)-1]
	if e.Factor != influence.Cured || !e.Inside || e.DF != 17 || e.Batches != 6 || e.Candles != 36 || e.Pairings != 3 || math.Abs(e.Estimate-sum/18/7) > 1e-9 {
		t.Errorf("%+v, want %v", e, sum/18/7)
	}
	alone := influence.Explain(change(cs, func(i int, c *influence.Candle) {
		if i%6 > 2 {
			c.Pour += 100
		}
	}))
	if e := alone.Effects[len(alone.Effects)-1]; e.Inside || e.Batches != 12 || e.DF > 12 {
		t.Errorf("each cure poured by itself: %+v", e)
	}
}
