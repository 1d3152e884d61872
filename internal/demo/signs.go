package demo

import (
	"math"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// The rules of what is seen beside the pool. Excess is theta less the ideal:
// 0.21 is three rungs of cotton too many.
const (
	fitFlame     = 28.0 // mm, of a wick that fits
	flamePerOver = 3.0
	tallest      = 70.0
	fitDepth     = 10.0 // mm, after many hours
	weakFlame    = 10.0
)

// readSigns writes down everything but the pool's width.
func (f *flame) readSigns(c *journal.Check, hours float64) {
	rng, over := f.candle.rng, f.candle.excess
	flame := fitFlame * math.Exp(flamePerOver*over+0.07*rng.NormFloat64()) * (0.9 + 0.04*hours)
	c.Flame = p(quantity.Millimetres(math.Round(min(flame, tallest-rng.Float64()*4))))
	depth := fitDepth * math.Exp(2*over+0.06*rng.NormFloat64()) * opened(0.8, hours)
	if rng.Float64() < 0.8 {
		c.Depth = p(quantity.Millimetres(math.Round(depth)))
	}
	f.readGrades(c, hours)
	heat := f.heat(hours)
	if rng.Float64() < 0.75 {
		c.VesselTemp = p(quantity.Celsius(math.Round(heat)))
	}
	f.tickOdd(c, flame)
}

// readGrades judges carbon, soot and wall wax by the journal's words.
func (f *flame) readGrades(c *journal.Check, hours float64) {
	rng, over := f.candle.rng, f.candle.excess
	mushroom := 0.1 + 5*over + 0.2*hours + 0.35*rng.NormFloat64()
	if f.candle.wood {
		mushroom -= 0.6
	}
	soot := -0.5 + 6*over + 0.08*hours + 0.35*rng.NormFloat64()
	if f.burn.Draught == journal.DraughtStrong {
		soot += 0.9
	}
	short := max(0, 1-math.Exp(f.theta))
	wall := 10*short + 0.2*rng.NormFloat64()
	if short > 0.03 {
		wall += 0.25 * float64(f.burn.Number-1)
	}
	c.Mushroom = grade(journal.MushroomScale, mushroom)
	c.Soot = grade(journal.SootScale, soot)
	c.WallWax = grade(journal.WallWaxScale, wall)
}

// grade is the word nearest to a value on a scale.
func grade(scale []journal.GradeWord, v float64) journal.Grade {
	i := int(math.Round(min(max(v, 0), float64(len(scale)-1))))
	return scale[i].Grade
}

// heat is the vessel's wall temperature: it rises with the hours, with too
// much wick, and as the wax gets low.
func (f *flame) heat(hours float64) float64 {
	rise := map[journal.Material]float64{"glass": 26, "ceramic": 22, journal.Metal: 17}[f.candle.vessel.Material]
	used := 1 - f.candle.wax/f.candle.filled
	return float64(*f.burn.Room) + rise*math.Exp(1.5*f.candle.excess)*opened(growth, hours) + 6*used*used + 1.5*f.candle.rng.NormFloat64()
}

// tickOdd ticks the events that have no number.
func (f *flame) tickOdd(c *journal.Check, flame float64) {
	luck := f.candle.rng.Float64()
	if f.burn.Draught == journal.DraughtStrong || (f.burn.Draught == journal.DraughtSlight && luck < 0.3) {
		c.Odd = append(c.Odd, journal.Flickering)
	}
	if flame < weakFlame {
		c.Odd = append(c.Odd, journal.FlameWentWeak)
	}
	if luck > 0.994 {
		c.Odd = append(c.Odd, journal.Debris)
	}
	if luck > 0.988 && luck <= 0.994 {
		c.Odd = append(c.Odd, journal.WickDrifted)
	}
}

// smell scores the lit candle once a burn, about two hours in.
func (f *flame) smell() *int {
	score := 1.6 + 18*f.candle.load + 3*min(f.candle.excess, 0.1) + 0.5*f.candle.rng.NormFloat64()
	return p(int(math.Round(min(max(score, 0), 5))))
}
