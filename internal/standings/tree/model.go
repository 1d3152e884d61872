package tree

import (
	"math"
	"sync"

	"rimward/internal/grid"
)

// model is a prior made ready for reckoning.
type model struct {
	Prior
	burn, candle, irregular []grid.Kernel
	toBurn, toPairing       *grid.Transition
	level                   *grid.Line
	rate                    [grid.Rates]float64
	pairRate                [grid.Rates]float64 // of a pairing, whatever its series
	spreads                 []spread
	cells                   []cell
	paper                   sync.Pool // of workers
}

// spread is one way of the burns and the candles to vary.
type spread struct {
	burn, candle int
	tau          float64 // standard deviation of a burn of a next candle
	next         grid.Kernel
}

// cell is one choice of everything that the whole journal shares, but for the
// curve's shape.
type cell struct {
	spread, slope, irregular int
	rungStep                 int // steps of the grid for each rung
	log                      float64
}

func newModel(p Prior) *model {
	m := &model{
		Prior: p, burn: kernels(p.Burn), candle: kernels(p.Candle), irregular: kernels(p.Irregular),
		toBurn: grid.NewTransition(p.RateBurn), toPairing: grid.NewTransition(p.RatePairing),
		level: grid.Normal(p.Level), rate: grid.RatePrior(p.RateSeries),
	}
	m.pairRate = m.toPairing.Through(m.rate)
	for b := range p.Burn {
		for c := range p.Candle {
			tau := math.Hypot(p.Burn[b].Value, p.Candle[c].Value)
			m.spreads = append(m.spreads, spread{b, c, tau, grid.NewKernel(tau)})
		}
	}
	for s, x := range m.spreads {
		for i, slope := range p.Slope {
			for k, irr := range p.Irregular {
				w := p.Burn[x.burn].Weight * p.Candle[x.candle].Weight * slope.Weight * irr.Weight
				m.cells = append(m.cells, cell{s, i, k, int(math.Round(slope.Value / grid.WidthStep)), math.Log(w)})
			}
		}
	}
	return m
}

func kernels(ws []Weighted) []grid.Kernel {
	var out []grid.Kernel
	for _, w := range ws {
		out = append(out, grid.NewKernel(w.Value))
	}
	return out
}
