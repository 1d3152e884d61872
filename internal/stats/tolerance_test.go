package stats

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// factor is a tolerance factor that must exist.
func factor(t rapid.TB, n int, share, confidence float64) float64 {
	t.Helper()
	k, err := ToleranceFactor(n, share, confidence)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// TestToleranceTable holds the factors against R 4.2.2, qt(confidence, n - 1,
// ncp = qnorm(share) * sqrt(n)) / sqrt(n): n from 2 to 50, shares and confidences
// 90, 95 and 99 %.
func TestToleranceTable(t *testing.T) {
	t.Parallel()
	const file = "tolerance_k1.csv"
	n, share, confidence, want := column(t, file, "n"), column(t, file, "p"), column(t, file, "conf"), column(t, file, "k1")
	if len(n) != 234 {
		t.Fatalf("got %d rows", len(n))
	}
	for i := range n {
		within(t, "factor", factor(t, int(n[i]), share[i], confidence[i]), want[i], 1e-6)
	}
}

// TestToleranceInPrint: the usual table at 95 % confidence, shares 90, 95 and
// 99 %, and N = 43 at 99 % confidence of NIST/SEMATECH e-Handbook of Statistical
// Methods, 7.2.6.3 (published values from memory, recomputed with R 4.2.2); and
// four factors by SciPy 1.10.1, nct.ppf, to all digits.
func TestToleranceInPrint(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		n    int
		want [3]float64
	}{
		{2, [3]float64{20.581, 26.260, 37.094}}, {3, [3]float64{6.155, 7.656, 10.553}}, {5, [3]float64{3.407, 4.203, 5.741}},
		{10, [3]float64{2.355, 2.911, 3.981}}, {20, [3]float64{1.926, 2.396, 3.295}}, {50, [3]float64{1.646, 2.065, 2.862}},
	} {
		for i, share := range []float64{0.90, 0.95, 0.99} {
			apart(t, "factor in print", factor(t, c.n, share, 0.95), c.want[i], 5e-4)
		}
	}
	apart(t, "NIST, N = 43", factor(t, 43, 0.90, 0.99), 1.8740, 5e-5)
	for _, c := range []struct {
		n                       int
		share, confidence, want float64
	}{
		{2, 0.9, 0.95, 20.581467624244947}, {10, 0.95, 0.95, 2.9109634130781665},
		{43, 0.9, 0.99, 1.8739536058511987}, {50, 0.99, 0.99, 3.1246072420216864},
	} {
		within(t, "factor", factor(t, c.n, c.share, c.confidence), c.want, 1e-12)
	}
}

// TestToleranceOfHalf: for half of all values the bound is that of their mean,
// so the factor is Student's t over the root of n (any textbook).
func TestToleranceOfHalf(t *testing.T) {
	t.Parallel()
	for n := 2; n < 40; n++ {
		for _, confidence := range []float64{0.01, 0.3, 0.5, 0.9, 0.999} {
			student := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(n - 1)}
			apart(t, "confidence of the factor", student.CDF(factor(t, n, 0.5, confidence)*math.Sqrt(float64(n))), confidence, 1e-12)
		}
	}
}

// TestToleranceTurnsOver: leaving a share above at a confidence is failing to
// leave the rest below, so the factor changes sign when both are turned over.
// The factor grows with the share and with the confidence, and comes down to
// the normal quantile as n grows.
func TestToleranceTurnsOver(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 60).Draw(t, "n")
		share, confidence := rapid.Float64Range(0.02, 0.97).Draw(t, "share"), rapid.Float64Range(0.02, 0.97).Draw(t, "confidence")
		k := factor(t, n, share, confidence)
		same(t, "turned over", factor(t, n, 1-share, 1-confidence), -k, math.Abs(k))
		if factor(t, n, share+0.01, confidence) <= k || factor(t, n, share, confidence+0.01) <= k {
			t.Fatalf("factor %v does not grow", k)
		}
	})
	within(t, "many values", factor(t, 4_000_000, 0.9, 0.95), distuv.UnitNormal.Quantile(0.9), 2e-3)
}

