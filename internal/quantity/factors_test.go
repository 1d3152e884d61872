package quantity

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestFactors holds the factors against 16 CFR 500.19 ("these factors and none
// others"), whose last printed digit is the tolerance. It prints six figures;
// the exact values behind them are NIST SP 811 appendix B.8 (from memory).
func TestFactors(t *testing.T) {
	t.Parallel()
	one := func(name, text string) float64 {
		v, err := readers[name].read(text)
		if err != nil {
			t.Error(err)
		}
		return v
	}
	perGram, errG := strconv.ParseFloat(Imperial.EditMass(1), 64)
	perMillilitre, errM := strconv.ParseFloat(Imperial.EditVolume(1), 64)
	if errG != nil || errM != nil {
		t.Fatal(errG, errM)
	}
	for _, c := range []struct {
		name            string
		got, want, last float64 // last: half a unit of the last printed digit
	}{
		{"1 in is 25.4 mm exactly", one("length in mm", "1 in"), 25.4, 0},
		{"1 oz is 28.3495 g", one("mass in g", "1 oz"), 28.3495, 5e-5},
		{"1 lb is 453.592 g", one("mass in g", "1 lb"), 453.592, 5e-4},
		{"1 fl oz is 29.5735 mL", one("volume in mL", "1 fl oz"), 29.5735, 5e-5},
		{"1 g is 0.0352740 oz", perGram, 0.0352740, 5e-8},
		{"1 mL is 0.0338140 fl oz", perMillilitre, 0.0338140, 5e-8},
		{"1 lb is 453.59237 g exactly", one("mass in g", "1 lb"), 453.59237, 0},
		{"1 oz is a sixteenth of a pound", one("mass in g", "1 oz"), 28.349523125, 0},
		{"1 fl oz is 231 cubic inches / 128", one("volume in mL", "1 fl oz"), 231 * 2.54 * 2.54 * 2.54 / 128, 1e-12},
	} {
		if math.Abs(c.got-c.want) > c.last {
			t.Errorf("%s: got %v", c.name, c.got)
		}
	}
}

// TestTemperaturePairs holds both directions against pairs that standards
// print: melting points of ASTM F2326's introduction, the bath tolerance of
// ASTM C149 section 3.2 (a difference: no 32), and the fixed points of water.
func TestTemperaturePairs(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ celsius, fahrenheit string }{{"60", "140"}, {"54.4", "130"}, {"0", "32"}, {"100", "212"}, {"-40", "-40"}} {
		up, err1 := ParseTemperature(c.celsius, InCelsius)
		down, err2 := ParseTemperature(c.fahrenheit, InFahrenheit)
		if got := Imperial.ShowTemperature(up).String(); err1 != nil || got != c.fahrenheit+" °F" {
			t.Errorf("%s °C: got %v, %v, want %s °F", c.celsius, got, err1, c.fahrenheit)
		}
		if got := Metric.ShowTemperature(down).String(); err2 != nil || got != c.celsius+" °C" {
			t.Errorf("%s °F: got %v, %v, want %s °C", c.fahrenheit, got, err2, c.celsius)
		}
	}
	if got := Metric.ShowTemperatureDifference(2 / 1.8).String(); got != "1.1 °C" {
		t.Errorf("a difference of 2 °F: got %v, want 1.1 °C", got)
	}
	if got := Imperial.ShowTemperatureDifference(1.1).String(); got != "2 °F" {
		t.Errorf("a difference of 1.1 °C: got %v, want 2 °F", got)
	}
}

