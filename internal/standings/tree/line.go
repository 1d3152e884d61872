package tree

import (
	"math"

	"gonum.org/v1/gonum/floats"

	"rimward/internal/grid"
)

// send lays out what the tested pairings say, for one spread: w.pairs as they
// are, and w.messages to the ladder's line where each stands, for each
// irregularity and each rate of the series.
func (w *worker) send(p *part, spread int) {
	for len(w.messages) < len(p.pairs) {
		w.messages = append(w.messages, make([]grid.Sheet, len(w.Irregular)))
		w.pairs = append(w.pairs, grid.Sheet{})
	}
	for i, pairs := range p.pairs {
		if pairs == nil {
			continue
		}
		w.pairs[i].Unfold(pairs[spread])
		w.two.Mix(&w.pairs[i], w.toPairing)
		for k, kernel := range w.irregular {
			w.messages[i][k].Spread(&w.two, kernel)
		}
	}
}

// meeting is the stretch of the ladder's line where all messages have
// something to say, for a cell and a rate of the series: the level's prior
// and, for each tested pairing, its message shifted to the middle rung.
type meeting struct {
	lo    int
	level []float64
	rows  [][]float64 // nil for rungs that were not tested
	log   float64     // of the messages' scale
}

// meet finds the stretch. Where the messages contradict each other so much
// that there is none, they all speak along the whole line; where the ladder is
// longer than the grid, each is held where the grid ends.
func (w *worker) meet(s Series, p *part, c cell, rate int) meeting {
	lo, hi := w.stretch(s, p, c, func(m *grid.Sheet) (int, int) { return m.Span(rate) })
	if lo >= hi {
		lo, hi = w.stretch(s, p, c, func(*grid.Sheet) (int, int) { return 0, grid.Widths })
	}
	far := lo >= hi
	if far {
		lo, hi = 0, grid.Widths
	}
	m := meeting{lo: lo, level: w.level[lo:hi], rows: w.rows[:0]}
	for i, pairs := range p.pairs {
		if pairs == nil {
			m.rows = append(m.rows, nil)
			continue
		}
		msg, shift := &w.messages[i][c.irregular], c.steps(s, i)
		m.log += msg.Log
		if far {
			m.rows = append(m.rows, held(msg.Row(rate), shift))
			continue
		}
		m.rows = append(m.rows, msg.Row(rate)[lo+shift:hi+shift])
	}
	w.rows = m.rows
	return m
}

// held is a row shifted by steps of the grid, its ends drawn out.
func held(row *grid.Line, shift int) []float64 {
	out := make([]float64, grid.Widths)
	for i := range out {
		out[i] = row[min(max(i+shift, 0), grid.Widths-1)]
	}
	return out
}

// steps is how many steps of the grid a rung stands above the middle one.
func (c cell) steps(s Series, i int) int { return c.rungStep * (s.Pairings[i].Rung - s.mid) }

// stretch is what the spans of all messages have in common.
func (w *worker) stretch(s Series, p *part, c cell, span func(*grid.Sheet) (int, int)) (lo, hi int) {
	hi = grid.Widths
	for i, pairs := range p.pairs {
		if pairs != nil {
			from, to := span(&w.messages[i][c.irregular])
			shift := c.steps(s, i)
			lo, hi = max(lo, from-shift), min(hi, to-shift)
		}
	}
	return lo, hi
}

// product multiplies the prior and the messages of all rungs but one. It is
// exp(log) times what buf then says.
func (m *meeting) product(buf []float64, but int) (out []float64, log float64) {
	out = append(buf[:0], m.level...)
	n := 0
	for i, row := range m.rows {
		if row == nil || i == but {
			continue
		}
		floats.Mul(out, row)
		if n++; n%fewRungs == 0 {
			log += rescale(out)
		}
	}
	return out, log
}

// fewRungs messages can be multiplied before the product is scaled.
const fewRungs = 8

func rescale(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	top := floats.Max(v)
	if !(top > 0) {
		return 0
	}
	floats.Scale(1/top, v)
	return math.Log(top)
}

// weighLine fills in how well the cells of one spread explain the series.
func (w *worker) weighLine(s Series, p *part, spread int) {
	w.send(p, spread)
	for i, c := range w.cells {
		if c.spread == spread {
			_, p.evidence[i] = w.rates(s, p, c)
		}
	}
}

// rates is how well each rate of the series explains it in a cell, as shares
// of the whole, and the logarithm of the whole.
func (w *worker) rates(s Series, p *part, c cell) (shares [grid.Rates]float64, log float64) {
	var logs [grid.Rates]float64
	var total logSum
	for r := range logs {
		m := w.meet(s, p, c, r)
		a, scale := m.product(w.buf, none)
		w.buf = a
		logs[r] = m.log + scale + math.Log(w.rate[r]*floats.Sum(a))
		total.add(logs[r])
	}
	if log = total.value(); math.IsInf(log, -1) {
		return w.rate, log // nothing can be told apart
	}
	for r := range shares {
		shares[r] = math.Exp(logs[r] - log)
	}
	return shares, log
}

// none leaves out no pairing.
const none = -1

// logSum adds numbers up that are given by their logarithms.
type logSum struct{ top, sum float64 }

func (l *logSum) add(log float64) {
	switch {
	case math.IsInf(log, -1) || math.IsNaN(log):
	case l.sum == 0:
		l.top, l.sum = log, 1
	case log > l.top:
		l.top, l.sum = log, l.sum*math.Exp(l.top-log)+1
	default:
		l.sum += math.Exp(log - l.top)
	}
}

func (l *logSum) value() float64 {
	if l.sum == 0 {
		return math.Inf(-1)
	}
	return l.top + math.Log(l.sum)
}
