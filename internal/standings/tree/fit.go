package tree

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/distuv"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// BurnFit is one burn beside the curve that fits it best, given everything
// else that is known of its pairing.
type BurnFit struct {
	Theta   float64 // mean log width at the target hour over the wall
	LogRate float64 // mean logarithm of its rate, h⁻¹
	Checks  []CheckFit
}

// CheckFit is one reading beside the fitted curve.
type CheckFit struct {
	Width    quantity.Millimetres // of the fitted pool at that hour, if no wall stopped it
	Residual float64              // in standard deviations; NaN for a full reading
	Slip     bool                 // hardly possible if the curve is right
}

// slipBelow is how unlikely a reading must be, at the fitted curve, to be
// called a slip.
const slipBelow = 1e-4

// fit finds the curves of a rung's burns under one shape, from what is
// believed of a burn of its next candle and from their own readings.
func (w *worker) fit(s Series, rung int, o outcome) [][]BurnFit {
	prior := w.burnPrior(&o.rungs[rung].next)
	var out [][]BurnFit
	for _, c := range s.Pairings[rung].Candles {
		var fits []BurnFit
		for _, b := range c {
			w.likelihood(s, b, o.shape)
			fits = append(fits, w.fitBurn(s, b, prior, meltpool.Curve(w.Shapes[o.shape].Value)))
		}
		out = append(out, fits)
	}
	return out
}

// burnPrior is what is believed of a burn by its own rate, when it is given by
// its pairing's.
func (w *worker) burnPrior(next *joint) *joint {
	out := &joint{}
	for p := range next {
		if next[p].Max() < leastWeight {
			continue
		}
		lo, hi := next[p].Span()
		for b := range out {
			if t := w.toBurn.At(p, b); t > 0 {
				floats.AddScaled(out[b][lo:hi], t, next[p][lo:hi])
			}
		}
	}
	return out
}

// fitBurn weighs the prior by the burn's readings, which are in w.raw.
func (w *worker) fitBurn(s Series, b Burn, prior *joint, c meltpool.Curve) BurnFit {
	var sum, theta, rate float64
	for r := range prior {
		for i, l := range w.raw.Row(r) {
			v := prior[r][i] * l
			sum, theta, rate = sum+v, theta+v*grid.Width(i), rate+v*grid.LogRate(r, w.Rate)
		}
	}
	if !(sum > 0) {
		return BurnFit{Theta: math.NaN(), LogRate: math.NaN()}
	}
	f := BurnFit{Theta: theta / sum, LogRate: rate / sum}
	for _, r := range b {
		f.Checks = append(f.Checks, w.fitCheck(s, r, math.Exp(f.Theta+c.Ahead(f.LogRate, r.Hour, s.Wall.Target))))
	}
	return f
}

// fitCheck compares one reading with the fitted pool, given as a share of the
// wall. A reading that was not full is compared with what it would be on
// average if it is known not to be full.
func (w *worker) fitCheck(s Series, r meltpool.Reading, share float64) CheckFit {
	d, step := float64(s.Wall.Width), float64(s.Ruler)
	f := CheckFit{Width: quantity.Millimetres(share * d), Residual: math.NaN()}
	f.Slip = w.tablesOf(s).Fits(r, share) < slipBelow
	if r.Full {
		return f
	}
	sd := math.Hypot(float64(w.Error), step/math.Sqrt(12))
	mean, spread := below((d - step/2 - share*d) / sd)
	f.Residual = ((r.Ratio-share)*d/sd - mean) / spread
	return f
}

// below is the mean and the standard deviation of a standard normal value that
// is known to lie below a limit (Johnson, Kotz & Balakrishnan, Continuous
// Univariate Distributions 1, from memory).
func below(limit float64) (mean, sd float64) {
	share := distuv.UnitNormal.CDF(limit)
	if share < 1e-12 {
		return limit, 1
	}
	mean = -density(limit) / share
	return mean, math.Sqrt(math.Max(1+limit*mean-mean*mean, 1e-6))
}

// Band is the width at some hours after lighting that a burn of a next candle
// would have if no wall stopped it: three points for each hour, in mm.
func (f Figures) Band(hs []quantity.Hours) []Points {
	var out []Points
	for _, h := range hs {
		out = append(out, Points{f.wide(h, 0.1), f.wide(h, 0.5), f.wide(h, 0.9)})
	}
	return out
}

// wide is the width at an hour that is not reached with a chance.
func (f Figures) wide(h quantity.Hours, chance float64) float64 {
	if h <= 0 || len(f.next.rows) == 0 {
		return 0
	}
	lo, hi := narrowest, -narrowest
	for hi-lo > exactWidth {
		mid, above := (lo+hi)/2, 0.0
		for i := range f.next.rows {
			r := &f.next.rows[i]
			above += r.above.At(mid - r.curve.Ahead(r.rate, h, r.target))
		}
		if above > 1-chance {
			lo = mid
		} else {
			hi = mid
		}
	}
	return float64(f.wall) * math.Exp((lo+hi)/2)
}

// The log widths between which a width is looked for, and how exactly.
const (
	narrowest  = -8.0
	exactWidth = 1e-3
)
