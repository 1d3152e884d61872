package plan

import (
	"math"
	"slices"
)

// bell is a normal distribution of a log width.
type bell struct{ mean, variance float64 }

// judge ranks the wicks by the first candles of each: which comes first, and
// whether it would be named.
func (w *world) judge(seen [][]pair, candles int) (first int, named bool) {
	said := make([]pair, len(seen))
	for i, cs := range seen {
		said[i].rates = 1 / (w.RatePairing * w.RatePairing)
		for _, c := range cs[:candles] {
			said[i] = said[i].and(c)
		}
	}
	least, believed := math.Inf(1), w.believe(said)
	for i, b := range believed {
		if m := w.expected(b); m < least {
			first, least = i, m
		}
	}
	return first, w.closest(believed, first) >= nameAt
}

// expected is the miss that is expected of a next pool of a wick, whose width
// and rate are believed so: what it lacks of the wall, and what it is wider than
// the band, which moves with the rate.
func (w *world) expected(b belief) float64 {
	next := w.tau * w.tau
	out := b.widths - 2*w.bandTurns*b.along + w.bandTurns*w.bandTurns*b.rates
	return above(-b.width, math.Sqrt(next+b.widths)) + above(b.width-w.bandAt(b.rate), math.Sqrt(next+max(out, 0)))
}

// bandAt is the band at a rate, along a straight line through the usual one.
func (w *world) bandAt(rate float64) float64 { return 2*w.start + w.bandTurns*rate }

// believe puts what every wick's candles say together with what its ladder
// says: rungs lie about a straight line, whose height and slope are known as
// beforehand and by all other rungs.
func (w *world) believe(said []pair) []belief {
	out := make([]belief, len(said))
	for i, p := range said {
		out[i] = p.belief()
	}
	own := slices.Clone(out)
	for k, ladder := range w.ladders {
		for _, i := range ladder {
			line := w.newLine()
			for _, j := range ladder {
				if j != i {
					line.add(w.step(j, k), own[j].width, own[j].widths+w.Irregular*w.Irregular)
				}
			}
			b, p := line.at(w.step(i, k)), said[i]
			p.see(b.mean, 0, b.variance+w.Irregular*w.Irregular)
			out[i] = p.belief()
		}
	}
	return out
}

// step is how many rungs a wick lies above the middle of its ladder.
func (w *world) step(i, ladder int) float64 { return float64(w.Rungs[i].Rung) - w.middle[ladder] }

// line is what is known of a ladder's line: the sums of its normal equations,
// the prior among them.
type line struct{ one, step, square, y, stepY float64 }

// leastLine keeps a slope that is known for certain from dividing by nothing.
const leastLine = 1e-6

func (w *world) newLine() line {
	height := 1 / (w.Level * w.Level)
	slope := 1 / (w.SlopeSD*w.SlopeSD + leastLine*leastLine)
	return line{one: height, square: slope, stepY: slope * w.Slope}
}

func (l *line) add(step, y, variance float64) {
	v := 1 / variance
	l.one, l.step, l.square = l.one+v, l.step+v*step, l.square+v*step*step
	l.y, l.stepY = l.y+v*y, l.stepY+v*step*y
}

// at is what the line says of a step.
func (l *line) at(step float64) bell {
	det := l.one*l.square - l.step*l.step
	height := (l.square*l.y - l.step*l.stepY) / det
	slope := (l.one*l.stepY - l.step*l.y) / det
	return bell{height + slope*step, (l.square - 2*step*l.step + step*step*l.one) / det}
}

// closest is the chance that a wick is the closest, by drawing from what is
// believed: the one that lies least outside its band, or deepest inside.
func (w *world) closest(believed []belief, wick int) float64 {
	count := 0.0
	for range draws {
		least, best := math.Inf(1), 0
		for i, b := range believed {
			root := math.Sqrt(b.rates)
			rate := w.rng.NormFloat64()
			width := b.width + b.along/root*rate + math.Sqrt(max(b.widths-b.along*b.along/b.rates, 0))*w.rng.NormFloat64()
			if out := max(-width, width-w.bandAt(b.rate+root*rate)); out < least {
				least, best = out, i
			}
		}
		count += one(best == wick)
	}
	return count / draws
}

// missOf is how far, in log width, a pool is expected to lie outside the band
// of pools that are full in time and not too soon; tau is how far the next
// pool may lie from theta.
func missOf(theta, tau, band float64) float64 { return above(-theta, tau) + above(theta-band, tau) }

// above is how far above nothing a normal value is expected to lie, what is
// below counting as nothing.
func above(mean, sd float64) float64 { return sd*density(mean/sd) + mean*below(mean/sd) }

func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

func below(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
