package quantity

import (
	"math"
	"strconv"
	"strings"
)

const priceSentence = "Write a price such as 18.50, a plain number without the currency."

// ParsePrice reads an amount of the studio's own currency: 18, 18.5, 18,50.
// Errors are *ParseError.
func ParsePrice(text string) (float64, error) {
	v, unit, ok := split(text)
	if !ok || unit != "" {
		return 0, unread(priceSentence)
	}
	return v, nil
}

// perMass says what one of each mass is in kilograms, for prices.
var perMass = map[string]float64{
	"/kg": 1, "/ kg": 1, "per kg": 1, "/lb": gPerPound / 1000, "/ lb": gPerPound / 1000, "per lb": gPerPound / 1000,
	"/oz": gPerOunce / 1000, "/ oz": gPerOunce / 1000, "per oz": gPerOunce / 1000, "/g": 0.001, "/ g": 0.001, "per g": 0.001,
}

// ParsePriceByMass reads the price of a kilogram: 18, 18 /kg, 8.20 per lb. A
// bare number is for a kilogram, or for a pound where masses are in ounces.
// The answer is for a kilogram. Errors are *ParseError.
func (u Units) ParsePriceByMass(text string) (float64, error) {
	const sentence = "Write a price such as 18.50, 18.50 per kg or 8.20 per lb, without the currency."
	number, by := strings.TrimSpace(text), "/kg"
	if u.Mass == InOunces {
		by = "/lb"
	}
	if i := strings.IndexAny(number, "/p"); i > 0 {
		number, by = number[:i], strings.TrimSpace(number[i:])
	}
	of, known := perMass[by]
	v, err := ParsePrice(number)
	if err != nil || !known {
		return 0, unread(sentence)
	}
	return v / of, nil
}

// EditPriceByMass writes the price of a kilogram into its box, for a pound
// where masses are in ounces.
func (u Units) EditPriceByMass(perKilogram float64) string {
	if u.Mass == InOunces {
		return EditNumber(perKilogram * gPerPound / 1000)
	}
	return EditNumber(perKilogram)
}

// PriceMassWord is the mass that prices are asked for: kg, or lb where masses
// are in ounces.
func (u Units) PriceMassWord() string {
	if u.Mass == InOunces {
		return "lb"
	}
	return "kg"
}

// ShowMoney shows an amount of the studio's currency with two decimals, and
// with as many as it takes to show a price below a tenth that is not nothing.
func ShowMoney(v float64, currency string) Shown {
	decimals := 2
	for decimals < 5 && v != 0 && math.Abs(v)*math.Pow10(decimals) < 10 {
		decimals++
	}
	return Shown{strconv.FormatFloat(v, 'f', decimals, 64), currency}
}

// ShowPriceByMass shows the price of a kilogram, or of a pound where masses
// are in ounces.
func (u Units) ShowPriceByMass(perKilogram float64, currency string) Shown {
	if u.Mass == InOunces {
		perKilogram *= gPerPound / 1000
	}
	s := ShowMoney(perKilogram, currency)
	s.Unit = strings.TrimSpace(s.Unit + " per " + u.PriceMassWord())
	return s
}

// gPerKilogram is where ShowStock turns from grams to kilograms.
const gPerKilogram = 1000

// ShowStock shows a large mass: kilograms to ten grams, pounds to a hundredth,
// and below one of them as ShowMass does.
func (u Units) ShowStock(x Grams) Shown {
	switch {
	case u.Mass == InOunces && x >= gPerPound:
		return Shown{Number(float64(x)/gPerPound, 2), "lb"}
	case u.Mass != InOunces && x >= gPerKilogram:
		return Shown{Number(float64(x)/gPerKilogram, 2), "kg"}
	}
	return u.ShowMass(x)
}
