package chart

import "math"

// most is the largest number of wicks a disc draws apart.
const most = 12

// point is a place in user units.
type point struct{ x, y float64 }

// wicks says where n wicks stand, as makers set them: in the middle, in a
// row along the length, as a triangle, as a square, else in a ring. Long
// vessels keep to a row for three and four.
func (v vessel) wicks(n int) []point {
	n = min(n, most)
	long := v.a / v.b
	switch {
	case n <= 0:
		return nil
	case n == 1:
		return []point{{middle, middle}}
	case n == 2 && long < 0.7:
		return v.row(n, true)
	case n == 2, n == 3 && long >= 1.5, n == 4 && long >= 2.2:
		return v.row(n, false)
	case n == 3:
		return v.ring(n, 0.34, -math.Pi/2)
	case n == 4:
		return v.ring(n, 0.38, -math.Pi/4)
	default:
		return v.ring(n, 0.40+0.015*float64(n), -math.Pi/2)
	}
}

// row spaces n wicks along the longer side, each amid its share of it and
// drawn in a little from the ends.
func (v vessel) row(n int, down bool) []point {
	out := make([]point, n)
	for i := range out {
		off := float64(2*i+1-n) / float64(n) * 0.72
		out[i] = point{middle + v.a*off, middle}
		if down {
			out[i] = point{middle, middle + v.b*off}
		}
	}
	return out
}

// ring spaces n wicks evenly at a share of the way to the wall.
func (v vessel) ring(n int, share, from float64) []point {
	out := make([]point, n)
	for i := range out {
		sin, cos := math.Sincos(from + 2*math.Pi*float64(i)/float64(n))
		out[i] = point{middle + v.a*share*cos, middle + v.b*share*sin}
	}
	return out
}

// dots is a path of points without length, which a round line cap turns into
// dots of the line's width.
func dots(ps []point) string {
	d := ""
	for _, p := range ps {
		d += "M" + at(p.x, p.y) + "h0"
	}
	return d
}
