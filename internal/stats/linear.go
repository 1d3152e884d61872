package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// Linear is a linear model of several variables, fitted within groups: each
// group has a level of its own, and only differences inside a group speak for
// the coefficients.
type Linear struct {
	N, Groups, DF int // values, groups, and degrees of freedom that are left
	Coef          []Coefficient
	ResidualSD    float64
	R2            float64 // share of the scatter within groups that is explained
	// Intercept is the level where all variables are 0, and its standard
	// error; NaN where there is more than one group.
	Intercept, InterceptSE float64
	Level                  float64 // of the intervals
	LogLikelihood          float64 // at the best fit, the spread by maximum likelihood
	Open                   int     // values known only to lie above or below an end
}

// Coefficient is what one variable adds for each of its units.
type Coefficient struct {
	Estimate, SE, Low, High float64
	DF                      float64 // degrees of freedom behind the interval
	// VIF says how many times larger the squared standard error is than if the
	// variable had nothing in common with the others.
	VIF float64
}

// ErrDependent is returned where a variable does not vary within any group, or
// is a combination of the others.
var ErrDependent = errors.New("the variables cannot be told apart")

// dependent is the share of a variable, by length, that must be its own for a
// fit to be attempted at all.
const dependent = 1e-8

// FitLinear fits y by least squares (Householder QR of the centred and scaled
// columns), x having a row for each y. It returns ErrTooFew when no degree of
// freedom is left, ErrDependent, and another error for values that no caller
// may hand over.
func FitLinear(x [][]float64, y []float64, level float64) (Linear, error) {
	return FitWithin(make([]int, len(y)), x, y, level)
}

// FitWithin is FitLinear with a level for each group of rows that have one
// number (the within estimator; Wooldridge, Econometric Analysis of Cross
// Section and Panel Data, ch. 10; from memory).
func FitWithin(group []int, x [][]float64, y []float64, level float64) (Linear, error) {
	d, err := newDesign(group, x, y)
	if err != nil {
		return Linear{}, fmt.Errorf("fit linear: %w", err)
	}
	l := Linear{N: len(y), Groups: len(d.size), DF: len(y) - len(d.size) - len(d.scale), Level: level, Intercept: math.NaN(), InterceptSE: math.NaN()}
	if l.DF < 1 {
		return l, ErrTooFew
	}
	if len(Dependences(group, x, dependent)) > 0 {
		return l, ErrDependent
	}
	b, inverse, err := d.solve()
	if err != nil {
		return l, err
	}
	l.fill(d, b, inverse)
	if l.Groups == 1 {
		l.intercept(d, inverse)
	}
	return l, nil
}

// design is a model matrix with the groups' means taken out and its columns
// brought to unit length.
type design struct {
	size  map[int]float64 // of each group
	means []float64       // of the columns, over all rows
	scale []float64       // lengths of the columns
	x     *mat.Dense
	y     []float64
	yMean float64
}

func newDesign(group []int, x [][]float64, y []float64) (design, error) {
	if len(x) != len(y) || len(group) != len(y) || len(x) == 0 || len(x[0]) == 0 {
		return design{}, errors.New("no values, or not as many of one as of the other")
	}
	for _, row := range append([][]float64{y}, x...) {
		if !finite(row) {
			return design{}, errors.New("a value is not finite")
		}
	}
	d := design{size: map[int]float64{}, x: mat.NewDense(len(x), len(x[0]), nil)}
	for _, g := range group {
		d.size[g]++
	}
	for k := range x[0] {
		column := make([]float64, len(x))
		for i := range x {
			column[i] = x[i][k]
		}
		centred, mean := takeOut(group, d.size, column)
		length := floats.Norm(centred, 2)
		if length <= 1e-12*math.Sqrt(float64(len(x)))*floats.Norm(column, math.Inf(1)) {
			length = 0
		}
		d.means, d.scale = append(d.means, mean), append(d.scale, length)
		if length > 0 {
			floats.Scale(1/length, centred)
		}
		d.x.SetCol(k, centred)
	}
	d.y, d.yMean = takeOut(group, d.size, y)
	return d, nil
}

// takeOut takes each group's mean out of its values; mean is that of all.
func takeOut(group []int, size map[int]float64, v []float64) (out []float64, mean float64) {
	means := map[int]float64{}
	for i, g := range group {
		means[g] += v[i] / size[g]
	}
	out = make([]float64, len(v))
	for i, g := range group {
		out[i] = v[i] - means[g]
		mean += v[i] / float64(len(v))
	}
	return out, mean
}

