package stats

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// rising is a set of points in units of their largest x and y, and the curves
// top * rise(r, x) through them: r is the rate in units of the largest x, top
// the height there. A straight line is r = 0, a level r = +Inf.
type rising struct {
	x, y         []float64
	xUnit, yUnit float64
	grid         []float64 // of r, from all but straight to level
}

// At allStraight the curve is all but a straight line; past allLevel, exp(-r) is
// nothing beside 1.
const allStraight, allLevel, gridSize = 1e-6, 40, 400

// newRising scales the points and lays the grid.
func newRising(x, y []float64) rising {
	c := rising{xUnit: floats.Max(x), yUnit: floats.Norm(y, math.Inf(1))}
	least := 1.0
	for i := range x {
		c.x, c.y = append(c.x, x[i]/c.xUnit), append(c.y, y[i]/c.yUnit)
		if c.x[i] > 0 {
			least = math.Min(least, c.x[i])
		}
	}
	c.grid = spaced(allStraight, allLevel/least, gridSize)
	return c
}

// rise goes from 0 at x = 0 to 1 at x = 1.
func rise(r, x float64) float64 {
	switch {
	case x == 0:
		return 0
	case r == 0:
		return x
	default:
		return math.Expm1(-r*x) / math.Expm1(-r)
	}
}

// fit is the best top at a rate and the residual sum of squares it leaves.
func (c rising) fit(r float64) (top, rss float64) {
	var up, across float64
	for i, x := range c.x {
		f := rise(r, x)
		up, across = up+f*c.y[i], across+f*f
	}
	top = up / across
	for i, x := range c.x {
		d := c.y[i] - top*rise(r, x)
		rss += d * d
	}
	return top, rss
}

// top is the best top at a rate.
func (c rising) top(r float64) float64 {
	top, _ := c.fit(r)
	return top
}

// rss is the residual sum of squares at a rate.
func (c rising) rss(r float64) float64 {
	_, rss := c.fit(r)
	return rss
}

// slope has the sign of the slope of rss: the top is at its best, so only the
// rate's own effect counts.
func (c rising) slope(r float64) (sum float64) {
	top, _ := c.fit(r)
	for i, x := range c.x {
		sum -= top * (c.y[i] - top*rise(r, x)) * x * math.Exp(-r*x)
	}
	return sum
}

// best is the rate of least squares: 0 or +Inf when no curve between is better.
func (c rising) best() float64 {
	at, least := 0, math.Inf(1)
	for i, r := range c.grid {
		if rss := c.rss(r); rss < least {
			at, least = i, rss
		}
	}
	if c.rss(0) <= least {
		return 0
	}
	if c.rss(math.Inf(1)) <= least {
		return math.Inf(1)
	}
	low, high := 0.0, c.grid[min(at+1, gridSize-1)]
	if at > 0 {
		low = c.grid[at-1]
	}
	return crossing(c.slope, low, high)
}
