package tree

import (
	"math"

	"rimward/internal/grid"
)

// joint is what is believed of a pairing's rate and width, adding up to the
// weight it stands for.
type joint [grid.Rates]grid.Line

func (j *joint) add(o *joint, by float64) {
	for r := range j {
		for i, v := range o[r] {
			j[r][i] += by * v
		}
	}
}

func (j *joint) sum() float64 {
	s := 0.0
	for r := range j {
		s += j[r].Sum()
	}
	return s
}

// width is what is believed of the width alone.
func (j *joint) width() *grid.Line {
	var l grid.Line
	for r := range j {
		for i, v := range j[r] {
			l[i] += v
		}
	}
	return &l
}

// belief is what one shape and one spread believe of every rung asked for.
type belief struct {
	shape, spread int
	rungs         []joint
}

// histogram is a pairing's chances by bins of its miss.
type histogram [bins]float64

// outcome is what a series believes under one shape.
type outcome struct {
	beliefs []belief
	misses  []misses // for each cell with weight
}

// misses is what one cell believes of the misses of a series' tested rungs.
type misses struct {
	shape, cell int
	weight      float64
	rungs       []*histogram // nil for those not tested
}

// posterior works out what a series believes under one shape, for every spread
// with weight.
func (w *worker) posterior(s Series, p *part, shape int, weights []float64) outcome {
	var out outcome
	for i := range w.spreads {
		if w.spreadWeight(i, weights) == 0 {
			continue
		}
		w.send(p, i)
		b := belief{shape: shape, spread: i, rungs: make([]joint, len(s.Pairings))}
		for k, c := range w.cells {
			if c.spread == i && weights[k] > 0 {
				out.misses = append(out.misses, misses{shape, k, weights[k], w.posteriorOf(s, p, c, weights[k], &b)})
			}
		}
		out.beliefs = append(out.beliefs, b)
	}
	return out
}

func (w *worker) spreadWeight(spread int, weights []float64) float64 {
	sum := 0.0
	for k, c := range w.cells {
		if c.spread == spread {
			sum += weights[k]
		}
	}
	return sum
}

// posteriorOf adds one cell's belief to b and returns what it believes of the
// misses.
func (w *worker) posteriorOf(s Series, p *part, c cell, weight float64, b *belief) []*histogram {
	ahead := w.aheadOf(s.Wall.Target, b.shape, b.spread)
	rates := w.ratesOf(s, p, c)
	hists := make([]*histogram, len(s.Pairings))
	for i, pairing := range s.Pairings {
		var j joint
		w.fromLine(&j, s, p, c, rates, i)
		if pairing.Tested() {
			w.one.Unfold(p.pairs[i][b.spread])
			timesSheet(&j, &w.one)
		}
		total := j.sum()
		if !(total > 0) {
			continue
		}
		b.rungs[i].add(&j, weight/total)
		if pairing.Tested() {
			hists[i] = sort(&j, ahead, 1/total)
		}
	}
	return hists
}

// fewRates is the share of a cell's weight below which a rate of the series is
// left out.
const fewRates = 1e-6

// ratesOf is how likely each rate of the series is in a cell; 0 for those that
// hardly matter.
func (w *worker) ratesOf(s Series, p *part, c cell) [grid.Rates]float64 {
	var logs, out [grid.Rates]float64
	var a grid.Line
	var total logSum
	for r := range logs {
		logs[r] = w.line(&a, s, p, c, r, none) + math.Log(w.rate[r]*a.Sum())
		total.add(logs[r])
	}
	for r := range logs {
		if v := math.Exp(logs[r] - total.value()); v > fewRates {
			out[r] = v
		}
	}
	return out
}

// fromLine is what the line and the other pairings say of a rung: the line
// without the rung's own message, spread by the ladder's irregularity, for
// each rate of the series, mixed over the rung's own rate.
func (w *worker) fromLine(into *joint, s Series, p *part, c cell, rates [grid.Rates]float64, rung int) {
	shift := c.rungStep * (s.Pairings[rung].Rung - s.middle())
	var most float64
	first := true
	for r, v := range rates {
		if v == 0 {
			continue
		}
		var a, q grid.Line
		log := w.line(&a, s, p, c, r, rung)
		if first {
			most, first = log, false
		}
		carry(&q, &a, w.irregular[c.irregular], shift)
		by := math.Exp(log-most) * w.rate[r]
		for k := range into {
			if t := w.toPairing.At(r, k); t > 0 {
				into[k].AddScaled(by*t, &q)
			}
		}
	}
}

// carry spreads a line and shifts it by some steps. A shift up comes last and a
// shift down first, so that what lies just beyond the upper edge still tells.
func carry(dst, src *grid.Line, k grid.Kernel, by int) {
	var half grid.Line
	if by < 0 {
		half = shifted(src, by)
		lo, hi := half.Span()
		k.Spread(dst, &half, lo, hi)
		return
	}
	lo, hi := src.Span()
	k.Spread(&half, src, lo, hi)
	*dst = shifted(&half, by)
}

// shifted is a line moved up by some steps.
func shifted(l *grid.Line, by int) grid.Line {
	var out grid.Line
	if by >= 0 {
		copy(out[min(by, grid.Widths):], l[:])
	} else if -by < grid.Widths {
		copy(out[:], l[-by:])
	}
	return out
}

func timesSheet(j *joint, s *grid.Sheet) {
	for r := range j {
		for i, v := range s.Row(r) {
			j[r][i] *= v
		}
	}
}

// sort puts a belief's weight into the bins of its miss.
func sort(j *joint, a *ahead, by float64) *histogram {
	h := new(histogram)
	for r := range j {
		for i, v := range j[r] {
			h[a.bin[r][i]] += v * by
		}
	}
	return h
}