// TestLowerBoundByHand: 5, 6 and 7 have mean 6 and deviation 1, so at 90 and
// 95 % the bound lies 6.155 below 6 (the usual table, from memory).
func TestLowerBoundByHand(t *testing.T) {
	t.Parallel()
	b, err := LowerBound([]float64{7, 5, 6}, 0.90, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	if b.N != 3 || b.Mean != 6 || b.SD != 1 || b.Share != 0.90 || b.Confidence != 0.95 || len(b.Warnings) != 0 {
		t.Errorf("got %+v", b)
	}
	apart(t, "bound", b.Bound, 6-6.155, 5e-4)
	apart(t, "factor", b.Factor, 6.155, 5e-4)
}

func TestLowerBoundOfLittle(t *testing.T) {
	t.Parallel()
	t.Run("none and one have no bound", func(t *testing.T) {
		t.Parallel()
		for _, sample := range [][]float64{nil, {6.3}} {
			if _, err := LowerBound(sample, 0.9, 0.95); !errors.Is(err, ErrTooFew) {
				t.Errorf("%v: got error %v", sample, err)
			}
		}
		for _, n := range []int{-1, 0, 1} {
			if _, err := ToleranceFactor(n, 0.9, 0.95); !errors.Is(err, ErrTooFew) {
				t.Errorf("%d: got error %v", n, err)
			}
		}
	})
	t.Run("two have a bound and a doubt", func(t *testing.T) {
		t.Parallel()
		b, err := LowerBound([]float64{6, 7}, 0.9, 0.95)
		if err != nil || !slices.Equal(b.Warnings, []string{"fewer than three values: the bound lies very far below them"}) {
			t.Fatalf("got %+v, %v", b, err)
		}
		apart(t, "bound", b.Bound, 6.5-20.581*math.Sqrt(0.5), 5e-4)
	})
	t.Run("equal values are their own bound, with a doubt", func(t *testing.T) {
		t.Parallel()
		b, err := LowerBound([]float64{6.3, 6.3, 6.3}, 0.9, 0.95)
		if err != nil || b.Bound != 6.3 || !slices.Equal(b.Warnings, []string{"all values are equal: how far others may lie from them is not known"}) {
			t.Errorf("got %+v, %v", b, err)
		}
	})
	t.Run("what cannot be is an error of the caller", func(t *testing.T) {
		t.Parallel()
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1.7e308} {
			if b, err := LowerBound([]float64{-1.7e308, bad, 1}, 0.9, 0.95); err == nil || errors.Is(err, ErrTooFew) {
				t.Errorf("%v: got %+v", bad, b)
			}
		}
		for _, bad := range []float64{0, 1, -0.5, 1.5, 1e-12, 1 - 1e-12, math.NaN(), math.Inf(1)} {
			if k, err := ToleranceFactor(5, bad, 0.95); err == nil {
				t.Errorf("share %v: got %v", bad, k)
			}
			if k, err := ToleranceFactor(5, 0.9, bad); err == nil {
				t.Errorf("confidence %v: got %v", bad, k)
			}
		}
	})
	t.Run("shares and confidences near their ends still meet their meaning", func(t *testing.T) {
		t.Parallel()
		for _, c := range [][2]float64{{1e-9, 0.5}, {1 - 1e-9, 0.5}, {0.5, 1e-9}, {0.9, 1 - 1e-9}, {1 - 1e-9, 1 - 1e-9}} {
			for _, n := range []int{2, 7, 3000} {
				k := factor(t, n, c[0], c[1])
				root := math.Sqrt(float64(n))
				apart(t, "confidence", newNoncentralT(n-1, distuv.UnitNormal.Quantile(c[0])*root).below(k*root), c[1], 1e-12)
			}
		}
	})
}

func TestLowerBoundMovesWithItsValues(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-1e3, 1e3), 2, 12).Draw(t, "x")
		by, scale := rapid.Float64Range(-1e4, 1e4).Draw(t, "by"), rapid.Float64Range(0.01, 100).Draw(t, "scale")
		b, err := LowerBound(x, 0.9, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		moved, err := LowerBound(mapped(rapid.Permutation(x).Draw(t, "order"), func(v float64) float64 { return v*scale + by }), 0.9, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		same(t, "bound", moved.Bound, b.Bound*scale+by, math.Abs(b.Bound*scale)+math.Abs(by)+1e3*scale)
	})
}

// TestBoundsHoldAtTheirStatedRate draws samples of five from a fixed seed: nine
// values of ten lie above the bound in nineteen samples of twenty.
func TestBoundsHoldAtTheirStatedRate(t *testing.T) {
	t.Parallel()
	const rounds = 4000
	random := rand.New(rand.NewPCG(3, 4))
	k := factor(t, 5, 0.9, 0.95)
	var held float64
	for range rounds {
		var sample []float64
		for range 5 {
			sample = append(sample, random.NormFloat64())
		}
		if s := Summarise(sample); distuv.UnitNormal.Survival(s.Mean-k*s.SD) >= 0.9 {
			held++
		}
	}
	// Four standard errors of a share of one in twenty: 4 sqrt(0.05 x 0.95 / 4000).
	apart(t, "bounds held", held/rounds, 0.95, 0.0138)
}
