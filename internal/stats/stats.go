// Package stats has the few statistics that a test-burn journal needs: a
// straight line with intervals, summaries of small samples, and an interval
// for a share.
//
// Every result carries how many values it rests on and what is to be doubted
// about it; too few values are a state that the result shows, not an error.
// The package knows nothing of candles, of storage or of the clock.
package stats

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// ErrTooFew is returned where a result cannot exist at all for so few values.
var ErrTooFew = errors.New("too few different values")

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

// tQuantile is the two-sided Student quantile of a level.
func tQuantile(level float64, df int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Quantile((1 + level) / 2)
}

// WilsonInterval is the interval of a share of k in n at a level (Wilson,
// J. Am. Stat. Assoc. 22:209-212, 1927): 0 to 1 when n is 0.
func WilsonInterval(k, n int, level float64) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	z := distuv.UnitNormal.Quantile((1 + level) / 2)
	p, m := float64(k)/float64(n), float64(n)
	middle := (p + z*z/(2*m)) / (1 + z*z/m)
	half := z / (1 + z*z/m) * math.Sqrt(p*(1-p)/m+z*z/(4*m*m))
	return math.Max(0, middle-half), math.Min(1, middle+half)
}
