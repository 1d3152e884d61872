package plan

import (
	"context"
	"math"
	"slices"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// ladderOf is a comparison of neighbouring rungs in a vessel of 73 mm.
func ladderOf(rungs int) NamingSpec {
	s := NamingSpec{Wall: meltpool.Wall{Width: 73, Target: 73 / 25.4}, Burns: 4, Seed: 1, Spreads: SpreadsOf(tree.Default(), false)}
	for i := range rungs {
		s.Rungs = append(s.Rungs, RungAt{Ladder: 1, Wicks: 1, Rung: i + 3})
	}
	return s
}

// readings are a burn as the standings take it: every hour, to the millimetre.
func (w *world) readings(theta, rate float64) tree.Burn {
	var out tree.Burn
	d := float64(w.Wall.Width)
	for _, l := range slices.Backward(w.looks) {
		mm := math.Round(d*math.Exp(theta+usualCurve.Ahead(rate, l.hour, w.Wall.Target)) + float64(w.Reading)*w.rng.NormFloat64())
		out = append(out, meltpool.Reading{Hour: l.hour, Ratio: max(mm, 0) / d, Full: mm >= d-ruleOfWall})
	}
	return out
}

// whole plays rounds with the standings' own arithmetic, nothing cut short.
func (w *world) whole(t *testing.T, candles, rounds int) (first, near, named float64) {
	t.Helper()
	for range rounds {
		truth, best := w.truth(), math.Inf(1)
		s := tree.Series{Wall: w.Wall, Ruler: 1}
		for i, f := range truth {
			best = min(best, f.miss)
			p := tree.Pairing{Rung: w.Rungs[i].Rung}
			for range candles {
				theta := f.theta + w.Candle*w.rng.NormFloat64()
				var burns []tree.Burn
				for range w.Burns {
					burns = append(burns, w.readings(theta+w.Burn*w.rng.NormFloat64(), f.rate+w.RateBurn*w.rng.NormFloat64()))
				}
				p.Candles = append(p.Candles, burns)
			}
			s.Pairings = append(s.Pairings, p)
		}
		weighed, err := tree.NewDesk(tree.Default()).Weigh(context.Background(), []tree.Series{s})
		if err != nil {
			t.Fatal(err)
		}
		reports, err := weighed.Reports(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		rungs := reports[0].Rungs
		i := 0
		for k := range rungs {
			if rungs[k].Miss() < rungs[i].Miss() {
				i = k
			}
		}
		first += one(truth[i].miss == best) / float64(rounds)
		near += one(truth[i].miss <= best+nearMiss) / float64(rounds)
		named += one(rungs[i].Closest >= nameAt) / float64(rounds)
	}
	return first, near, named
}

func TestTry(t *testing.T) {
	for _, k := range []int{2, 4} {
		for _, n := range []int{1, 3} {
			a, b, c := newWorld(ladderOf(k)).whole(t, n, 200)
			t.Logf("%d rungs %d candles: %.3f %.3f %.3f; short %+v", k, n, a, b, c, Chances(ladderOf(k), n)[n-1])
		}
	}
	_ = journal.ID(0)
	_ = quantity.Hours(0)
}
