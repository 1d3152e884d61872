package form_test

import (
	"net/url"
	"slices"
	"testing"
	"time"

	"rimward/internal/form"
	"rimward/internal/quantity"
)

// Levels that were typed in both scales come back from their box as they are:
// no number takes the letter of its neighbour. 150 °F are 65 5/9 °C by the
// definition of the scale.
func TestTemperaturesComeBackFromTheirBox(t *testing.T) {
	t.Parallel()
	for _, xs := range [][]quantity.Celsius{{60, 65}, {60, 65 + 5.0/9}, {65 + 5.0/9, 60}, {65.5, 60 + 5.0/9, 71}} {
		for _, u := range []quantity.Units{quantity.Metric, quantity.Imperial} {
			text := u.EditTemperatures(xs...)
			p := form.NewParser(url.Values{"pour_ats": {text}}, u, time.UTC)
			if got := p.Temperatures("pour_ats"); !slices.Equal(got, xs) {
				t.Errorf("%v is written %q and read back as %v", xs, text, got)
			}
		}
	}
}
