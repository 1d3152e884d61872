package demo

import (
	"image/color"
	"math/rand/v2"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sketch"
)

// What the studio's things look like.
const (
	freeboard = 16.0 // mm of bare wall above the fill height
	apart     = 40.0 // mm between the two wicks of the bowl
	uncut     = 11.0 // mm of wick on a candle that was never lit
	offCentre = 1.5  // mm, the most that a pool lies off the middle
)

var (
	thickness  = map[journal.Material]float64{"glass": 3, "ceramic": 4.5, journal.Metal: 0.8} // mm
	waxColours = map[journal.ID]color.RGBA{meadow: {247, 235, 208, 255}, harbour: {248, 242, 230, 255}}
	benches    = map[string]color.RGBA{
		"north bench": {158, 133, 107, 255}, "window bench": {170, 150, 124, 255}, "side table": {112, 82, 62, 255},
	}
)

// The journal's words as a camera sees them, in order of their scales: the
// width of the carbon in millimetres, and how much of the wall is covered.
var (
	caps     = []float64{0, 2.6, 4.4, 6}
	clinging = []float64{0, 0.4, 0.8, 1}
	sooted   = []float64{0, 0, 0.15, 1}
)

// still is the candle with no flame when so many grams of its wax have burned.
func (c *lifeline) still(burned float64, place string) sketch.Scene {
	high := float64(*c.vessel.FillHeight) + freeboard
	s := sketch.Scene{
		Wide: photoWide, High: photoHigh, Wax: waxColours[c.blend], Bench: benches[place],
		Vessel: sketch.Vessel{
			Length: float64(c.vessel.Length()), Width: float64(c.vessel.InnerWidth),
			Height: high, Below: high - (c.wax-burned)/c.perMM,
			Wall: thickness[c.vessel.Material], Material: sketch.Material(c.vessel.Material),
		},
	}
	for i := range c.record.Wicks {
		x := (float64(i) - float64(c.record.Wicks-1)/2) * apart
		s.Wicks = append(s.Wicks, sketch.Wick{New: true, X: x, Height: uncut, Thick: 1.6 + 0.12*float64(c.rung)})
	}
	return s
}

// scene is the burning candle as a check describes it.
func (f *flame) scene(c journal.Check, rng *rand.Rand) sketch.Scene {
	s := f.candle.still(f.rate*c.At.Sub(f.burn.LitAt).Hours(), f.burn.Place)
	s.Vessel.Clinging = seen(clinging, journal.WallWaxScale, c.WallWax)
	s.Vessel.Soot = seen(sooted, journal.SootScale, c.Soot)
	s.Pool = f.candle.poolOf(c, rng)
	for i := range s.Wicks {
		w := &s.Wicks[i]
		w.New, w.Height, w.Cap = false, float64(*f.burn.Trim), seen(caps, journal.MushroomScale, c.Mushroom)
		if c.Flame != nil {
			w.Flame = float64(*c.Flame)
		}
	}
	return s
}

// seen is what a grade looks like.
func seen(looks []float64, scale []journal.GradeWord, g journal.Grade) float64 {
	rank, noted := journal.Rank(scale, g)
	if !noted {
		return 0
	}
	return looks[rank]
}

// poolOf is the pool of a check: the widths that were read, the whole vessel
// when it was full. A width that was not read is in the proportion of the
// other.
func (c *lifeline) poolOf(check journal.Check, rng *rand.Rand) sketch.Pool {
	long, wide := float64(c.vessel.Length()), float64(c.vessel.InnerWidth)
	a, b := check.WidthA, check.WidthB
	switch {
	case check.Full:
		return sketch.Pool{Along: long, Across: wide}
	case a == nil && b == nil:
		return sketch.Pool{}
	case a == nil:
		a = p(*b * quantity.Millimetres(long/wide))
	case b == nil:
		b = p(*a * quantity.Millimetres(wide/long))
	}
	off := func(free float64) float64 { return min(offCentre, free/4) * (2*rng.Float64() - 1) }
	return sketch.Pool{
		X: off(long - float64(*a)), Y: off(wide - float64(*b)), Along: float64(*a), Across: float64(*b),
	}
}
