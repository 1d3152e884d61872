// Package stats has the few statistics that a test-burn journal needs: summaries
// of small samples, shares, straight lines and curves that level off, values
// known only to lie between two looks, bounds for single things to come, and
// how far groups, rankings and judges agree or differ.
//
// Every result carries how many values it rests on and what is to be doubted
// about it; too few values are a state that the result shows, not an error.
// The package knows nothing of candles, of storage or of the clock.
package stats

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// ErrTooFew is returned where a result cannot exist at all for so few values.
var ErrTooFew = errors.New("too few different values")

// tQuantile is the two-sided Student quantile of a level.
func tQuantile(level float64, df int) float64 {
	return tQuantileOf(level, float64(df))
}

// tQuantileOf is tQuantile for degrees of freedom that need not be whole.
func tQuantileOf(level, df float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile((1 + level) / 2)
}

// Margin is half of the two-sided Student interval of a level around a value
// with a standard deviation that rests on df degrees of freedom, of which
// infinitely many are the normal distribution.
func Margin(sd, df, level float64) float64 {
	if math.IsInf(df, 1) {
		return sd * distuv.UnitNormal.Quantile((1+level)/2)
	}
	return sd * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: df}.Quantile((1+level)/2)
}
