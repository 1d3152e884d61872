// Package answer says what the candles of a round answer to its question:
// which of its wicks comes closest to a full pool at the target hour, in which
// of its vessels, and what another load or pour temperature does to the pool's
// width.
//
// Wicks are judged by the standings of the round's own candles, and so are
// vessels, each by its own wall. Loads and
// temperatures belong to a whole melt, so that melts are what is counted, not
// candles. It refuses to name a wick while another is still in the running or
// has not been burned, to put one above the line that a hard finding stands
// against, and to call a difference told while its interval leaves room for
// none. It has no clock, reads no storage and puts nothing in words.
package answer

import (
	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/standings"
)

// RoundAnswer is what a round says at one moment.
type RoundAnswer struct {
	Wicks []WickAnswer // one for each vessel and setting; empty where nothing is compared and nothing was burned
	// Vessels compares them, each by its own wall; nil where the round has one.
	Vessels *VesselAnswer
	Levels  []LevelAnswer // one for each of load and pour temperature that the round varies
	// BurnsDone of BurnsWanted are over; both are 0 where candles burn to their
	// end. BurnsLeft are still to come, Complete says that nothing is.
	BurnsDone, BurnsWanted, BurnsLeft int
	Complete                          bool
	Departed                          int // candles that are not what was planned
}

// Of is the answer of a round. The table is the standings of its candles
// alone, judged between its vessels where it has several; pours are what these were poured from, by their ID.
func Of(r journal.TestRound, p plan.RoundProgress, t standings.Table, pours map[journal.ID]journal.Pour) RoundAnswer {
	a := RoundAnswer{BurnsDone: p.BurnsDone, BurnsWanted: p.BurnsWanted, BurnsLeft: p.Left(), Complete: p.Complete()}
	for _, x := range p.Places {
		if len(x.Differs) > 0 {
			a.Departed++
		}
	}
	a.Wicks = wickAnswers(p, t)
	a.Vessels = vesselAnswer(a.Wicks, p, t)
	cs := placed(p, influence.CandlesOf(t, pours))
	levels := map[Factor][]float64{Load: Load.levels(p), PourAt: PourAt.levels(p)}
	for _, f := range []Factor{Load, PourAt} {
		if len(levels[f]) > 1 {
			a.Levels = append(a.Levels, levelAnswer(r, f, levels, cs))
		}
	}
	return a
}

// Told reports whether everything that the round asks is answered.
func (a RoundAnswer) Told() bool {
	n := 0
	for _, w := range a.Wicks {
		if w.State == Lone {
			continue
		}
		if n++; w.State != Closest {
			return false
		}
	}
	if a.Vessels != nil {
		if n++; a.Vessels.State != Closest {
			return false
		}
	}
	for _, l := range a.Levels {
		for _, d := range l.Others {
			if n++; d.Verdict != Told {
				return false
			}
		}
	}
	return n > 0
}
