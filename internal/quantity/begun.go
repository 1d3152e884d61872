package quantity

import "math"

// Begun is the day that is going on, counted from 1: after two days and a bit
// the third.
func (d Days) Begun() int { return int(math.Floor(float64(d))) + 1 }
