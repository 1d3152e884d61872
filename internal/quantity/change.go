package quantity

import "math"

// ShowLengthChange shows how much longer or shorter something is, without its
// sign: millimetres to a tenth, inches to a hundredth, for a change is often
// smaller than the steps of a ruler.
func (u Units) ShowLengthChange(x Millimetres) Shown {
	if u.Length == InInches {
		return Shown{Number(math.Abs(float64(x))/mmPerInch, 2), "in"}
	}
	return Shown{Number(math.Abs(float64(x)), 1), "mm"}
}
