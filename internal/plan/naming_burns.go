package plan

import (
	"math"
	"slices"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// fitting is the truth of one wick in a simulated round.
type fitting struct {
	theta, rate float64 // log width at the target hour over the wall; logarithm of the rate
	miss        float64
}

// setSpreads draws how far candles, burns and rungs lie apart in a round; they
// stay at their usual values where no beliefs are known.
func (w *world) setSpreads() {
	b := w.beliefs
	w.Candle, w.Burn = w.oneOf(b.Candle, w.Candle), w.oneOf(b.Burn, w.Burn)
	w.Irregular = w.oneOf(b.Irregular, w.Irregular)
	w.tau = math.Hypot(w.Candle, w.Burn)
}

// oneOf draws a value by its weight.
func (w *world) oneOf(ws []tree.Weighted, usual float64) float64 {
	left := w.rng.Float64()
	for _, v := range ws {
		if left -= v.Weight; left < 0 {
			return v.Value
		}
	}
	return usual
}

// truth draws what is true of every wick.
func (w *world) truth() []fitting {
	w.setSpreads()
	out := make([]fitting, len(w.Rungs))
	for _, l := range w.ladders {
		low, high := w.ends(l)
		slope := w.Slope + w.SlopeSD*w.rng.NormFloat64()
		fits := low - 0.5 + (high-low+1)*w.rng.Float64()
		for _, i := range l {
			t := &out[i]
			t.theta = w.start + slope*(float64(w.Rungs[i].Rung)-fits) + w.Irregular*w.rng.NormFloat64()
			t.rate = w.rate + w.RatePairing*w.rng.NormFloat64()
			t.miss = missOf(t.theta, w.tau, w.band(t.rate))
		}
	}
	return out
}

// ends are the lowest and the highest tested rung of a ladder.
func (w *world) ends(ladder []int) (low, high float64) {
	rung := func(i int) float64 { return float64(w.Rungs[i].Rung) }
	low, high = rung(ladder[0]), rung(ladder[0])
	for _, i := range ladder {
		low, high = min(low, rung(i)), max(high, rung(i))
	}
	return low, high
}

// look is one hourly look at a pool.
type look struct {
	hour  quantity.Hours
	ahead float64 // log width then over that at the target hour, at the usual rate
	turns float64 // how much that changes with the logarithm of the rate
}

// nearRate is the step that slopes along the rate are taken over.
const nearRate = 1e-4

// looksOf are the looks of a burn, from the last to the first: every hour to
// the target hour rounded up.
func looksOf(wall meltpool.Wall, rate float64) []look {
	var out []look
	for h := 1; h <= int(math.Ceil(float64(wall.Target))); h++ {
		at := quantity.Hours(h)
		turns := (usualCurve.Ahead(rate+nearRate, at, wall.Target) - usualCurve.Ahead(rate-nearRate, at, wall.Target)) / (2 * nearRate)
		out = append(out, look{at, usualCurve.Ahead(rate, at, wall.Target), turns})
	}
	slices.Reverse(out)
	return out
}

// burnAll burns every candle of every wick: what each candle says of its wick.
func (w *world) burnAll(truth []fitting, candles int) [][]pair {
	out := make([][]pair, len(truth))
	for i, t := range truth {
		for range candles {
			theta := t.theta + w.Candle*w.rng.NormFloat64()
			var candle pair
			for range w.Burns {
				b := w.read(theta+w.Burn*w.rng.NormFloat64(), t.rate+w.RateBurn*w.rng.NormFloat64())
				candle = candle.and(b.blur(w.Burn*w.Burn, w.RateBurn*w.RateBurn))
			}
			out[i] = append(out[i], candle.blur(w.Candle*w.Candle, 0))
		}
	}
	return out
}

// A pool that is full at the first look says only that it is at least so wide.
// It is taken to be a little wider, give or take a lot (chosen by us).
const (
	wider      = 0.10
	giveOrTake = 0.20
)

// read is what one burn says: every width below the wall, carried to the target
// hour at the usual rate and beside it.
func (w *world) read(theta, rate float64) pair {
	d := float64(w.Wall.Width)
	limit := d * math.Exp(theta) / usualCurve.Opened(rate, w.Wall.Target)
	var out pair
	for _, l := range w.looks {
		width := limit*usualCurve.Opened(rate, l.hour) + float64(w.Reading)*w.rng.NormFloat64()
		if width < d-ruleOfWall && width > 0 {
			ruler := float64(w.Reading) / width
			out.see(math.Log(width/d)-l.ahead, l.turns, ruler*ruler)
		}
	}
	if out == (pair{}) {
		first := w.looks[len(w.looks)-1]
		out.see(wider-first.ahead, first.turns, giveOrTake*giveOrTake)
	}
	return out
}
