package quantity_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/quantity"
)

// Pairs of ASTM practice: 60 °C is 140 °F, 54.4 °C is 130 °F, and a difference
// of 1.1 °C is one of 2 °F. 16 CFR 500.19: 1 oz 28.3495 g, 1 lb 453.592 g,
// 1 fl oz 29.5735 mL, 1 in 25.4 mm.
func TestShowInBothSystems(t *testing.T) {
	t.Parallel()
	m, i := quantity.Metric, quantity.Imperial
	for _, c := range []struct{ name, got, want string }{
		{"60 °C", i.ShowTemperature(60).String(), "140 °F"},
		{"54.4 °C", i.ShowTemperature(54.4).String(), "130 °F"},
		{"difference of 1.1 °C", i.ShowTemperatureDifference(1.1).String(), "2 °F"},
		{"difference in °C", m.ShowTemperatureDifference(1.1).String(), "1.1 °C"},
		{"freezing", i.ShowTemperature(0).String(), "32 °F"},
		{"tenths of °C", m.ShowTemperature(65.55).String(), "65.5 °C"},
		{"whole °C", m.ShowTemperature(65).String(), "65 °C"},
		{"an inch", i.ShowLength(25.4).String(), "1 in"},
		{"inch fraction", i.ShowLength(73).String(), "2 7/8 in"},
		{"sixteenths", i.ShowLength(25.4 * 3 / 16).String(), "3/16 in"},
		{"fraction carried up", i.ShowLength(25.4 * 1.99).String(), "2 in"},
		{"nothing in inches", i.ShowLength(0.1).String(), "0 in"},
		{"below nothing in inches", i.ShowLength(-0.1).String(), "0 in"},
		{"minus an inch and a half", i.ShowLength(-38.1).String(), "-1 1/2 in"},
		{"tenths of a mm", m.ShowLength(73.025).String(), "73 mm"},
		{"half a mm", m.ShowLength(73.5).String(), "73.5 mm"},
		{"a pound", i.ShowMass(453.592).String(), "16 oz"},
		{"an ounce", i.ShowMass(28.3495).String(), "1 oz"},
		{"1 g", i.ShowMass(1).String(), "0.04 oz"},
		{"heavy", m.ShowMass(182.4).String(), "182 g"},
		{"light", m.ShowMass(18.24).String(), "18.2 g"},
		{"light and whole", m.ShowMass(18).String(), "18 g"},
		{"8 fl oz", i.ShowVolume(236.588).String(), "8 fl oz"},
		{"1 fl oz", m.ShowVolume(29.5735).String(), "30 mL"},
		{"small volume", m.ShowVolume(2.25).String(), "2.2 mL"},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, c.got, c.want)
		}
	}
}

func TestShowTheRest(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ got, want string }{
		{quantity.Fraction(0.08).Percent().String(), "8 %"},
		{quantity.Fraction(0.08 / 1.08).Percent().String(), "7.4 %"}, // 8 of 108
		{quantity.Fraction(0.07).String(), "7 %"},
		{quantity.GramsPerHour(6.3).Shown().String(), "6.3 g/h"},
		{quantity.GramsPerMillilitre(0.9).Shown().String(), "0.9 g/mL"},
		{quantity.KilojoulesPerGram(43.8).Shown().String(), "43.8 kJ/g"},
		{quantity.Seconds(24.4).Shown().String(), "24 s"},
		{quantity.Days(14).Shown().String(), "14 days"},
		{quantity.Days(1).Shown().String(), "1 day"},
		{quantity.Hours(2.25).Decimal().String(), "2.2 h"},
		{quantity.Millimetres(73.5).String(), "73.5 mm"},
		{quantity.Grams(182).String(), "182 g"},
		{quantity.Celsius(-5).String(), "-5 °C"},
		{quantity.Millilitres(240).String(), "240 mL"},
		{quantity.GramsPerHour(6.04).String(), "6 g/h"},
		{quantity.Shown{Number: "2 h 12"}.String(), "2 h 12"},
		{quantity.InInches.Word() + quantity.InOunces.Word() + quantity.InFahrenheit.Word() + quantity.InFluidOunces.Word(), "inoz°Ffl oz"},
		{quantity.InMillimetres.Word() + quantity.InGrams.Word() + quantity.InCelsius.Word() + quantity.InMillilitres.Word(), "mmg°CmL"},
	} {
		if diff := cmp.Diff(c.want, c.got); diff != "" {
			t.Errorf("shown (-want +got):\n%s", diff)
		}
	}
}

func TestClock(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		h    quantity.Hours
		want string
	}{
		{2.2, "2 h 12"}, {0.8, "48 min"}, {3, "3 h 00"}, {0, "0 min"}, {1, "1 h 00"}, {59.99 / 60, "59 min"}, {2 + 5.0/60, "2 h 05"},
		{-0.5, "-30 min"}, {-1.5, "-1 h 30"}, {-0.001, "0 min"}, {quantity.Hours(1) / 3, "20 min"}, {26, "26 h 00"},
	} {
		if got := c.h.Clock(); got != c.want {
			t.Errorf("Hours(%v).Clock() = %q, want %q", float64(c.h), got, c.want)
		}
	}
}

func TestNumber(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{8, 1, "8"}, {8.04, 1, "8"}, {8.06, 1, "8.1"}, {-0.04, 1, "0"}, {-0.06, 1, "-0.1"}, {100, 0, "100"}, {1200, 1, "1200"}, {math.Copysign(0, -1), 0, "0"}, {0.5, 2, "0.5"},
	} {
		if got := quantity.Number(c.v, c.decimals); got != c.want {
			t.Errorf("Number(%v, %d) = %q, want %q", c.v, c.decimals, got, c.want)
		}
	}
}
