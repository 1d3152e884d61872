package meltpool

import (
	"math"

	"rimward/internal/stats"
)

// sight is one look at a pool: the two ellipses on the photo, the vessel, and
// the directions and places that are measured, found once so that all figures
// are smooth in the ellipses.
type sight struct {
	length, width float64 // of the vessel, mm
	round         bool
	wall, pool    stats.Ellipse
	first         Mark
	along, across turn    // of the widths
	long, short   turn    // the pool's own axes
	aside         turn    // from the vessel's centre to the pool's
	near, far     float64 // places on the pool's edge with least and most wax left
}

// turn is a direction: cosine and sine.
type turn struct{ c, s float64 }

func turnOf(angle float64) turn { s, c := math.Sincos(angle); return turn{c, s} }

func (d turn) square() turn { return turn{-d.s, d.c} }

// grid2 is a matrix of two rows.
type grid2 struct{ xx, xy, yx, yy float64 }

func (a grid2) times(b grid2) grid2 {
	return grid2{a.xx*b.xx + a.xy*b.yx, a.xx*b.xy + a.xy*b.yy, a.yx*b.xx + a.yy*b.yx, a.yx*b.xy + a.yy*b.yy}
}

func (a grid2) det() float64 { return a.xx*a.yy - a.xy*a.yx }

// stretches are the largest and the smallest factor of a map, and the direction
// in which it reaches farthest.
func (a grid2) stretches() (large, small, angle float64) {
	xx, xy, yy := a.xx*a.xx+a.xy*a.xy, a.xx*a.yx+a.xy*a.yy, a.yx*a.yx+a.yy*a.yy
	large = math.Sqrt((xx+yy)/2 + math.Hypot((xx-yy)/2, xy))
	return large, math.Abs(a.det()) / large, math.Atan2(2*xy, xx-yy) / 2
}

// reach is how far the map of the unit circle goes in a direction.
func (a grid2) reach(d turn) float64 {
	return math.Hypot(a.xx*d.c+a.yx*d.s, a.xy*d.c+a.yy*d.s)
}

// numbers is what a look depends on: centre and map of the wall, centre and map
// of the pool, and the first mark.
type numbers [12]float64

func (k sight) numbers() numbers {
	w, p := k.wall, k.pool
	return numbers{w.CX, w.CY, w.Sym[0], w.Sym[1], w.Sym[2], p.CX, p.CY, p.Sym[0], p.Sym[1], p.Sym[2], k.first.X, k.first.Y}
}

// inVessel maps the pool into the vessel, in mm about its centre: the pool's
// centre and the map from the unit circle to the pool; also the map from
// pixels.
func (k sight) inVessel(n numbers) (x, y float64, pool, fromPixels grid2) {
	det := n[2]*n[4] - n[3]*n[3]
	m := grid2{n[4] / det, -n[3] / det, -n[3] / det, n[2] / det}
	if !k.round {
		fx, fy := n[10]-n[0], n[11]-n[1]
		d := turnOf(math.Atan2(m.yx*fx+m.yy*fy, m.xx*fx+m.xy*fy))
		m = grid2{d.c, d.s, -d.s, d.c}.times(m)
	}
	m = grid2{k.length / 2, 0, 0, k.width / 2}.times(m)
	dx, dy := n[5]-n[0], n[6]-n[1]
	return m.xx*dx + m.xy*dy, m.yx*dx + m.yy*dy, m.times(grid2{n[7], n[8], n[8], n[9]}), m
}

// rim is the vessel's wall in mm about its centre.
func (k sight) rim() stats.Ellipse {
	return stats.Ellipse{A: k.length / 2, B: k.width / 2, Sym: [3]float64{k.length / 2, 0, k.width / 2}}
}

// left is the wax between wall and pool at a place on the pool's edge.
func (k sight) left(n numbers, at float64) float64 {
	x, y, pool, _ := k.inVessel(n)
	d := turnOf(at)
	return -k.rim().Distance(x+pool.xx*d.c+pool.xy*d.s, y+pool.yx*d.c+pool.yy*d.s)
}

// lookAt finds the directions and places that are measured.
func lookAt(v Vessel, wall, pool stats.Ellipse, first Mark) sight {
	k := sight{length: float64(v.Length), width: float64(v.Width), round: v.Length == v.Width, wall: wall, pool: pool, first: first}
	n := k.numbers()
	x, y, in, _ := k.inVessel(n)
	_, _, angle := in.stretches()
	k.long, k.aside = turnOf(angle), turnOf(math.Atan2(y, x))
	k.short = k.long.square()
	k.along, k.across = k.long, k.short
	if !k.round {
		k.along, k.across = turn{1, 0}, turn{0, 1}
	}
	k.near = leastOf(func(at float64) float64 { return k.left(n, at) })
	k.far = leastOf(func(at float64) float64 { return -k.left(n, at) })
	return k
}

// leastOf finds where a function of an angle is least: the best of 360 looks,
// then by thirds.
func leastOf(f func(float64) float64) float64 {
	best, step := 0.0, math.Pi/180
	for i := range 360 {
		if at := float64(i) * step; f(at) < f(best) {
			best = at
		}
	}
	low, high := best-step, best+step
	for range 60 {
		a, b := low+(high-low)/3, high-(high-low)/3
		if f(a) < f(b) {
			high = b
		} else {
			low = a
		}
	}
	return (low + high) / 2
}

// figures are what is measured, in the order of Measured.
type figures [7]float64

func (k sight) figures(n numbers) figures {
	x, y, in, _ := k.inVessel(n)
	return figures{
		2 * in.reach(k.along), 2 * in.reach(k.across),
		in.reach(k.short) / in.reach(k.long),
		x*k.aside.c + y*k.aside.s,
		k.left(n, k.near), k.left(n, k.far),
		math.Abs(in.det()) / (k.length * k.width / 4),
	}
}
