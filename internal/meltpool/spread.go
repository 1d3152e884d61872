package meltpool

import (
	"math"

	"rimward/internal/stats"
)

// phoneAway is how far a phone is held from a candle, in mm: what perspective
// may have done is guessed for it. App default.
const phoneAway = 300.0

// measured puts figures and their uncertainty together.
func (k sight) measured() Measured {
	n := k.numbers()
	f, slopes := k.figures(n), k.slopes(n)
	out := Measured{Wall: k.wall, Pool: k.pool}
	out.Slant, out.Shift = k.slant(n)
	bent := k.perspective(f, out)
	for i, to := range []*Estimate{&out.A, &out.B, &out.Roundness, &out.OffCentre, &out.Narrowest, &out.Widest, &out.Surface} {
		*to = k.estimate(f[i], slopes[i], bent[i])
	}
	if out.Shift > shiftShown {
		out.Warnings = append(out.Warnings, "perspective: at this slant a close camera moves the pool's centre; from straight above it does not")
	}
	return out
}

// slopes are the figures' derivatives by central differences.
func (k sight) slopes(n numbers) (out [7]numbers) {
	step := 1e-4 * k.wall.B
	for j := range n {
		up, down := n, n
		up[j], down[j] = n[j]+step, n[j]-step
		a, b := k.figures(up), k.figures(down)
		for i := range out {
			out[i][j] = (a[i] - b[i]) / (2 * step)
		}
	}
	return out
}

// estimate carries the doubts of both ellipses over to one figure (delta
// method); the degrees of freedom are those of Welch and Satterthwaite. bent is
// what perspective may have done, taken as a standard deviation.
func (k sight) estimate(at float64, slope numbers, bent float64) Estimate {
	wall, pool := through(slope[:5], k.wall), through(slope[5:10], k.pool)
	s := k.wall.ResidualSD
	wall += s * s * (slope[10]*slope[10] + slope[11]*slope[11])
	sum := wall + pool + bent*bent
	e := Estimate{At: at, SD: math.Sqrt(sum), DF: math.Inf(1)}
	if spread := wall*wall/float64(k.wall.N-5) + pool*pool/float64(k.pool.N-5); spread > 0 {
		e.DF = sum * sum / spread
	}
	return e
}

// through is the variance of a figure that comes from one ellipse.
func through(slope []float64, e stats.Ellipse) float64 {
	var sum float64
	for i := range slope {
		for j := range slope {
			sum += slope[i] * slope[j] * e.Cov[i][j]
		}
	}
	return max(sum, 0)
}

// slant is how far from straight down the camera looked, in degrees, and how
// far perspective then moves a pool's centre, in mm: a circle of radius r seen
// at a slant t from a distance d has the centre of its image r² sin t / d
// nearer than its own (first order in r/d), and the wall's counts against the
// pool's.
func (k sight) slant(n numbers) (degrees, shift float64) {
	_, _, pool, m := k.inVessel(n)
	large, small, _ := m.stretches()
	t := math.Acos(min(small/large, 1))
	r2, p2 := k.length*k.width/4, math.Abs(pool.det())
	return t * 180 / math.Pi, math.Abs(r2-p2) * math.Sin(t) / phoneAway
}

// perspective is what it may have done to each figure: it moves the centre, and
// enlarges by 2 x sin t / d what lies x nearer than the vessel's centre.
func (k sight) perspective(f figures, m Measured) figures {
	grows := 2 * math.Abs(f[3]) * math.Sin(m.Slant*math.Pi/180) / phoneAway
	return figures{f[0] * grows, f[1] * grows, f[2] * grows, m.Shift, m.Shift, m.Shift, 2 * f[6] * grows}
}
