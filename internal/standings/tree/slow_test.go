package tree_test

import (
	"math"

	"rimward/internal/standings/tree"
)

// slow is the method once more, written from its formulas as plain sums over
// every point, with nothing kept, cut off or left out. It shares no code with
// what it checks but the types that go in.
type slow struct {
	p     tree.Prior
	s     tree.Series
	mid   int
	step  float64 // of the logarithm of the rate
	half  int     // rates to either side of the middle
	flush float64 // how near the wall counts as full, mm

	total  float64 // weight of all cells, not normalised
	rungs  []slowRung
	closer []float64
}

// slowRung is what is believed of one rung, summed up over cells.
type slowRung struct {
	mean, square, full, early, miss, missSquare, never float64
	parts                                              []slowPart
}

// slowPart is one point of one cell, for the time to a full pool.
type slowPart struct{ weight, theta, tau, k, c float64 }

func newSlow(p tree.Prior, s tree.Series, mid int) *slow {
	return &slow{p: p, s: s, mid: mid, step: 0.15, half: 9, flush: float64(s.Ruler) / 2, rungs: make([]slowRung, len(s.Pairings)), closer: make([]float64, len(s.Pairings))}
}

func (w *slow) rates() int          { return 2*w.half + 1 }
func (w *slow) rate(j int) float64  { return w.p.Rate * math.Exp(float64(j-w.half)*w.step) }
func theta(i int) float64           { return float64(i-100) / 100 }
func bell(x, sd float64) float64    { return math.Exp(-x*x/(2*sd*sd)) / (sd * math.Sqrt(2*math.Pi)) }
func grown(k, t, c float64) float64 { return 1 - math.Exp(-math.Pow(k*t, c)) }
func (w *slow) transition(sd float64) [][]float64 {
	out := make([][]float64, w.rates())
	for j := range out {
		out[j] = make([]float64, w.rates())
		for i := range out[j] {
			out[j][i] = bell(float64(i-j)*w.step, sd)
		}
		share(out[j])
	}
	return out
}

func share(v []float64) {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	for i := range v {
		v[i] /= sum
	}
}

// message is one number for each rate and log width.
type message [][]float64

func (w *slow) ones() message {
	m := make(message, w.rates())
	for j := range m {
		m[j] = make([]float64, 201)
		for i := range m[j] {
			m[j][i] = 1
		}
	}
	return m
}

func (m message) times(o message) {
	for j := range m {
		for i := range m[j] {
			m[j][i] *= o[j][i]
		}
	}
}

// spread is N[sd] times the message.
func (m message) spread(sd float64) message {
	out := make(message, len(m))
	for j := range m {
		out[j] = smooth(m[j], sd, 0)
	}
	return out
}

// smooth is the integral of N(theta; alpha + shift, sd²) times v, over theta,
// for every alpha.
func smooth(v []float64, sd, shift float64) []float64 {
	weight := make([]float64, 401)
	for n := range weight {
		weight[n] = bell(float64(n-200)/100-shift, sd) * 0.01
	}
	out := make([]float64, 201)
	for i := range out {
		for j, x := range v {
			out[i] += weight[j-i+200] * x
		}
	}
	return out
}

func (m message) mix(t [][]float64) message {
	out := make(message, len(m))
	for j := range m {
		out[j] = make([]float64, 201)
		for k := range m {
			for i := range out[j] {
				out[j][i] += t[j][k] * m[k][i]
			}
		}
	}
	return out
}

// burn is the product over readings.
func (w *slow) burn(b tree.Burn, c float64) message {
	d, h, r, s := float64(w.s.Wall.Width), float64(w.s.Wall.Target), float64(w.s.Ruler), float64(w.p.Error)
	m := w.ones()
	for j := range m {
		for i := range m[j] {
			for _, x := range b {
				pool := d * math.Exp(theta(i)) * grown(w.rate(j), float64(x.Hour), c) / grown(w.rate(j), h, c)
				p := phi((pool - d + w.flush) / s)
				if y := x.Ratio * d; !x.Full {
					p = phi((y+r/2-pool)/s) - phi((y-r/2-pool)/s)
				}
				m[j][i] *= (1-w.p.Slip)*p + w.p.Slip*r/d
			}
		}
	}
	return m
}

// pairing is E(k_p, theta; sb, sc).
func (w *slow) pairing(p tree.Pairing, c, sb, sc float64) message {
	e := w.ones()
	toBurn := w.transition(w.p.RateBurn)
	for _, bs := range p.Candles {
		candle := w.ones()
		for _, b := range bs {
			candle.times(w.burn(b, c).mix(toBurn).spread(sb))
		}
		e.times(candle.spread(sc))
	}
	return e
}

// run goes over every shape and cell.
func (w *slow) run() {
	for _, c := range w.p.Shapes {
		for _, sb := range w.p.Burn {
			for _, sc := range w.p.Candle {
				var es []message
				for _, p := range w.s.Pairings {
					es = append(es, w.pairing(p, c.Value, sb.Value, sc.Value))
				}
				for _, beta := range w.p.Slope {
					for _, sl := range w.p.Irregular {
						w.cell(es, c.Value, math.Hypot(sb.Value, sc.Value), beta.Value, sl.Value, c.Weight*sb.Weight*sc.Weight*beta.Weight*sl.Weight)
					}
				}
			}
		}
	}
	share(w.closer)
}

// cell adds one cell.
func (w *slow) cell(es []message, c, tau, beta, sl, weight float64) {
	prior, toPairing, js := w.ratePrior(), w.transition(w.p.RatePairing), make([]message, len(es))
	for p := range js {
		js[p] = w.ones()
		js[p].times(nothing(w.rates()))
	}
	evidence := 0.0
	for kv := range prior {
		ms := make([][]float64, len(es))
		for p, e := range es {
			if w.s.Pairings[p].Tested() {
				ms[p] = smooth(mean(e, toPairing[kv]), sl, w.shift(p, beta))
			}
		}
		for _, v := range w.line(ms, -1) {
			evidence += prior[kv] * v
		}
		for p, e := range es {
			q := smooth(w.line(ms, p), sl, -w.shift(p, beta))
			for kp := range e {
				for i := range q {
					js[p][kp][i] += prior[kv] * toPairing[kv][kp] * e[kp][i] * q[i]
				}
			}
		}
	}
	w.gather(js, c, tau, weight*evidence)
}

func nothing(rates int) message {
	m := make(message, rates)
	for j := range m {
		m[j] = make([]float64, 201)
	}
	return m
}

func mean(e message, weights []float64) []float64 {
	out := make([]float64, 201)
	for k, t := range weights {
		for i := range out {
			out[i] += t * e[k][i]
		}
	}
	return out
}

func (w *slow) shift(p int, beta float64) float64 {
	return beta * float64(w.s.Pairings[p].Rung-w.mid)
}

func (w *slow) ratePrior() []float64 {
	out := make([]float64, w.rates())
	for j := range out {
		out[j] = bell(float64(j-w.half)*w.step, w.p.RateSeries)
	}
	share(out)
	return out
}

// line is the prior of alpha times all messages but one.
func (w *slow) line(ms [][]float64, but int) []float64 {
	a := make([]float64, 201)
	for i := range a {
		a[i] = bell(theta(i), w.p.Level)
		for p, m := range ms {
			if m != nil && p != but {
				a[i] *= m[i]
			}
		}
	}
	return a
}
