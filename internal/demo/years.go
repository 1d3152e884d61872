package demo

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// TenYears is a studio that kept at it for ten years, about 3,000 candles, by
// the rules of the season; it serves to measure how the program keeps up, and
// has no photos.
func TenYears(seed uint64, now time.Time, zone *time.Location) Season {
	return newStudio(seed, now, zone, plan{}).tenYears().live()
}

// How the long plan is laid.
const (
	longDays  = 3652
	longEvery = 12 // days between rounds
	longUntil = 40 // days ago; from here on the season's own rounds follow
	oneInMany = 0.08
)

// tenYears gives the studio a long plan.
func (s *studio) tenYears() *studio {
	season := seasonPlan()
	s.plan = plan{days: longDays, casts: true, settled: true, asked: season.asked, bench: 12, keenness: 0.62, together: 7 * 24 * time.Hour}
	for ago := longDays - 3; ago > longUntil; ago -= longEvery {
		s.plan.rounds = append(s.plan.rounds, s.anyRound(ago))
	}
	for _, r := range season.rounds {
		if r.daysAgo < longUntil {
			r.pictured = nil
			s.plan.rounds = append(s.plan.rounds, r)
		}
	}
	return s
}

// anyRound draws a round: a vessel with its ladder, a wax, a load, and five
// rungs or so around the one that fits.
func (s *studio) anyRound(daysAgo int) round {
	rng := s.days
	r := round{
		daysAgo: daysAgo, wax: journal.ID(1 + rng.IntN(2)), fragrance: journal.ID(1 + rng.IntN(2)),
		load: 0.06 + 0.02*quantity.Fraction(rng.IntN(3)), copies: 2, wicks: 1,
	}
	switch rng.IntN(4) {
	case 0:
		r.vessel, r.ladder, r.rungs = slate, alder, []int{1, 2, 3, 4}
	case 1:
		r.vessel, r.ladder, r.rungs, r.wicks = fern, larkspur, []int{1, 2, 3, 4, 5}, 2
	default:
		r.vessel, r.ladder, r.rungs = pebble, larkspur, []int{3, 4, 5, 6, 7}
	}
	switch luck := rng.Float64(); {
	case luck < oneInMany:
		r.mishaps = []mishap{{rung: r.rungs[0], burn: 2, what: drowns}}
	case luck < 2*oneInMany:
		r.mishaps = []mishap{{rung: r.rungs[len(r.rungs)-1], burn: 3, what: spreads}}
	}
	return r
}
