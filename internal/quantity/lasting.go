package quantity

import "math"

// Watts is a heat given off in time.
type Watts float64

// Shown shows a heat output in whole watts.
func (w Watts) Shown() Shown { return Shown{Number(float64(w), 0), "W"} }

// WholeDown shows a span in whole hours, rounded down as a label must be: 31.9 h
// is 31 h. Below nothing it is 0 h.
func (h Hours) WholeDown() Shown {
	return Shown{Number(math.Max(math.Floor(float64(h)+1e-9), 0), 0), "h"}
}

// ToNearest is the nearest whole number of steps, halves away from nothing; for
// places on a scale of hours. The step is more than nothing.
func (h Hours) ToNearest(step Hours) Hours { return Hours(math.Round(float64(h/step))) * step }

// ShowFall shows how fast a level falls, from what it falls in one hour: to a
// tenth of a millimetre, or to a hundredth of an inch.
func (u Units) ShowFall(perHour Millimetres) Shown {
	if u.Length == InInches {
		return Shown{Number(float64(perHour)/mmPerInch, 2), "in/h"}
	}
	return Shown{Number(float64(perHour), 1), "mm/h"}
}

// FineShown shows a burn rate to a hundredth of a gram per hour, for small
// differences of rates.
func (r GramsPerHour) FineShown() Shown { return Shown{Number(float64(r), 2), "g/h"} }
