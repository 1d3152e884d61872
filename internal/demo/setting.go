package demo

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sketch"
)

// streamSetting keeps the luck of setting apart from everything else's.
const streamSetting uint64 = 41 << 56

// The rules of setting, as odds of a fault in a candle poured at the middle of
// its wax's guidance. Each degree above the middle raises the odds of a sink
// hole and of frosting and lowers those of a rough top and of cracks. Meadow,
// a soft natural wax, frosts; harbour seldom does. Wet spots show through glass
// alone, and a vessel that was warmed has a third of their odds. A heat gun
// halves the odds of a rough top. A candle with 10 % of oil or more sweats
// nearly every second time, others hardly ever. The candles of one pour share a luck of 0.6, in
// log odds.
const (
	sinkOdds    = 0.07
	roughOdds   = 0.09
	crackOdds   = 0.03
	dipOdds     = 0.2
	wetOdds     = 0.45
	sweatOdds   = 0.8
	dryOdds     = 0.006
	richLoad    = 0.0999
	byDegree    = 0.22 // of log odds
	settingLuck = 0.6
	heavyShare  = 0.25 // of what is seen
	overlooked  = 0.05 // chance that one thing is not looked at
	coldNoted   = 0.6  // chance that the cold throw is noted
)

var frostOdds = map[journal.ID]float64{meadow: 0.6, harbour: 0.08}

// Pours whose tops nobody looked at: one in six of those that were burned long
// since, and the newest, which is due.
const (
	forgotten    = 6
	longSince    = 40 // days
	lookedAfter  = 24.2
	lookedWithin = 4.0 // h
)

// settleAll looks at the tops of the pours, a day after each.
func (s *studio) settleAll() {
	if !s.plan.settled {
		return
	}
	of := map[journal.ID][]*lifeline{}
	for _, c := range s.candles {
		of[c.record.Pour] = append(of[c.record.Pour], c)
	}
	for _, e := range slices.Clone(s.events) {
		if x, is := e.Record.(journal.Pour); is && !s.unlooked(x) {
			s.settleOne(x, of[x.ID])
		}
	}
}

func (s *studio) unlooked(x journal.Pour) bool {
	old := s.now.Sub(x.At) > longSince*24*time.Hour
	return int(x.ID) == s.pours || (old && x.ID%forgotten == 3)
}

// settleOne walks along the candles of one pour.
func (s *studio) settleOne(x journal.Pour, of []*lifeline) {
	rng := s.stream(streamSetting, uint64(x.ID))
	at := x.At.Add(time.Duration((lookedAfter+lookedWithin*rng.Float64())*60) * time.Minute)
	luck := math.Exp(settingLuck * rng.NormFloat64())
	if at.After(s.now) {
		return
	}
	for _, c := range of {
		s.sets++
		k := look(x, c, luck, s.stream(streamSetting, uint64(1000+c.record.ID)))
		k.Meta, k.Candle, k.At = meta(s.sets), c.record.ID, at
		s.write(at, k)
		s.shootSet(k, c)
	}
}

// whole is the candle as it was filled, before anything of it burned.
func (c *lifeline) whole() sketch.Scene {
	full := *c
	full.wax = c.filled
	return full.still(0, "north bench")
}

// look is what one candle shows.
func look(x journal.Pour, c *lifeline, luck float64, rng *rand.Rand) journal.SetCheck {
	guide := waxes()[x.Wax-1].PourAt
	warmer := math.Exp(byDegree * (float64(*x.PouredAt) - float64(*guide.Low+*guide.High)/2))
	gun, warmed := 1.0, 1.0
	if x.HeatGun {
		gun = 0.5
	}
	if x.VesselWarmed != nil {
		warmed = 1.0 / 3
	}
	oily := dryOdds
	if c.load >= richLoad {
		oily = sweatOdds
	}
	k := journal.SetCheck{
		SinkHole: amount(rng, sinkOdds*luck*warmer), Cracks: amount(rng, crackOdds*luck/warmer),
		Frosting: amount(rng, frostOdds[x.Wax]*luck*warmer), Sweating: amount(rng, oily*luck),
	}
	k.Top, k.Dip = topOf(rng, roughOdds*luck*gun/warmer, dipOdds*luck*warmer)
	k.Stuck = stuckOf(rng, c.vessel, wetOdds*luck*warmed)
	k.ColdThrow = coldOf(rng, c.load)
	return k
}

// amount draws how much of a fault is seen, and sometimes that nobody looked.
func amount(rng *rand.Rand, odds float64) journal.Amount {
	seen, missed, heavy := rng.Float64() < odds/(1+odds), rng.Float64() < overlooked, rng.Float64() < heavyShare
	switch {
	case seen && heavy:
		return journal.AmountHeavy
	case seen:
		return journal.AmountSlight
	case missed:
		return ""
	}
	return journal.AmountNone
}

// topOf draws the shape of the surface.
func topOf(rng *rand.Rand, rough, dip float64) (journal.Top, *quantity.Millimetres) {
	deep := quantity.Millimetres(1 + rng.IntN(5))
	switch luck := rng.Float64(); {
	case luck < rough/(1+rough):
		return journal.TopRough, nil
	case luck < rough/(1+rough)+dip/(1+dip):
		return journal.TopDip, &deep
	}
	return journal.TopSmooth, nil
}

// stuckOf draws how much of a glass the wax sticks to, to five in a hundred.
func stuckOf(rng *rand.Rand, v journal.Vessel, odds float64) *quantity.Fraction {
	loose := rng.IntN(9)
	switch {
	case !v.WallSeen():
		return nil
	case rng.Float64() < odds/(1+odds):
		return p(quantity.Fraction(95-5*(loose+1)) / 100)
	}
	return p(quantity.Fraction(1))
}

// coldOf sniffs at the cold candle, by the rules of noses.
func coldOf(rng *rand.Rand, load float64) *int {
	strength := coldStrength*math.Pow(load/0.08, powerOfLoad) + nosePower*rng.NormFloat64()
	if rng.Float64() >= coldNoted {
		return nil
	}
	return p(int(math.Round(min(max(strength, journal.LeastThrow), journal.MostThrow))))
}