// TestRoundingEdges reads the rule of each Show function on both sides of its
// edges. Numbers round as their binary value lies: 65.55 lies below.
func TestRoundingEdges(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		got  Shown
		want string
	}{
		{"72.95 mm goes up", Metric.ShowLength(72.95), "73 mm"},
		{"72.949 mm goes down", Metric.ShowLength(72.949), "72.9 mm"},
		{"no minus before nothing", Metric.ShowLength(-0.04), "0 mm"},
		{"a minus before something", Metric.ShowLength(-0.06), "-0.1 mm"},
		{"half a sixteenth goes up", Imperial.ShowLength(0.79375), "1/16 in"},
		{"less than half a sixteenth is nothing", Imperial.ShowLength(0.79374), "0 in"},
		{"31/32 in carries into the inch", Imperial.ShowLength(25.4 * 31 / 32), "1 in"},
		{"1 31/32 in carries too", Imperial.ShowLength(25.4 * 63 / 32), "2 in"},
		{"99.94 g goes down", Metric.ShowMass(99.94), "99.9 g"},
		{"99.95 g goes up to 100", Metric.ShowMass(99.95), "100 g"},
		{"a large loss is whole", Metric.ShowMass(-182.4), "-182 g"},
		{"65.55 °C lies below", Metric.ShowTemperature(65.55), "65.5 °C"},
		{"Celsius never -0", Metric.ShowTemperature(-0.04), "0 °C"},
		{"Fahrenheit never -0", Imperial.ShowTemperature(-18), "0 °F"},
		{"9.94 mL keeps a tenth", Metric.ShowVolume(9.94), "9.9 mL"},
		{"9.96 mL goes up to 10", Metric.ShowVolume(9.96), "10 mL"},
		{"nearly one day", Days(1.04).Shown(), "1 day"},
		{"no days", Days(0).Shown(), "0 days"},
		{"59.99 min is not yet an hour", Shown{Number: Hours(59.99 / 60).Clock()}, "59 min"},
		{"a hair below the hour is the hour", Shown{Number: Hours(1 - 1e-12).Clock()}, "1 h 00"},
		{"66 min held in binary hours", Shown{Number: Hours(1.1).Clock()}, "1 h 06"},
		{"a minute before nothing", Shown{Number: Hours(-1.0 / 60).Clock()}, "-1 min"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestEveryMinuteOfADayShowsAsItself(t *testing.T) {
	t.Parallel()
	for m := range 24 * 60 {
		text := Hours(float64(m) / 60).Clock()
		if back, err := ParseHours(text); err != nil || math.Abs(float64(back)*60-float64(m)) > 1e-9 {
			t.Fatalf("%d min: got %v, %v from %q", m, float64(back)*60, err, text)
		}
	}
}

func TestPercentIsTheNearestNumberToItsHundredth(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]Fraction{"57": 0.57, "7": 0.07, "29": 0.29, "8,5": 0.085} {
		if got, err := ParsePercent(text); err != nil || got != want {
			t.Errorf("%s: got %v, %v, want exactly %v", text, float64(got), err, float64(want))
		}
	}
}

func TestInchesStayInLowestTerms(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		x := Millimetres(rapid.Float64Range(0, 600).Draw(t, "length"))
		text := Imperial.ShowLength(x).Number
		if _, fraction, ok := strings.Cut(" "+text, "/"); ok {
			above := text[strings.LastIndex(" "+text, " "):strings.Index(text, "/")]
			if n, err := strconv.Atoi(above); err != nil || n%2 == 0 || n > 15 || !strings.Contains(" 2 4 8 16 ", " "+fraction+" ") {
				t.Fatalf("%v mm shows as %q", float64(x), text)
			}
		}
		back, err := ParseLength(text, InInches)
		if err != nil || math.Abs(float64(back-x)) > sixteenth/2+1e-9 {
			t.Fatalf("%v mm shows as %q, which reads as %v, %v: more than half a sixteenth away", float64(x), text, float64(back), err)
		}
	})
}

func TestTinyAndHugeBoxesReadBackTheSame(t *testing.T) {
	t.Parallel()
	for _, v := range []float64{1e-12, 1e-5, 9999.5, 10000.5, 123456.789, 99999999} {
		h, err := ParseHours(EditHours(Hours(v)))
		if err != nil || math.Abs(float64(h)-v) > 1e-6*v+1e-6/60 {
			t.Errorf("%v h became %q, which reads as %v, %v", v, EditHours(Hours(v)), float64(h), err)
		}
		x, err := ParseLength(Imperial.EditLength(Millimetres(v)), InInches)
		if err != nil || math.Abs(float64(x)-v) > 1e-6*v+1e-6 {
			t.Errorf("%v mm became %q, which reads as %v, %v", v, Imperial.EditLength(Millimetres(v)), float64(x), err)
		}
	}
	if got, err := ParseLength(Imperial.EditLength(-73.025), InInches); err != nil || math.Abs(float64(got)+73.025) > 1e-6 {
		t.Errorf("-73.025 mm became %q, which reads as %v, %v", Imperial.EditLength(-73.025), float64(got), err)
	}
}
