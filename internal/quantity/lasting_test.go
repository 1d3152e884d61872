package quantity_test

import (
	"testing"

	"rimward/internal/quantity"
)

// A label's time is rounded down; 16 CFR 500.19: 1 in is 25.4 mm.
func TestShowWhatLasts(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, got, want string }{
		{"down", quantity.Hours(31.99).WholeDown().String(), "31 h"},
		{"whole stays whole", quantity.Hours(32).WholeDown().String(), "32 h"},
		{"whole but for rounding", quantity.Hours(0.1 * 3 * 100).WholeDown().String(), "30 h"},
		{"a hair below", quantity.Hours(32 - 1e-12).WholeDown().String(), "32 h"},
		{"never below nothing", quantity.Hours(-4).WholeDown().String(), "0 h"},
		{"watts", quantity.Watts(76.65).Shown().String(), "77 W"},
		{"fall in mm", quantity.Metric.ShowFall(1.535).String(), "1.5 mm/h"},
		{"fall in inches", quantity.Imperial.ShowFall(2.54).String(), "0.1 in/h"},
		{"fine rate", quantity.GramsPerHour(-0.094).FineShown().String(), "-0.09 g/h"},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, c.got, c.want)
		}
	}
}

// An hour has 60 minutes, so half an hour is as near to the one as to the
// other; halves go up.
func TestNearestHour(t *testing.T) {
	t.Parallel()
	for minutes, want := range map[float64]int{0: 0, 29: 0, 30: 1, 89: 1, 90: 2, 600: 10} {
		if got := quantity.Hours(minutes / 60).Nearest(); got != want {
			t.Errorf("%v min are nearest to %d h, want %d", minutes, got, want)
		}
	}
}

func TestNearestStep(t *testing.T) {
	t.Parallel()
	for h, want := range map[quantity.Hours]quantity.Hours{0.98: 1, 1.24: 1, 1.25: 1.5, 1.7: 1.5, 0.2: 0, -0.3: -0.5} {
		if got := h.ToNearest(0.5); got != want {
			t.Errorf("%v is nearest to %v, want %v", float64(h), float64(got), float64(want))
		}
	}
}
