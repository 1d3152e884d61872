package plan

import "math"

// bell is a normal distribution of a log width.
type bell struct{ mean, variance float64 }

// judge ranks the wicks by the first candles of each: which comes first, and
// whether it would be named.
func (w *world) judge(seen [][]reading, candles int) (first int, named bool) {
	said := make([]bell, len(seen))
	for i, rs := range seen {
		var all pooled
		for _, r := range rs[:candles] {
			all.add(r)
		}
		r := all.reading()
		said[i] = bell{r.mean, r.variance + r.turns*r.turns*w.RatePairing*w.RatePairing}
	}
	least, band := math.Inf(1), w.band(w.rate)
	believed := w.believe(said)
	for i, b := range believed {
		if m := missOf(b.mean, math.Hypot(w.tau, math.Sqrt(b.variance)), band); m < least {
			first, least = i, m
		}
	}
	return first, w.closest(believed, first) >= nameAt
}

// believe puts what every wick's candles say together with what its ladder
// says: rungs lie about a straight line, whose height and slope are known as
// beforehand and by all other rungs.
func (w *world) believe(said []bell) []bell {
	out := make([]bell, len(said))
	for k, ladder := range w.ladders {
		for _, i := range ladder {
			line := w.newLine()
			for _, j := range ladder {
				if j != i {
					line.add(w.step(j, k), said[j].mean, said[j].variance+w.Irregular*w.Irregular)
				}
			}
			b := line.at(w.step(i, k))
			b.variance += w.Irregular * w.Irregular
			out[i] = together(b, said[i])
		}
	}
	return out
}

// step is how many rungs a wick lies above the middle of its ladder.
func (w *world) step(i, ladder int) float64 { return float64(w.Rungs[i].Rung) - w.middle[ladder] }

// together multiplies two beliefs about one thing.
func together(a, b bell) bell {
	v := 1 / (1/a.variance + 1/b.variance)
	return bell{v * (a.mean/a.variance + b.mean/b.variance), v}
}

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
// believed. At one rate for all, the miss grows with the distance from the
// middle of the band, to both sides alike.
func (w *world) closest(believed []bell, wick int) float64 {
	count := 0.0
	for i, b := range believed {
		w.scratch[i] = math.Sqrt(b.variance)
	}
	for range draws {
		least, best := math.Inf(1), 0
		for i, b := range believed {
			if off := math.Abs(b.mean + w.scratch[i]*w.rng.NormFloat64() - w.start); off < least {
				least, best = off, i
			}
		}
		count += one(best == wick)
	}
	return count / draws
}

// missOf is how far, in log width, a pool is expected to lie outside the band
// of pools that are full in time and not too soon; tau is how far the next
// pool may lie from theta.
func missOf(theta, tau, band float64) float64 {
	z := (theta - band) / tau
	return tau*density(theta/tau) - theta*below(-theta/tau) + tau*density(z) + (theta-band)*below(z)
}

func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

func below(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
