package quantity_test

import (
	"math"
	"testing"

	"rimward/internal/quantity"
)

// 16 CFR 500.19: 1 in is 25.4 mm, 1 lb is 453.59237 g (16 oz).
func TestAxesStandInThePersonsUnit(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"millimetres as they are", quantity.InMillimetres.Of(76.2), 76.2},
		{"inches", quantity.InInches.Of(76.2), 3},
		{"back from inches", float64(quantity.InInches.From(3)), 76.2},
		{"back from millimetres", float64(quantity.InMillimetres.From(3)), 3},
		{"grams as they are", quantity.InGrams.Of(182), 182},
		{"a pound is 16 ounces", quantity.InOunces.Of(453.59237), 16},
		{"back from ounces", float64(quantity.InOunces.From(16)), 453.59237},
		{"degrees Celsius as they are", quantity.InCelsius.Of(60), 60},
		{"water boils at 212 °F (NIST SP 811, B.8)", quantity.InFahrenheit.Of(100), 212},
		{"back from Fahrenheit", float64(quantity.InFahrenheit.From(140)), 60},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			if math.Abs(c.got-c.want) > 1e-9 {
				t.Errorf("got %v, want %v", c.got, c.want)
			}
		})
	}
}

func TestHoursStandInAColumn(t *testing.T) {
	t.Parallel()
	if got := quantity.Hours(1.25).Column() + " " + quantity.Hours(4).Column(); got != "1.25 4.00" {
		t.Errorf("got %q", got)
	}
}
