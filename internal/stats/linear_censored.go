package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// ErrUnbounded is returned where the values do not hold the fit: some level or
// coefficient may be as large as one likes.
var ErrUnbounded = errors.New("the open values leave the fit without a bound")

// FitCensored is FitWithin for values that are known only to lie between two
// ends: normal scatter of one spread about each group's level, by maximum
// likelihood (Tobin, Econometrica 26:24-36, 1958). In the levels and
// coefficients over the spread, and one over the spread, the likelihood has one
// peak (Olsen, Econometrica 46:1211-1215, 1978; Burridge, J. R. Statist. Soc. B
// 43:41-45, 1981; from memory), so Newton's steps find it.
//
// Maximum likelihood takes the spread too small in small samples. Standard
// errors are therefore stretched, and intervals are Student's, by the degrees of
// freedom df: how many values are known well enough to count, less the groups
// and the variables. With exact values that all count it is FitWithin.
func FitCensored(group []int, x [][]float64, y []Censored, df int, level float64) (Linear, error) {
	l, _, err := fitCensored(group, x, y, df, level)
	return l, err
}

// fitCensored is FitCensored with the fit itself.
func fitCensored(group []int, x [][]float64, y []Censored, df int, level float64) (Linear, *censoredFit, error) {
	p, err := newCensoredFit(group, x, y)
	if err != nil {
		return Linear{}, nil, fmt.Errorf("fit censored: %w", err)
	}
	l := Linear{N: len(y), Groups: p.groups, DF: df, Level: level, Intercept: math.NaN(), InterceptSE: math.NaN(), Open: p.open()}
	if df < 1 || df > l.N-p.groups-p.slopes {
		return l, nil, ErrTooFew
	}
	if len(Dependences(group, x, dependent)) > 0 {
		return l, nil, ErrDependent
	}
	if !p.held() {
		return l, nil, ErrUnbounded
	}
	information, err := p.climb()
	if err != nil {
		return l, nil, err
	}
	return l, p, p.report(&l, information)
}

// censoredFit is a censored fit under way. Columns and values are centred over
// all rows and scaled; at holds the levels of the groups, then the slopes, all
// over the spread, and last one over the spread.
type censoredFit struct {
	z              [][]float64 // with a column for each group before the variables
	y              []Censored
	groups, slopes int
	d              design
	middle, unit   float64 // of the values
	at             []float64
	logLikelihood  float64
}

func newCensoredFit(group []int, x [][]float64, y []Censored) (*censoredFit, error) {
	some := make([]float64, len(y))
	for i, v := range y {
		if err := v.Check(); err != nil {
			return nil, err
		}
		some[i] = v.inside()
	}
	d, err := newDesign(group, x, some)
	if err != nil {
		return nil, err
	}
	p := &censoredFit{d: d, groups: len(d.size), slopes: len(x[0]), middle: d.yMean}
	for _, v := range some {
		p.unit = max(p.unit, math.Abs(v-p.middle))
	}
	if p.unit == 0 {
		return nil, ErrTooFew
	}
	p.fillIn(group, x, y)
	return p, nil
}

// fillIn writes the scaled rows and values, and the place where the climb
// begins: no differences, and a spread of half the largest distance.
func (p *censoredFit) fillIn(group []int, x [][]float64, y []Censored) {
	place := map[int]int{}
	for i, g := range group {
		if _, ok := place[g]; !ok {
			place[g] = len(place)
		}
		row := make([]float64, p.groups+p.slopes)
		row[place[g]] = 1
		for k := range x[i] {
			if p.d.scale[k] > 0 {
				row[p.groups+k] = (x[i][k] - p.d.means[k]) / p.d.scale[k]
			}
		}
		p.z = append(p.z, row)
		p.y = append(p.y, Censored{(y[i].Low - p.middle) / p.unit, (y[i].High - p.middle) / p.unit})
	}
	p.at = make([]float64, p.groups+p.slopes+1)
	p.at[len(p.at)-1] = 2
}

// inside is a number within the ends.
func (c Censored) inside() float64 {
	switch {
	case math.IsInf(c.Low, -1) && math.IsInf(c.High, 1):
		return 0
	case math.IsInf(c.Low, -1):
		return c.High
	case math.IsInf(c.High, 1):
		return c.Low
	}
	return c.Low + (c.High-c.Low)/2
}

// isOpen reports whether an end is missing.
func (c Censored) isOpen() bool { return math.IsInf(c.Low, -1) || math.IsInf(c.High, 1) }

func (p *censoredFit) open() int {
	n := 0
	for _, v := range p.y {
		if v.isOpen() {
			n++
		}
	}
	return n
}

// held reports whether every group is held from above and from below.
func (p *censoredFit) held() bool {
	above, below := make([]bool, p.groups), make([]bool, p.groups)
	for i, v := range p.y {
		for g := range p.groups {
			above[g] = above[g] || p.z[i][g] == 1 && !math.IsInf(v.High, 1)
			below[g] = below[g] || p.z[i][g] == 1 && !math.IsInf(v.Low, -1)
		}
	}
	for g := range p.groups {
		if !above[g] || !below[g] {
			return false
		}
	}
	return true
}

// The climb: how many steps, how small a gain ends it, and how badly
// conditioned its information may be.
const (
	mostClimbs = 200
	leastGain  = 1e-12
	flattest   = 1e8
)

