package quantity_test

import (
	"testing"

	"rimward/internal/quantity"
)

// 25.4 mm are an inch (exactly; 16 CFR 500.19).
func TestColumnLength(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		u    quantity.Units
		mm   quantity.Millimetres
		want string
	}{
		{quantity.Metric, 78, "78.0"}, {quantity.Metric, 81.26, "81.3"}, {quantity.Imperial, 76.2, "3"}, {quantity.Imperial, 73.025, "2 7/8"},
	} {
		if got := c.u.ColumnLength(c.mm); got != c.want {
			t.Errorf("%v mm: %q, want %q", float64(c.mm), got, c.want)
		}
	}
}

func TestChances(t *testing.T) {
	t.Parallel()
	for c, want := range map[quantity.Chance]string{0: "under 0.01", 0.004: "under 0.01", 0.005: "0.01", 0.5: "0.50", 0.994: "0.99", 0.995: "over 0.99", 1: "over 0.99"} {
		if got := c.String(); got != want {
			t.Errorf("%v: %q, want %q", float64(c), got, want)
		}
	}
	if got := quantity.Closeness(98).String(); got != "98.0" {
		t.Errorf("closeness: %q", got)
	}
	for n, want := range map[int]string{1: "1st", 2: "2nd", 3: "3rd", 4: "4th", 11: "11th", 12: "12th", 13: "13th", 21: "21st", 111: "111th"} {
		if got := quantity.Ordinal(n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}
