package tree

import (
	"math"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// Points are three points of what is believed about a quantity: one chance in
// ten below the first, half below the second, one in ten above the third.
type Points struct{ P10, P50, P90 float64 }

// Figures is what the readings say of one rung.
type Figures struct {
	Rung   int
	Tested bool
	// Theta is the mean of the log width at the target hour over the wall, and
	// its standard deviation.
	Theta, ThetaSD float64
	Width          Points // mm at the target hour if no wall stopped the pool, pairing average
	Next           Points // the same for a burn of a next candle
	Full           Points // hours to a full pool, next candle; +Inf where it may never be
	Never          float64
	FullByTarget   float64
	FullBeforeHalf float64
	OnTarget       float64 // chance of a full pool by the target hour and not before half of it
	Short, Soon    float64 // how far outside, in log width: short of the wall, full too soon
	Closest        float64 // chance of being the closest of its series; 0 when not tested
}

// Miss is how far, in log width, the next candle's pool is expected to lie
// outside the band from just full at the target hour to just full at half of
// it. Pairings stand in its order.
func (f Figures) Miss() float64 { return f.Short + f.Soon }

// sums gathers a rung's beliefs over spreads and shapes.
type sums struct {
	f     Figures
	width grid.Line // pairing average
	next  grid.Line // a burn of a next candle
	// byRate is next apart for each shape and rate.
	byRate map[int]*joint
}

// figuresOf turns the beliefs about a rung into figures.
func (w *worker) figuresOf(s Series, rung int, beliefs []belief) Figures {
	t := sums{byRate: map[int]*joint{}}
	t.f.Rung, t.f.Tested = s.Pairings[rung].Rung, s.Pairings[rung].Tested()
	for _, b := range beliefs {
		t.add(&b.rungs[rung], w.aheadOf(s.Wall.Target, b.shape, b.spread), b.shape, w.spreads[b.spread].next)
	}
	return t.figures(w, s)
}

// add gathers what one shape and one spread believe.
func (t *sums) add(j *joint, a *ahead, shape int, next grid.Kernel) {
	by := t.byRate[shape]
	if by == nil {
		by = &joint{}
		t.byRate[shape] = by
	}
	for r := range j {
		lo, hi := j[r].Span()
		if lo == hi || j[r].Max() < leastWeight {
			continue
		}
		t.width.AddScaled(1, &j[r])
		next.Carry(&by[r], &j[r], lo, hi)
		t.f.FullByTarget += j[r].Dot(&a.full[r])
		t.f.FullBeforeHalf += j[r].Dot(&a.early[r])
		t.f.Short += j[r].Dot(&a.short[r])
		t.f.Soon += j[r].Dot(&a.soon[r])
	}
}

// leastWeight is the chance of a point of the grid below which its rate adds
// nothing that could be seen.
const leastWeight = 1e-12

func (t *sums) figures(w *worker, s Series) Figures {
	f, d := t.f, float64(s.Wall.Width)
	f.OnTarget = f.FullByTarget - f.FullBeforeHalf
	f.Theta, f.ThetaSD = t.width.Moments()
	for _, by := range t.byRate {
		t.next.AddScaled(1, by.width())
	}
	f.Width, f.Next = points(&t.width, d), points(&t.next, d)
	h := w.hours(t.byRate, s.Wall.Target)
	f.Never = h.never
	f.Full = Points{h.by(0.1), h.by(0.5), h.by(0.9)}
	return f
}

// points reads three quantiles of a width, each at the upper edge of its step.
func points(l *grid.Line, d float64) Points {
	at := func(q float64) float64 { return d * math.Exp(l.Quantile(q)) }
	return Points{at(0.1), at(0.5), at(0.9)}
}

// hours is what is believed about the time to a full pool.
type hours struct {
	rows  []hoursRow
	never float64
}

// hoursRow is the part of it under one shape and rate.
type hoursRow struct {
	curve  meltpool.Curve
	rate   float64 // logarithm
	target quantity.Hours
	above  grid.Line // chance of a log width above each point of the grid
}

// hours gathers the rows with weight.
func (w *worker) hours(byRate map[int]*joint, target quantity.Hours) hours {
	var h hours
	total := 0.0
	for shape := range w.Shapes {
		by := byRate[shape]
		if by == nil {
			continue
		}
		for r := range by {
			sum := by[r].Sum()
			total += sum
			if sum < leastRow {
				continue
			}
			row := hoursRow{meltpool.Curve(w.Shapes[shape].Value), grid.LogRate(r, w.Rate), target, by[r].Above()}
			h.rows = append(h.rows, row)
			h.never += sum - row.by(math.Inf(1))
		}
	}
	for i := range h.rows {
		h.rows[i].above.Scale(1 / total)
	}
	h.never = min(max(h.never/total, 0), 1)
	return h
}

// leastRow is the chance of a rate below which it is left out of the hours.
const leastRow = 1e-7

// by is the chance that the pool is full by some hour: that the width at the
// target hour is large enough for the wall to be met by then.
func (r *hoursRow) by(t float64) float64 {
	opened := 1.0
	if !math.IsInf(t, 1) {
		opened = r.curve.Opened(r.rate, quantity.Hours(t))
	}
	return r.above.At(math.Log(r.curve.Opened(r.rate, r.target) / opened))
}

// by is the hour by which the pool is full with a chance; +Inf where it may
// never be.
func (h hours) by(chance float64) float64 {
	if chance > 1-h.never {
		return math.Inf(1)
	}
	reached := func(t float64) bool {
		sum := 0.0
		for i := range h.rows {
			sum += h.rows[i].by(t)
		}
		return sum >= chance
	}
	lo, hi := 0.0, 1.0
	for ; !reached(hi); hi *= 2 {
		if lo = hi; hi > longest {
			return math.Inf(1)
		}
	}
	for hi-lo > exactHours {
		if mid := (lo + hi) / 2; reached(mid) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// Hours are found to a few seconds; a pool that takes longer than longest is
// as good as never full.
const (
	exactHours = 1e-3
	longest    = 200.0
)
