package tree_test

import "math"

// gather adds what one cell believes of every rung, and of which is closest.
func (w *slow) gather(js []message, c, tau, weight float64) {
	var hists [][]float64
	var tested []int
	for p, j := range js {
		sum := 0.0
		for k := range j {
			for _, v := range j[k] {
				sum += v
			}
		}
		hist := make([]float64, 200)
		for k := range j {
			for i, v := range j[k] {
				w.point(p, i, w.rate(k), c, tau, weight*v/sum)
				hist[w.bin(theta(i), w.rate(k), c, tau)] += v / sum
			}
		}
		if w.s.Pairings[p].Tested() {
			hists, tested = append(hists, hist), append(tested, p)
		}
	}
	w.total += weight
	for n, v := range lowest(hists) {
		w.closer[tested[n]] += weight * v
	}
}

// ahead is w(k) = log(g(k,H)/g(k,H/2)).
func (w *slow) ahead(k, c float64) float64 {
	h := float64(w.s.Wall.Target)
	return math.Log(grown(k, h, c) / grown(k, h/2, c))
}

// missed is m(k, theta).
func missed(x, z, tau float64) float64 {
	y := (x - z) / tau
	return tau*bell(x/tau, 1) - x*phi(-x/tau) + tau*bell(y, 1) + (x-z)*phi(y)
}

func (w *slow) bin(x, k, c, tau float64) int {
	b := math.Floor(200 * math.Log(missed(x, w.ahead(k, c), tau)/1e-4) / math.Log(1/1e-4))
	return int(min(max(b, 0), 199))
}

func (w *slow) point(p, i int, k, c, tau, weight float64) {
	x, r := theta(i), &w.rungs[p]
	r.mean, r.square = r.mean+weight*x, r.square+weight*x*x
	r.full += weight * phi(x/tau)
	r.early += weight * phi((x-w.ahead(k, c))/tau)
	m := missed(x, w.ahead(k, c), tau)
	r.miss, r.missSquare = r.miss+weight*m, r.missSquare+weight*m*m
	r.never += weight * phi((math.Log(grown(k, float64(w.s.Wall.Target), c))-x)/tau)
	r.parts = append(r.parts, slowPart{weight, x, tau, k, c})
}

// lowest is sum_i h_p(i) prod over the others of (1 - H_r(i) + h_r(i)/2).
func lowest(hists [][]float64) []float64 {
	out := make([]float64, len(hists))
	for p := range hists {
		passed := make([]float64, len(hists))
		for i, v := range hists[p] {
			for r := range hists {
				passed[r] += hists[r][i]
				if r != p {
					v *= 1 - passed[r] + hists[r][i]/2
				}
			}
			out[p] += v
		}
	}
	return out
}

// median is the hour by which the next candle is full with a chance of a half.
func (w *slow) median(p int) float64 {
	h, lo, hi := float64(w.s.Wall.Target), 0.0, 100.0
	for hi-lo > 1e-5 {
		t, sum := (lo+hi)/2, 0.0
		for _, x := range w.rungs[p].parts {
			if x.weight > 1e-9*w.total {
				sum += x.weight * phi((x.theta-math.Log(grown(x.k, h, x.c)/grown(x.k, t, x.c)))/x.tau)
			}
		}
		if sum >= w.total/2 {
			hi = t
		} else {
			lo = t
		}
	}
	return hi
}
