package tree_test

import (
	"fmt"
	"math"
	"testing"

	"rimward/internal/standings/tree"
)

// A ladder of two tested rungs and one between them that was not: three
// candles, four burns, few values of each spread.
func TestAgainstPlainSums(t *testing.T) {
	t.Parallel()
	p := tree.Default()
	p.Shapes = []tree.Weighted{{Value: 0.85, Weight: 0.4}, {Value: 1, Weight: 0.6}}
	p.Burn = []tree.Weighted{{Value: 0.03, Weight: 0.5}, {Value: 0.06, Weight: 0.5}}
	p.Candle = []tree.Weighted{{Value: 0.05, Weight: 0.7}, {Value: 0.09, Weight: 0.3}}
	p.Slope = []tree.Weighted{{Value: 0.04, Weight: 0.5}, {Value: 0.09, Weight: 0.5}}
	p.Irregular = []tree.Weighted{{Value: 0.03, Weight: 0.6}, {Value: 0.1, Weight: 0.4}}
	const d = 80
	s := glass(d,
		tree.Pairing{Rung: 3, Candles: [][]tree.Burn{
			{{mm(d, 1, 47), mm(d, 2, 66), full(3)}, {mm(d, 1.1, 45), mm(d, 2, 63), mm(d, 3, 74), mm(d, 4, 78)}},
			{{mm(d, 1, 50), mm(d, 2, 69), full(3.2)}},
		}},
		tree.Pairing{Rung: 4},
		tree.Pairing{Rung: 5, Candles: [][]tree.Burn{{{mm(d, 0.8, 52), full(2)}}}},
	)
	want := newSlow(p, s, 4)
	want.run()
	for i, f := range alone(t, p, s) {
		r, at := want.rungs[i], func(what string) string { return fmt.Sprintf("rung %d, %s", f.Rung, what) }
		mean := r.mean / want.total
		near(t, at("theta"), f.Theta, mean, 1e-3)
		near(t, at("sd"), f.ThetaSD, math.Sqrt(r.square/want.total-mean*mean), 1e-3)
		near(t, at("full by the hour"), f.FullByTarget, r.full/want.total, 1e-3)
		near(t, at("full before half"), f.FullBeforeHalf, r.early/want.total, 1e-3)
		near(t, at("miss"), f.Miss(), r.miss/want.total, 1e-3)
		near(t, at("deviation of the miss"), f.MissSD, math.Sqrt(r.missSquare/want.total-math.Pow(r.miss/want.total, 2)), 2e-3)
		near(t, at("never"), f.Never, r.never/want.total, 1e-3)
		near(t, at("closest"), f.Closest, want.closer[i], 1e-3)
		near(t, at("hours to full"), f.Full.P50, want.median(i), 2e-3)
	}
}

// three burns of two candles in 80 mm, one rate for the pairing, no ladder.
func lone() (tree.Prior, tree.Series) {
	p := plain()
	p.Error, p.Slip, p.Level, p.Irregular = 1.5, 0.01, 1e3, only(1e-3)
	p.RateSeries = 0.4
	const d = 80
	return p, glass(d, tree.Pairing{Rung: 1, Candles: [][]tree.Burn{
		{{mm(d, 1, 47), mm(d, 2, 66), full(3), full(4)}, {mm(d, 1, 45), mm(d, 2, 63), mm(d, 3, 74), mm(d, 4, 78)}},
		{{mm(d, 1, 50), mm(d, 2, 70), full(3), full(4)}},
	}})
}

// The method's own record of this case: six million draws and a grid both gave
// a mean of -0.0065, a deviation of 0.0531 and 0.0529, chances of 0.470 on
// target and 0.472 full by the hour.
const drawnTheta, drawnSD, drawnTarget, drawnFull = -0.0065, 0.0530, 0.4701, 0.4723

func TestBruteForce(t *testing.T) {
	t.Parallel()
	p, s := lone()
	f := alone(t, p, s)[0]
	t.Run("comes near what was drawn", func(t *testing.T) {
		t.Parallel()
		// Rates further apart (0.15 for 0.13) than what is known of the rate
		// (0.1) move the mean by 8e-4 and chances by 35e-4; counting as full
		// what is within half a ruler step, and not a quarter as the draws
		// seem to have done, moves them by 12e-4 and 50e-4 the other way.
		near(t, "theta", f.Theta, drawnTheta, 1e-3)
		near(t, "sd", f.ThetaSD, drawnSD, 5e-4)
		near(t, "on target", f.OnTarget, drawnTarget, 4e-3)
		near(t, "full by the hour", f.FullByTarget, drawnFull, 4e-3)
	})
	t.Run("is the plain sum on its own grid", func(t *testing.T) {
		t.Parallel()
		w := newSlow(p, s, 1)
		w.run()
		theta, sd, target, full := w.brute()
		near(t, "theta", f.Theta, theta, 2e-4)
		near(t, "sd", f.ThetaSD, sd, 2e-4)
		near(t, "on target", f.OnTarget, target, 5e-4)
		near(t, "full by the hour", f.FullByTarget, full, 5e-4)
	})
	t.Run("the plain sum is what was drawn, on the grid of the draws", func(t *testing.T) {
		t.Parallel()
		w := newSlow(p, s, 1)
		w.step, w.half, w.flush = 0.13, 6, 0.25
		w.run()
		theta, sd, target, full := w.brute()
		near(t, "theta", theta, drawnTheta, 3e-4)
		near(t, "sd", sd, drawnSD, 3e-4)
		near(t, "on target", target, drawnTarget, 3e-4)
		near(t, "full by the hour", full, drawnFull, 3e-4)
	})
}

func (w *slow) brute() (theta, sd, target, full float64) {
	r := w.rungs[0]
	theta = r.mean / w.total
	return theta, math.Sqrt(r.square/w.total - theta*theta), (r.full - r.early) / w.total, r.full / w.total
}
