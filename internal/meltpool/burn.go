package meltpool

import (
	"math"

	"rimward/internal/grid"
	"rimward/internal/quantity"
)

// Curve is how a pool opens with time: the exponent of the growth curve. Below
// 1 it starts quickly and then creeps, above 1 it starts slowly.
type Curve float64

// Opened is how far a pool has opened after some hours, as a share of its own
// limit: 1 - exp(-(k t)^c), the Weibull growth curve, with its rate k in h⁻¹
// given as a logarithm.
func (c Curve) Opened(logRate float64, t quantity.Hours) float64 {
	if t <= 0 {
		return 0
	}
	return -math.Expm1(-math.Exp(float64(c) * (logRate + math.Log(float64(t)))))
}

// Ahead is the natural logarithm of how much wider a pool is after t than
// after the other time, if no wall stops it.
func (c Curve) Ahead(logRate float64, t, other quantity.Hours) float64 {
	return math.Log(c.Opened(logRate, t) / c.Opened(logRate, other))
}

// Eye is how widths are read.
type Eye struct {
	Ruler quantity.Millimetres // the ruler's step
	Error quantity.Millimetres // standard deviation of ruler and eye together
	Slip  float64              // chance that a reading says nothing of the pool
}

// Wall is what a pool is to meet, and when.
type Wall struct {
	Width  quantity.Millimetres // inner width
	Target quantity.Hours
}

// Burn finds how likely the readings of one burn are for every opening rate of
// a grid around the centre, in h⁻¹, and every log width at the target hour
// over the wall's. The order of the readings does not matter beyond rounding.
func (t *Tables) Burn(into *grid.Sheet, rs []Reading, c Curve, centre float64) {
	into.Open()
	rates := t.ratesOf(c, centre)
	for n, r := range rs {
		tab := t.of(r)
		for j := range rates {
			tab.times(into.Row(j), math.Log(c.Opened(rates[j].log, r.Hour))-rates[j].target)
		}
		if n%tooMany == tooMany-1 {
			into.Reopen()
		}
	}
	into.Trim()
}

// tooMany readings multiplied without scaling would run out of exponents.
const tooMany = 40

// rate is one rate of the grid: its logarithm, and that of how far a pool has
// opened at the target hour.
type rate struct{ log, target float64 }

// ratesOf are the rates of the grid under a curve, worked out again when that
// changes.
func (t *Tables) ratesOf(c Curve, centre float64) *[grid.Rates]rate {
	if t.curve != c || t.centre != centre {
		t.curve, t.centre = c, centre
		for j := range t.rates {
			k := grid.LogRate(j, centre)
			t.rates[j] = rate{k, math.Log(c.Opened(k, t.wall.Target))}
		}
	}
	return &t.rates
}
