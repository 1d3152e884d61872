package stats

import (
	"math"
	"slices"
)

// limits fills in the profile limits: the rates that leave no more than
// RSS + (t ResidualSD)^2, and the least and the greatest of all plateaus that
// do so at these rates.
func (g *Growth) limits(c rising, r float64) {
	g.PlateauLow, g.PlateauHigh, g.RateHigh = math.Inf(-1), math.Inf(1), math.Inf(1)
	if g.DF == 0 {
		return
	}
	bound := c.rss(r) * (1 + math.Pow(tQuantile(g.Level, g.DF), 2)/float64(g.DF))
	low, high := c.rates(r, bound)
	g.RateLow, g.RateHigh = low/c.xUnit, high/c.xUnit
	g.PlateauLow, g.PlateauHigh = -c.farthest(low, high, bound, -1)*c.yUnit, c.farthest(low, high, bound, 1)*c.yUnit
	g.HasLimits = finite([]float64{g.PlateauLow, g.PlateauHigh})
}

// rates are the least and the greatest rate within the bound: 0 and +Inf where
// even a straight line or a level is.
func (c rising) rates(r, bound float64) (low, high float64) {
	over := func(r float64) float64 { return c.rss(r) - bound }
	at := append([]float64{0, r}, c.grid...)
	slices.Sort(at)
	first := slices.IndexFunc(at, func(r float64) bool { return over(r) <= 0 })
	last := len(at) - 1
	for over(at[last]) > 0 {
		last--
	}
	low, high = 0, math.Inf(1)
	if first > 0 {
		low = crossing(func(r float64) float64 { return -over(r) }, at[first-1], at[first])
	}
	if over(math.Inf(1)) > 0 {
		high = crossing(over, at[last], at[last+1])
	}
	return low, high
}

// farthest is the greatest sign*plateau within the bound at rates from low to
// high, in units of y.
func (c rising) farthest(low, high, bound, sign float64) float64 {
	top := func(r float64) float64 { return sign*c.top(r) + c.slack(r, bound) }
	if low == 0 && top(0) > 0 {
		return math.Inf(1)
	}
	high = math.Min(high, c.grid[gridSize-1])
	low = math.Max(low, math.Min(allStraight, high))
	short := func(r float64) float64 { return top(r) / math.Expm1(-r) }
	at := spaced(low, high, gridSize)
	best := 0
	for i := range at {
		if short(at[i]) < short(at[best]) {
			best = i
		}
	}
	return -short(lowest(short, at[max(best-1, 0)], at[min(best+1, gridSize-1)]))
}

// slack is how far the top may stray from its best at a rate within the bound.
func (c rising) slack(r, bound float64) float64 {
	var across float64
	for _, x := range c.x {
		across += math.Pow(rise(r, x), 2)
	}
	return math.Sqrt(math.Max(0, bound-c.rss(r)) / across)
}
