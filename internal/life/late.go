package life

import (
	"math"
	"sort"
	"time"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Reading is a kind of reading that late burns are compared with early ones by.
type Reading string

// The kinds, with the unit of their differences.
const (
	PoolWidth  Reading = "pool width"         // mm, the geometric mean of both ways
	PoolDepth  Reading = "pool depth"         // mm
	VesselHeat Reading = "vessel temperature" // °C
	Flame      Reading = "flame"              // mm
)

// Readings lists the kinds in the order a page shows them.
var Readings = []Reading{PoolWidth, PoolDepth, VesselHeat, Flame}

// Change is how the last third of a candle's life differs from its first third
// in one kind of reading: late less early, at the same hours since lighting.
type Change struct {
	Reading Reading
	Mean    float64 // in the reading's unit
	Range   Interval
	Candles int
	Early   int // burns in the first third that tell, over all candles
	Late    int // burns in the last third that tell
	AtWall  int // of the widths compared, how many were at the wall and could not be wider
	Widths  int // how many widths were compared
}

// Told reports whether any candle has both early and late readings at the same
// hour.
func (c Change) Told() bool { return c.Candles > 0 }

// aged is one burn with its place in the candle's life, 0 when new and 1 at the
// end, taken halfway through the burn.
type aged struct {
	journal.BurnLog
	at float64
}

// LateEarly compares late burns with early ones over candles, one change for
// each kind of reading. Several candles give a t interval of their mean
// differences; one candle gives the interval of its burns, which says nothing
// of other candles. The first burn is left out: it is a start of its own
// (common practice, no source). So are burns and readings that do not count by
// journal.WidthsCount and journal.ReadingCounts: moving air changes the flame
// and the heat as it changes the pool. Where a candle was not burned to the end its
// life is reckoned from the wax that is left; where that cannot be told the
// candle is left out.
func LateEarly(logs []journal.CandleLog, stop quantity.Millimetres, now time.Time) []Change {
	out := make([]Change, len(Readings))
	for i, kind := range Readings {
		out[i] = over(kind, logs, stop, now)
	}
	return out
}

// over compares one kind of reading over candles.
func over(kind Reading, logs []journal.CandleLog, stop quantity.Millimetres, now time.Time) Change {
	c := Change{Reading: kind}
	var means []float64
	for _, l := range logs {
		one, ok := within(kind, l, stop, now)
		if !ok {
			continue
		}
		means = append(means, one.Mean)
		c.Candles++
		c.Early, c.Late, c.AtWall, c.Widths = c.Early+one.Early, c.Late+one.Late, c.AtWall+one.AtWall, c.Widths+one.Widths
		c.Range = one.Range
	}
	s := stats.Summarise(means)
	if c.Mean = s.Mean; c.Candles == 0 {
		c.Mean = 0
	}
	if c.Candles > 1 {
		c.Range = ofMean(s)
	}
	return c
}

// within compares one kind of reading within one candle. Hours at which both
// thirds have a reading count; a burn's value is the mean of its readings less
// the mean of all readings at the same hour, so that burns with other hours
// can be set side by side; burns, not readings, make the interval.
func within(kind Reading, l journal.CandleLog, stop quantity.Millimetres, now time.Time) (Change, bool) {
	early, late := thirds(l, stop, now)
	a, b := read(kind, l, early), read(kind, l, late)
	centre := centres(kind, a, b)
	ea, la := against(centre, a), against(centre, b)
	if len(ea) == 0 || len(la) == 0 {
		return Change{}, false
	}
	c := Change{Reading: kind, Candles: 1, Early: len(ea), Late: len(la)}
	c.Mean, c.Range = apart(ea, la)
	if kind == PoolWidth {
		c.count(centre, a, b)
	}
	return c, true
}

// thirds parts the burns of the first and of the last third of a life.
func thirds(l journal.CandleLog, stop quantity.Millimetres, now time.Time) (early, late []aged) {
	whole, ok := lifeOf(l, stop, now)
	if !ok {
		return nil, nil
	}
	var lit float64
	for _, b := range l.CountedBurns() {
		lasted := math.Max(float64(b.Burn.Lasted(now)), 0)
		x := aged{b, (lit + lasted/2) / float64(whole)}
		lit += lasted
		switch {
		case b.Burn.Number == 1:
		case x.at <= 1.0/3:
			early = append(early, x)
		case x.at >= 2.0/3:
			late = append(late, x)
		}
	}
	return early, late
}

// lifeOf is how many hours the candle lasts from new to the end: as it lasted
// when it has ended, else as it was lit plus what is left.
func lifeOf(l journal.CandleLog, stop quantity.Millimetres, now time.Time) (quantity.Hours, bool) {
	t := TotalOf(l, stop)
	if t.Ended() {
		return t.Hours, t.Hours > 0
	}
	left := LeftOf(l, RatesOf(l), stop, 0, now)
	if !left.Known() {
		return 0, false
	}
	var lit quantity.Hours
	for _, b := range l.CountedBurns() {
		lit += max(b.Burn.Lasted(now), 0)
	}
	return lit + left.Hours, lit > 0
}

// One reading at its hour, in steps of half an hour.
type hourly struct {
	half int // 2 for one hour after lighting
	v    float64
	wall bool
}

// near is how far a check may lie from its half hour to be taken for it.
const near = 12 * time.Minute

// read gathers one kind of reading, burn by burn, of the burns and checks that
// count and were not withdrawn.
func read(kind Reading, l journal.CandleLog, burns []aged) [][]hourly {
	var out [][]hourly
	for _, b := range burns {
		if journal.WidthsCount(b.BurnLog) != "" {
			continue
		}
		var of []hourly
		for _, c := range b.Checks {
			half := b.halfHour(c)
			if v, wall, ok := value(kind, c, l.Vessel); ok && half > 0 && !c.IsGone() && journal.ReadingCounts(b.Burn, c) == "" {
				of = append(of, hourly{half, v, wall})
			}
		}
		if len(of) > 0 {
			out = append(out, of)
		}
	}
	return out
}

// halfHour is the half hour since lighting that a check is nearest to, counted
// in half hours; 0 when it is near none.
func (b aged) halfHour(c journal.Check) int {
	since := c.At.Sub(b.Burn.LitAt)
	n := since.Round(30 * time.Minute)
	if (since-n).Abs() > near || n <= 0 {
		return 0
	}
	return int(n / (30 * time.Minute))
}

// value is what one check says in one kind of reading.
func value(kind Reading, c journal.Check, v journal.Vessel) (x float64, wall, ok bool) {
	switch kind {
	case PoolWidth:
		ratio, _, ok := meltpool.Reach(inside(v), c.WidthA, c.WidthB, c.Full)
		return ratio * float64(v.Width()), c.Full || ratio >= 1, ok
	case PoolDepth:
		return number(c.Depth)
	case VesselHeat:
		return number(c.VesselTemp)
	}
	return number(c.Flame)
}

func number[T ~float64](x *T) (v float64, wall, ok bool) {
	if x == nil {
		return 0, false, false
	}
	return float64(*x), false, true
}

// centres is the mean at every half hour that both sides have: halfway between
// the early and the late mean, so that neither side's count tips it. Hours at
// which every width was at the wall are left out: there it could not change.
func centres(kind Reading, early, late [][]hourly) map[int]float64 {
	out := map[int]float64{}
	a, b := byHour(early), byHour(late)
	for half, x := range a {
		y, both := b[half]
		if !both || (kind == PoolWidth && x.walls == len(x.values) && y.walls == len(y.values)) {
			continue
		}
		out[half] = (stats.Summarise(x.values).Mean + stats.Summarise(y.values).Mean) / 2
	}
	return out
}

// atHour gathers the readings at one half hour.
type atHour struct {
	values []float64
	walls  int
}

func byHour(burns [][]hourly) map[int]atHour {
	out := map[int]atHour{}
	for _, b := range burns {
		for _, r := range b {
			x := out[r.half]
			x.values = append(x.values, r.v)
			if r.wall {
				x.walls++
			}
			out[r.half] = x
		}
	}
	return out
}

// against is every burn's mean departure from the centres; burns without a
// reading at such an hour are left out.
func against(centre map[int]float64, burns [][]hourly) []float64 {
	var out []float64
	for _, b := range burns {
		var of []float64
		for _, r := range b {
			if c, ok := centre[r.half]; ok {
				of = append(of, r.v-c)
			}
		}
		if len(of) > 0 {
			sort.Float64s(of) // the order of the checks makes no difference
			out = append(out, stats.Summarise(of).Mean)
		}
	}
	return out
}

// freedom is how many burns more than two it takes for an interval: with fewer,
// two readings that happen to be equal would make it a point (app default).
const freedom = 2

// apart is how far the late burns lie above the early ones, with the interval
// of two groups of equal spread (Student's t for two samples).
func apart(early, late []float64) (float64, Interval) {
	a, b := stats.Summarise(early), stats.Summarise(late)
	diff, df := b.Mean-a.Mean, a.N+b.N-2
	if df < freedom {
		return diff, Interval{}
	}
	var rss float64
	for _, s := range []stats.Summary{a, b} {
		if s.N > 1 {
			rss += s.SD * s.SD * float64(s.N-1)
		}
	}
	return diff, around(diff, math.Sqrt(rss/float64(df)*(1/float64(a.N)+1/float64(b.N))), df)
}

// count says how many widths were compared, and how many were at the wall.
func (c *Change) count(centre map[int]float64, sides ...[][]hourly) {
	for _, burns := range sides {
		for _, b := range burns {
			for _, r := range b {
				if _, ok := centre[r.half]; !ok {
					continue
				}
				c.Widths++
				if r.wall {
					c.AtWall++
				}
			}
		}
	}
}
