package quantity

import "testing"

// A scale shows all decimals of its step (arithmetic; 1 oz is 28.349523125 g,
// 16 CFR 500.19 and the definition of the pound).
func TestAMassAsTheScaleShowsIt(t *testing.T) {
	for _, c := range []struct {
		u       Units
		x, step Grams
		want    string
	}{
		{Metric, 286.687, 1, "287 g"},
		{Metric, 286.7, 0.1, "286.7 g"},
		{Metric, 286, 0.1, "286.0 g"},
		{Metric, 286.65, 0.05, "286.65 g"},
		{Metric, 285, 5, "285 g"},
		{Imperial, 28.349523125 * 9.35, 28.349523125 * 0.05, "9.35 oz"},
		{Imperial, 28.349523125 * 9, 28.349523125 * 0.1, "9.0 oz"},
		{Imperial, 287, 1, "287 g"},                                // a scale of whole grams
		{Metric, 28.349523125 * 9.4, 28.349523125 * 0.1, "9.4 oz"}, // a scale of tenths of an ounce
		{Metric, 1.23456, 1.0 / 3, "1.235 g"},                      // a step of neither kind
	} {
		if got := c.u.ShowWeighed(c.x, c.step).String(); got != c.want {
			t.Errorf("%v g in steps of %v: %q, want %q", float64(c.x), float64(c.step), got, c.want)
		}
	}
}
