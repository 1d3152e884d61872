package plan

import (
	"math"

	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// Spreads are how far candles, burns and readings usually lie apart: standard
// deviations in log width, so that 0.05 is about 5 % of the width.
type Spreads struct {
	Candle    float64 // from candle to candle of one pairing
	Burn      float64 // from burn to burn of one candle
	Melt      float64 // from melt to melt; 0: not known, and taken as nothing
	Slope     float64 // how much wider the pool is one rung up
	SlopeSD   float64 // how much that differs from ladder to ladder
	Irregular float64 // of rungs about an even ladder
	Level     float64 // of a new ladder's middle about a pool that is just full

	Rate                  float64 // usual opening rate, h⁻¹
	RatePairing, RateBurn float64 // standard deviations of its logarithm
	Reading               quantity.Millimetres

	// Own: the studio's burns have moved these from what the program starts
	// with. Those are choices of ours, tried on simulated studios.
	Own bool

	beliefs tree.Prior // that they are the usual values of
}

// SpreadsOf are the usual values of a list of beliefs: the root of the mean
// square of each spread, and the mean of the slope. own says that the beliefs
// were moved by burns.
func SpreadsOf(p tree.Prior, own bool) Spreads {
	slope, square := mean(p.Slope), 0.0
	for _, w := range p.Slope {
		square += w.Weight * (w.Value - slope) * (w.Value - slope)
	}
	return Spreads{
		Candle: rootMeanSquare(p.Candle), Burn: rootMeanSquare(p.Burn), Irregular: rootMeanSquare(p.Irregular),
		Slope: slope, SlopeSD: math.Sqrt(square), Level: p.Level,
		Rate: p.Rate, RatePairing: p.RatePairing, RateBurn: p.RateBurn, Reading: p.Error, Own: own, beliefs: p,
	}
}

func mean(ws []tree.Weighted) (out float64) {
	for _, w := range ws {
		out += w.Weight * w.Value
	}
	return out
}

func rootMeanSquare(ws []tree.Weighted) float64 {
	sum := 0.0
	for _, w := range ws {
		sum += w.Weight * w.Value * w.Value
	}
	return math.Sqrt(sum)
}

// candleSD is the standard deviation of the mean log width of one candle's
// burns, each read once in a vessel of a width.
func (s Spreads) candleSD(burns int, width quantity.Millimetres) float64 {
	read := float64(s.Reading / width)
	return math.Sqrt(s.Candle*s.Candle + (s.Burn*s.Burn+read*read)/float64(burns))
}
