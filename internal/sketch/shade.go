package sketch

import "math"

// day is the light of the window; glow is that of a flame.
var (
	day  = tone{0.98, 0.98, 1.0}
	glow = tone{1.0, 0.72, 0.36}
)

// benchTone is a plank of wood with the vessel's shadow on it.
func (t *studio) benchTone(p vec) tone {
	u, v := p.x*t.benchCos+p.y*t.benchSin+t.shiftX*9, p.y*t.benchCos-p.x*t.benchSin+t.shiftY*9
	bend := 9 * t.cloud.at(u/240, v/90)
	grain := 0.55*t.cloud.at(u/95, (v+bend)/5.5) + 0.3*t.cloud.at(u/38, (v+bend)/1.7) + 0.15*t.cloud.at(u/7, v/0.9)
	c := t.bench.lit(0.97 + 0.13*grain)
	plank := v/94 - math.Floor(v/94)
	c = c.lit(1 - 0.42*bump(94*min(plank, 1-plank), 0.9))
	return c.by(day).lit(t.daylight(p)*t.shade(p)).add(glow, 0.55*t.warmth(p.x, p.y, 0)*0.5)
}

// shade is the vessel's soft shadow on the bench, and the dark line it stands on.
func (t *studio) shade(p vec) float64 {
	h := t.Vessel.Height
	far := func(k float64) float64 {
		x, y := p.x+t.light.x*k*h, p.y+t.light.y*k*h
		return (hypot(x/t.oa, y/t.ob) - 1) * t.ob
	}
	depth := 0.30
	if t.Vessel.Material == Glass {
		depth = 0.2
	}
	return (1 - depth*(1-ramp(-8, 16, far(0.28)))) * (1 - 0.16*(1-ramp(0, 26, far(0.1)))) * (1 - 0.42*bump(far(0), 2.6))
}

// daylight falls off away from the window.
func (t *studio) daylight(p vec) float64 {
	return 1 + 0.0009*(p.x*t.light.x+p.y*t.light.y)
}

// facing is how much a wall, seen from outside, looks towards the window.
func (t *studio) facing(p vec, a, b float64) float64 {
	nx, ny := p.x/(a*a), p.y/(b*b)
	return (nx*t.light.x + ny*t.light.y) / hypot(nx, ny)
}

func (t *studio) rimTone(p vec) tone {
	f := t.facing(p, t.a, t.b)
	across := (hypot(p.x/t.a, p.y/t.b) - 1) * t.b / t.Vessel.Wall // 0 inside, 1 outside
	round := 1 - 0.9*math.Pow(2*across-1, 2)
	shine := bump(across-0.45, 0.26) * (0.18 + 0.5*math.Pow(max(0, f), 6) + 0.25*math.Pow(max(0, -f), 10))
	base := 0.80 + 0.12*round + 0.06*f
	if t.Vessel.Material == Glass {
		base, shine = 0.74+0.14*round, 1.5*shine
	}
	soot := t.Vessel.Soot * ramp(0.9, 0.1, across+0.5*t.cloud.at(p.x/9, p.y/9))
	return t.tint.by(day).lit(base).add(tone{1, 1, 1}, shine).lit(1-0.7*soot).add(glow, 0.3*t.warmth(p.x, p.y, t.Vessel.Height))
}

func (t *studio) outerTone(p, d vec) tone {
	f := t.facing(p, t.oa, t.ob)
	high := p.z / t.Vessel.Height
	streak := 0.5*bump(f-0.78, 0.12) + 0.16*bump(f+0.5, 0.1)
	switch t.Vessel.Material {
	case Glass:
		filled := ramp(t.level+0.4, t.level-0.4, p.z)
		back := t.benchTone(t.eye.along(d, -t.eye.z/d.z)).by(t.tint).lit(0.92)
		c := back.mixed(t.wax.lit(0.74+0.16*f).by(day), 0.88*filled*ramp(0, 7, p.z))
		return c.by(tone{0.97, 0.99, 0.98}).add(tone{1, 1, 1}, 0.7*streak).add(glow, 0.10*filled*t.warmth(p.x, p.y, p.z))
	case Tin:
		seam := 1 - 0.2*bump(p.z-4, 1)
		return t.tint.lit((0.58+0.2*f+0.14*math.Sin(5*f+1))*seam).add(tone{1, 1, 1}, streak)
	}
	return t.tint.by(day).lit(0.60+0.24*f+0.08*high+0.012*t.cloud.at(p.x*2, p.z*2+p.y)).add(tone{1, 1, 1}, 0.35*streak)
}

