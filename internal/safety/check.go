package safety

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// sight is what the rules of a check look at.
type sight struct {
	c   journal.Check
	m   journal.Made
	lim Limits
	u   quantity.Units
}

// checkRules are the rules of a check, dangers first.
var checkRules = []func(sight) *Finding{
	flameOnPool, crackedVessel, flameOverLimit, wallOverStop,
	tallFlame, flameMaySmoke, hotWall, deepPool,
	soot, mushroom, drowning, weakFlame, flickering, driftedWick, debris, sweating,
}

// OfCheck reads one check against the limits; dangers come first. The check
// need not be saved yet.
func OfCheck(c journal.Check, m journal.Made, lim Limits, u quantity.Units) []Finding {
	var fs []Finding
	for _, rule := range checkRules {
		if f := rule(sight{c, m, lim, u}); f != nil {
			f.At = c.At
			fs = append(fs, *f)
		}
	}
	return fs
}

// flameOnPool: anything but the wick burns. That alone fails a candle in fire
// tests (ASTM F2417, from memory).
func flameOnPool(s sight) *Finding {
	if !s.c.Has(journal.FlameOnPool) {
		return nil
	}
	return &Finding{Rule: "flame on the pool", Level: Hard, Now: true, Do: waxFire(),
		Text: "There is a flame on the pool.", Source: "ASTM F2417, secondary ignition, from memory"}
}

// crackedVessel: a crack, or wax leaking out.
func crackedVessel(s sight) *Finding {
	if !s.c.Has(journal.Cracked) {
		return nil
	}
	return &Finding{Rule: "cracked vessel", Level: Hard, Now: true, Do: crackedNow(),
		Text: "The vessel is cracked or leaks.", Source: "a product safety newsletter, 2016: a container that breaks or cracks is a failure"}
}

// flameOverLimit: the flame stands above the hard limit, or the vessel's own.
func flameOverLimit(s sight) *Finding {
	limit := s.lim.FlameHardIn(s.m.Vessel)
	if s.c.Flame == nil || *s.c.Flame <= limit {
		return nil
	}
	f := s.length("flame over the limit", Hard, "The flame stands at ", *s.c.Flame, limit, keyFlameHard)
	if s.m.Vessel.FlameLimit != nil {
		f.Source = ownLimit
	}
	f.Now, f.Do = true, tallFlameNow(s.u.ShowLength(s.lim.Trim()))
	return f
}

// wallOverStop: the vessel is hotter than its stop temperature.
func wallOverStop(s sight) *Finding {
	stop := s.lim.WallStopIn(s.m.Vessel)
	if s.c.VesselTemp == nil || *s.c.VesselTemp <= stop {
		return nil
	}
	f := s.temperature("vessel too hot", Hard, stop, keyWallStop, keyMetalStop)
	if s.m.Vessel.WallLimit != nil {
		f.Source = ownLimit
	}
	f.Now, f.Do = true, hotWallNow(s.u.ShowLength(s.lim.Trim()))
	return f
}

// tallFlame: above the height to take care at, not yet over the limit.
func tallFlame(s sight) *Finding {
	limit := s.lim.FlameTall()
	if s.c.Flame == nil || *s.c.Flame <= limit || *s.c.Flame > s.lim.FlameHardIn(s.m.Vessel) {
		return nil
	}
	f := s.length("tall flame", Caution, "The flame is tall: ", *s.c.Flame, limit, keyFlameTall)
	f.Do = []string{"Trim the wick before the next burn.", "If it stays tall, try the wick below."}
	return f
}

// flameMaySmoke: tall enough to reach the smoke point of some candle fuels.
func flameMaySmoke(s sight) *Finding {
	from := s.lim.FlameSmoke()
	if s.c.Flame == nil || *s.c.Flame < from || *s.c.Flame > s.lim.FlameTall() || *s.c.Flame > s.lim.FlameHardIn(s.m.Vessel) {
		return nil
	}
	r, l := s.u.ShowLength(*s.c.Flame), s.u.ShowLength(from)
	return &Finding{Rule: "flame may smoke", Level: Note, Reading: r, Limit: l, Source: s.lim.Source(keyFlameSmoke),
		Text: "The flame stands at " + r.String() + "; from " + l.String() + " up some candle flames smoke. Watch for soot."}
}

// hotWall: above the temperature to take care at, not yet over the stop.
func hotWall(s sight) *Finding {
	hot := s.lim.WallHot(s.m.Vessel.Material)
	if s.c.VesselTemp == nil || *s.c.VesselTemp <= hot || *s.c.VesselTemp > s.lim.WallStopIn(s.m.Vessel) {
		return nil
	}
	f := s.temperature("hot vessel", Caution, hot, keyWallHot, keyMetalHot)
	f.Do = []string{"Do not touch it.", "Measure again at the next check."}
	return f
}

// deepPool: deeper than makers like it; wick down.
func deepPool(s sight) *Finding {
	deep, very := s.lim.PoolDeep(), s.lim.PoolVeryDeep()
	switch {
	case s.c.Depth == nil || *s.c.Depth <= min(deep, very):
		return nil
	case *s.c.Depth > very:
		f := s.length("very deep pool", Caution, "The pool is very deep: ", *s.c.Depth, very, keyPoolVeryDeep)
		f.Do = []string{"Put it out and let it rest.", "Try the wick below."}
		return f
	}
	f := s.length("deep pool", Caution, "The pool is deep: ", *s.c.Depth, deep, keyPoolDeep)
	f.Do = []string{"If it stays deep, try the wick below."}
	return f
}
