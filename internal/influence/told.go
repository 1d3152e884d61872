package influence

import (
	"math"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/stats"
)

const (
	// LeastPours is how many pours must speak for a factor that belongs to pours,
	// and leastPourDF how many degrees of freedom they must leave: with fewer an
	// adjusted standard error may still be far too small (chosen by us, after
	// Pustejovsky & Tipton, J. Bus. Econ. Stat. 36:672-683, 2018; from memory).
	LeastPours  = 5
	leastPourDF = 2.0
	// widest is how wide, in log width for one step of a factor, an interval may
	// be that leaves the direction open; a wider one says nothing (chosen by us).
	widest = 0.2
)

// tell says of a factor what its coefficient says, if that is anything.
func (x *inquiry) tell(f Factor, c stats.Coefficient) {
	e, inside := x.inside(f)
	if !inside {
		e = Effect{Factor: f}.with(c)
		e.count(x.cs)
	}
	switch {
	case !inside && (e.Batches < LeastPours || e.DF < leastPourDF):
		x.Untold = append(x.Untold, Untold{Factor: f, Why: TooFewPours, Lacks: max(LeastPours-e.Batches, 1), Pours: e.Batches, Noted: x.Candles, Of: x.Candles})
	case !e.Told() && (e.High-e.Low)*f.Step() > widest:
		x.Untold = append(x.Untold, Untold{Factor: f, Why: TooAlike, Effect: e, Noted: x.Candles, Of: x.Candles})
	default:
		x.Effects = append(x.Effects, e)
	}
}

// with takes over a coefficient.
func (e Effect) with(c stats.Coefficient) Effect {
	e.Estimate, e.Low, e.High, e.DF = c.Estimate, c.Low, c.High, c.DF
	return e
}

// count says where the factor varied.
func (e *Effect) count(cs []Candle) {
	values, pours := map[Stratum][]float64{}, map[Stratum][]journal.ID{}
	for _, c := range cs {
		values[c.Stratum] = append(values[c.Stratum], c.Values[e.Factor])
		pours[c.Stratum] = append(pours[c.Stratum], c.Pour)
	}
	e.From, e.To = math.Inf(1), math.Inf(-1)
	batches := map[journal.ID]bool{}
	for s, vs := range values {
		if slices.Min(vs) == slices.Max(vs) {
			continue
		}
		e.Pairings, e.Candles = e.Pairings+1, e.Candles+len(vs)
		e.From, e.To = min(e.From, slices.Min(vs)), max(e.To, slices.Max(vs))
		for _, p := range pours[s] {
			batches[p] = true
		}
	}
	e.Batches = len(batches)
}
