package stats

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
)

// Summary describes a small sample.
type Summary struct {
	N        int
	Mean     float64 // NaN when N is 0
	SD       float64 // NaN when N is below 2
	Min, Max float64 // NaN when N is 0
}

// Summarise describes a sample. The mean and the standard deviation are taken
// around the first value, so that large values with small spread keep their
// digits.
func Summarise(x []float64) Summary {
	s := Summary{N: len(x), Mean: math.NaN(), SD: math.NaN(), Min: math.NaN(), Max: math.NaN()}
	if len(x) == 0 {
		return s
	}
	near := make([]float64, len(x))
	for i, v := range x {
		near[i] = v - x[0]
	}
	m := stat.Mean(near, nil)
	s.Mean, s.Min, s.Max = x[0]+m, floats.Min(x), floats.Max(x)
	if len(x) > 1 {
		s.SD = stat.StdDev(near, nil)
	}
	return s
}

// MeanInterval is the interval of the mean at a level by Student's t; ok is
// false below two values.
func (s Summary) MeanInterval(level float64) (low, high float64, ok bool) {
	if s.N < 2 {
		return 0, 0, false
	}
	h := tQuantile(level, s.N-1) * s.SD / math.Sqrt(float64(s.N))
	return s.Mean - h, s.Mean + h, true
}
