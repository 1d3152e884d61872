package sketch

import (
	"image/color"
	"math"
	"math/rand/v2"
)

// tone is a colour as the eye counts it, each part from 0 to 1.
type tone struct{ r, g, b float64 }

func toned(c color.RGBA, otherwise tone) tone {
	if c.A == 0 {
		return otherwise
	}
	return tone{float64(c.R) / 255, float64(c.G) / 255, float64(c.B) / 255}
}

func (a tone) lit(k float64) tone           { return tone{a.r * k, a.g * k, a.b * k} }
func (a tone) by(b tone) tone               { return tone{a.r * b.r, a.g * b.g, a.b * b.b} }
func (a tone) add(b tone, k float64) tone   { return tone{a.r + b.r*k, a.g + b.g*k, a.b + b.b*k} }
func (a tone) mixed(b tone, k float64) tone { return a.lit(1-k).add(b, k) }

// put writes the tone as a pixel, with so much grain.
func (a tone) put(pix []uint8, grain float64) {
	part := func(v float64) uint8 { return uint8(255*min(max(v+grain, 0), 1) + 0.5) }
	pix[0], pix[1], pix[2], pix[3] = part(a.r), part(a.g), part(a.b), 255
}

// ramp goes smoothly from 0 at lo to 1 at hi.
func ramp(lo, hi, v float64) float64 {
	t := min(max((v-lo)/(hi-lo), 0), 1)
	return t * t * (3 - 2*t)
}

// bump is a bell of height 1 and of the given half width; far out it is 0.
func bump(v, half float64) float64 {
	if q := v * v / (half * half); q < 12 {
		return math.Exp(-q)
	}
	return 0
}

// hypot is math.Hypot for lengths that neither overflow nor vanish, in a
// quarter of the time.
func hypot(x, y float64) float64 { return math.Sqrt(x*x + y*y) }

const cloudSide = 128

// cloud is smooth noise that repeats, about 0 and within ±1.
type cloud [cloudSide * cloudSide]float64

func newCloud(rng *rand.Rand) *cloud {
	var c cloud
	for i := range c {
		c[i] = 2*rng.Float64() - 1
	}
	return &c
}

// at is the noise at a place; one is the distance from hill to hill.
func (c *cloud) at(x, y float64) float64 {
	fx, fy := math.Floor(x), math.Floor(y)
	u, v := x-fx, y-fy
	u, v = u*u*(3-2*u), v*v*(3-2*v)
	i, j := int(fx)&(cloudSide-1), int(fy)&(cloudSide-1)
	k, l := (i+1)&(cloudSide-1), (j+1)&(cloudSide-1)
	up := c[j*cloudSide+i]*(1-u) + c[j*cloudSide+k]*u
	down := c[l*cloudSide+i]*(1-u) + c[l*cloudSide+k]*u
	return up*(1-v) + down*v
}
