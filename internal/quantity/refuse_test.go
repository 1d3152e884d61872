package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// noNumbers are texts that no quantity reads: nothing at all, words for numbers
// that are none, the ways of writing that only programs use, signs of
// thousands, and sizes that are a slip of the hand.
var noNumbers = []string{
	"", " ", "\u00a0", "abc", "NaN", "nan", "Inf", "+Inf", "-inf", "Infinity", "∞",
	"1e999", "1e3", "1E3", "1.5e-3", "0x10", "0b1", "0o7", "1_000", "1p4", "0x1p-2",
	"1,000.5", "1.000,5", "1,000,000", "1.2.3", "--5", "+-5", "5-", "-", ".", ",", "/", "1/", "/2", "1/0", "2 1/0", "1//2",
	"1000000000", "99999999999999999999", "1" + strings.Repeat("0", 400), "-1000000000",
	"1 2", "1 2 3/4", "٣", "3\x00", "\xff3",
}

// reader reads a text as a plain number.
type reader func(text string) (float64, error)

// plain drops the type of what a reader gives.
func plain[T ~float64](parse func(string) (T, error)) reader {
	return func(text string) (float64, error) {
		v, err := parse(text)
		return float64(v), err
	}
}

// readers are all readers of quantities, with the sentence of their refusal.
var readers = map[string]struct {
	read     reader
	sentence string
}{
	"length in mm":        {plain(func(s string) (Millimetres, error) { return ParseLength(s, InMillimetres) }), "Write a length such as 73, 7.3 cm or 2 7/8 in."},
	"length in inches":    {plain(func(s string) (Millimetres, error) { return ParseLength(s, InInches) }), "Write a length such as 73, 7.3 cm or 2 7/8 in."},
	"length in no unit":   {plain(func(s string) (Millimetres, error) { return ParseLength(s, "furlong") }), "Write a length such as 73, 7.3 cm or 2 7/8 in."},
	"mass in g":           {plain(func(s string) (Grams, error) { return ParseMass(s, InGrams) }), "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."},
	"mass in oz":          {plain(func(s string) (Grams, error) { return ParseMass(s, InOunces) }), "Write a mass such as 182, 0.4 kg, 6.4 oz or 1 lb 2 oz."},
	"temperature in C":    {plain(func(s string) (Celsius, error) { return ParseTemperature(s, InCelsius) }), "Write a temperature such as 65, 65.5 °C or 150 °F."},
	"temperature in F":    {plain(func(s string) (Celsius, error) { return ParseTemperature(s, InFahrenheit) }), "Write a temperature such as 65, 65.5 °C or 150 °F."},
	"volume in mL":        {plain(func(s string) (Millilitres, error) { return ParseVolume(s, InMillilitres) }), "Write a volume such as 240, 0.24 L or 8 fl oz."},
	"volume in fl oz":     {plain(func(s string) (Millilitres, error) { return ParseVolume(s, InFluidOunces) }), "Write a volume such as 240, 0.24 L or 8 fl oz."},
	"hours":               {plain(ParseHours), "Write hours such as 3, 2 h 30 or 90 min."},
	"seconds":             {plain(ParseSeconds), "Write seconds such as 24, or 1 min 10."},
	"days":                {plain(ParseDays), "Write a number of days such as 14, or 2 weeks."},
	"percent":             {plain(ParsePercent), "Write a share in per cent, such as 8 or 8.5 %."},
	"density":             {plain(ParseDensity), "Write a density such as 0.9 or 0.9 g/mL."},
	"heat of combustion":  {plain(ParseHeat), "Write a heat of combustion such as 43.8 or 43.8 kJ/g."},
	"a count of anything": {func(s string) (float64, error) { n, err := ParseCount(s); return float64(n), err }, "Write a whole number."},
}

// refuses checks that a text is refused with just the sentence.
func refuses(t *testing.T, read reader, sentence, text string) {
	t.Helper()
	v, err := read(text)
	var refusal *ParseError
	switch {
	case !errors.As(err, &refusal):
		t.Errorf("%q: got %v and error %v, want a *ParseError", text, v, err)
	case refusal.Error() != sentence:
		t.Errorf("%q: got the sentence %q, want %q", text, refusal.Error(), sentence)
	case v != 0:
		t.Errorf("%q: got %v beside the refusal, want 0", text, v)
	}
}

func TestNoReaderTakesWhatIsNoNumber(t *testing.T) {
	t.Parallel()
	for name, r := range readers {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, text := range noNumbers {
				if name == "a count of anything" && text == "-1000000000" {
					continue // a whole number just within bounds
				}
				if name != "a count of anything" || text != "1000000000" {
					refuses(t, r.read, r.sentence, text)
				}
			}
		})
	}
}

func TestReadersRefuseUnitsOfAnotherKind(t *testing.T) {
	t.Parallel()
	for name, texts := range map[string][]string{
		"length in mm":        {"73 g", "1 ft", "5 °C", "8 fl oz", "full", "in", "73 mm 2", "2 7/8 in in", "-2 7/8 in"},
		"length in no unit":   {"3"},
		"mass in g":           {"182 mg", "73 mm", "5 °C", "1 lb 2", "1 lb 2 g", "1 lb -2 oz", "-1 lb 2 oz", "1e3 lb 2 oz", "1 lb 1e3 oz", "NaN lb 2 oz", "1 stone"},
		"temperature in C":    {"65 K", "65 mm", "65 CC", "hot", "°C", "°"},
		"volume in mL":        {"240 g", "240 mm", "1 cup"},
		"hours":               {"2 h 60", "2:75", "2:30 pm", "2:30:15", "3 g", "h", ":30", "2 h 30 s", "12345 h 30"},
		"seconds":             {"1 min 60", "1:75", "1 h", "24 mm"},
		"days":                {"1 month", "14 g"},
		"percent":             {"8 g", "8 ‰", "8 %%"},
		"density":             {"0.9 g", "0.9 mL", "0.9 lb/ft3"},
		"heat of combustion":  {"43.8 kJ", "43.8 J/g"},
		"a count of anything": {"2.0", "2,5", "½", "3 wicks", "2000000000"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, text := range texts {
				refuses(t, readers[name].read, readers[name].sentence, text)
			}
		})
	}
	t.Run("an ounce is not a fluid ounce", func(t *testing.T) {
		t.Parallel()
		for _, text := range []string{"8 oz", "8oz", "1 ounce", "8 Ounces"} {
			refuses(t, readers["volume in fl oz"].read, "An ounce is a mass. For a volume write fl oz (US fluid ounces) or mL.", text)
		}
		for _, text := range []string{"8 fl oz", "8 floz", "240 ml", "240 mL"} {
			refuses(t, readers["mass in oz"].read, "That is a volume. Write the mass, such as 182 g or 6.4 oz.", text)
		}
	})
}

// FuzzReaders holds that no text makes a reader panic, give a number that is
// not finite, or a number beside a refusal.
func FuzzReaders(f *testing.F) {
	for _, s := range append([]string{"2 7/8 in", "1 lb 2 oz", "65,5 °C", "8 fl oz", "2 h 30", "1 min 10", "½", "2-½″", "999999999 kg", "1/999999999", "-40 F"}, noNumbers...) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for name, r := range readers {
			v, err := r.read(text)
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s: got %v, which is not finite", name, v)
			}
			var refusal *ParseError
			if err != nil && (!errors.As(err, &refusal) || refusal.Sentence == "" || v != 0) {
				t.Errorf("%s: got %v beside the error %v", name, v, err)
			}
		}
	})
}