// innerTone is the bare wall above the wax: it faces away from where it stands.
func (t *studio) innerTone(p vec) tone {
	f := -t.facing(p, t.a, t.b)
	up := (p.z - t.level) / max(t.Vessel.Below, 1)
	lit := 0.62 + 0.16*f + 0.12*up - 0.12*bump(p.z-t.level, 1.2)
	c := t.tint.by(day).lit(lit)
	if t.Vessel.Material == Glass {
		c = c.mixed(t.bench.by(t.tint).lit(0.9+0.1*f), 0.4)
	}
	c = t.soiled(c, p, up, f)
	return c.add(tone{1, 1, 1}, 0.10*bump(up-0.55, 0.2)*max(0, f)).add(glow, 0.55*t.warmth(p.x, p.y, p.z))
}

// soiled is the wall's tone under the wax that clings to it, most of it low
// down, and the soot on it, most of it high up.
func (t *studio) soiled(c tone, p vec, up, f float64) tone {
	v := t.Vessel
	uneven := 0.2*t.cloud.at(p.x/9, p.y/9) + 0.08*t.cloud.at(p.x/2.5, p.y/2.5+p.z/4)
	if v.Clinging > 0 {
		edge := 1.1*v.Clinging + uneven
		c = c.mixed(t.wax.by(day).lit(0.80+0.12*f+0.06*up), (0.25+0.7*v.Clinging)*ramp(edge+0.1, edge-0.1, up))
	}
	return c.lit(1 - 0.82*v.Soot*ramp(0.15, 1, up+1.3*uneven))
}

// waxTone is set wax: pale, matt, a little mottled, darker at the wall.
func (t *studio) waxTone(p vec, far float64) tone {
	u, v := p.x+t.shiftX, p.y+t.shiftY
	mottle := 0.016*t.cloud.at(u/5, v/5) + 0.010*t.cloud.at(u/1.6, v/1.6) + 0.006*t.cloud.at(u*2, v*2)
	edge := (1 - far) * t.b
	lit := 0.97 + mottle - 0.20*bump(edge, 1.1) + 0.04*(p.x*t.light.x+p.y*t.light.y)/t.a
	c := t.wax.by(day).lit(lit * t.cast(p))
	if out := -t.inPool(p.x, p.y); t.Pool.Along > 0 {
		c = c.mixed(t.melt, 0.20*math.Exp(-out/1.6)) // softened, not yet melted
		c = c.add(tone{1, 1, 1}, 0.10*bump(out-0.5, 0.4))
	}
	return c.add(glow, 0.30*t.warmth(p.x, p.y, p.z))
}

// cast is the shadow that the rim throws on the wax, on the window's side.
func (t *studio) cast(p vec) float64 {
	k := 0.55 * t.Vessel.Below
	far := hypot((p.x+k*t.light.x)/t.a, (p.y+k*t.light.y)/t.b)
	return 1 - 0.13*ramp(0.97, 1.06, far)
}

// poolTone is melted wax: clear enough to look into, with the window and the
// flame on its skin.
func (t *studio) poolTone(p, d vec, in, far float64) tone {
	deep := 1 - math.Exp(-in/6)
	u, v := p.x+t.shiftX, p.y-t.shiftY
	c := t.melt.lit(1.03 - 0.13*deep + 0.012*t.cloud.at(u/7, v/7)).by(day)
	c = c.lit(1 - 0.20*bump(in, 0.55) - 0.14*bump((1-far)*t.b, 0.9))
	c = c.add(tone{1, 0.97, 0.9}, 0.13*bump(in-1.1, 0.6)).lit(0.5 + 0.5*t.cast(p))
	return c.add(tone{1, 1, 1}, 0.20*t.window(p, d)).add(glow, 0.36*t.warmth(p.x, p.y, p.z))
}

// window is the mirrored window on the pool: a patch with a bar, out of focus.
func (t *studio) window(p, d vec) float64 {
	k := 1 / math.Sqrt(d.dot(d))
	x, y := d.x*k-t.toMiddle.x-0.012*p.x/t.a, d.y*k-t.toMiddle.y-0.012*p.y/t.b
	u, v := x*t.light.x+y*t.light.y-0.078, y*t.light.x-x*t.light.y
	pane := func(w, half float64) float64 { return ramp(half, half*0.45, math.Abs(w)) }
	return pane(u, 0.026) * pane(v, 0.036) * (1 - 0.55*bump(v, 0.004))
}

// warmth is the light of all flames at a place, 0 to about 1.
func (t *studio) warmth(x, y, z float64) float64 {
	var sum float64
	for _, f := range t.flames {
		dx, dy, dz := x-f.foot.x, y-f.foot.y, z-f.foot.z-8
		sum += f.strong / (1 + (dx*dx+dy*dy+dz*dz)/330)
	}
	return sum
}
