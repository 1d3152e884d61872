package stats

import (
	"math"
	"testing"
)

// TestSearches: where x^3 is 2, where cos is least, and equal ratios by hand.
func TestSearches(t *testing.T) {
	t.Parallel()
	within(t, "cube root of 2", crossing(func(x float64) float64 { return x*x*x - 2 }, 0, 9), math.Cbrt(2), 1e-15)
	apart(t, "least cosine", lowest(math.Cos, 1, 5.5), math.Pi, 2e-8)
	apart(t, "least at the low end", lowest(math.Exp, 1, 3), 1, 1e-10)
	apart(t, "least at the high end", lowest(func(x float64) float64 { return -x }, 1, 3), 3, 1e-10)
	for i, v := range spaced(0.01, 100, 5) {
		within(t, "equal ratios", v, math.Pow(10, float64(i-2)), 1e-14)
	}
	if got := crossing(func(float64) float64 { return -1 }, 3, 3); got != 3 {
		t.Errorf("no room to search: got %v", got)
	}
}
