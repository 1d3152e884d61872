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

// pourRound melts as often as the round needs.
func (s *studio) pourRound(r round, at time.Time) {
	var pour journal.Pour
	melts, began, spots := 0, 0, r.spots()
	for i, x := range spots {
		if i == 0 || x.melt != spots[i-1].melt {
			pour = s.melt(r, at.Add(time.Duration(melts)*70*time.Minute))
			melts, began = melts+1, i
		}
		c := s.newLifeline(r, x.rung, x.nth, pour, journal.ID(len(s.candles)+1))
		c.record.Letter, c.mishaps = journal.LetterOf(i-began), r.mishaps
		if r.asks != nil {
			c.record.Round, c.record.RoundPlace = &r.asks.id, x.place
		}
		if i < len(r.litNow) {
			c.litNow = r.litNow[i]
		}
		for _, y := range r.pictured {
			if y.nth == i {
				c.pictured = append(c.pictured, y.burn)
			}
		}
		s.write(pour.At.Add(writeUp), c.record)
		s.candles = append(s.candles, c)
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
