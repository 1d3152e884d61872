package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// EllipseLeast is how many points an ellipse is fitted through at least: one
// more than it has parameters, so that something is left to judge the fit by.
const EllipseLeast = 6

// What an ellipse cannot be fitted through.
var (
	ErrOnALine     = errors.New("the points lie on a line")
	ErrNoEllipse   = errors.New("the points do not lie on an ellipse")
	ErrNotANumber  = errors.New("a value is not finite")
	errUnevenLists = errors.New("as many x as y are needed")
)

// Ellipse is an ellipse through points, in the units of the points.
type Ellipse struct {
	N          int
	CX, CY     float64 // centre
	A, B       float64 // the longer and the shorter semi-axis
	Angle      float64 // from x to the longer axis, radians in [0, pi)
	ResidualSD float64 // of the points' orthogonal distances, with N-5 degrees of freedom
	Arc        float64 // degrees of the way round within which the points lie
	// Standard errors. AngleSE is never more than that of a direction of
	// which nothing is known, pi/sqrt(12).
	CXSE, CYSE, ASE, BSE, AngleSE float64
	// Sym is the symmetric matrix that maps the unit circle to the ellipse
	// about its centre: xx, xy, yy.
	Sym [3]float64
	// Cov is the covariance of CX, CY and Sym, which is sound for circles
	// too, whose angle is not.
	Cov      [5][5]float64
	Warnings []string
}

// Bounds beyond which an ellipse is doubted; app defaults.
const (
	EllipseArc   = 240.0 // degrees round, below which direct fits shrink noticeably
	ellipseFew   = 8     // points
	ellipseRough = 0.1   // residual sd over the shorter semi-axis
)

// FitEllipse fits an ellipse by direct least squares: Fitzgibbon, Pilu &
// Fisher, IEEE PAMI 21:476-480, 1999, in the stable form of Halir & Flusser
// 1998. The standard errors are those of orthogonal distances, linearised. It
// returns ErrTooFew below EllipseLeast different points, ErrOnALine,
// ErrNoEllipse or ErrNotANumber. On short arcs the fit is biased towards
// smaller ellipses, which a warning says.
func FitEllipse(xs, ys []float64) (Ellipse, error) {
	if len(xs) != len(ys) {
		return Ellipse{}, fmt.Errorf("fit ellipse: %w", errUnevenLists)
	}
	if !finite(xs) || !finite(ys) {
		return Ellipse{}, fmt.Errorf("fit ellipse: %w", ErrNotANumber)
	}
	if differentPoints(xs, ys) < EllipseLeast {
		return Ellipse{}, fmt.Errorf("fit ellipse: %w", ErrTooFew)
	}
	f, u, v := placed(xs, ys)
	if !(f.scale > 0) || math.IsInf(f.scale, 0) || onALine(u, v) {
		return Ellipse{}, fmt.Errorf("fit ellipse: %w", ErrOnALine)
	}
	c, ok := directConic(u, v)
	if !ok {
		return Ellipse{}, fmt.Errorf("fit ellipse: %w", ErrNoEllipse)
	}
	e, ok := c.ellipse()
	if !ok {
		return Ellipse{}, fmt.Errorf("fit ellipse: %w", ErrNoEllipse)
	}
	e.N = len(xs)
	e.judge(u, v)
	e.doubts()
	return e.scaled(f), nil
}

// differentPoints counts the points without repetitions.
func differentPoints(xs, ys []float64) int {
	seen := map[[2]float64]bool{}
	for i := range xs {
		seen[[2]float64{xs[i], ys[i]}] = true
	}
	return len(seen)
}

// placing is where the points were before they were centred and scaled.
type placing struct{ x, y, scale float64 }

// placed moves points to their mean and to an extent of about one.
func placed(xs, ys []float64) (f placing, u, v []float64) {
	f = placing{x: stat.Mean(xs, nil), y: stat.Mean(ys, nil)}
	for i := range xs {
		f.scale = max(f.scale, math.Abs(xs[i]-f.x), math.Abs(ys[i]-f.y))
	}
	for i := range xs {
		u, v = append(u, (xs[i]-f.x)/f.scale), append(v, (ys[i]-f.y)/f.scale)
	}
	return f, u, v
}

// onALine reports whether points of an extent of one scatter about a line by no
// more than rounding.
func onALine(u, v []float64) bool {
	uu, vv, uv := stat.Variance(u, nil), stat.Variance(v, nil), stat.Covariance(u, v, nil)
	_, least, _ := symmetricAxes(uu, uv, vv)
	return !(least > 1e-14)
}

