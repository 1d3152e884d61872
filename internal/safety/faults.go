package safety

import (
	"slices"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Fault is a fault that burns showed, in words.
type Fault struct {
	Name  string
	Burns int // that showed it
	Of    int // that were looked at for it
}

// faultRule looks at one burn for one fault.
type faultRule struct {
	name string
	// look reports whether the burn was looked at for the fault, and whether
	// it showed it.
	look func(evening) (looked, shown bool)
}

// FaultsOf counts the faults of candles burn by burn: in how many burns each
// was seen, of how many in which it was looked for. Faults that were never
// seen are left out; the order is always the same.
func FaultsOf(logs []journal.CandleLog, lim Limits, u quantity.Units) []Fault {
	var counts [][]Fault
	for _, l := range logs {
		counts = append(counts, CountFaults(l, lim, u))
	}
	return AddFaults(counts)
}

// CountFaults counts every fault of one candle, those that were never seen
// too, so that the counts of several candles can be added up.
func CountFaults(l journal.CandleLog, lim Limits, u quantity.Units) []Fault {
	burns := l.CountedBurns()
	var out []Fault
	for _, r := range faultRules(lim, u) {
		f := Fault{Name: r.name}
		for _, b := range burns {
			looked, shown := r.look(evening{b.Burn, b.CountedChecks(), l.Made, lim, u})
			f.Of += one(looked)
			f.Burns += one(looked && shown)
		}
		out = append(out, f)
	}
	return out
}

// AddFaults adds up what CountFaults counted under the same limits and units,
// and leaves out the faults that were never seen.
func AddFaults(counts [][]Fault) []Fault {
	var sums, out []Fault
	for i, fs := range counts {
		if i == 0 {
			sums = slices.Clone(fs)
			continue
		}
		for k, f := range fs {
			sums[k].Of, sums[k].Burns = sums[k].Of+f.Of, sums[k].Burns+f.Burns
		}
	}
	for _, f := range sums {
		if f.Burns > 0 {
			out = append(out, f)
		}
	}
	return out
}

func one(b bool) int {
	if b {
		return 1
	}
	return 0
}

// faultRules lists the faults, the gravest first.
func faultRules(lim Limits, u quantity.Units) []faultRule {
	return []faultRule{
		{"flame on the pool", ticked(journal.FlameOnPool)},
		{"crack", ticked(journal.Cracked)},
		{"flame over the limit", reads(flameOf, func(e evening, v float64) bool { return v > float64(e.lim.FlameHardIn(e.m.Vessel)) })},
		{"flame over " + u.ShowLength(lim.FlameTall()).String(), reads(flameOf, func(e evening, v float64) bool {
			return v > float64(lim.FlameTall()) && v <= float64(e.lim.FlameHardIn(e.m.Vessel))
		})},
		{"soot", sooty},
		{"mushrooming", grades(mushroomOf, journal.MushroomScale, mushroomFrom)},
		{"tunnelling", lastWall(func(r int) bool { return r >= tunnelFrom })},
		{"hang-up", lastWall(func(r int) bool { return r >= ringFrom && r < tunnelFrom })},
		{"drowning", drowned},
		{"hot vessel", reads(wallOf, func(e evening, v float64) bool { return v > float64(e.lim.WallHot(e.m.Vessel.Material)) })},
		{"pool deeper than " + u.ShowLength(lim.PoolDeep()).String(), reads(depthOf, func(e evening, v float64) bool { return v > float64(e.lim.PoolDeep()) })},
		{"after-smoke over " + lim.AfterSmoke().Shown().String(), smoked},
		{"weak flame", ticked(journal.FlameWentWeak)},
		{"flickering", ticked(journal.Flickering)},
		{"drifted wick", ticked(journal.WickDrifted)},
		{"debris in the pool", ticked(journal.Debris)},
		{"sweating", ticked(journal.SweatingPool)},
	}
}

// ticked looks for an odd event; a burn with a check was looked at.
func ticked(o journal.Odd) func(evening) (bool, bool) {
	return func(e evening) (looked, shown bool) {
		for _, c := range e.checks {
			looked, shown = true, shown || c.Has(o)
		}
		return looked, shown
	}
}

func flameOf(c journal.Check) *float64 { return number(c.Flame) }
func depthOf(c journal.Check) *float64 { return number(c.Depth) }
func wallOf(c journal.Check) *float64  { return number(c.VesselTemp) }

func number[T ~float64](v *T) *float64 {
	if v == nil {
		return nil
	}
	f := float64(*v)
	return &f
}

// reads looks for a reading that is a fault; a burn with a reading was looked at.
func reads(of func(journal.Check) *float64, bad func(evening, float64) bool) func(evening) (bool, bool) {
	return func(e evening) (looked, shown bool) {
		for _, c := range e.checks {
			if v := of(c); v != nil {
				looked, shown = true, shown || bad(e, *v)
			}
		}
		return looked, shown
	}
}

func mushroomOf(c journal.Check) journal.Grade { return c.Mushroom }
func sootOf(c journal.Check) journal.Grade     { return c.Soot }

// grades looks for a grade that is a fault.
func grades(of func(journal.Check) journal.Grade, scale []journal.GradeWord, from int) func(evening) (bool, bool) {
	return func(e evening) (looked, shown bool) {
		for _, c := range e.checks {
			if r, ok := journal.Rank(scale, of(c)); ok {
				looked, shown = true, shown || r >= from
			}
		}
		return looked, shown
	}
}

// sooty leaves burns in a strong draught out: moving air makes soot by itself
// (Andersen and others, Indoor Air 31:2033-2048, 2021, abstract).
func sooty(e evening) (looked, shown bool) {
	if e.b.Draught == journal.DraughtStrong {
		return false, false
	}
	return grades(sootOf, journal.SootScale, sootFrom)(e)
}

// lastWall looks at the wall as it was graded last in the burn: wax that is
// left early on may melt yet.
func lastWall(bad func(rank int) bool) func(evening) (bool, bool) {
	return func(e evening) (looked, shown bool) {
		for _, c := range e.checks {
			if r, ok := journal.Rank(journal.WallWaxScale, c.WallWax); ok {
				looked, shown = true, bad(r)
			}
		}
		return looked, shown
	}
}

// drowned: the flame sank into the wax, or went out by itself with wax left.
func drowned(e evening) (looked, shown bool) {
	looked, shown = ticked(journal.Drowning)(e)
	return looked || e.b.Ending != "", shown || e.b.Ending == journal.WentOut
}

func smoked(e evening) (looked, shown bool) {
	return e.b.AfterSmoke != nil, e.b.AfterSmoke != nil && *e.b.AfterSmoke > e.lim.AfterSmoke()
}
