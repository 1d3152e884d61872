package quantity

import (
	"math"
	"regexp"
	"strconv"
	"strings"
)

// ParseError says why a text could not be read, in a sentence to the person.
type ParseError struct{ Sentence string }

// Error is the sentence.
func (e *ParseError) Error() string { return e.Sentence }

func unread(sentence string) error { return &ParseError{sentence} }

// biggest is the largest number that any quantity of a candle studio needs;
// anything beyond is a slip of the hand.
const biggest = 1e9

// fractions are the single signs that stand for a part of one.
var fractions = strings.NewReplacer("¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⅓", " 1/3", "⅔", " 2/3", "⁄", "/",
	"″", `"`, "”", `"`, "“", `"`, "''", `"`, "−", "-", "\u00a0", " ", "\u202f", " ")

var (
	decimal = regexp.MustCompile(`^[+-]?(\d+([.,]\d*)?|[.,]\d+)$`)
	mixed   = regexp.MustCompile(`^(\d+)(?:\s+|\s*-\s*)(\d+)\s*/\s*(\d+)$`)
	ratio   = regexp.MustCompile(`^(\d+)\s*/\s*(\d+)$`)
	parts   = regexp.MustCompile(`^([+-]?[\d.,/\s-]*[\d.,])\s*(.*)$`)
)

// tidy brings the signs of a hand's writing to one form.
func tidy(text string) string {
	return strings.TrimSpace(fractions.Replace(text))
}

// number reads a decimal (comma or point), a fraction, or a whole number with
// a fraction. It never returns a number that is not finite.
func number(s string) (float64, bool) {
	s = strings.TrimSpace(s)
	if decimal.MatchString(s) {
		v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
		return v, err == nil && v < biggest && v > -biggest
	}
	if m := mixed.FindStringSubmatch(s); m != nil {
		w, ok1 := number(m[1])
		f, ok2 := number(m[2] + "/" + m[3])
		return w + f, ok1 && ok2
	}
	if m := ratio.FindStringSubmatch(s); m != nil {
		a, ok1 := number(m[1])
		b, ok2 := number(m[2])
		if !ok1 || !ok2 || b == 0 {
			return 0, false
		}
		return a / b, true
	}
	return 0, false
}

// split parts a text into its number and its unit, the unit in lower case.
func split(text string) (v float64, unit string, ok bool) {
	m := parts.FindStringSubmatch(tidy(text))
	if m == nil {
		return 0, "", false
	}
	v, ok = number(m[1])
	return v, strings.ToLower(strings.TrimSpace(m[2])), ok
}

// measure reads a number with one of the units, or bare in the first factor
// asked for. What each unit means in the stored unit stands in units.
func measure(text, bare, sentence string, units map[string]float64) (float64, error) {
	v, unit, ok := split(text)
	if !ok {
		return 0, unread(sentence)
	}
	if unit == "" {
		unit = bare
	}
	factor, known := units[unit]
	if !known {
		return 0, unread(sentence)
	}
	return v * factor, nil
}

var lengths = map[string]float64{
	"mm": 1, "millimetre": 1, "millimetres": 1, "millimeter": 1, "millimeters": 1,
	"cm": 10, "m": 1000, "in": mmPerInch, "in.": mmPerInch, "inch": mmPerInch, "inches": mmPerInch, `"`: mmPerInch,
}

// ParseLength reads a length: 73, 73 mm, 7.3 cm, 2 7/8 in, 2.875". A bare
// number is in the given unit. Errors are *ParseError.
func ParseLength(text string, bare LengthUnit) (Millimetres, error) {
	v, err := measure(text, string(bare), "Write a length such as 73, 7.3 cm or 2 7/8 in.", lengths)
	return Millimetres(v), err
}

var masses = map[string]float64{
	"g": 1, "gram": 1, "grams": 1, "kg": 1000, "oz": gPerOunce, "oz.": gPerOunce, "ounce": gPerOunce, "ounces": gPerOunce,
	"lb": gPerPound, "lbs": gPerPound, "lb.": gPerPound, "pound": gPerPound, "pounds": gPerPound,
}

var poundsOunces = regexp.MustCompile(`(?i)^(.*\d)\s*(?:lbs?|pounds?)\.?\s*(.*\d)\s*(?:oz|ounces?)\.?$`)

// ParseMass reads a mass: 182, 182 g, 0.4 kg, 6.4 oz, 1 lb 2 oz. Errors are
// *ParseError.
func ParseMass(text string, bare MassUnit) (Grams, error) {
	const sentence = "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."
	if m := poundsOunces.FindStringSubmatch(tidy(text)); m != nil {
		lb, ok1 := number(m[1])
		oz, ok2 := number(m[2])
		if !ok1 || !ok2 || lb < 0 || oz < 0 {
			return 0, unread(sentence)
		}
		return Grams(lb*gPerPound + oz*gPerOunce), nil
	}
	if _, unit, ok := split(text); ok && (unit == "fl oz" || unit == "floz" || unit == "ml") {
		return 0, unread("That is a volume. Write the mass, such as 182 g or 6.4 oz.")
	}
	v, err := measure(text, string(bare), sentence, masses)
	return Grams(v), err
}

