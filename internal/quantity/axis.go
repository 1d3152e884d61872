package quantity

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
