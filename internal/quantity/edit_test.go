package quantity_test

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rimward/internal/quantity"
)

func TestEditIsPrettyWhenTheValueIs(t *testing.T) {
	t.Parallel()
	m, i := quantity.Metric, quantity.Imperial
	for _, c := range []struct{ got, want string }{
		{m.EditLength(73.5), "73.5"}, {i.EditLength(73.025), "2 7/8"}, {i.EditLength(76.2), "3"}, {i.EditLength(25.4 * 2.81), "2.81"}, {i.EditLength(-38.1), "-1.5"},
		{m.EditMass(182), "182"}, {i.EditMass(453.59237), "16"}, {m.EditMass(0.00001), "0.00001"},
		{m.EditTemperature(65.5), "65.5"}, {i.EditTemperature(65.5), "149.9"}, {i.EditTemperature(60), "140"},
		{m.EditTemperature(65 + 5.0/9), "150 °F"}, {i.EditTemperature(65 + 5.0/9), "150"}, {m.EditTemperature(60), "60"},
		{m.EditVolume(240), "240"}, {i.EditVolume(8 * 29.5735295625), "8"},
		{quantity.EditPercent(0.07), "7"}, {quantity.EditPercent(0.085), "8.5"}, {quantity.EditNumber(0.9), "0.9"}, {quantity.EditNumber(1.0 / 3), "0.333333333"},
		{quantity.EditHours(2.5), "2 h 30"}, {quantity.EditHours(3), "3"}, {quantity.EditHours(0.75), "45 min"}, {quantity.EditHours(2.001), "2.001"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// back fails unless the value was read back to a part in a million; zero says
// where the scale's own zero lies, so that a temperature in the other scale is
// not asked for more digits than it has.
func back[T ~float64](t *rapid.T, text string, want, zero T, parse func(string) (T, error)) {
	t.Helper()
	got, err := parse(text)
	if err != nil || math.Abs(float64(got-want)) > 1e-6*math.Max(math.Abs(float64(want)), math.Abs(float64(want-zero))) {
		t.Fatalf("%q for %v is read back as %v, %v", text, float64(want), float64(got), err)
	}
}

func TestEditReadsBackTheSame(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]quantity.Units{quantity.Metric, quantity.Imperial}).Draw(t, "units")
		v := rapid.OneOf(rapid.Float64Range(0.001, 20000), rapid.Map(rapid.IntRange(0, 800), func(n int) float64 { return float64(n) * 25.4 / 16 })).Draw(t, "value")
		c := rapid.Float64Range(-40, 300).Draw(t, "celsius")
		back(t, u.EditLength(quantity.Millimetres(v)), quantity.Millimetres(v), 0, func(s string) (quantity.Millimetres, error) { return quantity.ParseLength(s, u.Length) })
		back(t, u.EditMass(quantity.Grams(v)), quantity.Grams(v), 0, func(s string) (quantity.Grams, error) { return quantity.ParseMass(s, u.Mass) })
		back(t, u.EditVolume(quantity.Millilitres(v)), quantity.Millilitres(v), 0, func(s string) (quantity.Millilitres, error) { return quantity.ParseVolume(s, u.Volume) })
		back(t, u.EditTemperature(quantity.Celsius(c)), quantity.Celsius(c), -32/1.8, func(s string) (quantity.Celsius, error) { return quantity.ParseTemperature(s, u.Temperature) })
		back(t, quantity.EditPercent(quantity.Fraction(v/20000)), quantity.Fraction(v/20000), 0, quantity.ParsePercent)
		back(t, quantity.EditNumber(v), quantity.GramsPerMillilitre(v), 0, quantity.ParseDensity)
		h := rapid.OneOf(rapid.Float64Range(0, 200), rapid.Map(rapid.IntRange(0, 10000), func(n int) float64 { return float64(n) / 60 })).Draw(t, "hours")
		back(t, quantity.EditHours(quantity.Hours(h)), quantity.Hours(h), 0.01, quantity.ParseHours)
	})
}

// What is shown in inches lies within half a sixteenth of what is meant.
func TestShownInchesAreNear(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		x := quantity.Millimetres(rapid.Float64Range(0, 1000).Draw(t, "mm"))
		got, err := quantity.ParseLength(quantity.Imperial.ShowLength(x).String(), quantity.InMillimetres)
		if err != nil || math.Abs(float64(got-x)) > 25.4/32+1e-9 {
			t.Fatalf("%v mm is shown as %v, read as %v, %v", float64(x), quantity.Imperial.ShowLength(x), float64(got), err)
		}
	})
}

// A whole or half degree that was typed in either scale comes back in either
// scale as the same temperature to the last bit, and short; in its own scale it
// is the number that was typed.
func TestTypedDegreesComeBack(t *testing.T) {
	t.Parallel()
	scale := map[string]quantity.Units{"C": quantity.Metric, "F": quantity.Imperial}
	rapid.Check(t, func(t *rapid.T) {
		number := quantity.EditNumber(float64(rapid.IntRange(-80, 1000).Draw(t, "half degrees")) / 2)
		in, box := rapid.SampledFrom([]string{"C", "F"}).Draw(t, "typed in"), rapid.SampledFrom([]string{"C", "F"}).Draw(t, "box in")
		typed, err := quantity.ParseTemperature(number+" °"+in, quantity.InCelsius)
		if err != nil {
			t.Fatal(err)
		}
		text := scale[box].EditTemperature(typed)
		back, err := quantity.ParseTemperature(text, scale[box].Temperature)
		if err != nil || back != typed || len(text) > len("-999.5 °F") {
			t.Fatalf("%s °%s is written %q and read back as %v, not %v, %v", number, in, text, float64(back), float64(typed), err)
		}
		if box == "F" && strings.Contains(text, "°") {
			t.Fatalf("%s °%s, a tenth of a degree Fahrenheit at most, is written %q for a studio of Fahrenheit", number, in, text)
		}
		if in == box && text != number {
			t.Fatalf("%s °%s comes back as %q", number, in, text)
		}
	})
}
