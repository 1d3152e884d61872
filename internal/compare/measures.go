package compare

import (
	"math"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Measure is one figure of every side, each but the first beside the first.
type Measure struct {
	Name    MeasureName
	Figures []Figure
}

// MeasureName says what is measured, and so in which unit.
type MeasureName string

// What is measured of every side.
const (
	Width MeasureName = "width" // mm at the target hour, if no wall stopped the pool
	Reach MeasureName = "reach" // the same as a share of the inner width, where vessels differ
	Rate  MeasureName = "rate"  // g/h over a burn
	Depth MeasureName = "depth" // mm at the target hour
	Flame MeasureName = "flame" // mm at the target hour
	Wall  MeasureName = "wall"  // °C of the vessel, outside, at the target hour
	Full  MeasureName = "full"  // hours to a full pool
)

// Figure is what one side came to.
type Figure struct {
	// Mean over N burns of a candle, or over N candles of a pairing; NaN
	// without any.
	Mean float64
	N    int
	// Bounded counts the burns that say only that it is at least, takes longer
	// or takes no longer than so much; Early those of them that were full at
	// the first look, of which only the last is known. Seen counts all that say
	// anything.
	Bounded, Early, Seen int
	From                 Difference // from the first side

	values   []float64
	sd       float64 // of the mean, where it comes from the standings
	believed bool    // it comes from the standings
}

// near is how far from the target hour a check may lie and still speak for it:
// half the usual hour between checks (chosen by us).
const near quantity.Hours = 0.5

// Measures works out every figure of the sides. Measures of which no side has
// anything are left out.
func Measures(sides []Side) []Measure {
	var out []Measure
	for _, n := range []MeasureName{widthOrReach(sides), Full, Rate, Depth, Flame, Wall} {
		m := Measure{Name: n}
		seen := 0
		for _, s := range sides {
			f := figure(n, s)
			seen += f.Seen
			m.Figures = append(m.Figures, f)
		}
		if seen == 0 {
			continue
		}
		for i := 1; i < len(sides); i++ {
			m.Figures[i].From = difference(sides[0], sides[i], m.Figures[0], m.Figures[i])
		}
		out = append(out, m)
	}
	return out
}

// widthOrReach is the width where all sides have one wall and one target hour,
// and its share of the wall where they do not.
func widthOrReach(sides []Side) MeasureName {
	for _, s := range sides[1:] {
		a, b := sides[0].vessel(), s.vessel()
		if math.Abs(float64(a.Width()-b.Width())) > hair || math.Abs(float64(a.Target()-b.Target())) > hair {
			return Reach
		}
	}
	return Width
}

// figure is one measure of one side.
func figure(n MeasureName, s Side) Figure {
	if s.Whole && (n == Width || n == Reach) {
		return believed(n, s)
	}
	f := Figure{}
	for _, l := range s.Logs {
		v := burnValues(n, s, l)
		f.Seen, f.Bounded, f.Early = f.Seen+len(v.told)+v.bounded, f.Bounded+v.bounded, f.Early+v.early
		if s.Whole && len(v.told) > 0 {
			v.told = []float64{candleValue(n, l, v.told)}
		}
		f.values = append(f.values, v.told...)
	}
	sum := stats.Summarise(f.values)
	f.Mean, f.N = sum.Mean, sum.N
	return f
}

// believed is the width of a pairing as the standings tell it. Its standard
// deviation is read off the span that eight in ten keep within, as if it were
// normal.
func believed(n MeasureName, s Side) Figure {
	p := s.Pairing
	f := Figure{Mean: math.NaN(), believed: true}
	if !p.Enough() {
		return f
	}
	f.Mean, f.N, f.Seen = p.Width.P50, p.Candles, p.Burns
	f.sd = (p.Width.P90 - p.Width.P10) / (2 * tenth)
	if p.AtLeast {
		f.Mean, f.Bounded = p.Width.P10, p.Burns
	}
	if n == Reach {
		wall := float64(p.Vessel.Width())
		f.Mean, f.sd = f.Mean/wall, f.sd/wall
	}
	return f
}

// tenth is the normal quantile that one in ten exceed.
const tenth = 1.2815515655446004

// values are those of a candle's burns, how many burns only bound theirs, and
// how many of these were full at the first look.
type values struct {
	told           []float64
	bounded, early int
}

// candleValue is what a candle counts for in its pairing: its rate as package
// life reckons it for the pairing's own page, and of all else the mean.
func candleValue(n MeasureName, l journal.CandleLog, told []float64) float64 {
	if n == Rate {
		return float64(life.RatesOf(l).Overall)
	}
	return stats.Summarise(told).Mean
}

func burnValues(n MeasureName, s Side, l journal.CandleLog) values {
	switch n {
	case Width, Reach, Full:
		return poolValues(n, s, l)
	case Rate:
		return rateValues(l)
	}
	var out values
	for _, b := range l.Burns {
		if v, ok := burnValue(n, b, l.Vessel.Target()); ok {
			out.told = append(out.told, v)
		}
	}
	return out
}

// rateValues are the rates of the burns that have one.
func rateValues(l journal.CandleLog) (out values) {
	for _, b := range life.RatesOf(l).Burns {
		out.told = append(out.told, float64(b.Rate))
	}
	return out
}

func burnValue(n MeasureName, b journal.BurnLog, target quantity.Hours) (float64, bool) {
	switch n {
	case Depth:
		return atTarget(b, target, func(c journal.Check) *float64 { return number(c.Depth) })
	case Flame:
		return atTarget(b, target, func(c journal.Check) *float64 { return number(c.Flame) })
	}
	return atTarget(b, target, func(c journal.Check) *float64 { return number(c.VesselTemp) })
}

func number[T ~float64](x *T) *float64 {
	if x == nil {
		return nil
	}
	v := float64(*x)
	return &v
}

// atTarget is the reading nearest to the target hour, the earlier of two; false
// when none that counts lies near it.
func atTarget(b journal.BurnLog, target quantity.Hours, of func(journal.Check) *float64) (value float64, ok bool) {
	if journal.WidthsCount(b) != "" {
		return 0, false
	}
	best := near + hair
	for _, c := range b.Checks {
		v := of(c)
		if v == nil || journal.ReadingCounts(b.Burn, c) != "" {
			continue
		}
		away := quantity.Hours(math.Abs(float64(quantity.Hours(c.At.Sub(b.Burn.LitAt).Hours()) - target)))
		if away <= best-hair || (!ok && away <= best) {
			value, ok, best = *v, true, away
		}
	}
	return value, ok
}

// poolValues are what the standings read of a candle's burns. A burn's width
// is that of the curve fitted to it, which its pairing draws a little towards
// itself; a burn whose every reading was full only bounds it from below. A burn
// that was never full only bounds the time from below, and one that was full at
// the first look only from above.
func poolValues(n MeasureName, s Side, l journal.CandleLog) (out values) {
	row, ok := s.row(l.Candle.ID)
	if !ok {
		return out
	}
	wall := float64(l.Vessel.Width())
	if n == Reach {
		wall = 1
	}
	for _, b := range row.Burns {
		switch {
		case !b.Used():
		case n == Full && b.Full.Never, n != Full && !b.SawRim():
			out.bounded++
		case n == Full && b.Full.From == 0:
			out.bounded, out.early = out.bounded+1, out.early+1
		case n == Full:
			out.told = append(out.told, float64(b.Full.From+b.Full.To)/2)
		case !math.IsNaN(b.Fit.Theta):
			out.told = append(out.told, math.Exp(b.Fit.Theta)*wall)
		}
	}
	return out
}
