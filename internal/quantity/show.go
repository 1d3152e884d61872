package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Exact factors: 16 CFR 500.19 and NIST SP 811 appendix B.8 (inch, pound,
// ounce); the US fluid ounce is 231 cubic inches / 128.
const (
	mmPerInch   = 25.4
	gPerPound   = 453.59237
	gPerOunce   = gPerPound / 16
	mLPerFluid  = 29.5735295625
	sixteenth   = mmPerInch / 16
	kelvinsPerF = 1 / 1.8
)

// Number writes a number with at most the given decimals, without trailing
// zeros and never as "-0".
func Number(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// ShowLength shows a length: millimetres to a tenth, inches to a sixteenth.
func (u Units) ShowLength(x Millimetres) Shown {
	if u.Length == InInches {
		return Shown{inches(x), "in"}
	}
	return Shown{Number(float64(x), 1), "mm"}
}

// ColumnLength writes a length for a column of numbers: in millimetres always
// with its tenth, so that the numbers stand under each other.
func (u Units) ColumnLength(x Millimetres) string {
	if u.Length == InInches {
		return inches(x)
	}
	return strconv.FormatFloat(float64(x), 'f', 1, 64)
}

// inches writes a length in inches as a whole number and sixteenths in lowest
// terms: 2 7/8.
func inches(x Millimetres) string {
	n := int(math.Round(math.Abs(float64(x)) / sixteenth))
	sign := ""
	if x < 0 && n > 0 {
		sign = "-"
	}
	whole, rest, of := n/16, n%16, 16
	for rest > 0 && rest%2 == 0 {
		rest, of = rest/2, of/2
	}
	switch {
	case rest == 0:
		return sign + strconv.Itoa(whole)
	case whole == 0:
		return sign + strconv.Itoa(rest) + "/" + strconv.Itoa(of)
	}
	return sign + strconv.Itoa(whole) + " " + strconv.Itoa(rest) + "/" + strconv.Itoa(of)
}

// ShowMass shows a mass: grams whole from 100 up and to a tenth below, ounces
// to a hundredth.
func (u Units) ShowMass(x Grams) Shown {
	if u.Mass == InOunces {
		return Shown{Number(float64(x)/gPerOunce, 2), "oz"}
	}
	if math.Abs(float64(x)) >= 100 {
		return Shown{Number(float64(x), 0), "g"}
	}
	return Shown{Number(float64(x), 1), "g"}
}

// ShowTemperature shows a temperature: Celsius to a tenth, Fahrenheit whole.
func (u Units) ShowTemperature(x Celsius) Shown {
	if u.Temperature == InFahrenheit {
		return Shown{Number(float64(x)*1.8+32, 0), "°F"}
	}
	return Shown{Number(float64(x), 1), "°C"}
}

// ShowTemperatureDifference shows how far two temperatures lie apart: no 32
// is added.
func (u Units) ShowTemperatureDifference(x Celsius) Shown {
	if u.Temperature == InFahrenheit {
		return Shown{Number(float64(x)/kelvinsPerF, 0), "°F"}
	}
	return Shown{Number(float64(x), 1), "°C"}
}

// ShowVolume shows a volume: millilitres whole from 10 up, fluid ounces to a
// tenth.
func (u Units) ShowVolume(x Millilitres) Shown {
	if u.Volume == InFluidOunces {
		return Shown{Number(float64(x)/mLPerFluid, 1), "fl oz"}
	}
	if math.Abs(float64(x)) >= 10 {
		return Shown{Number(float64(x), 0), "mL"}
	}
	return Shown{Number(float64(x), 1), "mL"}
}

// Word is the unit as it stands after a box.
func (u LengthUnit) Word() string { return string(u) }

// Word is the unit as it stands after a box.
func (u MassUnit) Word() string { return string(u) }

// Word is the unit as it stands after a box.
func (u TemperatureUnit) Word() string { return "°" + string(u) }

// Word is the unit as it stands after a box.
func (u VolumeUnit) Word() string {
	if u == InFluidOunces {
		return "fl oz"
	}
	return string(u)
}

// Percent shows a share in per cent, to a tenth.
func (f Fraction) Percent() Shown { return Shown{Number(float64(f)*100, 1), "%"} }

// Clock writes a span of time as a clock counts it: 48 min, 2 h 12. A minute
// shows once it is over, so 59.99 min is 59 min.
func (h Hours) Clock() string {
	minutes := int(math.Floor(math.Abs(float64(h))*60 + 1e-6))
	sign := ""
	if h < 0 && minutes > 0 {
		sign = "-"
	}
	if minutes < 60 {
		return sign + strconv.Itoa(minutes) + " min"
	}
	rest := strconv.Itoa(minutes % 60)
	if len(rest) == 1 {
		rest = "0" + rest
	}
	return sign + strconv.Itoa(minutes/60) + " h " + rest
}

// Decimal shows a span in hours, to a tenth.
func (h Hours) Decimal() Shown { return Shown{Number(float64(h), 1), "h"} }

// Shown shows a span in whole seconds.
func (s Seconds) Shown() Shown { return Shown{Number(float64(s), 0), "s"} }

// Shown shows a span in days, to a tenth.
func (d Days) Shown() Shown {
	n := Number(float64(d), 1)
	if n == "1" {
		return Shown{n, "day"}
	}
	return Shown{n, "days"}
}

// Shown shows a burn rate to a tenth of a gram per hour.
func (r GramsPerHour) Shown() Shown { return Shown{Number(float64(r), 1), "g/h"} }

// Shown shows a density to a thousandth of a gram per millilitre.
func (d GramsPerMillilitre) Shown() Shown { return Shown{Number(float64(d), 3), "g/mL"} }

// Shown shows a heat of combustion to a hundredth of a kilojoule per gram.
func (k KilojoulesPerGram) Shown() Shown { return Shown{Number(float64(k), 2), "kJ/g"} }

// String writes the length in millimetres.
func (x Millimetres) String() string { return Metric.ShowLength(x).String() }

// String writes the mass in grams.
func (x Grams) String() string { return Metric.ShowMass(x).String() }

// String writes the temperature in degrees Celsius.
func (x Celsius) String() string { return Metric.ShowTemperature(x).String() }

// String writes the volume in millilitres.
func (x Millilitres) String() string { return Metric.ShowVolume(x).String() }

// String writes the span as a clock counts it.
func (h Hours) String() string { return h.Clock() }

// String writes the share in per cent.
func (f Fraction) String() string { return f.Percent().String() }

// String writes the burn rate.
func (r GramsPerHour) String() string { return r.Shown().String() }
