package chart

import "math"

// The disc's own square: 100 by 100, the vessel's longest half being rim.
const (
	middle = 50.0
	rim    = 46.0
	// corner is the radius of a rectangular vessel's corners as a share of
	// its shorter half.
	corner = 0.3
	// rounds is the fill below which a pool in any vessel is a plain ellipse;
	// from there on it takes on the shape of the wall.
	rounds = 0.55
	// arc is the handle that makes a cubic curve a quarter of a circle
	// (4/3 (√2 − 1), to 3 parts in 10 000).
	arc = 0.5523
)

// vessel is the outline of a vessel's inner wall, centred in the disc.
type vessel struct {
	shape string
	a, b  float64 // half length (across the page), half width (down the page)
}

// newVessel scales length and width so that the longer fills the disc. An
// unknown measure is taken from the other; with neither the vessel is as
// broad as it is long.
func newVessel(shape string, length, width float64) vessel {
	l, w := known(length), known(width)
	if l == 0 {
		l = w
	}
	if w == 0 {
		w = l
	}
	if l == 0 {
		l, w = 1, 1
	}
	longest := math.Max(l, w)
	return vessel{shape: shape, a: rim * (l / longest), b: rim * (w / longest)}
}

// outline is the path of a pool that covers the shares ra and rb of the
// vessel's length and width; outline(1, 1) is the wall itself.
func (v vessel) outline(ra, rb float64) string {
	a, b := v.a*ra, v.b*rb
	switch s := takesOn(math.Min(ra, rb)); v.shape {
	case "rectangular":
		c := corner * math.Min(v.a, v.b) * math.Max(1, math.Min(ra, rb))
		return rounded(a, b, mix(a, math.Min(c, a), s), mix(b, math.Min(c, b), s))
	case "irregular":
		return pebble(a, b, s)
	default:
		return rounded(a, b, a, b)
	}
}

// takesOn says how much of the wall's shape a pool has taken on at a fill.
func takesOn(fill float64) float64 {
	t := clamp((fill-rounds)/(1-rounds), 0, 1)
	return t * t
}

func mix(from, to, s float64) float64 { return from + (to-from)*s }

// rounded is a rectangle with half sides a and b and elliptical corners; with
// corners as large as the sides it is an ellipse.
func rounded(a, b, rx, ry float64) string {
	l, r, t, u := middle-a, middle+a, middle-b, middle+b
	turn := "A" + at(rx, ry) + " 0 0 1 "
	return "M" + at(l, middle) + "V" + px(t+ry) + turn + at(l+rx, t) +
		"H" + px(r-rx) + turn + at(r, t+ry) +
		"V" + px(u-ry) + turn + at(r-rx, u) +
		"H" + px(l+rx) + turn + at(l, u-ry) + "Z"
}

// pebbleNodes are the four places where an irregular wall touches its length
// and width, each with the handles before and after it, as shares of the half
// sides. Handles run along the bounding box, so the curve cannot leave it.
var pebbleNodes = [4]struct{ x, y, before, after float64 }{
	{-1, 0.16, 0.56, 0.56},
	{-0.12, -1, 0.60, 0.56},
	{1, -0.14, 0.42, 0.66},
	{0.14, 1, 0.68, 0.54},
}

// pebble is a calm closed curve of half length a and half width b, going from
// an ellipse (s = 0) to the irregular wall (s = 1).
func pebble(a, b, s float64) string {
	round := [4][2]float64{{-1, 0}, {0, -1}, {1, 0}, {0, 1}}
	way := [4][2]float64{{0, -1}, {1, 0}, {0, 1}, {-1, 0}} // clockwise
	place := func(i int, handle float64) string {
		n := pebbleNodes[i]
		x := mix(round[i][0], n.x, s) + way[i][0]*handle
		y := mix(round[i][1], n.y, s) + way[i][1]*handle
		return at(middle+a*x, middle+b*y)
	}
	d := "M" + place(0, 0)
	for i := range 4 {
		j := (i + 1) % 4
		d += "C" + place(i, mix(arc, pebbleNodes[i].after, s)) + " " +
			place(j, -mix(arc, pebbleNodes[j].before, s)) + " " + place(j, 0)
	}
	return d + "Z"
}

// diagonal is the share of the way to the corner (a, b) of the vessel's box
// at which the wall is met.
func (v vessel) diagonal() float64 {
	if v.shape != "rectangular" {
		return math.Sqrt2 / 2
	}
	c := corner * math.Min(v.a, v.b)
	// The corner's circle: |t·(a, b) − (a−c, b−c)| = c, the farther of two t.
	ka, kb := v.a-c, v.b-c
	aa, half := v.a*v.a+v.b*v.b, v.a*ka+v.b*kb
	// Below zero only by rounding, in a vessel far longer than wide.
	root := math.Max(0, half*half-aa*(ka*ka+kb*kb-c*c))
	return (half + math.Sqrt(root)) / aa
}
