package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// reading is one text with what it must be read as, in the stored unit.
type reading struct {
	text string
	want float64
}

// readAll fails for every text that is not read as wanted, to a part in 10^12.
func readAll[T ~float64](t *testing.T, parse func(string) (T, error), rs []reading) {
	t.Helper()
	for _, r := range rs {
		got, err := parse(r.text)
		if err != nil || math.Abs(float64(got)-r.want) > 1e-12*math.Max(1, math.Abs(r.want)) {
			t.Errorf("%q: got %v, %v, want %v", r.text, float64(got), err, r.want)
		}
	}
}

// refuseAll fails for every text that is not refused by a sentence that starts
// as wanted.
func refuseAll[T ~float64](t *testing.T, parse func(string) (T, error), start string, texts ...string) {
	t.Helper()
	for _, text := range texts {
		got, err := parse(text)
		var refusal *ParseError
		if !errors.As(err, &refusal) || !strings.HasPrefix(refusal.Error(), start) || got != 0 {
			t.Errorf("%q: got %v, %v, want a refusal that starts %q", text, float64(got), err, start)
		}
	}
}

// never are texts that no reader takes for a quantity.
var never = []string{
	"", "   ", "abc", "NaN", "nan", "Inf", "+Inf", "-Infinity", "1e3", "1e999", "1E5", "0x10", "0b1", "1_000", "1,000.5", "1.000,5", "1.2.3", "1,2,3", "--1", "-", ".", "1/0", "5 1/0", "0/0",
	"1 000", "999999999999", strings.Repeat("9", 400), "\xff", "٣", "1 furlong", "<b>1</b>",
}

func millimetres(s string) (Millimetres, error) { return ParseLength(s, InMillimetres) }
func inInches(s string) (Millimetres, error)    { return ParseLength(s, InInches) }
func grams(s string) (Grams, error)             { return ParseMass(s, InGrams) }
func ounces(s string) (Grams, error)            { return ParseMass(s, InOunces) }
func celsius(s string) (Celsius, error)         { return ParseTemperature(s, InCelsius) }
func fahrenheit(s string) (Celsius, error)      { return ParseTemperature(s, InFahrenheit) }
func millilitres(s string) (Millilitres, error) { return ParseVolume(s, InMillilitres) }
func fluidOunces(s string) (Millilitres, error) { return ParseVolume(s, InFluidOunces) }

// The inch is 25.4 mm exactly (16 CFR 500.19; NIST SP 811, appendix B.8).
func TestParseLength(t *testing.T) {
	t.Parallel()
	readAll(t, millimetres, []reading{
		{"73", 73}, {" 73 ", 73}, {"73 mm", 73}, {"73mm", 73}, {"7.3 cm", 73}, {"0.073 m", 73}, {"65,5 mm", 65.5}, {"1,000", 1}, {".5", 0.5}, {"0", 0}, {"-3", -3}, {"−3 mm", -3},
		{"1 in", 25.4}, {"1 inch", 25.4}, {"2 7/8 in", 73.025}, {`2-7/8"`, 73.025}, {`2.875"`, 73.025}, {"2⅞″", 73.025}, {"2 ⅞ in.", 73.025}, {"2½”", 63.5}, {"¼ IN", 6.35}, {"¾''", 19.05}, {"7/8 in", 22.225},
	})
	readAll(t, inInches, []reading{{"2 7/8", 73.025}, {"2⅞", 73.025}, {"3", 76.2}, {"2.875", 73.025}, {"73 mm", 73}, {"½", 12.7}})
	const no = "Write a length such as 73, 7.3 cm or 2 7/8 in."
	refuseAll(t, millimetres, no, never...)
	refuseAll(t, inInches, no, never...)
	refuseAll(t, millimetres, no, "mm", "73 g", "150F", "1 ft", "7 3 mm", "73 mm mm", "2/", "2 h")
}

