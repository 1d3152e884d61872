package quantity_test

import (
	"math"
	"testing"

	"rimward/internal/quantity"
)

// One cubic foot is 0.028316847 m³ (NIST SP 811, appendix B.8: 2.831 685 E-02);
// the bedroom of 10 to 15 m² with 25 to 35 m³ is common practice, no source.
func TestRoomsAreReadAsAHandWritesThem(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]float64{
		"30": 30, "30 m3": 30, "30 m³": 30, "30m^3": 30, "27,5 cubic metres": 27.5,
		"1000 cu ft": 28.316846592, "1000 ft³": 28.316846592, "4 x 3 x 2.5 m": 30, "4×3×2,5": 30, "10 x 10 x 10 ft": 28.316846592,
	} {
		got, err := quantity.Metric.ParseRoom(text)
		if err != nil || math.Abs(float64(got)-want) > 1e-6 {
			t.Errorf("%q reads as %v (%v), want %v", text, float64(got), err, want)
		}
	}
	for text, want := range map[string]float64{"1000": 28.316846592, "10 x 10 x 10": 28.316846592, "30 m3": 30, "3x3x3 m": 27} {
		got, err := quantity.Imperial.ParseRoom(text)
		if err != nil || math.Abs(float64(got)-want) > 1e-6 {
			t.Errorf("in feet %q reads as %v (%v), want %v", text, float64(got), err, want)
		}
	}
	for _, text := range []string{"", "NaN", "Inf", "1e99", "large", "30 m2", "30 mm", "4 x 3", "4 x 3 x 2 x 1", "99999999 x 99999999 x 99999999 m", ".,x.x. m"} {
		if got, err := quantity.Metric.ParseRoom(text); err == nil {
			t.Errorf("%q reads as %v", text, got)
		}
	}
}

func TestRoomsAreShownAndEdited(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		u     quantity.Units
		x     quantity.CubicMetres
		shown string
	}{{quantity.Metric, 30, "30 m³"}, {quantity.Metric, 27.44, "27.4 m³"}, {quantity.Imperial, 28.316846592, "1000 cu ft"}} {
		if got := c.u.ShowRoom(c.x).String(); got != c.shown {
			t.Errorf("%v is shown as %q, want %q", float64(c.x), got, c.shown)
		}
		back, err := c.u.ParseRoom(c.u.EditRoom(c.x))
		if err != nil || math.Abs(float64(back-c.x)) > 1e-9 {
			t.Errorf("%v comes back from the box as %v (%v)", float64(c.x), float64(back), err)
		}
	}
}

func TestMinutesAreRead(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]quantity.Minutes{"90": 90, "90 min": 90, "1 h 30": 90, "1:30": 90, "2 h": 120, "0": 0, "1 h 40": 100} {
		if got, err := quantity.ParseMinutes(text); err != nil || got != want {
			t.Errorf("%q reads as %v (%v), want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"NaN", "a while", "90 mm", "1 h 75"} {
		if got, err := quantity.ParseMinutes(text); err == nil {
			t.Errorf("%q reads as %v", text, got)
		}
	}
}
