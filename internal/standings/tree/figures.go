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
	MissSD         float64 // standard deviation of what is believed of the miss, which is Short and Soon together
	Closest        float64 // chance of being the closest of its series; 0 when not tested

	wall quantity.Millimetres
	next hours
}

// Miss is how far, in log width, the next candle's pool is expected to lie
// outside the band from just full at the target hour to just full at half of
// it. Pairings stand in its order.
func (f Figures) Miss() float64 { return f.Short + f.Soon }

// sums gathers what is believed of a rung, over spreads, under one shape.
type sums struct {
	full, early, short, soon, square float64

	width grid.Line // pairing average
	next  joint     // a burn of a next candle, by rate
}

// add gathers what one spread believes.
func (t *sums) add(j *joint, a *ahead, next grid.Kernel) {
	for r := range j {
		if j[r].Max() < leastWeight {
			continue
		}
		t.width.AddScaled(1, &j[r])
		next.Carry(&t.next[r], &j[r])
		t.full += j[r].Dot(&a.full)
		t.short += j[r].Dot(&a.short)
		t.early += j[r].Dot(&a.row(r).early)
		t.soon += j[r].Dot(&a.row(r).soon)
		for i, v := range j[r] {
			m := a.short[i] + a.row(r).soon[i]
			t.square += v * m * m
		}
	}
}

// leastWeight is the chance of a point of the grid below which its rate adds
// nothing that could be seen.
const leastWeight = 1e-12

// figuresOf turns what the shapes believe about a rung into figures.
func (w *worker) figuresOf(s Series, rung int, outcomes []outcome) Figures {
	f := Figures{Rung: s.Pairings[rung].Rung, Tested: s.Pairings[rung].Tested(), wall: s.Wall.Width}
	d := float64(s.Wall.Width)
	var width, next grid.Line
	var square float64
	for _, o := range outcomes {
		t := o.rungs[rung]
		f.FullByTarget, f.FullBeforeHalf = f.FullByTarget+t.full, f.FullBeforeHalf+t.early
		f.Short, f.Soon = f.Short+t.short, f.Soon+t.soon
		square += t.square
		width.AddScaled(1, &t.width)
		for r := range t.next {
			next.AddScaled(1, &t.next[r])
		}
	}
	f.MissSD = math.Sqrt(max(square-f.Miss()*f.Miss(), 0))
	f.OnTarget = f.FullByTarget - f.FullBeforeHalf
	f.Theta, f.ThetaSD = width.Moments()
	f.Width, f.Next = points(&width, d), points(&next, d)
	h := w.hours(outcomes, rung, s.Wall.Target)
	f.Never, f.next = h.never, h
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
func (w *worker) hours(outcomes []outcome, rung int, target quantity.Hours) hours {
	var h hours
	total := 0.0
	for _, o := range outcomes {
		next := &o.rungs[rung].next
		for r := range next {
			sum := next[r].Sum()
			total += sum
			if sum < leastRow {
				continue
			}
			row := hoursRow{meltpool.Curve(w.Shapes[o.shape].Value), grid.LogRate(r, w.Rate), target, next[r].Above()}
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
