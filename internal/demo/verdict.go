package demo

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// judged is a verdict that the studio means to make of a pairing in a setting.
type judged struct {
	daysAgo   int
	wax       journal.ID
	fragrance journal.ID
	load      quantity.Fraction // of the wax
	vessel    journal.ID
	ladder    journal.ID
	rung      int
	wicks     int
	ruling    journal.Ruling
	by, why   string
	tip, base bool
}

// seasonVerdicts are made on one evening, after most rounds were burned. The
// one that is accepted rests on few candles; more were burned later.
func seasonVerdicts() []judged {
	return []judged{
		{daysAgo: 34, wax: meadow, fragrance: fig, load: 0.08, vessel: pebble, ladder: larkspur, rung: 5, wicks: 1, ruling: journal.Accepted, by: "Maren", tip: true, base: true,
			why: "Two candles only, but both were full in time from the first burn to the last and left the glass clean. Three more are on the list to be sure."},
		{daysAgo: 34, wax: meadow, fragrance: fig, load: 0.08, vessel: pebble, ladder: larkspur, rung: 7, wicks: 1, ruling: journal.Rejected, by: "Maren",
			why: "Tall and sooty in every burn, and once the pool itself caught fire. Far too strong for this glass."},
	}
}

// judgeOn notes the verdicts of one day, late in the evening.
func (s *studio) judgeOn(daysAgo int) {
	for i, j := range s.plan.verdicts {
		if j.daysAgo != daysAgo {
			continue
		}
		s.write(s.clock(daysAgo, 23*60+10+i), journal.Verdict{Vessel: j.vessel, Wick: wickID(j.ladder, j.rung), Wicks: j.wicks, Wax: j.wax, Fragrance: &j.fragrance, Load: &j.load,
			Apart: journal.ByLoad, Ruling: j.ruling, By: j.by, Why: j.why, TipTest: j.tip, BaseCheck: j.base})
	}
}