// solve finds the coefficients of the scaled columns and the inverse of their
// cross products.
func (d design) solve() (*mat.VecDense, *mat.SymDense, error) {
	var qr mat.QR
	qr.Factorize(d.x)
	var b mat.VecDense
	if err := qr.SolveVecTo(&b, false, mat.NewVecDense(len(d.y), d.y)); err != nil {
		return nil, nil, ErrDependent
	}
	var r, ri mat.Dense
	qr.RTo(&r)
	k := len(d.scale)
	if err := ri.Inverse(r.Slice(0, k, 0, k)); err != nil {
		return nil, nil, ErrDependent
	}
	inverse := mat.NewSymDense(k, nil)
	inverse.SymOuterK(1, &ri)
	return &b, inverse, nil
}

// fill works out what the fit tells of its doubts.
func (l *Linear) fill(d design, b *mat.VecDense, inverse *mat.SymDense) {
	var fit mat.VecDense
	fit.MulVec(d.x, b)
	var rss, tss float64
	for i, y := range d.y {
		r := y - fit.AtVec(i)
		rss, tss = rss+r*r, tss+y*y
	}
	l.ResidualSD, l.R2 = math.Sqrt(rss/float64(l.DF)), 1
	if tss > 0 {
		l.R2 = 1 - rss/tss
	}
	n := float64(l.N)
	l.LogLikelihood = -n / 2 * (math.Log(2*math.Pi*rss/n) + 1)
	for k, scale := range d.scale {
		c := Coefficient{Estimate: b.AtVec(k) / scale, SE: l.ResidualSD * math.Sqrt(inverse.At(k, k)) / scale, VIF: inverse.At(k, k)}
		l.Coef = append(l.Coef, c.between(l.Level, l.DF))
	}
}

// between adds the interval of a level.
func (c Coefficient) between(level float64, df int) Coefficient {
	t := tQuantile(level, df)
	c.DF = float64(df)
	c.Low, c.High = c.Estimate-t*c.SE, c.Estimate+t*c.SE
	return c
}

// intercept is the level of the only group.
func (l *Linear) intercept(d design, inverse *mat.SymDense) {
	l.Intercept = d.yMean
	at := mat.NewVecDense(len(d.means), nil)
	for k, c := range l.Coef {
		l.Intercept -= c.Estimate * d.means[k]
		at.SetVec(k, d.means[k]/d.scale[k])
	}
	l.InterceptSE = l.ResidualSD * math.Sqrt(1/float64(l.N)+mat.Inner(at, inverse, at))
}

// Dependence says that a variable has little or nothing of its own.
type Dependence struct {
	Column int
	On     []int   // the earlier variables it goes with; none when it does not vary within groups
	Own    float64 // the share of it, by length, that is its own
}

// Dependences finds the variables whose own share within groups, beside those
// before them that were not found so, is below a share (0 to 1) of their
// length. It works down the columns by Gram and Schmidt, twice over (Björck,
// Numerical Methods for Least Squares Problems, 1996, sec. 2.4; from memory).
func Dependences(group []int, x [][]float64, below float64) []Dependence {
	d, err := newDesign(group, x, make([]float64, len(x)))
	if err != nil {
		return nil
	}
	var out []Dependence
	var basis [][]float64
	var from []int
	for k, scale := range d.scale {
		v := mat.Col(nil, k, d.x)
		if scale == 0 {
			out = append(out, Dependence{Column: k})
			continue
		}
		for range 2 {
			for _, u := range basis {
				floats.AddScaled(v, -floats.Dot(u, v), u)
			}
		}
		own := floats.Norm(v, 2)
		if own < below {
			out = append(out, Dependence{k, d.shared(k, from), own})
			continue
		}
		floats.Scale(1/own, v)
		basis, from = append(basis, v), append(from, k)
	}
	return out
}

// goTogether is the correlation within groups from which two variables are said to
// go together.
const goTogether = 0.5

// shared are the earlier columns that one goes with: those it is like, or all
// where it is like none by itself.
func (d design) shared(k int, earlier []int) []int {
	var out []int
	for _, e := range earlier {
		if math.Abs(floats.Dot(mat.Col(nil, k, d.x), mat.Col(nil, e, d.x))) >= goTogether {
			out = append(out, e)
		}
	}
	if len(out) == 0 {
		return earlier
	}
	return out
}
