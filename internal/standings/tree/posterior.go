package tree

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"rimward/internal/grid"
)

// joint is what is believed of a pairing's rate and width.
type joint [grid.Rates]grid.Line

func (j *joint) sum() float64 {
	s := 0.0
	for r := range j {
		s += floats.Sum(j[r][:])
	}
	return s
}

// outcome is what a series believes under one shape.
type outcome struct {
	shape  int
	rungs  []*sums
	misses []misses // for each cell with weight
}

// misses is what one cell believes of the misses of a series' tested rungs.
type misses struct {
	shape, cell int
	weight      float64
	rungs       []*histogram // nil for those not tested
}

// histogram is a rung's chances by bins of its miss.
type histogram [bins]float64

// posterior works out what a series believes under one shape, for every spread
// with weight.
func (w *worker) posterior(s Series, p *part, shape int, weights []float64) outcome {
	out := outcome{shape: shape}
	for range s.Pairings {
		out.rungs = append(out.rungs, &sums{})
	}
	js := make([]joint, len(s.Pairings))
	for i := range w.spreads {
		cells := w.weighty(i, weights)
		if len(cells) == 0 {
			continue
		}
		w.send(p, i)
		a := w.aheadOf(s.Wall.Target, shape, i)
		clear(js)
		for _, k := range cells {
			out.misses = append(out.misses, misses{shape, k, weights[k], w.posteriorOf(s, p, k, weights[k], a, js)})
		}
		for k := range js {
			out.rungs[k].add(&js[k], a, w.spreads[i].next)
		}
	}
	return out
}

// weighty are the cells of a spread that carry weight.
func (w *worker) weighty(spread int, weights []float64) []int {
	var out []int
	for k, c := range w.cells {
		if c.spread == spread && weights[k] > 0 {
			out = append(out, k)
		}
	}
	return out
}

// posteriorOf adds one cell's belief about every rung to sums and returns what
// it believes of the misses.
func (w *worker) posteriorOf(s Series, p *part, k int, weight float64, a *ahead, sums []joint) []*histogram {
	c := w.cells[k]
	shares, _ := w.rates(s, p, c)
	hists := make([]*histogram, len(s.Pairings))
	for i, pairing := range s.Pairings {
		j := &w.joint
		w.fromLine(j, s, p, c, shares, i)
		var speaks *grid.Sheet
		if pairing.Tested() {
			speaks = &w.pairs[i]
			j.times(speaks)
		}
		total := j.sum()
		if !(total > 0) {
			total = w.otherwise(j, speaks, c.steps(s, i) > 0)
		}
		for r := range j {
			lo, hi := within(speaks, r)
			floats.AddScaled(sums[i][r][lo:hi], weight/total, j[r][lo:hi])
		}
		if speaks != nil {
			hists[i] = j.sorted(speaks, a, 1/total)
		}
	}
	return hists
}

// otherwise is what is believed of a rung that the line leaves no room for:
// what it says itself, or, when it was not tested, that it lies beyond the
// grid on its side of the ladder.
func (w *worker) otherwise(j *joint, s *grid.Sheet, above bool) (total float64) {
	*j = joint{}
	end := 0
	if above {
		end = grid.Widths - 1
	}
	for r := range j {
		if s == nil {
			j[r][end] = w.pairRate[r]
			continue
		}
		lo, hi := s.Span(r)
		floats.AddScaled(j[r][lo:hi], w.pairRate[r], s.Row(r)[lo:hi])
	}
	return j.sum()
}

// within is where a rung's own message speaks at a rate; everywhere when it
// has none.
func within(s *grid.Sheet, rate int) (lo, hi int) {
	if s == nil {
		return 0, grid.Widths
	}
	return s.Span(rate)
}

// fewShares is the share of a cell's weight below which a rate of the series is
// left out.
const fewShares = 1e-5

// fromLine is what the line and the other pairings say of a rung: the line
// without the rung's own message, spread by the ladder's irregularity, for
// each rate of the series, mixed over the rung's own rate.
func (w *worker) fromLine(into *joint, s Series, p *part, c cell, shares [grid.Rates]float64, rung int) {
	*into = joint{}
	most := math.Inf(-1)
	var own *grid.Sheet
	if p.pairs[rung] != nil {
		own = &w.pairs[rung]
	}
	for r, share := range shares {
		if share < fewShares {
			continue
		}
		m := w.meet(s, p, c, r)
		a, log := m.product(w.buf, rung)
		w.buf = a
		if own != nil {
			log -= w.messages[rung][c.irregular].Log
		}
		if log += m.log; math.IsInf(most, -1) {
			most = log
		}
		var q grid.Line
		at := m.lo + c.steps(s, rung)
		w.irregular[c.irregular].Onto(q[:], at, a)
		half := w.irregular[c.irregular].Half()
		from, to := max(0, at-half), min(grid.Widths, at+len(a)+half)
		by := math.Exp(log-most) * w.rate[r]
		for k := range into {
			lo, hi := within(own, k)
			lo, hi = max(lo, from), min(hi, to)
			if t := w.toPairing.At(r, k); t > 0 && lo < hi {
				floats.AddScaled(into[k][lo:hi], by*t, q[lo:hi])
			}
		}
	}
}

// times multiplies by what the rung itself says; where it says next to
// nothing nothing is left.
func (j *joint) times(s *grid.Sheet) {
	for r := range j {
		lo, hi := s.Span(r)
		floats.Mul(j[r][lo:hi], s.Row(r)[lo:hi])
	}
}

// sorted puts a belief's weight into the bins of its miss.
func (j *joint) sorted(s *grid.Sheet, a *ahead, by float64) *histogram {
	h := new(histogram)
	for r := range j {
		lo, hi := s.Span(r)
		if lo == hi {
			continue
		}
		row := a.row(r)
		for i := lo; i < hi; i++ {
			h[row.bin[i]] += j[r][i] * by
		}
	}
	return h
}
