package life

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// How the wax in the vessel at the last weighing was worked out.
type waxBy string

// The two ways: the filled mass less what was lost since, or the whole candle
// less its empty vessel.
const (
	byFilled waxBy = "filled mass less what was lost"
	byVessel waxBy = "last weighing less the empty vessel"
)

// weighing is the last mass of the whole candle, and the hours lit since.
type weighing struct {
	first, last *quantity.Grams
	since       []journal.Burn // burns, or the burn, that were not weighed after
}

// lastWeighing finds the first and the last mass of the candle as a whole.
func lastWeighing(l journal.CandleLog) weighing {
	var w weighing
	bs := counted(l)
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

// waxAt is the wax in the vessel at a weighing; false when nothing says so.
// The filled mass comes first: it is this candle's own, where the empty mass
// is that of one vessel for all.
func waxAt(l journal.CandleLog, w weighing) (quantity.Grams, waxBy, bool) {
	switch {
	case l.Candle.Filled != nil && w.first != nil && w.last != nil:
		return *l.Candle.Filled - (*w.first - *w.last), byFilled, true
	case l.Vessel.EmptyMass != nil && w.last != nil:
		return *w.last - *l.Vessel.EmptyMass, byVessel, true
	case l.Candle.Filled != nil && len(counted(l)) == 0:
		return *l.Candle.Filled, byFilled, true
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
