package quantity

import (
	"math"
	"strconv"
)

// Chance is how likely something is, from 0 to 1.
type Chance float64

// String writes the chance to a hundredth, and never as certain either way.
func (c Chance) String() string {
	switch {
	case math.IsNaN(float64(c)):
		return "not known"
	case c < 0.005:
		return "under 0.01"
	case c >= 0.995:
		return "over 0.99"
	}
	return strconv.FormatFloat(float64(c), 'f', 2, 64)
}

// Closeness is 100 less a miss in hundredths.
type Closeness float64

// String writes the closeness to a tenth, always with its decimal.
func (c Closeness) String() string { return strconv.FormatFloat(float64(c), 'f', 1, 64) }

// Ordinal writes a place: 1st, 2nd, 3rd, 4th.
func Ordinal(n int) string {
	end := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			end = "st"
		case 2:
			end = "nd"
		case 3:
			end = "rd"
		}
	}
	return strconv.Itoa(n) + end
}
