package life

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// weighing is the last mass of the whole candle, and the hours lit since.
type weighing struct {
	first, last *quantity.Grams
	since       []journal.Burn // burns, or the burn, that were not weighed after
}

// lastWeighing finds the first and the last mass of the candle as a whole.
func lastWeighing(l journal.CandleLog) weighing {
	var w weighing
	bs := l.CountedBurns()
	for i, b := range bs {
		if m := b.Burn.MassBefore; m != nil {
			if i == 0 {
				w.first = m
			}
			w.last, w.since = m, nil
		}
		w.since = append(w.since, b.Burn)
		if m := b.Burn.MassAfter; m != nil {
			w.last, w.since = m, nil
		}
	}
	return w
}

// waxAt is the wax in the vessel at the last weighing, or in a new candle;
// false when nothing says so.
func waxAt(l journal.CandleLog, w weighing) (quantity.Grams, journal.WaxBy, bool) {
	switch {
	case w.last != nil:
		return l.WaxAt(*w.last, w.first)
	case l.Candle.Filled != nil && len(l.CountedBurns()) == 0:
		return *l.Candle.Filled, journal.WaxByFilled, true
	}
	return 0, "", false
}

// density is how dense the wax in the vessel is; nil when not recorded. Most
// of a candle's wax is solid, lit or not.
func density(l journal.CandleLog) *quantity.GramsPerMillilitre { return l.Wax.SolidDensity }

// endHeight is how high the wax stood after the last burn; nil when that burn
// was not weighed or something is missing.
func endHeight(l journal.CandleLog) *quantity.Millimetres {
	w := lastWeighing(l)
	wax, _, ok := waxAt(l, w)
	if !ok || len(w.since) > 0 || density(l) == nil || l.Vessel.Shape == journal.Irregular {
		return nil
	}
	h, ok := inside(l.Vessel).HeightOf(max(wax, 0), *density(l))
	if !ok {
		return nil
	}
	return &h
}