// degreeSigns are what may stand before the letter of a scale.
var degreeSigns = strings.NewReplacer("°", "", "º", "", "degrees", "", "degree", "", "deg", "")

// ParseTemperature reads a temperature: 65, 65°, 65,5 °C, 150F. Errors are
// *ParseError.
func ParseTemperature(text string, bare TemperatureUnit) (Celsius, error) {
	const sentence = "Write a temperature such as 65, 65.5 °C or 150 °F."
	v, unit, ok := split(text)
	if !ok {
		return 0, unread(sentence)
	}
	if unit = strings.TrimSpace(degreeSigns.Replace(unit)); unit == "" {
		unit = strings.ToLower(string(bare))
	}
	switch unit {
	case "c", "celsius":
		return Celsius(v), nil
	case "f", "fahrenheit":
		return fromFahrenheit(v), nil
	}
	return 0, unread(sentence)
}

// fromFahrenheit turns degrees Fahrenheit to Celsius; where that is a short
// number (149.9 °F are 65.5 °C) it is that number, free of the dust of binary
// fractions.
func fromFahrenheit(v float64) Celsius {
	const places, dust = 1e4, 1e-10
	c := (v - 32) / 1.8
	if short := math.Round(c*places) / places; math.Abs(short-c) < dust {
		return Celsius(short)
	}
	return Celsius(c)
}

var volumes = map[string]float64{
	"ml": 1, "millilitre": 1, "millilitres": 1, "cc": 1, "cl": 10, "dl": 100, "l": 1000, "litre": 1000, "litres": 1000, "liter": 1000, "liters": 1000,
	"fl oz": mLPerFluid, "floz": mLPerFluid, "fl. oz": mLPerFluid, "fl. oz.": mLPerFluid, "fl.oz.": mLPerFluid, "fluid ounce": mLPerFluid, "fluid ounces": mLPerFluid,
}

// ParseVolume reads a volume: 240, 240 ml, 0.24 L, 8 fl oz. Errors are
// *ParseError.
func ParseVolume(text string, bare VolumeUnit) (Millilitres, error) {
	if _, unit, ok := split(text); ok && (unit == "oz" || unit == "ounces" || unit == "ounce") {
		return 0, unread("An ounce is a mass. For a volume write fl oz (US fluid ounces) or mL.")
	}
	v, err := measure(text, strings.ToLower(string(bare)), "Write a volume such as 240, 0.24 L or 8 fl oz.", volumes)
	return Millilitres(v), err
}

// ParsePercent reads a share in per cent: 8, 8 %, 8,5%. Errors are *ParseError.
func ParsePercent(text string) (Fraction, error) {
	v, err := measure(text, "%", "Write a share in per cent, such as 8 or 8.5 %.", map[string]float64{"%": 1, "percent": 1, "per cent": 1})
	return Fraction(v / 100), err
}

// ParseDensity reads a density: 0.9, 0.9 g/mL, 900 kg/m3. Errors are
// *ParseError.
func ParseDensity(text string) (GramsPerMillilitre, error) {
	v, err := measure(text, "g/ml", "Write a density such as 0.9 or 0.9 g/mL.",
		map[string]float64{"g/ml": 1, "g/cm3": 1, "g/cm³": 1, "kg/l": 1, "kg/m3": 0.001, "kg/m³": 0.001})
	return GramsPerMillilitre(v), err
}

// ParseHeat reads a heat of combustion: 43.8, 43.8 kJ/g, 43.8 MJ/kg. Errors
// are *ParseError.
func ParseHeat(text string) (KilojoulesPerGram, error) {
	v, err := measure(text, "kj/g", "Write a heat of combustion such as 43.8 or 43.8 kJ/g.", map[string]float64{"kj/g": 1, "mj/kg": 1})
	return KilojoulesPerGram(v), err
}

// ParseDays reads a span in days: 14, 14 days, 2 weeks. Errors are
// *ParseError.
func ParseDays(text string) (Days, error) {
	v, err := measure(text, "days", "Write a number of days such as 14, or 2 weeks.",
		map[string]float64{"days": 1, "day": 1, "d": 1, "week": 7, "weeks": 7, "h": 1.0 / 24})
	return Days(v), err
}

// ParseCount reads a whole number. Errors are *ParseError.
func ParseCount(text string) (int, error) {
	n, err := strconv.Atoi(tidy(text))
	if err != nil || n > biggest || n < -biggest {
		return 0, unread("Write a whole number.")
	}
	return n, nil
}

// ParseRate reads a burn rate: 6.3, 6.3 g/h. The number is in grams per hour.
// Errors are *ParseError.
func ParseRate(text string) (float64, error) {
	return measure(text, "g/h", "Write a burn rate such as 6.3 or 6.3 g/h.", map[string]float64{"g/h": 1})
}
