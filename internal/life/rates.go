package life

import (
	"math"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// BurnRate is what one burn burned, from its two weighings.
type BurnRate struct {
	Number int
	Hours  quantity.Hours
	Lost   quantity.Grams
	Rate   quantity.GramsPerHour
	Middle quantity.Hours // of the candle's lit hours, halfway through the burn
}

// Odd is a burn that has no rate, with the reason in words.
type Odd struct {
	Number int
	Why    string
}

// Rates is how fast a candle burned.
type Rates struct {
	Burns []BurnRate // with both weighings, in order
	Odd   []Odd      // finished burns that cannot be counted

	Hours quantity.Hours // over the burns that were weighed
	Lost  quantity.Grams
	// Overall is all that was lost over all hours: what the candle burns in an
	// hour, long burns counting for more. Its interval is that of a ratio of
	// sums (Cochran, Sampling Techniques, chapter 6, from memory).
	Overall      quantity.GramsPerHour
	OverallRange Interval
	// Mean is the plain mean over burns, each counting alike, with Student's t.
	Mean      quantity.GramsPerHour
	MeanRange Interval
	// Drift is by how much the rate changes in an hour of the candle's life, in
	// g/h per h, by a straight line through the burns' rates; DriftRange is
	// unknown below three burns, and where they lie on a line without scatter.
	Drift      float64
	DriftRange Interval
	First      FirstHour
}

// Any reports whether at least one burn was weighed before and after.
func (r Rates) Any() bool { return len(r.Burns) > 0 }

// Pace is whether a candle burns faster or slower as it goes.
type Pace string

// The paces.
const (
	FewBurns  Pace = ""              // a drift could hardly be seen
	NoDrift   Pace = "no drift seen" // but there may be one
	Steady    Pace = "steady"        // any drift is small
	SpeedsUp  Pace = "speeds up"
	SlowsDown Pace = "slows down"
)

// From what on a pace is told (app defaults).
const (
	PaceBurns = 4  // weighed burns that it takes to tell a pace
	DriftSpan = 10 // h, over which a drift is told
	// SteadyWithin is the share of the rate that the drift over DriftSpan must
	// stay within, the whole of its interval, for a candle to be called steady.
	SteadyWithin = 0.10
)

// Pace tells the pace. Burns that lie on a line without any scatter are never
// called steady, for they have no interval; where the line leans it drifts.
func (r Rates) Pace() Pace {
	far := SteadyWithin / DriftSpan * float64(r.Overall)
	i, leans := r.DriftRange, r.DriftRange.Apart() || r.DriftRange.Alike && math.Abs(r.Drift) > dust
	switch {
	case len(r.Burns) < PaceBurns || !i.Known && !i.Alike:
		return FewBurns
	case leans && r.Drift > 0:
		return SpeedsUp
	case leans:
		return SlowsDown
	case i.Known && i.Low >= -far && i.High <= far:
		return Steady
	}
	return NoDrift
}

// RatesOf works out a candle's burn rates. Burns that were withdrawn or are
// still lit are not looked at.
func RatesOf(l journal.CandleLog) Rates {
	var r Rates
	var lit quantity.Hours
	for _, b := range l.CountedBurns() {
		if b.Burn.OutAt == nil {
			continue
		}
		lasted := max(b.Burn.Lasted(*b.Burn.OutAt), 0)
		r.add(b.Burn, lasted, lit+lasted/2)
		lit += lasted
	}
	r.whole()
	r.drift()
	r.First = firstHour(r.Burns)
	return r
}

// add takes a burn in, or says why it has no rate.
func (r *Rates) add(b journal.Burn, lasted, middle quantity.Hours) {
	rate, ok := b.Rate()
	switch {
	case ok && rate > 0:
		r.Burns = append(r.Burns, BurnRate{b.Number, lasted, *b.MassBefore - *b.MassAfter, rate, middle})
	case ok && rate == 0:
		r.odd(b, "it weighed the same before and after")
	case ok:
		r.odd(b, "it weighed more after than before")
	case lasted <= 0:
		r.odd(b, "it was lit for no time")
	default:
		r.odd(b, "it was not weighed before and after")
	}
}

func (r *Rates) odd(b journal.Burn, why string) { r.Odd = append(r.Odd, Odd{b.Number, why}) }

// whole fills in the figures over all weighed burns.
func (r *Rates) whole() {
	if !r.Any() {
		return
	}
	rates := make([]float64, len(r.Burns))
	for i, b := range r.Burns {
		r.Hours, r.Lost = r.Hours+b.Hours, r.Lost+b.Lost
		rates[i] = float64(b.Rate)
	}
	r.Overall = quantity.GramsPerHour(float64(r.Lost) / float64(r.Hours))
	var rss float64
	for _, b := range r.Burns {
		e := float64(b.Lost) - float64(r.Overall)*float64(b.Hours)
		rss += e * e
	}
	n := float64(len(r.Burns))
	r.OverallRange = around(float64(r.Overall), math.Sqrt(n*rss/(n-1))/float64(r.Hours), len(r.Burns)-1)
	s := stats.Summarise(rates)
	r.Mean, r.MeanRange = quantity.GramsPerHour(s.Mean), ofMean(s)
}

// drift draws a line through the burns' rates over the candle's life.
func (r *Rates) drift() {
	var at, rate []float64
	for _, b := range r.Burns {
		at, rate = append(at, float64(b.Middle)), append(rate, float64(b.Rate))
	}
	line, err := stats.FitLine(at, rate, Level)
	if err != nil {
		return
	}
	r.Drift, r.DriftRange = line.Slope, ofSlope(line)
}
