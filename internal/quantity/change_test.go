package quantity

import "testing"

// 1 in is 25.4 mm exactly (16 CFR 500.19): 0.9 mm are 0.0354 in.
func TestShowLengthChange(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		got  Shown
		want string
	}{
		{Metric.ShowLengthChange(-0.9), "0.9 mm"}, {Metric.ShowLengthChange(0.94), "0.9 mm"}, {Metric.ShowLengthChange(-0.04), "0 mm"},
		{Imperial.ShowLengthChange(-0.9), "0.04 in"}, {Imperial.ShowLengthChange(25.4), "1 in"}, {Imperial.ShowLengthChange(0.1), "0 in"},
	} {
		if c.got.String() != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
