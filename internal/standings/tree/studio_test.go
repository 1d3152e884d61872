package tree_test

import (
	"math"
	"math/rand/v2"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// world is the rules of a virtual studio: one rate of opening for its wax, a
// ladder, and what tells candles, burns and readings apart. Log widths and log
// rates are natural logarithms.
type world struct {
	curve          float64 // exponent
	rate           float64 // h⁻¹, and its spreads
	studioSD       float64
	pairSD, burnSD float64
	candle, burn   [2]float64 // ranges of the standard deviations of the log width
	slope, slopeSD float64    // log width for each rung
	irregular      float64
	candles, burns [2]int  // of each pairing, of each candle
	once           bool    // one check for each burn, at the target hour
	looks          int     // checks of a burn at least
	readSD         float64 // mm
	vessels        int
}

// standard is the world that the method's own table calls so.
func standard() world {
	return world{
		curve: 1, rate: 0.9, studioSD: 0.25, pairSD: 0.10, burnSD: 0.08,
		candle: [2]float64{0.04, 0.08}, burn: [2]float64{0.02, 0.05}, slope: 0.07, slopeSD: 0.015, irregular: 0.03,
		candles: [2]int{1, 3}, burns: [2]int{2, 8}, readSD: 1, looks: 3, vessels: 3,
	}
}

// truth is what the readings do not show.
type truth struct {
	theta, rate  float64 // of each pairing: log width at the target hour, and its rate
	candle, burn float64
	curve        float64
}

// studio is one virtual studio: the series that it kept, and the truth of each
// tested rung.
type studio struct {
	series []tree.Series
	truths []map[int]truth
}

// draw makes a studio by the rules of a world.
func (w world) draw(rng *rand.Rand) studio {
	rate := w.rate * math.Exp(w.studioSD*rng.NormFloat64())
	between := func(r [2]float64) float64 { return r[0] + (r[1]-r[0])*rng.Float64() }
	candle, burn := between(w.candle), between(w.burn)
	var s studio
	for range w.vessels {
		v, t := w.vessel(rng, rate, candle, burn)
		s.series, s.truths = append(s.series, v), append(s.truths, t)
	}
	return s
}

// vessel is one ladder of eight rungs in one vessel, three to six of them
// tested, around the one that fits.
func (w world) vessel(rng *rand.Rand, rate, candle, burn float64) (tree.Series, map[int]truth) {
	d := 60 + 40*rng.Float64()
	s := tree.Series{Wall: meltpool.Wall{Width: quantity.Millimetres(d), Target: quantity.Hours(min(d/25.4, 4))}, Ruler: 1}
	slope, best := w.slope+w.slopeSD*rng.NormFloat64(), 2+4*rng.Float64()
	ideal := idealWidth(w.curve, rate, float64(s.Wall.Target))
	n := 3 + rng.IntN(4)
	first := min(max(int(math.Round(best))-n/2, 0), 8-n)
	truths := map[int]truth{}
	for rung := first; rung < first+n; rung++ {
		t := truth{
			theta: ideal + slope*(float64(rung)-best) + w.irregular*rng.NormFloat64(),
			rate:  rate * math.Exp(w.pairSD*rng.NormFloat64()), candle: candle, burn: burn, curve: w.curve,
		}
		truths[rung] = t
		s.Pairings = append(s.Pairings, w.pairing(rng, s.Wall, rung, t))
	}
	return s, truths
}

// idealWidth is that of the rung that fits: a quarter of the way from just full
// at the hour to just full at half of it. The method does not say where it
// lies; so the stated chances come out about as in its table.
func idealWidth(curve, rate, target float64) float64 {
	c := meltpool.Curve(curve)
	return c.Ahead(math.Log(rate), quantity.Hours(target), quantity.Hours(target/2)) / 4
}

func (w world) pairing(rng *rand.Rand, wall meltpool.Wall, rung int, t truth) tree.Pairing {
	p := tree.Pairing{Rung: rung}
	for range w.candles[0] + rng.IntN(w.candles[1]-w.candles[0]+1) {
		theta := t.theta + t.candle*rng.NormFloat64()
		var c []tree.Burn
		for range w.burns[0] + rng.IntN(w.burns[1]-w.burns[0]+1) {
			c = append(c, w.read(rng, wall, t, theta+t.burn*rng.NormFloat64()))
		}
		p.Candles = append(p.Candles, c)
	}
	return p
}

// read is one burn looked at every hour, give or take five minutes, to the
// target hour rounded up and at least three times. What the ruler shows ends
// at the wall; within half a millimetre of it the pool is called full.
func (w world) read(rng *rand.Rand, wall meltpool.Wall, t truth, theta float64) tree.Burn {
	c, d := meltpool.Curve(t.curve), float64(wall.Width)
	k := math.Log(t.rate) + w.burnSD*rng.NormFloat64()
	var b tree.Burn
	for _, hour := range w.hours(wall.Target) {
		at := hour + quantity.Hours(rng.NormFloat64()/12)
		pool := d * math.Exp(theta+c.Ahead(k, at, wall.Target))
		mm := max(math.Round(pool+w.readSD*rng.NormFloat64()), 0)
		if mm >= d-0.5 {
			b = append(b, meltpool.Reading{Hour: at, Full: true})
		} else {
			b = append(b, meltpool.Reading{Hour: at, Ratio: mm / d})
		}
	}
	return b
}

// hours are when a burn is looked at.
func (w world) hours(target quantity.Hours) []quantity.Hours {
	if w.once {
		return []quantity.Hours{target}
	}
	var out []quantity.Hours
	for i := range max(w.looks, int(math.Ceil(float64(target)))) {
		out = append(out, quantity.Hours(i+1))
	}
	return out
}

// journal is a studio with so many series of about seven candles, each burned
// six to eight times with four checks: 400 of them are ten years of a small
// studio's work.
func journal(seed uint64, series int) []tree.Series {
	rng := rand.New(rand.NewPCG(seed, 400))
	w := standard()
	w.candles, w.burns, w.looks, w.vessels = [2]int{1, 2}, [2]int{6, 8}, 4, series
	s := w.draw(rng).series
	return s
}

func newRand(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 1)) }
