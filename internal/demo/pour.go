package demo

import (
	"fmt"
	"math"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// perMelter is how many candles one melt fills.
const perMelter = 6

// writeUp is how long after the pour it is written down.
const writeUp = 25 * time.Minute

// The hours at which the studio pours, in minutes of the day.
const (
	morningPour   = 10*60 + 40
	afternoonPour = 15*60 + 10
)

// pourOn pours the rounds that the plan has for a day.
func (s *studio) pourOn(daysAgo int) {
	for _, r := range s.plan.rounds {
		if r.daysAgo == daysAgo {
			s.pourRound(r, s.pourTime(daysAgo))
		}
	}
}

// pourTime is the studio's morning or afternoon hour; the newest pour is the
// latest one that has had a day to set.
func (s *studio) pourTime(daysAgo int) time.Time {
	for ago, newest := daysAgo, daysAgo <= 1; newest; ago++ {
		for _, m := range []int{afternoonPour, morningPour} {
			if at := s.clock(ago, m); s.now.Sub(at) >= journal.SetsAfter {
				return at
			}
		}
	}
	if s.days.Float64() < 0.5 {
		return s.clock(daysAgo, morningPour+s.days.IntN(40))
	}
	return s.clock(daysAgo, afternoonPour+s.days.IntN(40))
}

// pourRound melts as often as the round needs, copies side by side.
func (s *studio) pourRound(r round, at time.Time) {
	var batch []*lifeline
	var pour journal.Pour
	for nth := range r.copies {
		for _, rung := range r.rungs {
			if len(batch)%perMelter == 0 {
				pour = s.melt(r, at.Add(time.Duration(len(batch)/perMelter)*70*time.Minute))
			}
			c := s.newLifeline(r, rung, nth, pour, journal.ID(len(s.candles)+1))
			c.record.Letter = journal.LetterOf(len(batch) % perMelter)
			c.mishaps = r.mishaps
			if len(batch) < len(r.litNow) {
				c.litNow = r.litNow[len(batch)]
			}
			for _, x := range r.pictured {
				if x.nth == len(batch) {
					c.pictured = append(c.pictured, x.burn)
				}
			}
			s.write(pour.At.Add(writeUp), c.record)
			batch, s.candles = append(batch, c), append(s.candles, c)
		}
	}
}

// melt writes one batch down, heated and poured near the middle of the
// supplier's ranges.
func (s *studio) melt(r round, at time.Time) journal.Pour {
	s.pours++
	rng, wax := s.stream(streamPour, uint64(s.pours)), waxes()[r.wax-1]
	near := func(g journal.Range[quantity.Celsius], sd float64) *quantity.Celsius {
		return p(quantity.Celsius(math.Round(float64(*g.Low+*g.High)/2 + sd*rng.NormFloat64())))
	}
	pour := journal.Pour{
		Meta: meta(journal.ID(s.pours)), Number: s.pours, At: at, Wax: r.wax,
		WaxLot:    fmt.Sprintf("%c%d", 'L'+rune(r.wax), 100+s.pours/6),
		Fragrance: p(r.fragrance), Load: p(r.load), LoadBasis: journal.OfWax,
		HeatedTo: near(wax.HeatTo, 1.5), OilAt: near(wax.AddOilAt, 0.8), PouredAt: near(wax.PourAt, 2),
		Room: p(quantity.Celsius(math.Round(40+2*rng.NormFloat64()) / 2)),
	}
	if rng.Float64() < 0.5 {
		pour.VesselWarmed = p(quantity.Celsius(math.Round(40 + 3*rng.NormFloat64())))
	}
	pour.HeatGun = rng.Float64() < 0.25
	if rng.Float64() < 0.15 {
		pour.PouredAt = p(*wax.PourAt.High + 4)
		pour.Note = "The telephone rang: poured hotter than the supplier says."
	}
	s.write(at.Add(writeUp), pour)
	return pour
}
