package stats

import "testing"

// Lightness of tuna against the score of a panel, in order of lightness
// (Hollander & Wolfe, Nonparametric Statistical Methods, 1973, p. 185, as in the
// help of R's cor.test; from memory): 26 pairs of 36 agree, so the score is 16,
// and tau is 0.444. The variance without ties is n(n-1)(2n+5)/18.
func TestTrendWithin(t *testing.T) {
	t.Parallel()
	tuna := []float64{2.5, 4.0, 2.6, 3.6, 2.8, 3.1, 5.2, 5.0, 3.8}
	one := TrendWithin([][]float64{tuna})
	if one.Score != 16 || one.Variance != 92 || one.N != 9 {
		t.Errorf("%+v", one)
	}
	within(t, "tau", one.Score/36, 0.4444444, 1e-6)
	// The exact chance is 0.1194 by the same source; the normal curve comes near.
	apart(t, "chance", one.P, 0.1194, 0.005)
	// Ties: a score of 4 of four values in two pairs has variance (156-36)/18.
	if tied := TrendWithin([][]float64{{0, 0, 1, 1}}); tied.Score != 4 || tied.Variance != 120.0/18 {
		t.Errorf("%+v", tied)
	}
	// Rows add up, and are not compared with each other.
	if two := TrendWithin([][]float64{tuna, {9}, tuna}); two.Score != 32 || two.Variance != 184 || two.N != 18 {
		t.Errorf("%+v", two)
	}
	for _, none := range [][][]float64{nil, {{1}}, {{2, 2, 2}}} {
		if got := TrendWithin(none); got.P != 1 || got.Score != 0 {
			t.Errorf("%v: %+v", none, got)
		}
	}
	if falls := TrendWithin([][]float64{{3, 3, 2, 1, 1, 0}}); falls.Score >= 0 || falls.P > 0.05 {
		t.Errorf("%+v", falls)
	}
}
