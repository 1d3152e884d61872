package chart

import "math"

// DiscSpec is what a pool disc shows: a vessel from above and the pool in it.
type DiscSpec struct {
	Shape         string  // round, oval, rectangular or irregular
	Length, Width float64 // inner, in any one unit
	// PoolA and PoolB are the pool along the length and across it, in the same
	// unit; 0 is unknown. One alone stands for both, in proportion.
	PoolA, PoolB float64
	Full         bool // the pool meets the wall all round
	Wicks        int
	// Mark is the share of the way that the pool should be by now; 0 is none.
	Mark float64
	// Low and High bound an interval of pool over inner width; 0 is none.
	Low, High  float64
	Unlit      bool   // no pool: all wax
	Title      string // the accessible name, such as "Pool 61 by 58 mm of 76 mm"
	Decorative bool   // hidden from readers of names: the words stand beside it
}

// Disc is a pool disc laid out in a square of 100 by 100, ready to be drawn.
type Disc struct {
	Wall      string // path of the inner wall
	Pool      string // path of the pool; empty when there is none
	PoolClass string
	Rings     []Ring
	MarksOn   string // ticks towards the corners, as far as they lie on the pool
	MarksOff  string // the same ticks, as far as they lie on wax
	WicksOn   string // dots of the wicks that stand in the pool
	WicksOff  string // dots of the wicks that stand in wax
	Title     string // empty when the disc is decorative
}

// Ring is one dotted bound of an interval.
type Ring struct {
	Path, Class string
}

// farthest is the largest share of the inner width that is drawn: a bound
// past the wall stays just outside it.
const farthest = 1.07

// NewDisc lays out a pool disc. Measures that are negative or not finite
// count as unknown.
func NewDisc(s DiscSpec) Disc {
	v := newVessel(s.Shape, s.Length, s.Width)
	ra, rb := fill(s)
	d := Disc{Wall: v.outline(1, 1), Title: s.Title}
	if s.Decorative {
		d.Title = ""
	}
	if ra > 0 {
		d.Pool, d.PoolClass = v.outline(ra, rb), "disc-pool"
	}
	if ra == 1 && rb == 1 {
		d.PoolClass = "disc-pool disc-full"
	}
	d.Rings = v.rings(s.Low, s.High, math.Min(ra, rb))
	d.MarksOn, d.MarksOff = v.marks(s.Mark, v.reached(ra, rb))
	on, off := v.parted(v.wicks(s.Wicks), ra, rb)
	d.WicksOn, d.WicksOff = dots(on), dots(off)
	return d
}

// fill is the share of length and of width that the pool covers, both 0 when
// it is unknown and both 1 when it is full.
func fill(s DiscSpec) (ra, rb float64) {
	if s.Unlit {
		return 0, 0
	}
	if s.Full {
		return 1, 1
	}
	l, w := known(s.Length), known(s.Width)
	if l == 0 {
		l = w
	}
	if w == 0 {
		w = l
	}
	ra, rb = share(s.PoolA, l), share(s.PoolB, w)
	if ra == 0 {
		ra = rb
	}
	if rb == 0 {
		rb = ra
	}
	return ra, rb
}

// share is pool over inner width, at most 1; 0 when either is unknown.
func share(pool, inner float64) float64 {
	if inner == 0 {
		return 0
	}
	return math.Min(1, known(pool)/inner)
}

// rings are the bounds of an interval, each with a class that says whether it
// lies on the pool or on wax.
func (v vessel) rings(low, high, pool float64) []Ring {
	var out []Ring
	for _, r := range []float64{known(low), known(high)} {
		if r == 0 {
			continue
		}
		r = math.Min(r, farthest)
		class := "disc-ring"
		if r < pool {
			class = "disc-ring disc-on-pool"
		}
		out = append(out, Ring{Path: v.outline(r, r), Class: class})
	}
	return out
}

// reached is how far towards the corner of the vessel's box the pool comes.
func (v vessel) reached(ra, rb float64) float64 {
	if ra == 0 || rb == 0 {
		return 0
	}
	ellipse := 1 / math.Hypot(1/ra, 1/rb)
	return mix(ellipse, v.diagonal()*math.Min(ra, rb), takesOn(math.Min(ra, rb)))
}

// marks are four short ticks towards the corners, across the line that the
// pool should have reached, parted at the pool's edge.
func (v vessel) marks(m, pool float64) (on, off string) {
	m = math.Min(known(m), 1)
	if m == 0 {
		return "", ""
	}
	half := 3.8 / math.Hypot(v.a, v.b)
	from, to := m*v.diagonal()-half, m*v.diagonal()+half
	edge := clamp(pool, from, to)
	return v.ticks(from, edge), v.ticks(edge, to)
}

// ticks is a path of four lines towards the corners of the vessel's box, from
// one share of the way to another; empty when there is nothing between them.
func (v vessel) ticks(from, to float64) string {
	if to <= from {
		return ""
	}
	d := ""
	for _, q := range [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}} {
		d += "M" + at(middle+q[0]*v.a*from, middle+q[1]*v.b*from) +
			"L" + at(middle+q[0]*v.a*to, middle+q[1]*v.b*to)
	}
	return d
}

// parted tells the wicks that stand in the pool from those in wax.
func (v vessel) parted(ps []point, ra, rb float64) (on, off []point) {
	for _, p := range ps {
		x, y := (p.x-middle)/(v.a*ra), (p.y-middle)/(v.b*rb)
		if ra > 0 && x*x+y*y < 1 {
			on = append(on, p)
		} else {
			off = append(off, p)
		}
	}
	return on, off
}
