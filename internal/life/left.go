package life

import (
	"math"
	"time"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// Lacks is something that the hours left cannot be told without.
type Lacks string

// What can be missing.
const (
	LacksRate    Lacks = "a burn weighed before and after"
	LacksDensity Lacks = "the solid density of the wax"
	LacksMass    Lacks = "the filled mass of the candle, or the empty mass of its vessel"
	LacksWeight  Lacks = "a weighing of the candle"
	LacksShape   Lacks = "a vessel whose area is known"
)

// Left is how long a candle will last until the wax is down to the height at
// which its last burn ends, as if the vessel's walls stood upright.
type Left struct {
	Lacks []Lacks // what is missing; the rest is unknown while it is not empty
	Stop  quantity.Millimetres

	Wax        quantity.Grams // in the vessel now
	Height     quantity.Millimetres
	Usable     quantity.Grams // above the stop
	Drop       quantity.Millimetres
	Hours      quantity.Hours // Drop is the fall of the level in one hour
	HoursRange Interval
	Sittings   int // of the longest burn, the last one shorter
	// Reckoned is how long it burned since it was last weighed: the wax burned
	// in that time is reckoned with the rate.
	Reckoned quantity.Hours
	// ByVessel: the wax is the last weighing less the vessel's empty mass,
	// because the filled mass or the first weighing is missing.
	ByVessel bool
	// Disagree: the two ways to reckon the wax lie far apart.
	Disagree bool
	// Full is how many hours a full candle holds; 0 without a filled mass.
	Full quantity.Hours
}

// loose is the share of the rate that its interval must keep above for the
// hours to have one: lower, their upper end would be more than double and say
// nothing (app default).
const loose = 0.5

// Known reports whether the hours can be told.
func (l Left) Known() bool { return len(l.Lacks) == 0 }

// Down reports whether the wax is down to the stop.
func (l Left) Down() bool { return l.Known() && l.Usable <= 0 }

// farMasses is how far the two ways to reckon the wax may lie apart, as a share
// of the larger, before it is said (app default).
const farMasses = 0.15

// LeftOf works out how long a candle lasts yet at its own burn rate. stop is the
// height of wax at which the last burn ends, longest how long one burn is
// meant to be at most.
func LeftOf(l journal.CandleLog, r Rates, stop quantity.Millimetres, longest quantity.Hours, now time.Time) Left {
	w := lastWeighing(l)
	wax, by, ok := waxAt(l, w)
	out := Left{Stop: stop, Lacks: lacking(l, r, w, ok), ByVessel: by == journal.WaxByVessel, Disagree: disagree(l, w)}
	if !out.Known() {
		return out
	}
	for _, b := range w.since {
		out.Reckoned += max(b.Lasted(now), 0)
	}
	out.Wax = max(wax-quantity.Grams(float64(r.Overall)*float64(out.Reckoned)), 0)
	out.measure(l, r)
	if out.Hours > 0 && longest > 0 {
		out.Sittings = int(math.Ceil(float64(out.Hours)/float64(longest) - 1e-9))
	}
	return out
}

// measure turns wax into height, fall and hours.
func (l *Left) measure(log journal.CandleLog, r Rates) {
	v, d := inside(log.Vessel), *density(log)
	l.Height, _ = v.HeightOf(l.Wax, d)
	drop, _ := v.LevelDrop(r.Overall, d)
	l.Drop, l.Usable = quantity.Millimetres(drop), v.Usable(l.Wax, d, l.Stop)
	l.Hours, _ = meltpool.HoursLeft(l.Usable, r.Overall)
	if i := r.OverallRange; i.Known && i.Low > float64(r.Overall)*loose {
		l.HoursRange = Interval{Known: true, Low: float64(l.Usable) / i.High, High: float64(l.Usable) / i.Low}
	}
	l.HoursRange.Alike = r.OverallRange.Alike
	if m := log.Candle.Filled; m != nil {
		l.Full, _ = meltpool.HoursLeft(v.Usable(*m, d, l.Stop), r.Overall)
	}
}

// lacking lists what is missing.
func lacking(l journal.CandleLog, r Rates, w weighing, haveWax bool) []Lacks {
	var out []Lacks
	add := func(when bool, what Lacks) {
		if when {
			out = append(out, what)
		}
	}
	add(!r.Any(), LacksRate)
	add(r.Any() && w.last == nil, LacksWeight)
	add(r.Any() && w.last != nil && !haveWax, LacksMass)
	add(density(l) == nil || *density(l) <= 0, LacksDensity)
	add(inside(l.Vessel).Area() <= 0 || l.Vessel.Shape == journal.Irregular, LacksShape)
	return out
}

// disagree reports whether the filled mass and the empty vessel tell clearly
// different stories of the wax.
func disagree(l journal.CandleLog, w weighing) bool {
	if l.Candle.Filled == nil || l.Vessel.EmptyMass == nil || w.first == nil {
		return false
	}
	a, b := float64(*l.Candle.Filled), float64(*w.first-*l.Vessel.EmptyMass)
	return math.Abs(a-b) > farMasses*math.Max(a, math.Abs(b))
}
