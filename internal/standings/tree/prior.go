package tree

import "rimward/internal/quantity"

// Weighted is one value that is thought possible, and how likely.
type Weighted struct{ Value, Weight float64 }

// Prior is what is believed before the first burn. The defaults are choices
// of ours, tried on simulated studios; they are not measured facts about
// candles.
type Prior struct {
	Shapes    []Weighted // exponents of the growth curve
	Burn      []Weighted // standard deviation from burn to burn, log width
	Candle    []Weighted // standard deviation from candle to candle, log width
	Slope     []Weighted // log width for each rung; whole hundredths
	Irregular []Weighted // standard deviation of rungs about the ladder's line, log width

	Error quantity.Millimetres // standard deviation of a reading
	Slip  float64              // chance that a reading says nothing

	Level float64 // standard deviation of a ladder's middle about the wall, log width
	Rate  float64 // usual opening rate, h⁻¹
	// Standard deviations of the logarithm of the rate: of series about the
	// usual one, of pairings about their series, of burns about their pairing.
	RateSeries, RatePairing, RateBurn float64
}

// Default is the prior that the program starts with.
func Default() Prior {
	return Prior{
		Shapes:    []Weighted{{0.7, 0.20}, {0.85, 0.30}, {1, 0.35}, {1.2, 0.15}},
		Burn:      []Weighted{{0.025, 0.25}, {0.04, 0.45}, {0.065, 0.30}},
		Candle:    []Weighted{{0.045, 0.25}, {0.065, 0.45}, {0.10, 0.30}},
		Slope:     []Weighted{{0.02, 0.10}, {0.05, 0.25}, {0.07, 0.30}, {0.09, 0.25}, {0.12, 0.10}},
		Irregular: []Weighted{{0.025, 0.45}, {0.06, 0.35}, {0.12, 0.20}},
		Error:     1.5, Slip: 0.01,
		Level: 0.4, Rate: 0.9, RateSeries: 0.5, RatePairing: 0.12, RateBurn: 0.10,
	}
}
