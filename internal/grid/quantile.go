package grid

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// Dot is the sum of the products of two lines.
func (l *Line) Dot(o *Line) float64 { return floats.Dot(l[:], o[:]) }

// Moments are the mean and the standard deviation of the log width when the
// line holds chances, up to a factor.
func (l *Line) Moments() (mean, sd float64) {
	sum, square := 0.0, 0.0
	for i, v := range l {
		mean += v * Width(i)
		sum += v
	}
	mean /= sum
	for i, v := range l {
		square += v * (Width(i) - mean) * (Width(i) - mean)
	}
	return mean, math.Sqrt(square / sum)
}

// Quantile is the log width below which a share of the line lies: read at the
// upper edge of each step, and along a straight line between them.
func (l *Line) Quantile(share float64) float64 {
	want := share * l.Sum()
	have := 0.0
	for i, v := range l {
		if have+v >= want && v > 0 {
			return Width(i) - WidthStep/2 + WidthStep*(want-have)/v
		}
		have += v
	}
	return Width(Widths - 1)
}

// Above is, for each point of the grid, the sum of the line above its lower
// edge.
func (l *Line) Above() Line {
	var out Line
	sum := 0.0
	for i := Widths - 1; i >= 0; i-- {
		sum += l[i]
		out[i] = sum
	}
	return out
}

// At reads a line that Above made at any log width, along straight lines
// between the edges of the steps.
func (l *Line) At(width float64) float64 {
	at := (width-Width(0))/WidthStep + 0.5
	switch {
	case at <= 0 || math.IsNaN(at):
		return l[0]
	case at >= Widths:
		return 0
	}
	i := int(at)
	next := 0.0
	if i+1 < Widths {
		next = l[i+1]
	}
	return l[i] + (at-float64(i))*(next-l[i])
}