// climb goes to the peak by Newton's steps, halved until they gain.
func (p *censoredFit) climb() (*mat.SymDense, error) {
	at, grad, info := p.look(p.at)
	for range mostClimbs {
		var chol mat.Cholesky
		var step mat.VecDense
		if !chol.Factorize(info) || chol.Cond() > flattest || chol.SolveVecTo(&step, grad) != nil {
			return nil, ErrUnbounded
		}
		gain := 0.0
		for half := 1.0; half > 1e-12; half /= 2 {
			next := make([]float64, len(p.at))
			for k := range next {
				next[k] = p.at[k] + half*step.AtVec(k)
			}
			if v, g, h := p.look(next); v > at || v == at && half == 1 {
				gain, at, grad, info, p.at = v-at, v, g, h, next
				break
			}
		}
		if gain <= leastGain {
			p.logLikelihood = at - float64(p.exact())*math.Log(p.unit)
			return info, nil
		}
	}
	return nil, ErrUnbounded
}

// exact counts the values without any width.
func (p *censoredFit) exact() int {
	n := 0
	for _, v := range p.y {
		if v.Low == v.High {
			n++
		}
	}
	return n
}

// look is the log-likelihood at a place, its slope, and its curvature turned
// upside down.
func (p *censoredFit) look(at []float64) (float64, *mat.VecDense, *mat.SymDense) {
	n := len(at)
	grad, info := mat.NewVecDense(n, nil), mat.NewSymDense(n, nil)
	tau, sum := at[n-1], 0.0
	if !(tau > 0) {
		return math.Inf(-1), grad, info
	}
	for i, v := range p.y {
		t := termOf(v, along(at, p.z[i]), tau)
		sum += t.value
		for k := range n {
			a, ta := t.along(k, p.z[i])
			grad.SetVec(k, grad.AtVec(k)+a*ta)
			for m := k; m < n; m++ {
				info.SetSym(k, m, info.At(k, m)-t.bend(k, m, p.z[i]))
			}
		}
	}
	return sum, grad, info
}

// predicted is a row's level and slopes over the spread.
func (p *censoredFit) predicted(row int) float64 { return along(p.at, p.z[row]) }

func along(at, z []float64) float64 {
	sum := 0.0
	for k, x := range z {
		sum += at[k] * x
	}
	return sum
}

// term is one value's log-likelihood with its derivatives by the predictor and
// by one over the spread.
type term struct{ value, eta, tau, etaEta, etaTau, tauTau float64 }

func (t term) along(k int, z []float64) (float64, float64) {
	if k == len(z) {
		return 1, t.tau
	}
	return z[k], t.eta
}

func (t term) bend(k, m int, z []float64) float64 {
	switch {
	case k == len(z):
		return t.tauTau
	case m == len(z):
		return z[k] * t.etaTau
	}
	return z[k] * z[m] * t.etaEta
}

// termOf differentiates log τ + log φ(τy - η) for an exact value, and
// log(Φ(τ high - η) - Φ(τ low - η)) for one between ends.
func termOf(v Censored, eta, tau float64) term {
	if v.Low == v.High {
		u := tau*v.Low - eta
		return term{math.Log(tau) + LogNormalDensity(u), u, 1/tau - u*v.Low, -1, v.Low, -1/(tau*tau) - v.Low*v.Low}
	}
	a, b := tau*v.Low-eta, tau*v.High-eta
	value := LogNormalBetween(a, b)
	low, high := edge(a, v.Low, value), edge(b, v.High, value)
	t := term{value: value, eta: low.share - high.share, tau: high.moment - low.moment}
	t.etaEta = low.turn - high.turn - t.eta*t.eta
	t.etaTau = high.turnMoment - low.turnMoment - t.eta*t.tau
	t.tauTau = low.turnSquare - high.turnSquare - t.tau*t.tau
	return t
}

// ends is what one end adds: its density over the chance between the ends, by
// itself, times the end, and each times the standardised end.
type ends struct{ share, moment, turn, turnMoment, turnSquare float64 }

func edge(z, end, value float64) ends {
	if math.IsInf(end, 0) {
		return ends{}
	}
	s := math.Exp(LogNormalDensity(z) - value)
	return ends{s, s * end, s * z, s * z * end, s * z * end * end}
}

// report turns the place of the peak and its curvature into coefficients.
func (p *censoredFit) report(l *Linear, information *mat.SymDense) error {
	var chol mat.Cholesky
	var cov mat.SymDense
	if !chol.Factorize(information) || chol.InverseTo(&cov) != nil {
		return ErrUnbounded
	}
	n := len(p.at)
	tau := p.at[n-1]
	stretch := math.Sqrt(float64(l.DF+p.groups+p.slopes) / float64(l.DF))
	l.ResidualSD, l.R2, l.LogLikelihood = stretch*p.unit/tau, math.NaN(), p.logLikelihood
	se := func(weights []float64) float64 { // of sums of γ/τ
		w, value := mat.NewVecDense(n, nil), 0.0
		for k, x := range weights {
			w.SetVec(k, x/tau)
			value += x * p.at[k] / tau
		}
		w.SetVec(n-1, -value/tau)
		return stretch * p.unit * math.Sqrt(mat.Inner(w, &cov, w))
	}
	for k := range p.slopes {
		weights := make([]float64, p.groups+k+1)
		weights[p.groups+k] = 1 / p.d.scale[k]
		c := Coefficient{Estimate: p.unit * p.at[p.groups+k] / tau / p.d.scale[k], SE: se(weights), VIF: math.NaN()}
		l.Coef = append(l.Coef, c.between(l.Level, l.DF))
	}
	if p.groups == 1 {
		weights := make([]float64, 1+p.slopes)
		weights[0] = 1
		l.Intercept = p.middle + p.unit*p.at[0]/tau
		for k := range p.slopes {
			weights[1+k] = -p.d.means[k] / p.d.scale[k]
			l.Intercept -= l.Coef[k].Estimate * p.d.means[k]
		}
		l.InterceptSE = se(weights)
	}
	return nil
}
