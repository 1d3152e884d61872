package safety

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// ownLimit is the source of a limit that a vessel has for itself.
const ownLimit = "this vessel's own limit, from the shelf"

// length is a finding about a length above its limit.
func (s sight) length(rule string, l Level, start string, reading, limit quantity.Millimetres, key string) *Finding {
	r, m := s.u.ShowLength(reading), s.u.ShowLength(limit)
	return &Finding{Rule: rule, Level: l, Reading: r, Limit: m, Source: s.lim.Source(key),
		Text: start + r.String() + ", " + over(r, m) + "."}
}

// temperature is a finding about the vessel's wall above its limit.
func (s sight) temperature(rule string, l Level, limit quantity.Celsius, key, metalKey string) *Finding {
	if s.m.Vessel.Material == journal.Metal {
		key = metalKey
	}
	r, m := s.u.ShowTemperature(*s.c.VesselTemp), s.u.ShowTemperature(limit)
	return &Finding{Rule: rule, Level: l, Reading: r, Limit: m, Source: s.lim.Source(key),
		Text: "The vessel's wall is at " + r.String() + ", " + over(r, m) + "."}
}

// graded reports whether a grade stands at a step of its scale or above it.
func graded(scale []journal.GradeWord, g journal.Grade, step int) bool {
	r, ok := journal.Rank(scale, g)
	return ok && r >= step
}

// From which step of its scale a sign counts as a fault.
const (
	sootFrom     = 2 // a thread of smoke most of the time
	mushroomFrom = 2 // a cap wider than the wick
	ringFrom     = 2 // a ledge of wax you cannot see through
	tunnelFrom   = 3 // the pool sinks down a shaft
)

// soot: smoke most of the time, or marks on the vessel.
func soot(s sight) *Finding {
	if !graded(journal.SootScale, s.c.Soot, sootFrom) {
		return nil
	}
	return &Finding{Rule: "soot", Level: Caution, Source: "candle advice in the press, 2003",
		Text: "It smokes: " + string(s.c.Soot) + ".",
		Do:   []string{"Put it out, let it cool, trim, light it again in still air.", "If it comes back, stop burning this candle."}}
}

// mushroom: a cap of carbon wider than the wick.
func mushroom(s sight) *Finding {
	if !graded(journal.MushroomScale, s.c.Mushroom, mushroomFrom) {
		return nil
	}
	return &Finding{Rule: "mushrooming", Level: Note, Source: practice,
		Text: "The wick mushrooms: " + string(s.c.Mushroom) + ".",
		Do:   []string{"Trim before the next burn, with the cold wick, and keep the crumbs out of the wax."}}
}

// oddRule makes the rule of an odd event that has no number.
func oddRule(o journal.Odd, f Finding) func(sight) *Finding {
	return func(s sight) *Finding {
		if !s.c.Has(o) {
			return nil
		}
		g := f
		return &g
	}
}

// The rules of odd events that are no danger at once.
var (
	drowning = oddRule(journal.Drowning, Finding{Rule: "drowning", Level: Caution, Source: practice,
		Text: "The flame is drowning.", Do: []string{"Note the depth of the pool: shallow asks for a stronger wick, deep for a weaker one."}})
	weakFlame = oddRule(journal.FlameWentWeak, Finding{Rule: "weak flame", Level: Note, Source: practice,
		Text: "The flame is very small. A stronger wick may be wanted."})
	flickering = oddRule(journal.Flickering, Finding{Rule: "flickering", Level: Note, Source: "candle advice in the press, 2003",
		Text: "The flame flickers.", Do: []string{"Look for a draught.", "In still air: put it out, let it cool, trim, light it again."}})
	driftedWick = oddRule(journal.WickDrifted, Finding{Rule: "drifted wick", Level: Caution, Source: practice,
		Text: "The wick has left its place.", Do: []string{"Put it out if the flame nears the wall: the vessel can crack."}})
	debris = oddRule(journal.Debris, Finding{Rule: "debris in the pool", Level: Caution, Source: "candle advice in the press, 2003; that debris acts as a second wick is from memory",
		Text: "Something lies in the pool. It can act as a second wick.", Do: []string{"Snuff the flame.", "Take it out with tweezers when the wax is soft but no longer hot."}})
	sweating = oddRule(journal.SweatingPool, Finding{Rule: "sweating", Level: Caution, Source: practice,
		Text: "Oil beads on the wax. A pool rich in oil catches fire more easily.", Do: []string{"Stay close, with the lid at hand.", "Use less oil in the next pour; look at the wax's and the oil's own maximum."}})
)