// symmetricAxes gives the eigenvalues of a symmetric matrix, the larger first,
// and the angle of the first one's direction in [0, pi).
func symmetricAxes(xx, xy, yy float64) (large, small, angle float64) {
	mean, half := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	angle = math.Atan2(2*xy, xx-yy) / 2
	if angle < 0 {
		angle += math.Pi
	}
	return mean + half, mean - half, angle
}

// conic is A x² + B xy + C y² + D x + E y + F = 0.
type conic [6]float64

// directConic is the least squares conic among the ellipses.
func directConic(u, v []float64) (conic, bool) {
	n := len(u)
	d1, d2 := mat.NewDense(n, 3, nil), mat.NewDense(n, 3, nil)
	for i := range u {
		d1.SetRow(i, []float64{u[i] * u[i], u[i] * v[i], v[i] * v[i]})
		d2.SetRow(i, []float64{u[i], v[i], 1})
	}
	var s1, s2, s3, t, m mat.Dense
	s1.Mul(d1.T(), d1)
	s2.Mul(d1.T(), d2)
	s3.Mul(d2.T(), d2)
	if t.Solve(&s3, s2.T()) != nil {
		return conic{}, false
	}
	m.Mul(&s2, &t)
	m.Sub(&s1, &m) // the quadratic part after the linear one is eliminated
	return smallestEllipse(&m, &t)
}

// smallestEllipse picks the eigenvector with 4AC - B² > 0 and adds the linear
// part that belongs to it.
func smallestEllipse(m, t *mat.Dense) (conic, bool) {
	reduced := mat.NewDense(3, 3, nil)
	for j := range 3 {
		reduced.Set(0, j, m.At(2, j)/2)
		reduced.Set(1, j, -m.At(1, j))
		reduced.Set(2, j, m.At(0, j)/2)
	}
	var eigen mat.Eigen
	if !eigen.Factorize(reduced, mat.EigenRight) {
		return conic{}, false
	}
	var vectors mat.CDense
	eigen.VectorsTo(&vectors)
	for k := range 3 {
		a, b, c := real(vectors.At(0, k)), real(vectors.At(1, k)), real(vectors.At(2, k))
		if 4*a*c-b*b > 0 {
			var linear mat.VecDense
			linear.MulVec(t, mat.NewVecDense(3, []float64{a, b, c}))
			return conic{a, b, c, -linear.AtVec(0), -linear.AtVec(1), -linear.AtVec(2)}, true
		}
	}
	return conic{}, false
}

// ellipse turns a conic into centre, axes and angle; ok is false for one that
// is no ellipse of any extent.
func (q conic) ellipse() (e Ellipse, ok bool) {
	if q[0] < 0 {
		for i := range q {
			q[i] = -q[i]
		}
	}
	det := 4*q[0]*q[2] - q[1]*q[1]
	e.CX = (q[1]*q[4] - 2*q[2]*q[3]) / det
	e.CY = (q[1]*q[3] - 2*q[0]*q[4]) / det
	k := -(q[5] + (q[3]*e.CX+q[4]*e.CY)/2)
	large, small, angle := symmetricAxes(q[0]/k, q[1]/(2*k), q[2]/k)
	e.A, e.B, e.Angle = 1/math.Sqrt(small), 1/math.Sqrt(large), angle+math.Pi/2
	if e.Angle >= math.Pi {
		e.Angle -= math.Pi
	}
	if !finite([]float64{e.CX, e.CY, e.A, e.B}) || !(e.B > 0) {
		return e, false
	}
	e.Sym = symmetricMap(e.A, e.B, e.Angle)
	return e, true
}

// symmetricMap is the symmetric matrix with these axes.
func symmetricMap(a, b, angle float64) [3]float64 {
	s, c := math.Sincos(angle)
	return [3]float64{a*c*c + b*s*s, (a - b) * s * c, a*s*s + b*c*c}
}

// scaled puts an ellipse back to where its points were.
func (e Ellipse) scaled(f placing) Ellipse {
	e.CX, e.CY = f.x+f.scale*e.CX, f.y+f.scale*e.CY
	for _, x := range []*float64{&e.A, &e.B, &e.ResidualSD, &e.CXSE, &e.CYSE, &e.ASE, &e.BSE, &e.Sym[0], &e.Sym[1], &e.Sym[2]} {
		*x *= f.scale
	}
	for i := range e.Cov {
		for j := range e.Cov[i] {
			e.Cov[i][j] *= f.scale * f.scale
		}
	}
	return e
}
