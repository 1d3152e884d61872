package demo

import (
	"math"
	"math/rand/v2"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// lifeline is one candle on its way, with the truth that no reading shows.
type lifeline struct {
	record   journal.Candle
	vessel   journal.Vessel
	rng      *rand.Rand
	theta    float64 // of the candle's burns, before each burn's own luck
	growth   float64
	excess   float64 // theta less the ideal: too much wick above zero
	rate     float64 // g/h, all wicks together
	filled   float64 // g of wax at first
	perMM    float64 // g of wax in one millimetre of height
	wax      float64 // g of wax left
	floor    float64 // g of wax when it counts as spent
	load     float64
	blend    journal.ID // its wax
	wood     bool
	rung     int
	copy     int
	ready    time.Time
	lastOut  time.Time
	burns    int
	most     int // burns it is lit for; negative: none
	litNow   int
	pictured []int // burns that are photographed
	over     bool  // nothing more is done with it
	mishaps  []mishap
}

// The rules of the wax.
const (
	spentHeight = 13.0 // mm of wax left
	lowRate     = 4.6  // g/h of the lowest rung
	cottonRate  = 0.6  // g/h more for each rung
	woodRate    = 1.1
	twinRate    = 0.9 // of two wicks in one pool, each
	candleRate  = 0.04
	burnRate    = 0.03
)

// newLifeline fills one vessel.
func (s *studio) newLifeline(r round, rung, nth int, pour journal.Pour, id journal.ID) *lifeline {
	c := &lifeline{
		vessel: vessels()[r.vessel-1], rng: s.stream(streamCandle, uint64(id)), load: float64(r.load),
		blend: r.wax, wood: r.ladder == alder, rung: rung, copy: nth, most: r.burns,
	}
	truth := s.pairing(r, rung)
	c.theta, c.growth = truth.theta+candleSD*c.rng.NormFloat64(), truth.growth
	c.excess = c.theta - ideal
	c.rate = rateOf(r, rung) * math.Exp(candleRate*c.rng.NormFloat64())
	wax := waxes()[r.wax-1]
	grams := area(c.vessel) * float64(*wax.SolidDensity) / 1000 // of one millimetre of height
	c.filled = math.Round(grams * float64(*c.vessel.FillHeight) * (1 + 0.01*c.rng.NormFloat64()))
	c.perMM = grams
	c.wax, c.floor = c.filled, grams*spentHeight
	c.ready = journal.Life{PouredAt: pour.At, CureDays: wax.Cure()}.ReadyAt()
	c.record = journal.Candle{
		Meta: meta(id), Pour: pour.ID, PourNumber: pour.Number, Vessel: r.vessel,
		Wick: wickID(r.ladder, rung), Wicks: r.wicks, Filled: p(quantity.Grams(c.filled)),
	}
	return c
}

// rateOf is what the wicks of a pairing burn together in an hour.
func rateOf(r round, rung int) float64 {
	step := cottonRate
	if r.ladder == alder {
		step = woodRate
	}
	one := lowRate + step*float64(rung-1)
	if r.wicks == 1 {
		return one
	}
	return one * twinRate * float64(r.wicks)
}

// area is the vessel's inside seen from above, in square millimetres.
func area(v journal.Vessel) float64 {
	box := float64(v.InnerWidth) * float64(v.Length())
	if v.Shape == journal.Rectangular {
		return box
	}
	return box * math.Pi / 4
}

// scale is the whole candle's mass as the studio's scale shows it.
func (c *lifeline) scale() quantity.Grams {
	return quantity.Grams(math.Round((float64(*c.vessel.EmptyMass)+c.wax)*10) / 10)
}

// canLight reports whether the candle may be lit at a moment: cured, rested
// overnight, and with something left to learn.
func (c *lifeline) canLight(at time.Time) bool {
	if c.over || c.most < 0 || (c.most > 0 && c.burns >= c.most) {
		return false
	}
	return !at.Before(c.ready) && at.Sub(c.lastOut) > 10*time.Hour
}
