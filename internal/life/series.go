package life

import (
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Slope is the burn rate of one candle that was weighed several times within
// one burn.
type Slope struct {
	stats.Line // of grams against hours: its slope is less than nothing
	Rate       quantity.GramsPerHour
	RateRange  Interval
	// EndToEnd is the rate by the first and the last weighing alone.
	EndToEnd quantity.GramsPerHour
}

// Steady reports whether the weighings lie on a straight line; told is false
// below four, where a bend cannot be seen.
func (s Slope) Steady() (steady, told bool) { return s.Bend >= stats.BendLimit, s.N > 3 }

// Weighed fits the burn rate to weighings at hours since lighting, in order of
// time. The errors are those of stats.FitLine.
func Weighed(hours, grams []float64) (Slope, error) {
	line, err := stats.FitLine(hours, grams, Level)
	if err != nil {
		return Slope{}, err
	}
	s := Slope{Line: line, Rate: quantity.GramsPerHour(-line.Slope), RateRange: ofSlope(line).turned()}
	if n := len(hours) - 1; hours[n] > hours[0] {
		s.EndToEnd = quantity.GramsPerHour((grams[0] - grams[n]) / (hours[n] - hours[0]))
	}
	return s, nil
}
