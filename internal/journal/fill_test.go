package journal

import (
	"math"
	"testing"

	"rimward/internal/quantity"
)

// 8 % of 100 g of wax is 8 g of oil, 108 g in all; no oil leaves wax alone; the
// parts always add up to the whole (arithmetic, by hand).
func TestSplitFill(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		filled   quantity.Grams
		load     quantity.Fraction
		wax, oil quantity.Grams
	}{{108, 0.08, 100, 8}, {250, 0, 250, 0}, {55, 0.1, 50, 5}} {
		wax, oil := SplitFill(c.filled, c.load)
		if math.Abs(float64(wax-c.wax)) > 1e-9 || math.Abs(float64(oil-c.oil)) > 1e-9 || wax+oil != c.filled {
			t.Errorf("%v at %v: %v and %v, want %v and %v", c.filled, c.load, wax, oil, c.wax, c.oil)
		}
	}
}
