package tree

import (
	"math"

	"rimward/internal/grid"
)

// send puts the messages of the tested pairings to the ladder's line into
// w.messages, for one spread: what each says of the line where it stands, for
// each irregularity and each rate of the series.
func (w *worker) send(p *part, spread int) {
	for len(w.messages) < len(p.pairs) {
		w.messages = append(w.messages, make([]grid.Sheet, len(w.Irregular)))
	}
	for i, pairs := range p.pairs {
		if pairs == nil {
			continue
		}
		w.one.Unfold(pairs[spread])
		w.two.Mix(&w.one, w.toPairing)
		for k, kernel := range w.irregular {
			w.messages[i][k].Spread(&w.two, kernel)
		}
	}
}

// line is the product of the level's prior and the messages of all pairings
// but one, for a cell and a rate of the series. Messages come from each
// pairing's rung and are shifted to the middle. It is exp(log) times what it
// says.
func (w *worker) line(into *grid.Line, s Series, p *part, c cell, rate, but int) (log float64) {
	*into = *w.level
	for i, pairs := range p.pairs {
		if pairs == nil || i == but {
			continue
		}
		msg := &w.messages[i][c.irregular]
		shift := c.rungStep * (s.Pairings[i].Rung - s.middle())
		timesShifted(into, msg.Row(rate), shift)
		log += msg.Log
		if top := into.Max(); top > 0 && top < tiny {
			into.Scale(1 / top)
			log += math.Log(top)
		}
	}
	return log
}

// tiny is where a product is scaled up again.
const tiny = 1e-120

// timesShifted multiplies a line by another that lies some steps further on.
// Nothing is known of what lies beyond the grid but that it is unlikely.
func timesShifted(a, b *grid.Line, shift int) {
	for i := range a {
		if k := i + shift; k >= 0 && k < grid.Widths {
			a[i] *= b[k]
		} else {
			a[i] *= grid.Cut
		}
	}
}

// weighLine fills in how well the cells of one spread explain the series.
func (w *worker) weighLine(s Series, p *part, spread int) {
	w.send(p, spread)
	var a grid.Line
	for i, c := range w.cells {
		if c.spread != spread {
			continue
		}
		var total logSum
		for r := range grid.Rates {
			log := w.line(&a, s, p, c, r, none)
			total.add(log + math.Log(w.rate[r]*a.Sum()))
		}
		p.evidence[i] = total.value()
	}
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
