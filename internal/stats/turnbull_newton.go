package stats

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// newton finishes masses that self-consistency approaches too slowly, by the
// primal-dual interior-point method (Nocedal & Wright, Numerical Optimization,
// 2nd ed. 2006, ch. 19; from memory). At the best masses every step has either
// a mass above 0 and the slope N, or no mass and a slope short of N: mass times
// shortfall is 0. Newton steps head for products that are small and equal, and
// smaller each time. It returns how far the log-likelihood may still be from
// its best.
func (t *Turnbull) newton(looks []look, p, slope []float64) (gap float64) {
	n, m := float64(t.N), float64(len(p))
	short := make([]float64, len(p))
	for j := range p {
		p[j] = 0.9*p[j] + 0.1/m
		short[j] = 0.1 * n
	}
	for range mostSteps {
		t.Rounds++
		t.climb(looks, p, slope)
		aim := 0.1 * floats.Dot(p, short) / m
		if !advance(curvature(looks, p), p, short, slope, n, aim) {
			break
		}
		whole := append([]float64(nil), p...)
		floats.Scale(1/floats.Sum(whole), whole)
		if gap = t.climb(looks, whole, slope); gap <= settled*n {
			copy(p, whole)
			return gap
		}
	}
	floats.Scale(1/floats.Sum(p), p)
	return t.climb(looks, p, slope)
}

// advance takes one Newton step towards products of mass and shortfall that all
// equal the aim, as far as all stay above 0. It reports whether there was one.
func advance(bend *mat.SymDense, p, short, slope []float64, n, aim float64) bool {
	m := len(p)
	by := mat.NewVecDense(m, nil)
	for j := range p {
		bend.SetSym(j, j, bend.At(j, j)+short[j]/p[j])
		by.SetVec(j, slope[j]-n+aim/p[j])
	}
	var half mat.Cholesky
	if !half.Factorize(bend) {
		return false
	}
	var step mat.VecDense
	if err := half.SolveVecTo(&step, by); err != nil {
		return false
	}
	far, rise := 1.0, make([]float64, m)
	for j := range p {
		rise[j] = (aim-short[j]*step.AtVec(j))/p[j] - short[j]
		far = math.Min(far, room(p[j], step.AtVec(j)))
		far = math.Min(far, room(short[j], rise[j]))
	}
	for j := range p {
		p[j] += far * step.AtVec(j)
		short[j] += far * rise[j]
	}
	return true
}

// room is how much of a step a number can take and stay above 0, nearly.
func room(at, step float64) float64 {
	if step >= 0 {
		return 1
	}
	return -0.99 * at / step
}

// curvature is minus the second slopes of the log-likelihood by the masses: for
// two steps, the sum over the looks that cover both. As looks cover steps side
// by side, sums from the end of each row and then down the columns make it.
func curvature(looks []look, p []float64) *mat.SymDense {
	m := len(p)
	out := mat.NewSymDense(m, nil)
	for _, l := range looks {
		s := l.mass(p)
		out.SetSym(l.first, l.last, out.At(l.first, l.last)+l.count/(s*s))
	}
	for j := range m {
		var row float64
		for k := m - 1; k >= j; k-- {
			row += out.At(j, k)
			above := 0.0
			if j > 0 {
				above = out.At(j-1, k)
			}
			out.SetSym(j, k, row+above)
		}
	}
	return out
}
