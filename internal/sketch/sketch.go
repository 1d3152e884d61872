// Package sketch draws a candle as a camera above the bench would see it:
// vessel, wax, melted pool, wicks and flame, in soft light and with the grain
// of a small sensor. The camera is a pinhole, so that every point of the scene
// has a known place in the picture.
//
// The pictures stand where a season that never was needs photos, and where a
// test needs a photo whose truth is known. They are drawn and say nothing about
// a real candle. The package refuses to draw vessels with corners; it knows no
// journal and no files. The same scene and seed always give the same picture.
package sketch

import (
	"image/color"
	"math"
)

// Material is what the vessel is made of, as far as it looks different.
type Material string

// The materials that can be drawn; any other is drawn as ceramic.
const (
	Glass   Material = "glass"
	Ceramic Material = "ceramic"
	Tin     Material = "tin"
)

// Camera is a pinhole that looks at the surface of the wax.
type Camera struct {
	Distance float64 // mm from the point looked at
	Tilt     float64 // radians from straight down
	Turn     float64 // radians that the camera is turned round the candle
	AimX     float64 // mm from the vessel's middle to the point looked at, along its length
	AimY     float64 // and across it
	Focal    float64 // focal length as a share of the picture's longer side; 0 is a phone's usual 0.75 (from memory)
}

// Vessel is a round or oval vessel that stands on the bench.
type Vessel struct {
	Length, Width float64 // mm inside; the diameter twice when round
	Wall          float64 // mm, its thickness
	Height        float64 // mm
	Below         float64 // mm from the rim down to the surface of the wax
	Material      Material
	Tint          color.RGBA
	Clinging      float64 // 0 to 1: wax left on the wall above the surface; 1 hides the wall
	Soot          float64 // 0 to 1: how black the wall is below the rim
}

// Pool is the melted wax: an ellipse, cut off at the wall. Without a width
// there is none.
type Pool struct {
	X, Y          float64 // mm, its middle from that of the vessel
	Along, Across float64 // mm, its two widths
	Turn          float64 // radians from the vessel's length to the first of them
}

// Wick stands in the wax.
type Wick struct {
	X, Y   float64 // mm from the vessel's middle
	Height float64 // mm above the wax
	Thick  float64 // mm
	Broad  float64 // mm, of a flat wick of wood along the vessel's length; 0 for a cord
	Cap    float64 // mm, the width of a mushroom on its tip; 0 for none
	Flame  float64 // mm, the height of its flame; 0 when it is out
	New    bool    // it was never lit, and has no black tip
}

// Scene is all that a picture shows.
type Scene struct {
	Wide, High int // px
	Camera     Camera
	Vessel     Vessel
	Pool       Pool
	Wicks      []Wick
	Wax        color.RGBA // of the set wax
	Bench      color.RGBA
}

// vec is a point or a direction in space, mm: x along the vessel's length, y
// across it, z up from the bench.
type vec struct{ x, y, z float64 }

func (a vec) plus(b vec) vec             { return vec{a.x + b.x, a.y + b.y, a.z + b.z} }
func (a vec) less(b vec) vec             { return vec{a.x - b.x, a.y - b.y, a.z - b.z} }
func (a vec) times(k float64) vec        { return vec{a.x * k, a.y * k, a.z * k} }
func (a vec) dot(b vec) float64          { return a.x*b.x + a.y*b.y + a.z*b.z }
func (a vec) along(d vec, t float64) vec { return a.plus(d.times(t)) }

// lens is a camera worked out for a scene.
type lens struct {
	eye, right, up, ahead vec
	focal, midX, midY     float64
}

func (s Scene) surface() float64 { return s.Vessel.Height - s.Vessel.Below }

func (s Scene) lens() lens {
	c := s.Camera
	sin, cos := math.Sincos(c.Tilt)
	tsin, tcos := math.Sincos(c.Turn)
	back := vec{sin * tsin, -sin * tcos, cos}
	focal := c.Focal
	if focal == 0 {
		focal = 0.75
	}
	return lens{
		eye:   vec{c.AimX, c.AimY, s.surface()}.along(back, c.Distance),
		right: vec{tcos, tsin, 0}, up: vec{-cos * tsin, cos * tcos, sin}, ahead: back.times(-1),
		focal: focal * float64(max(s.Wide, s.High)), midX: float64(s.Wide) / 2, midY: float64(s.High) / 2,
	}
}

// place is where a point is seen, in pixels from the upper left corner.
func (l lens) place(p vec) (x, y float64) {
	q := p.less(l.eye)
	k := l.focal / q.dot(l.ahead)
	return l.midX + k*q.dot(l.right), l.midY - k*q.dot(l.up)
}

// ray is the way of sight through a place of the picture.
func (l lens) ray(x, y float64) vec {
	return l.ahead.times(l.focal).along(l.right, x-l.midX).along(l.up, l.midY-y)
}

// Place is where a point of the wax's surface is seen, in pixels; x and y are
// millimetres from the vessel's middle, along its length and across it.
func (s Scene) Place(x, y float64) (px, py float64) { return s.lens().place(vec{x, y, s.surface()}) }

// WallPoint is where the inner wall meets the wax, in pixels, at an angle in
// radians round the vessel from the end of its length.
func (s Scene) WallPoint(angle float64) (px, py float64) {
	sin, cos := math.Sincos(angle)
	return s.Place(s.Vessel.Length/2*cos, s.Vessel.Width/2*sin)
}

// PoolPoint is where the edge of the pool is seen, in pixels, at an angle in
// radians round the pool from its first width. Where the pool has met the wall
// it is the wall.
func (s Scene) PoolPoint(angle float64) (px, py float64) {
	sin, cos := math.Sincos(angle)
	tsin, tcos := math.Sincos(s.Pool.Turn)
	u, v := s.Pool.Along/2*cos, s.Pool.Across/2*sin
	x, y := s.Pool.X+u*tcos-v*tsin, s.Pool.Y+u*tsin+v*tcos
	if out := math.Hypot(2*x/s.Vessel.Length, 2*y/s.Vessel.Width); out > 1 {
		x, y = x/out, y/out
	}
	return s.Place(x, y)
}
