// Package grid holds functions of two unknowns, how fast a melt pool opens and
// how wide it would be at its target hour, as numbers on a fixed grid, and the
// three things that are done with them: multiplying, spreading and mixing.
//
// Nothing here is random and nothing iterates. The package knows no readings,
// no candles and no vessels, and refuses to hide what it cuts off: a value
// below Cut of the largest counts as Cut.
package grid

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// The grid: log widths over the inner width from -1 to 1, and the natural
// logarithms of opening rates around a centre.
const (
	Widths    = 201
	WidthStep = 0.01
	Rates     = 19
	RateStep  = 0.15
)

// Cut is the share of a sheet's largest value below which its values are not
// kept apart. It bounds how strongly one burn or one candle can speak against
// what all the others say.
const Cut = 1e-12

// Width is the i-th log width of the grid.
func Width(i int) float64 { return float64(i-Widths/2) * WidthStep }

// LogRate is the j-th logarithm of an opening rate, in h⁻¹, of a grid with a
// centre in h⁻¹.
func LogRate(j int, centre float64) float64 {
	return math.Log(centre) + float64(j-Rates/2)*RateStep
}

// Line is a function of the log width alone.
type Line [Widths]float64

// Sum adds the values up.
func (l *Line) Sum() float64 { return floats.Sum(l[:]) }

// Scale multiplies every value.
func (l *Line) Scale(by float64) { floats.Scale(by, l[:]) }

// Normal is the prior of a log width with a mean of 0 and a standard
// deviation, adding up to 1 over the grid.
func Normal(sd float64) *Line {
	var l Line
	for i := range l {
		z := Width(i) / sd
		l[i] = math.Exp(-z * z / 2)
	}
	l.Scale(1 / l.Sum())
	return &l
}

// Max is the largest value.
func (l *Line) Max() float64 {
	top := l[0]
	for _, v := range l {
		if v > top {
			top = v
		}
	}
	return top
}

// AddScaled adds another line times a number.
func (l *Line) AddScaled(by float64, o *Line) { floats.AddScaled(l[:], by, o[:]) }

// Span is where the line stands above Cut of its largest value.
func (l *Line) Span() (lo, hi int) {
	least := l.Max() * Cut
	hi = Widths
	for lo < hi && l[lo] <= least {
		lo++
	}
	for hi > lo && l[hi-1] <= least {
		hi--
	}
	return lo, hi
}
