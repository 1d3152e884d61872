package tree

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// ahead is what the next candle's chances and its miss are for every rate and
// width, in one vessel, under one shape and one spread.
type ahead struct {
	full, early [grid.Rates]grid.Line // chance of a full pool by the target hour, and before half of it
	short, soon [grid.Rates]grid.Line // how far outside the band, in log width, to either side
	bin         [grid.Rates][grid.Widths]uint8
}

// aheadKey is what an ahead depends on. Not the vessel's width: all is told in
// log widths.
type aheadKey struct {
	target        float64
	shape, spread int
}

// The bins in which misses are compared, and the misses of the first and the
// last, in log width.
const (
	bins     = 200
	leastBin = 1e-4
	mostBin  = 1.0
)

// aheadOf is the ahead of a series, worked out once for each target hour.
func (w *worker) aheadOf(target quantity.Hours, shape, spread int) *ahead {
	key := aheadKey{float64(target), shape, spread}
	a := w.ahead[key]
	if a == nil {
		a = newAhead(target, meltpool.Curve(w.Shapes[shape].Value), w.spreads[spread].tau, w.Rate)
		w.ahead[key] = a
	}
	return a
}

// newAhead fills the sheets. With t the deviation of a burn of a next candle
// and z how far the pool grows, in log width, from half the target hour to the
// hour itself, a pool of log width x at the hour lies outside the band from
// just full at the hour to just full at half of it by
//
//	t φ(x/t) - x Φ(-x/t)            when it is short of the wall,
//	t φ((x-z)/t) + (x-z) Φ((x-z)/t) when it was full too soon,
//
// the means of a normal deviation beyond either edge.
func newAhead(target quantity.Hours, c meltpool.Curve, tau, centre float64) *ahead {
	a := &ahead{}
	for j := range grid.Rates {
		z := c.Ahead(grid.LogRate(j, centre), target, target/2)
		for i := range grid.Widths {
			x := grid.Width(i)
			lower, upper := x/tau, (x-z)/tau
			a.full[j][i], a.early[j][i] = distuv.UnitNormal.CDF(lower), distuv.UnitNormal.CDF(upper)
			a.short[j][i] = tau*density(lower) - x*distuv.UnitNormal.CDF(-lower)
			a.soon[j][i] = tau*density(upper) + (x-z)*a.early[j][i]
			a.bin[j][i] = binOf(a.short[j][i] + a.soon[j][i])
		}
	}
	return a
}

func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// binOf is the bin of a miss.
func binOf(miss float64) uint8 {
	b := math.Floor(bins * math.Log(miss/leastBin) / math.Log(mostBin/leastBin))
	return uint8(min(max(b, 0), bins-1))
}
