// Package life says how long a candle lasts: how fast it burns, how much heat
// that is, how many hours are left, how long it lasted when it was burned to
// the end, what time may stand on a label, and whether the last third of a
// candle differs from the first.
//
// It reads candle logs and plain series of weighings. It refuses to call a
// candle burned to the end that was not, to give hours where a mass or a
// density is missing (it says which), to take a burn without both weighings
// for one that lost nothing, and to say that a label or a candle complies with
// anything. It knows no storage, no pages and no clock.
package life

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/stats"
)

// Level is the level of every interval in this package.
const Level = 0.95

// Interval is from where to where a figure may lie at Level. Known is false
// where there are too few values for one, and where they are too alike.
type Interval struct {
	Known     bool
	Low, High float64 // in the unit of the figure it belongs to
	// Alike: there are enough values, but nothing scatters, so how far others
	// may lie cannot be told. A scale's or a ruler's step may hide it.
	Alike bool
}

// dust is the standard error, in any unit or as a share of the figure, up to
// which a scatter is the work of rounding in the last digits.
const dust = 1e-9

// around is an estimate give or take the t quantile of its standard error.
func around(estimate, se float64, df int) Interval {
	if df < 1 || math.IsNaN(se) || math.IsInf(se, 0) {
		return Interval{}
	}
	h := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Quantile((1+Level)/2) * se
	return between(estimate, se, estimate-h, estimate+h)
}

// between is an interval, or that the values were too alike for one.
func between(estimate, se, low, high float64) Interval {
	if se <= dust*math.Max(1, math.Abs(estimate)) {
		return Interval{Alike: true}
	}
	return Interval{Known: true, Low: low, High: high}
}

// ofMean is the interval of a sample's mean.
func ofMean(s stats.Summary) Interval {
	return around(s.Mean, s.SD/math.Sqrt(float64(s.N)), s.N-1)
}

// ofSlope is the interval of a line's slope.
func ofSlope(l stats.Line) Interval {
	if !l.HasInterval {
		return Interval{}
	}
	return between(l.Slope, l.SlopeSE, l.SlopeLow, l.SlopeHigh)
}

// turned is the interval of the figure with the other sign.
func (i Interval) turned() Interval {
	if i.Known {
		i.Low, i.High = -i.High, -i.Low
	}
	return i
}

// Apart reports whether the interval is known and leaves nothing out at all:
// zero lies outside it.
func (i Interval) Apart() bool { return i.Known && (i.Low > 0 || i.High < 0) }

// inside is the vessel as the geometry of wax sees it.
func inside(v journal.Vessel) meltpool.Vessel {
	out := meltpool.Vessel{Outline: meltpool.Ellipse, Length: v.Length(), Width: v.InnerWidth}
	if v.Shape == journal.Rectangular {
		out.Outline = meltpool.Rectangle
	}
	return out
}
