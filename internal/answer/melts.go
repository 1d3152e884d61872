package answer

import (
	"math"
	"slices"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// melt is one pour: its mean log width with vessels and wicks taken out, and
// its planned levels.
type melt struct {
	pour   journal.ID
	width  float64
	levels map[Factor]float64
}

// meltsOf works the melts out by least squares, each candle being its melt and
// its pairing: where every melt has the same pairings, a melt's width is the
// plain mean of its candles. Melts that share no pairing with the others say
// nothing, and are left out.
func meltsOf(cs []candle) []melt {
	cs = connected(cs)
	widths, pairings := map[journal.ID]float64{}, map[influence.Stratum]float64{}
	for range sweeps {
		averages(cs, widths, func(c candle) journal.ID { return c.Pour }, func(c candle) float64 { return pairings[c.Stratum] })
		averages(cs, pairings, func(c candle) influence.Stratum { return c.Stratum }, func(c candle) float64 { return widths[c.Pour] })
	}
	var out []melt
	for _, c := range cs {
		if !slices.ContainsFunc(out, func(m melt) bool { return m.pour == c.Pour }) {
			m := melt{c.Pour, widths[c.Pour], map[Factor]float64{}}
			for _, f := range []Factor{Load, PourAt} {
				m.levels[f], _ = f.of(c.place.Place)
			}
			out = append(out, m)
		}
	}
	return out
}

// sweeps is how often melts and pairings are averaged in turn, which comes to
// least squares; plans are balanced or nearly so and need a handful.
const sweeps = 200

// averages sets each key to the mean of its candles' widths less something.
func averages[K comparable](cs []candle, into map[K]float64, key func(candle) K, less func(candle) float64) {
	sum, n := map[K]float64{}, map[K]float64{}
	for _, c := range cs {
		k := key(c)
		sum[k], n[k] = sum[k]+middle(c)-less(c), n[k]+1
	}
	for k := range sum {
		into[k] = sum[k] / n[k]
	}
}

func middle(c candle) float64 { return (c.Width.Low + c.Width.High) / 2 }

// connected keeps the largest set of candles that melts and pairings join.
func connected(cs []candle) []candle {
	part := make([]int, len(cs))
	for i := range part {
		part[i] = i
	}
	for changed := true; changed; {
		changed = false
		for i, a := range cs {
			for k, b := range cs {
				if part[k] > part[i] && (a.Pour == b.Pour || a.Stratum == b.Stratum) {
					part[k], changed = part[i], true
				}
			}
		}
	}
	size := map[int]int{}
	best := 0
	for _, p := range part {
		if size[p]++; size[p] > size[best] || size[p] == size[best] && p < best {
			best = p
		}
	}
	var out []candle
	for i, c := range cs {
		if part[i] == best {
			out = append(out, c)
		}
	}
	return out
}

// typical is the middle width of the candles' pools.
func typical(cs []candle) quantity.Millimetres {
	if len(cs) == 0 {
		return 0
	}
	sum := 0.0
	for _, c := range cs {
		sum += math.Log(float64(c.Wall)) + middle(c)
	}
	return quantity.Millimetres(math.Exp(sum / float64(len(cs))))
}

// at counts the melts of a level.
func at(melts []melt, f Factor, level float64) int {
	n := 0
	for _, m := range melts {
		if m.levels[f] == level {
			n++
		}
	}
	return n
}

func meanAt(melts []melt, f Factor, level float64) float64 {
	sum, n := 0.0, 0.0
	for _, m := range melts {
		if m.levels[f] == level {
			sum, n = sum+m.width, n+1
		}
	}
	return sum / n
}
