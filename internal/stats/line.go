package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Line is a straight line through points by least squares.
type Line struct {
	N                    int
	Slope, Intercept     float64
	HasInterval          bool // three points or more: the rest is known
	SlopeSE, InterceptSE float64
	ResidualSD           float64
	R2                   float64 // 1 when y does not vary
	Level                float64 // of the interval
	SlopeLow, SlopeHigh  float64
	// Bend is the chance of a curvature at least this strong if the points
	// lay on a straight line; 1 below four points.
	Bend     float64
	Warnings []string
}

// BendLimit is the chance of a curvature below which a line is called not
// steady.
const BendLimit = 0.05

// rounding is the share of the largest y below which a curvature is the work of
// rounding, not of the points.
const rounding = 1e-10

// FitLine fits a straight line. It returns ErrTooFew below two points or when
// all x are equal, and another error for values that no caller may hand over. Sums are taken around the means (Chan, Golub & LeVeque, Am.
// Stat. 37:242-247, 1983), so that large x keep their digits.
func FitLine(x, y []float64, level float64) (Line, error) {
	if len(x) != len(y) {
		return Line{}, fmt.Errorf("fit line: %d x and %d y", len(x), len(y))
	}
	if !finite(x) || !finite(y) {
		return Line{}, errors.New("fit line: a value is not finite")
	}
	if len(x) < 2 || floats.Max(x) == floats.Min(x) {
		return Line{}, ErrTooFew
	}
	mx, my := stat.Mean(x, nil), stat.Mean(y, nil)
	var sxx, sxy, syy float64
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		sxx, sxy, syy = sxx+dx*dx, sxy+dx*dy, syy+dy*dy
	}
	l := Line{N: len(x), Slope: sxy / sxx, Level: level, Bend: 1, R2: 1}
	l.Intercept = my - l.Slope*mx
	if len(x) > 2 {
		l.spread(x, y, mx, my, sxx, syy)
	}
	l.doubts(x, y)
	return l, nil
}

// finite reports whether every value is a number that can be reckoned with.
func finite(x []float64) bool {
	for _, v := range x {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// lastDigits is the share of a value below which a difference is taken to come
// from the last digits of the numbers alone.
const lastDigits = 1e-14

// spread fills in what three points or more tell of the line's doubts.
func (l *Line) spread(x, y []float64, mx, my, sxx, syy float64) {
	var rss float64
	for i := range x {
		r := (y[i] - my) - l.Slope*(x[i]-mx)
		rss += r * r
	}
	df := l.N - 2
	l.HasInterval = true
	l.ResidualSD = math.Sqrt(rss / float64(df))
	l.SlopeSE = l.ResidualSD / math.Sqrt(sxx)
	l.InterceptSE = l.ResidualSD * math.Sqrt(1/float64(l.N)+mx*mx/sxx)
	if dust := lastDigits * my; syy > float64(l.N)*dust*dust {
		l.R2 = 1 - rss/syy
	}
	t := tQuantile(l.Level, df)
	l.SlopeLow, l.SlopeHigh = l.Slope-t*l.SlopeSE, l.Slope+t*l.SlopeSE
}

// doubts adds what is to be said about the line in words.
func (l *Line) doubts(x, y []float64) {
	if l.N < 3 {
		l.Warnings = append(l.Warnings, "two points only: no interval yet")
		return
	}
	if l.Bend = bend(x, y); l.Bend < BendLimit {
		l.Warnings = append(l.Warnings, "not steady: the points follow a bend, not a straight line")
	}
}

// bend is the p-value of the squared term when y is fitted by a parabola in x
// (partial t-test; Draper & Smith, Applied Regression Analysis, from memory);
// 1 below four points, when the fit cannot be told apart, or when the curvature
// is no more than rounding.
func bend(x, y []float64) float64 {
	n := len(x)
	if n < 4 {
		return 1
	}
	mx, sx := stat.MeanStdDev(x, nil)
	a := mat.NewDense(n, 3, nil)
	for i, v := range x {
		z := (v - mx) / sx
		a.SetRow(i, []float64{1, z, z * z})
	}
	var qr mat.QR
	qr.Factorize(a)
	var b mat.VecDense
	if err := qr.SolveVecTo(&b, false, mat.NewVecDense(n, y)); err != nil {
		return 1
	}
	if math.Abs(b.AtVec(2)) <= rounding*floats.Norm(y, math.Inf(1)) {
		return 1
	}
	return partialP(a, &b, y)
}

// partialP is the two-sided p-value of the last coefficient, which is not 0: it
// is 0 when nothing scatters about the fit.
func partialP(a *mat.Dense, b *mat.VecDense, y []float64) float64 {
	n, k := a.Dims()
	var fit mat.VecDense
	fit.MulVec(a, b)
	var rss float64
	for i := range y {
		r := y[i] - fit.AtVec(i)
		rss += r * r
	}
	var ata, inv mat.Dense
	ata.Mul(a.T(), a)
	if inv.Inverse(&ata) != nil {
		return 1
	}
	se := math.Sqrt(rss / float64(n-k) * inv.At(k-1, k-1))
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(n - k)}
	return 2 * t.Survival(math.Abs(b.AtVec(k-1)/se))
}
