package sketch

import "math"

// flame is one flame, worked out for the picture.
type flame struct {
	foot      vec
	strong    float64 // its light
	blobs     []blob
	x, y, far float64 // px: its middle and how far its light is seen
}

// blob is a round of light in the picture.
type blob struct{ x, y, half, strong float64 }

// kindled are the flames of the scene's wicks. A flame is a drop: broad low
// down, pointed above, seen as a row of lights from wick to tip.
func (t *studio) kindled() []flame {
	var out []flame
	for _, w := range t.Wicks {
		if w.Flame <= 0 {
			continue
		}
		foot := vec{w.X, w.Y, t.level + w.Height*0.6}
		f := flame{foot: foot, strong: math.Sqrt(w.Flame / 25)}
		f.x, f.y = t.place(vec{w.X, w.Y, foot.z + w.Flame*0.4})
		scale := t.focal / (t.eye.less(foot)).dot(t.ahead.times(-1))
		f.far = scale * w.Flame * 2.2
		const steps = 14
		for i := range steps {
			h := float64(i) / (steps - 1)
			half := scale * w.Flame * 0.34 * math.Sqrt(h+0.10) * (1.05 - h)
			f.blobs = append(f.blobs, t.across(foot, w, h, half+0.8)...)
		}
		f.blobs = append(f.blobs, blob{f.x, f.y, scale * w.Flame * 0.7, 0.12}, blob{f.x, f.y, scale * w.Flame * 1.4, 0.06})
		out = append(out, f)
	}
	return out
}

// across are the lights at one height of a flame: one over a cord, a row of
// them over a strip of wood, closer together higher up.
func (t *studio) across(foot vec, w Wick, h, half float64) []blob {
	if w.Broad <= 0 {
		x, y := t.place(foot.plus(vec{0, 0, h * w.Flame}))
		return []blob{{x, y, half, 0.36}}
	}
	var out []blob
	for i := range 5 {
		side := (float64(i)/4 - 0.5) * w.Broad * (1 - 0.6*h)
		x, y := t.place(foot.plus(vec{side, 0, h * w.Flame * (1 - 0.25*math.Abs(side)/w.Broad)}))
		out = append(out, blob{x, y, half * 0.8, 0.15})
	}
	return out
}

// shine adds the flames' own light to what is seen at a place of the picture.
func (t *studio) shine(px, py float64, c tone) tone {
	for _, f := range t.flames {
		dx, dy := px-f.x, py-f.y
		if dx*dx+dy*dy > f.far*f.far {
			continue
		}
		var v float64
		for _, b := range f.blobs {
			x, y := px-b.x, py-b.y
			if r := (x*x + y*y) / (b.half * b.half); r < 9 {
				v += b.strong * math.Exp(-r)
			}
		}
		c = c.add(tone{1, 0.80, 0.42}, min(v, 0.5)).mixed(tone{1, 0.97, 0.86}, ramp(0.5, 1.1, v))
	}
	return c
}

// wickIn is the wick that a way of sight meets, if it meets one.
func (t *studio) wickIn(d vec) (tone, bool) {
	for _, w := range t.Wicks {
		if c, is := t.wickTone(w, d); is {
			return c, true
		}
	}
	return tone{}, false
}

func (t *studio) wickTone(w Wick, d vec) (tone, bool) {
	foot := t.eye.along(d, (t.level-t.eye.z)/d.z)
	reach := w.Height + w.Thick + w.Broad + w.Cap
	if math.Abs(foot.x-w.X)+math.Abs(foot.y-w.Y) > 3*reach {
		return tone{}, false
	}
	char := tone{0.13, 0.11, 0.10}
	top := vec{w.X, w.Y, t.level + w.Height}
	if w.Cap > 0 {
		if off, _ := t.off(d, top, 0, 0); off < w.Cap/2 {
			return char.lit(0.8 + 0.9*(1-2*off/w.Cap)), true
		}
	}
	off, h := t.off(d, vec{w.X, w.Y, t.level}, w.Height, w.Broad/2)
	if off > w.Thick/2 {
		return tone{}, false
	}
	pale := t.wax.by(tone{0.72, 0.62, 0.50})
	if w.Broad > 0 {
		pale = tone{0.52, 0.38, 0.25}
	}
	c := pale
	if !w.New {
		c = pale.mixed(char, ramp(0.15, 0.5, h))
	}
	return c.lit(1.15-0.45*off/w.Thick).add(glow, 0.25*ramp(0.8, 1, h)*t.warmth(w.X, w.Y, t.level)), true
}

// off is how near a way of sight passes by an upright piece that begins at a
// foot: high tall and half broad to both sides along x; h is how far up, 0 to 1.
func (t *studio) off(d, foot vec, high, broad float64) (off, h float64) {
	off = math.Inf(1)
	steps := 1
	if high > 0 {
		steps = 9
	}
	for i := range steps {
		k := 0.0
		if steps > 1 {
			k = float64(i) / float64(steps-1)
		}
		z := foot.z + k*high
		p := t.eye.along(d, (z-t.eye.z)/d.z)
		x := max(math.Abs(p.x-foot.x)-broad, 0)
		if r := hypot(x, p.y-foot.y); r <= off {
			off, h = r, k
		}
	}
	return off, h
}
