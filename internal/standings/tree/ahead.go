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
	target      quantity.Hours
	curve       meltpool.Curve
	tau, centre float64
	full, short grid.Line
	rows        [grid.Rates]*aheadRow
}

// aheadRow is the part of it that depends on the rate; full and short do not.
type aheadRow struct {
	early grid.Line // chance of a full pool before half the target hour
	soon  grid.Line // how far beyond the band's upper edge, in log width
	bin   [grid.Widths]uint8
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

// mostAhead is how many a worker keeps.
const mostAhead = 72

// aheadOf is the ahead of a series, worked out once for each target hour.
func (w *worker) aheadOf(target quantity.Hours, shape, spread int) *ahead {
	key := aheadKey{float64(target), shape, spread}
	a := w.ahead[key]
	if a == nil {
		a = &ahead{target: target, curve: meltpool.Curve(w.Shapes[shape].Value), tau: w.spreads[spread].tau, centre: w.Rate}
		a.lower()
		if len(w.ahead) >= mostAhead {
			clear(w.ahead)
		}
		w.ahead[key] = a
	}
	return a
}

// With t the deviation of a burn of a next candle and z how far the pool grows,
// in log width, from half the target hour to the hour itself, a pool of log
// width x at the hour lies outside the band from just full at the hour to just
// full at half of it by
//
//	t φ(x/t) - x Φ(-x/t)            when it is short of the wall,
//	t φ((x-z)/t) + (x-z) Φ((x-z)/t) when it was full too soon,
//
// the means of a normal deviation beyond either edge.

// lower fills in the chance of a full pool by the target hour, and how far
// short of the wall it is.
func (a *ahead) lower() {
	for i := range grid.Widths {
		x := grid.Width(i)
		a.full[i] = distuv.UnitNormal.CDF(x / a.tau)
		a.short[i] = max(0, a.tau*density(x/a.tau)-x*distuv.UnitNormal.CDF(-x/a.tau))
	}
}

// row is the part for one rate, worked out when it is first needed.
func (a *ahead) row(r int) *aheadRow {
	if a.rows[r] == nil {
		a.rows[r] = a.newRow(a.curve.Ahead(grid.LogRate(r, a.centre), a.target, a.target/2))
	}
	return a.rows[r]
}

func (a *ahead) newRow(z float64) *aheadRow {
	row := &aheadRow{}
	for i := range grid.Widths {
		x := grid.Width(i) - z
		row.early[i] = distuv.UnitNormal.CDF(x / a.tau)
		row.soon[i] = max(0, a.tau*density(x/a.tau)+x*row.early[i])
		row.bin[i] = binOf(a.short[i] + row.soon[i])
	}
	return row
}

func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// binOf is the bin of a miss.
func binOf(miss float64) uint8 {
	if !(miss > leastBin) {
		return 0
	}
	b := math.Floor(bins * math.Log(miss/leastBin) / math.Log(mostBin/leastBin))
	return uint8(min(max(b, 0), bins-1))
}
