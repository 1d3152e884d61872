package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// The moulds by their place in the season's own count.
const (
	wheat journal.ID = 1
	cone  journal.ID = 2
)

// streamCast keeps the luck of casts apart from everything else's.
const streamCast uint64 = 40 << 56

// The rules of casts. Of a firm wax in plain detail that had its full day, one
// piece in 125 breaks and one in 45 chips. Relief makes the odds of both
// twice as large, an undercut five times; a wax that melts below 45 °C is
// softer and makes them three times as large, coming out early another two
// and a half. The pieces of one pour share a luck of 0.5, in log odds.
const (
	breakOdds  = 0.008
	chipOdds   = 0.022
	softMelts  = 45.0 // °C
	softerOdds = 3.0
	earlyOdds  = 2.5
	pourLuck   = 0.5
)

var detailOdds = map[journal.Detail]float64{journal.Plain: 1, journal.Relief: 2, journal.Undercut: 5}

// moulds are two invented ones, one in relief and one with undercuts.
func moulds() []journal.Mould {
	return []journal.Mould{
		{Meta: meta(wheat), Name: "Wheat-ear tablets", Cavities: 6, CavityVolume: p(quantity.Millilitres(42)), Detail: journal.Relief, Material: "silicone"},
		{Meta: meta(cone), Name: "Fir cones", Cavities: 4, WaterFill: p(quantity.Grams(55)), Detail: journal.Undercut, Material: "silicone, in two halves", Note: "Peel the halves away from the tip first."},
	}
}

// castSome fills a mould from every other pour, in turn. Two of five casts had
// a second filling, the third and the sixth came out before their day was
// over, and what the newest pour gave is still in its mould.
func (s *studio) castSome() {
	if !s.plan.casts {
		return
	}
	poured := s.poured()
	each(s, s.clock(s.plan.days, 10*60), moulds())
	for i := (len(poured) + 1) % 2; i < len(poured); i += 2 {
		s.casts++
		early := s.casts == 3 || s.casts == 6
		s.castOf(poured[i], moulds()[int(s.casts)%2], early, i == len(poured)-1)
	}
}

// poured are the pours so far, oldest first.
func (s *studio) poured() []journal.Pour {
	var out []journal.Pour
	for _, e := range s.events {
		if x, is := e.Record.(journal.Pour); is {
			out = append(out, x)
		}
	}
	return out
}

// castOf fills a mould and, unless the pieces are left in, takes them out.
func (s *studio) castOf(pour journal.Pour, m journal.Mould, early, leftIn bool) {
	rng := s.stream(streamCast, uint64(s.casts))
	c := journal.Cast{Meta: meta(s.casts), Pour: pour.ID, Mould: m.ID, Pieces: m.Cavities}
	if rng.Float64() < 0.4 {
		c.Pieces *= 2
	}
	s.write(pour.At.Add(writeUp), c)
	if leftIn {
		return
	}
	hours := 24.2 + 4*rng.Float64()
	if early {
		hours = 4.5 + 2*rng.Float64()
	}
	out := pour.At.Add(time.Duration(hours*60) * time.Minute)
	c.Out = &out
	s.peel(&c, m, waxes()[pour.Wax-1], early, rng)
	s.write(out, c)
}

// peel takes each piece out and looks at it.
func (s *studio) peel(c *journal.Cast, m journal.Mould, wax journal.Wax, early bool, rng *rand.Rand) {
	soft := float64(*wax.MeltingPoint) < softMelts
	odds := detailOdds[m.Detail] * math.Exp(pourLuck*rng.NormFloat64())
	if soft {
		odds *= softerOdds
	}
	if early {
		odds *= earlyOdds
	}
	var clean, chipped, broken int
	for range c.Pieces {
		switch luck := rng.Float64(); {
		case luck < chance(breakOdds*odds):
			broken++
		case luck < chance((breakOdds+chipOdds)*odds):
			chipped++
		default:
			clean++
		}
	}
	c.Clean, c.Chipped, c.Broken = &clean, &chipped, &broken
	c.Captured, c.Surface, c.Firmness = journal.DetailFull, journal.SurfaceSmooth, journal.Firm
	if soft && m.Detail == journal.Undercut && rng.Float64() < 0.5 {
		c.Captured = journal.DetailSoft
	}
	if !soft && rng.Float64() < 0.3 {
		c.Surface = journal.SurfaceFrosted
	}
	if soft || early {
		c.Firmness = journal.Soft
	}
}

// chance turns odds into a chance.
func chance(odds float64) float64 { return odds / (1 + odds) }
