package stats

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// TestWilson holds the interval against Newcombe, Statistics in Medicine 17
// (1998) 857-872, table I, and R 4.2.2 prop.test(correct = FALSE) for small n.
func TestWilson(t *testing.T) {
	t.Parallel()
	const file = "binomial_intervals.csv"
	x, n := column(t, file, "x"), column(t, file, "n")
	lows, highs := column(t, file, "wilson_lo"), column(t, file, "wilson_hi")
	for i := range x {
		low, high := WilsonInterval(int(x[i]), int(n[i]), 0.95)
		apart(t, "low", low, lows[i], 1e-6)
		apart(t, "high", high, highs[i], 1e-6)
	}
	for _, c := range []struct {
		k, n      int
		low, high float64 // as the table prints them
	}{{81, 263, 0.2553, 0.3662}, {15, 148, 0.0624, 0.1605}, {0, 20, 0, 0.1611}, {1, 29, 0.0061, 0.1718}} {
		low, high := WilsonInterval(c.k, c.n, 0.95)
		apart(t, "low in print", low, c.low, 5e-5)
		apart(t, "high in print", high, c.high, 5e-5)
	}
}

func TestWilsonAtItsEnds(t *testing.T) {
	t.Parallel()
	if low, high := WilsonInterval(0, 0, 0.95); low != 0 || high != 1 {
		t.Errorf("nothing tried: got %v to %v, want 0 to 1", low, high)
	}
	for n := 1; n < 200; n++ {
		for k := range n + 1 {
			low, high := WilsonInterval(k, n, 0.95)
			share := float64(k) / float64(n)
			if low < 0 || high > 1 || low > share+1e-12 || high < share-1e-12 {
				t.Fatalf("%d of %d: %v to %v", k, n, low, high)
			}
			mirrorLow, mirrorHigh := WilsonInterval(n-k, n, 0.95)
			apart(t, "mirrored low", low, 1-mirrorHigh, 1e-12)
			apart(t, "mirrored high", high, 1-mirrorLow, 1e-12)
		}
	}
}

// TestClopperPearson holds the interval against R 4.2.2 binom.test, among them
// the rows of Newcombe, Statistics in Medicine 17 (1998) 857-872, table I
// (published values from memory, recomputed with R 4.2.2).
func TestClopperPearson(t *testing.T) {
	t.Parallel()
	const file = "binomial_intervals.csv"
	x, n := column(t, file, "x"), column(t, file, "n")
	lows, highs := column(t, file, "cp_lo"), column(t, file, "cp_hi")
	for i := range x {
		low, high := ClopperPearsonInterval(int(x[i]), int(n[i]), 0.95)
		apart(t, "low", low, lows[i], 1e-6)
		apart(t, "high", high, highs[i], 1e-6)
	}
	for _, c := range []struct {
		k, n      int
		low, high float64 // as the table prints them
	}{{81, 263, 0.2527, 0.3676}, {15, 148, 0.0578, 0.1617}, {0, 20, 0, 0.1684}, {1, 29, 0.0009, 0.1776}} {
		low, high := ClopperPearsonInterval(c.k, c.n, 0.95)
		apart(t, "low in print", low, c.low, 5e-5)
		apart(t, "high in print", high, c.high, 5e-5)
	}
}

// TestClopperPearsonByItsMeaning: at each end the count seen, or one farther
// out, has exactly the chance of one tail; with none or all seen the ends have
// closed forms (Clopper & Pearson, Biometrika 26:404-413, 1934).
func TestClopperPearsonByItsMeaning(t *testing.T) {
	t.Parallel()
	for n := 1; n <= 60; n++ {
		low, high := ClopperPearsonInterval(0, n, 0.9)
		if low != 0 {
			t.Errorf("none of %d: low end %v", n, low)
		}
		apart(t, "none of n", high, 1-math.Pow(0.05, 1/float64(n)), 1e-12)
		low, high = ClopperPearsonInterval(n, n, 0.9)
		if high != 1 {
			t.Errorf("all of %d: high end %v", n, high)
		}
		apart(t, "all of n", low, math.Pow(0.05, 1/float64(n)), 1e-12)
		for k := 1; k < n; k++ {
			low, high := ClopperPearsonInterval(k, n, 0.9)
			atLow, atHigh := distuv.Binomial{N: float64(n), P: low}, distuv.Binomial{N: float64(n), P: high}
			apart(t, "so many or more at the low end", 1-atLow.CDF(float64(k-1)), 0.05, 1e-9)
			apart(t, "so many or fewer at the high end", atHigh.CDF(float64(k)), 0.05, 1e-9)
		}
	}
}

func TestSharesThatCannotBe(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		k, n  int
		level float64
	}{{0, 0, 0.95}, {-1, 4, 0.95}, {5, 4, 0.95}, {0, -3, 0.95}, {1, 2, 0}, {1, 2, 1}, {1, 2, math.NaN()}, {1, 2, -4}} {
		if low, high := WilsonInterval(c.k, c.n, c.level); low != 0 || high != 1 {
			t.Errorf("Wilson, %+v: %v to %v, want 0 to 1", c, low, high)
		}
		if low, high := ClopperPearsonInterval(c.k, c.n, c.level); low != 0 || high != 1 {
			t.Errorf("Clopper-Pearson, %+v: %v to %v, want 0 to 1", c, low, high)
		}
	}
}
