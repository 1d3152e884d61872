package quantity

import "strconv"

// Of is a length in the unit, unrounded, for the axis of a chart.
func (u LengthUnit) Of(x Millimetres) float64 {
	if u == InInches {
		return float64(x) / mmPerInch
	}
	return float64(x)
}

// From is the length that a number on an axis in the unit stands for.
func (u LengthUnit) From(v float64) Millimetres {
	if u == InInches {
		return Millimetres(v * mmPerInch)
	}
	return Millimetres(v)
}

// Of is a mass in the unit, unrounded, for the axis of a chart.
func (u MassUnit) Of(x Grams) float64 {
	if u == InOunces {
		return float64(x) / gPerOunce
	}
	return float64(x)
}

// Of is a temperature in the unit, unrounded, for the axis of a chart.
func (u TemperatureUnit) Of(x Celsius) float64 {
	if u == InFahrenheit {
		return float64(x)*9/5 + 32
	}
	return float64(x)
}

// From is the temperature that a number on an axis in the unit stands for.
func (u TemperatureUnit) From(v float64) Celsius {
	if u == InFahrenheit {
		return Celsius((v - 32) * 5 / 9)
	}
	return Celsius(v)
}

// From is the mass that a number on an axis in the unit stands for.
func (u MassUnit) From(v float64) Grams {
	if u == InOunces {
		return Grams(v * gPerOunce)
	}
	return Grams(v)
}

// Column writes a span in hours for a column of numbers: always with two
// decimals, so that they can be reckoned with.
func (h Hours) Column() string { return strconv.FormatFloat(float64(h), 'f', 2, 64) }