// The pound is 453.59237 g exactly and has 16 ounces (NIST Handbook 44,
// appendix C, from memory; 16 CFR 500.19 prints 453.592 g and 28.3495 g).
func TestParseMass(t *testing.T) {
	t.Parallel()
	readAll(t, grams, []reading{
		{"182", 182}, {"182 g", 182}, {"182,4 g", 182.4}, {"0.4 kg", 400}, {"1 oz", 28.349523125}, {"6.4 oz", 181.436948}, {"1 lb", 453.59237}, {"1lb", 453.59237}, {"½ lb", 226.796185},
		{"1 lb 2 oz", 510.29141625}, {"1lb2oz", 510.29141625}, {"1 LB 2 OZ", 510.29141625}, {"1 lb. 2½ oz.", 524.4661778125}, {"0", 0},
	})
	readAll(t, ounces, []reading{{"16", 453.59237}, {"182 g", 182}})
	const no = "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."
	refuseAll(t, grams, no, never...)
	refuseAll(t, ounces, no, never...)
	refuseAll(t, grams, no, "5 mg", "73 mm", "1 lb 2", "1 lb x oz", "1 lb -2 oz", "-1 lb 2 oz", "150F")
	refuseAll(t, grams, "That is a volume.", "8 fl oz", "240 ml")
}

// C = (F - 32)/1.8 (NIST SP 811, from memory). ASTM practice pairs 60 °C with
// 140 °F.
func TestParseTemperature(t *testing.T) {
	t.Parallel()
	readAll(t, celsius, []reading{
		{"65", 65}, {"65°", 65}, {"65.5C", 65.5}, {"65,5 °C", 65.5}, {"65.5 deg C", 65.5}, {"60 degrees Celsius", 60}, {"-5", -5}, {"−5 °C", -5},
		{"140F", 60}, {"140 °F", 60}, {"140 ° F", 60}, {"140 degrees fahrenheit", 60}, {"150F", 118 / 1.8}, {"-40F", -40}, {"32 °F", 0},
	})
	readAll(t, fahrenheit, []reading{{"140", 60}, {"140°", 60}, {"60 C", 60}, {"32", 0}, {"-40", -40}})
	const no = "Write a temperature such as 65, 65.5 °C or 150 °F."
	refuseAll(t, celsius, no, never...)
	refuseAll(t, fahrenheit, no, never...)
	refuseAll(t, celsius, no, "65 K", "65 mm", "hot", "C")
}

// The US fluid ounce is 29.5735295625 mL exactly, 231 cubic inches in 128
// (NIST Handbook 44, appendix C, from memory; 16 CFR 500.19 prints 29.5735).
func TestParseVolume(t *testing.T) {
	t.Parallel()
	readAll(t, millilitres, []reading{
		{"240", 240}, {"240 ml", 240}, {"240 mL", 240}, {"0.24 L", 240}, {"24 cl", 240}, {"8 fl oz", 236.5882365}, {"8 fl. oz.", 236.5882365}, {"8 FL OZ", 236.5882365},
		{"128 floz", 231 * 25.4 * 25.4 * 25.4 / 1000}, {"0", 0},
	})
	readAll(t, fluidOunces, []reading{{"8", 236.5882365}, {"240 ml", 240}})
	const no = "Write a volume such as 240, 0.24 L or 8 fl oz."
	refuseAll(t, millilitres, no, never...)
	refuseAll(t, fluidOunces, no, never...)
	refuseAll(t, millilitres, no, "8 g", "73 mm")
	refuseAll(t, fluidOunces, "An ounce is a mass. For a volume write fl oz", "8 oz", "8 ounces", "1 ounce")
}

func TestParseShares(t *testing.T) {
	t.Parallel()
	readAll(t, ParsePercent, []reading{{"8", 0.08}, {"8 %", 0.08}, {"8,5%", 0.085}, {"7 percent", 0.07}, {"0", 0}})
	refuseAll(t, ParsePercent, "Write a share in per cent, such as 8 or 8.5 %.", append(never, "8 g", "%")...)
	readAll(t, ParseDensity, []reading{{"0.9", 0.9}, {"0.9 g/mL", 0.9}, {"900 kg/m3", 0.9}, {"900 kg/m³", 0.9}, {"0,9 g/cm³", 0.9}, {"0.9 kg/L", 0.9}})
	refuseAll(t, ParseDensity, "Write a density such as 0.9 or 0.9 g/mL.", append(never, "0.9 g", "0.9 oz")...)
	readAll(t, ParseHeat, []reading{{"43.8", 43.8}, {"43.8 kJ/g", 43.8}, {"43.8 MJ/kg", 43.8}})
	refuseAll(t, ParseHeat, "Write a heat of combustion such as 43.8 or 43.8 kJ/g.", append(never, "43.8 kJ", "43.8 g")...)
}
