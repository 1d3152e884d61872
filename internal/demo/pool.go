package demo

import (
	"math"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// The rules of the pools; the package's opening words say what they mean.
const (
	ideal      = 0.13 // theta of a wick that fits
	growth     = 0.9  // k, per hour
	cottonStep = 0.07
	woodStep   = 0.10

	rungSD       = 0.015
	candleSD     = 0.04
	burnSD       = 0.025
	growthSD     = 0.10
	burnGrowthSD = 0.08

	firstBurn   = -0.02
	inDraught   = -0.06
	perOil      = -1.0 // theta for each unit of load above usualLoad
	usualLoad   = 0.08
	tiltSD      = 0.012
	readingSD   = 1.0 // mm
	bothAtWall  = 0.35
	oneAxisOnly = 0.06
)

// fit is the rung, counted in fractions, that fits a vessel and a wax. The two
// wicks of the bowl share the work, so that it takes a lower rung.
func fit(vessel, wax, ladder journal.ID) float64 {
	var best float64
	switch {
	case vessel == slate && ladder == alder:
		best = 2.4
	case ladder == alder:
		best = 2.7
	case vessel == fern:
		best = 3.1
	default:
		best = 5
	}
	switch { // the softer wax takes a little less wick
	case wax == harbour && ladder == alder:
		best -= 0.4
	case wax == harbour:
		best--
	}
	return best
}

// pairing is the truth behind one wick in one vessel and setting.
type pairing struct{ theta, growth float64 }

func (s *studio) pairing(r round, rung int) pairing {
	rng := s.stream(streamPairing, uint64(r.vessel)<<24|uint64(r.wax)<<16|uint64(wickID(r.ladder, rung))<<8|uint64(r.wicks))
	step := cottonStep
	if r.ladder == alder {
		step = woodStep
	}
	return pairing{
		theta:  ideal + step*(float64(rung)-fit(r.vessel, r.wax, r.ladder)) + rungSD*rng.NormFloat64() + perOil*(float64(r.load)-usualLoad),
		growth: growth * math.Exp(growthSD*rng.NormFloat64()),
	}
}

// opened is how far a pool has opened after some hours, as a share of its own
// limit.
func opened(k, hours float64) float64 { return -math.Expm1(-k * hours) }

// reach is the pool's width over the vessel's after some hours, with no wall.
func (f *flame) reach(hours float64) float64 {
	return math.Exp(f.theta) * opened(f.growth, hours) / opened(f.growth, float64(f.candle.vessel.Target()))
}

// readPool writes the pool's widths down as a ruler shows them, or ticks that
// it has met the wall.
func (f *flame) readPool(c *journal.Check, hours float64) {
	rng, v := f.candle.rng, f.candle.vessel
	a, b := f.reach(hours)*math.Exp(f.tilt), f.reach(hours)*math.Exp(-f.tilt)
	errA, errB, habit := rng.NormFloat64(), rng.NormFloat64(), rng.Float64()
	if a >= 1 && b >= 1 {
		c.Full = true
		if habit < bothAtWall {
			c.WidthA, c.WidthB = p(v.Length()), p(v.InnerWidth)
		}
		return
	}
	c.WidthA = ruler(v.Length(), a, errA)
	if habit >= oneAxisOnly {
		c.WidthB = ruler(v.InnerWidth, b, errB)
	}
}

// ruler is one axis read to the millimetre. An eye that sees a rim of wax does
// not write the wall's own width.
func ruler(wall quantity.Millimetres, share, slip float64) *quantity.Millimetres {
	if share >= 1 {
		return &wall
	}
	mm := math.Round(float64(wall)*share + readingSD*slip)
	return p(quantity.Millimetres(min(max(mm, 4), float64(wall)-1)))
}
