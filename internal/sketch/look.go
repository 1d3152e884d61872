package sketch

import (
	"math"
	"math/rand/v2"
)

// What a way of sight meets.
const (
	onBench = iota
	onOuter
	onRim
	onInner
	onWax
	onPool
	onWick
)

// studio is a scene made ready to be looked at.
type studio struct {
	Scene
	lens
	a, b, oa, ob       float64 // half sides, inside and outside
	level              float64 // of the wax
	light              vec     // towards the window, level with the bench
	toMiddle           vec     // the way of sight to the middle of the wax
	wax, melt, tint    tone
	bench              tone
	cloud              *cloud
	shiftX, shiftY     float64 // of the grain of wood and wax
	poolSin, poolCos   float64
	benchSin, benchCos float64 // of the way the planks run
	flames             []flame
}

func newStudio(s Scene, seed uint64) *studio {
	rng := rand.New(rand.NewPCG(seed, 0x5ce7c4))
	t := &studio{Scene: s, lens: s.lens(), level: s.surface()}
	t.a, t.b = s.Vessel.Length/2, s.Vessel.Width/2
	t.oa, t.ob = t.a+s.Vessel.Wall, t.b+s.Vessel.Wall
	sin, cos := math.Sincos(s.Camera.Turn + 2.2)
	t.light = vec{cos, sin, 0}
	middle := vec{0, 0, t.level}.less(t.eye)
	t.toMiddle = middle.times(1 / math.Sqrt(middle.dot(middle)))
	t.wax = toned(s.Wax, tone{0.93, 0.90, 0.82})
	t.melt = t.wax.by(tone{0.86, 0.76, 0.56})
	t.tint = toned(s.Vessel.Tint, tints[s.Vessel.Material])
	t.bench = toned(s.Bench, tone{0.62, 0.52, 0.42})
	t.cloud = newCloud(rng)
	t.shiftX, t.shiftY = 100*rng.Float64(), 100*rng.Float64()
	t.benchSin, t.benchCos = math.Sincos(s.Camera.Turn + 0.12)
	t.poolSin, t.poolCos = math.Sincos(s.Pool.Turn)
	t.flames = t.kindled()
	return t
}

var tints = map[Material]tone{
	Glass: {0.80, 0.86, 0.84}, Ceramic: {0.86, 0.83, 0.78}, Tin: {0.70, 0.71, 0.72},
}

// see is what is met in one direction, and its colour.
func (t *studio) see(px, py float64) (int, tone) {
	d := t.ray(px, py)
	id, c := t.met(d)
	if w, is := t.wickIn(d); is {
		id, c = onWick, w
	}
	return id, c
}

// met is what is met but for the wicks.
func (t *studio) met(d vec) (int, tone) {
	rim := t.eye.along(d, (t.Vessel.Height-t.eye.z)/d.z)
	in := hypot(rim.x/t.a, rim.y/t.b)
	if in < 1 {
		return t.inside(d)
	}
	if hypot(rim.x/t.oa, rim.y/t.ob) < 1 {
		return onRim, t.rimTone(rim)
	}
	if p, is := t.strikes(d, t.oa, t.ob, -1); is && p.z > 0 && p.z < t.Vessel.Height {
		return onOuter, t.outerTone(p, d)
	}
	return onBench, t.benchTone(t.eye.along(d, -t.eye.z/d.z))
}

func (t *studio) inside(d vec) (int, tone) {
	p := t.eye.along(d, (t.level-t.eye.z)/d.z)
	far := hypot(p.x/t.a, p.y/t.b)
	if far >= 1 {
		p, _ = t.strikes(d, t.a, t.b, 1)
		return onInner, t.innerTone(p)
	}
	if in := t.inPool(p.x, p.y); in > 0 {
		return onPool, t.poolTone(p, d, in, far)
	}
	return onWax, t.waxTone(p, far)
}

// strikes is where a way of sight meets an upright wall: side −1 is the near
// one, 1 the far one.
func (t *studio) strikes(d vec, a, b, side float64) (vec, bool) {
	ex, ey, dx, dy := t.eye.x/a, t.eye.y/b, d.x/a, d.y/b
	dd, ed := dx*dx+dy*dy, ex*dx+ey*dy
	root := ed*ed - dd*(ex*ex+ey*ey-1)
	if root < 0 || dd == 0 {
		return vec{}, false
	}
	return t.eye.along(d, (-ed+side*math.Sqrt(root))/dd), true
}

// inPool is how far a place lies inside the pool's edge, in millimetres along
// its shorter half; below 0 it lies outside.
func (t *studio) inPool(x, y float64) float64 {
	p := t.Pool
	if p.Along <= 0 || p.Across <= 0 {
		return -1
	}
	dx, dy := x-p.X, y-p.Y
	u, v := 2*(dx*t.poolCos+dy*t.poolSin)/p.Along, 2*(dy*t.poolCos-dx*t.poolSin)/p.Across
	return (1 - hypot(u, v)) * min(p.Along, p.Across) / 2
}
