package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Point is the point of the ellipse where the unit circle's is at an angle,
// in radians.
func (e Ellipse) Point(t float64) (x, y float64) {
	s, c := math.Sincos(t)
	return e.CX + e.Sym[0]*c + e.Sym[1]*s, e.CY + e.Sym[1]*c + e.Sym[2]*s
}

// OnCircle maps a point to where the ellipse is the unit circle, by the
// symmetric map.
func (e Ellipse) OnCircle(x, y float64) (u, v float64) {
	x, y = x-e.CX, y-e.CY
	det := e.Sym[0]*e.Sym[2] - e.Sym[1]*e.Sym[1]
	return (e.Sym[2]*x - e.Sym[1]*y) / det, (e.Sym[0]*y - e.Sym[1]*x) / det
}

// Distance is how far a point lies outside the ellipse, orthogonally; inside it
// is negative.
func (e Ellipse) Distance(x, y float64) float64 {
	fx, fy := e.Foot(x, y)
	d := math.Hypot(x-fx, y-fy)
	if u, v := e.OnCircle(x, y); math.Hypot(u, v) < 1 {
		return -d
	}
	return d
}

// Foot is the ellipse's point nearest to another.
func (e Ellipse) Foot(x, y float64) (fx, fy float64) {
	s, c := math.Sincos(e.Angle)
	px, py := (x-e.CX)*c+(y-e.CY)*s, (y-e.CY)*c-(x-e.CX)*s
	qx, qy := footOfQuadrant(e.A, e.B, math.Abs(px), math.Abs(py))
	qx, qy = math.Copysign(qx, px), math.Copysign(qy, py)
	return e.CX + qx*c - qy*s, e.CY + qx*s + qy*c
}

// footOfQuadrant finds the nearest point of an ellipse along the axes, a >= b,
// to a point with x, y >= 0, by bisection on the multiplier, which cannot fail
// (Eberly, Distance from a point to an ellipse, 2013, from memory).
func footOfQuadrant(a, b, x, y float64) (fx, fy float64) {
	if y <= 0 {
		if d := a*a - b*b; a*x < d {
			fx = a * a * x / d
			return fx, b * math.Sqrt(max(0, 1-fx*fx/(a*a)))
		}
		return a, 0
	}
	r := a * a / (b * b)
	zx, zy := x/a, y/b
	low, high := zy-1, math.Hypot(r*zx, zy)-1
	for range 200 {
		mid := (low + high) / 2
		if mid <= low || mid >= high {
			break
		}
		if math.Hypot(r*zx/(mid+r), zy/(mid+1)) > 1 {
			low = mid
		} else {
			high = mid
		}
	}
	t := (low + high) / 2
	return r * x / (t + r), y / (t + 1)
}

// judge fills in how the points scatter about the ellipse and what follows for
// its parameters: the residual is linear in centre and map for small changes,
// so the covariance is that of a linear fit.
func (e *Ellipse) judge(xs, ys []float64) {
	j := mat.NewDense(e.N, 5, nil)
	var rss float64
	for i := range xs {
		fx, fy := e.Foot(xs[i], ys[i])
		rss += (xs[i]-fx)*(xs[i]-fx) + (ys[i]-fy)*(ys[i]-fy)
		j.SetRow(i, e.moves(fx, fy))
	}
	e.ResidualSD = math.Sqrt(rss / float64(e.N-5))
	e.Arc = arcOf(*e, xs, ys)
	var jtj, inv mat.Dense
	jtj.Mul(j.T(), j)
	if inv.Inverse(&jtj) != nil {
		e.Warnings = append(e.Warnings, "the points leave the ellipse open: its uncertainty is not known")
	}
	for i := range e.Cov {
		for k := range e.Cov[i] {
			e.Cov[i][k] = e.ResidualSD * e.ResidualSD * inv.At(i, k)
		}
	}
	e.standardErrors()
}

// moves is how far the ellipse's edge at one of its points goes outwards as
// centre and map grow.
func (e *Ellipse) moves(fx, fy float64) []float64 {
	u, v := e.OnCircle(fx, fy)
	det := e.Sym[0]*e.Sym[2] - e.Sym[1]*e.Sym[1]
	nx, ny := (e.Sym[2]*u-e.Sym[1]*v)/det, (e.Sym[0]*v-e.Sym[1]*u)/det
	l := math.Hypot(nx, ny)
	nx, ny = nx/l, ny/l
	return []float64{nx, ny, nx * u, nx*v + ny*u, ny * v}
}

// standardErrors follow from the covariance: an axis changes as the map does in
// its own direction, the angle as it does across.
func (e *Ellipse) standardErrors() {
	s, c := math.Sincos(e.Angle)
	e.CXSE, e.CYSE = math.Sqrt(e.Cov[0][0]), math.Sqrt(e.Cov[1][1])
	e.ASE, e.BSE = e.along(c*c, 2*s*c, s*s), e.along(s*s, -2*s*c, c*c)
	e.AngleSE = math.Pi / math.Sqrt(12)
	if across := e.along(-s*c, c*c-s*s, s*c); across < e.AngleSE*(e.A-e.B) {
		e.AngleSE = across / (e.A - e.B)
	}
}

// along is the standard error of a weighted sum of the map's entries.
func (e *Ellipse) along(xx, xy, yy float64) float64 {
	w, sum := [5]float64{2: xx, 3: xy, 4: yy}, 0.0
	for i := range w {
		for j := range w {
			sum += w[i] * w[j] * e.Cov[i][j]
		}
	}
	return math.Sqrt(max(sum, 0))
}

// arcOf is the way round but for the largest gap between neighbouring points,
// in degrees of the circle that the ellipse is mapped from.
func arcOf(e Ellipse, xs, ys []float64) float64 {
	var at []float64
	for i := range xs {
		u, v := e.OnCircle(xs[i], ys[i])
		at = append(at, math.Atan2(v, u)*180/math.Pi)
	}
	slices.Sort(at)
	gap := at[0] + 360 - at[len(at)-1]
	for i := 1; i < len(at); i++ {
		gap = max(gap, at[i]-at[i-1])
	}
	return 360 - gap
}

// doubts adds what is to be said about the ellipse in words.
func (e *Ellipse) doubts() {
	if e.Arc < EllipseArc {
		e.Warnings = append(e.Warnings, "short arc: the points lie on one side, and such fits come out too small")
	}
	if e.N < ellipseFew {
		e.Warnings = append(e.Warnings, "few points: eight or more give a surer ellipse")
	}
	if e.ResidualSD > ellipseRough*e.B {
		e.Warnings = append(e.Warnings, "the points hardly fit an ellipse")
	}
}
