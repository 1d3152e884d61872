package quantity

import (
	"math"
	"strconv"
)

// ShowWeighed shows a mass as a scale of this step shows it, with all the
// decimals of the step, so that parts that add up on the scale add up on the
// page. Where the step is no decimal number in the person's unit but is one in
// the other, the scale is of the other kind, and its unit is shown.
func (u Units) ShowWeighed(x, step Grams) Shown {
	unit, per := InGrams, 1.0
	if u.Mass == InOunces {
		unit, per = InOunces, gPerOunce
	}
	d, ok := decimalsOf(float64(step) / per)
	if !ok {
		other, perOther := InOunces, gPerOunce
		if unit == InOunces {
			other, perOther = InGrams, 1.0
		}
		if n, fits := decimalsOf(float64(step) / perOther); fits {
			unit, per, d = other, perOther, n
		}
	}
	s := strconv.FormatFloat(float64(x)/per, 'f', d, 64)
	return Shown{s, unit.Word()}
}

// decimalsOf is how many decimals a step has, up to three; false when it is not
// a decimal number of so few.
func decimalsOf(step float64) (int, bool) {
	for d := range 4 {
		scaled := step * math.Pow10(d)
		if scaled > 0.5 && math.Abs(scaled-math.Round(scaled)) < 1e-4 {
			return d, true
		}
	}
	return 3, false
}
