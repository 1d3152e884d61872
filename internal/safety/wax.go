package safety

import (
	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// waxLeft follows a candle's wax through its burns, as far as it was weighed.
type waxLeft struct {
	l     journal.CandleLog
	total quantity.Grams // in the new candle; 0 when not known
	lost  quantity.Grams // by the burns so far
	whole bool           // every burn so far was weighed
}

func newWaxLeft(l journal.CandleLog, burns []journal.BurnLog) *waxLeft {
	w := &waxLeft{l: l, whole: true}
	switch {
	case l.Candle.Filled != nil:
		w.total = *l.Candle.Filled
	case l.Vessel.EmptyMass != nil && len(burns) > 0 && burns[0].Burn.MassBefore != nil:
		w.total = *burns[0].Burn.MassBefore - *l.Vessel.EmptyMass
	}
	return w
}

// after takes the next burn and returns the wax that is left after it; false
// when that is not known.
func (w *waxLeft) after(b journal.Burn) (quantity.Grams, bool) {
	if b.MassBefore == nil || b.MassAfter == nil {
		w.whole = false
	} else {
		w.lost += *b.MassBefore - *b.MassAfter
	}
	switch {
	case w.l.Vessel.EmptyMass != nil && b.MassAfter != nil:
		return *b.MassAfter - *w.l.Vessel.EmptyMass, true
	case w.total > 0 && w.whole:
		return w.total - w.lost, true
	}
	return 0, false
}

// share is how much of its wax is gone when some is left; false when the whole
// is not known.
func (w *waxLeft) share(left quantity.Grams) (float64, bool) {
	if w.total <= 0 {
		return 0, false
	}
	return 1 - float64(left/w.total), true
}

// height is how high some wax stands in the vessel, from its solid density, or
// else as a share of the fill height; false when neither is known.
func (w *waxLeft) height(left quantity.Grams) (quantity.Millimetres, bool) {
	v := meltpool.Vessel{Outline: meltpool.Ellipse, Length: w.l.Vessel.Length(), Width: w.l.Vessel.InnerWidth}
	if w.l.Vessel.Shape == journal.Rectangular {
		v.Outline = meltpool.Rectangle
	}
	if d := w.l.Wax.SolidDensity; d != nil {
		return v.HeightOf(left, *d)
	}
	if gone, ok := w.share(left); ok && w.l.Vessel.FillHeight != nil {
		return *w.l.Vessel.FillHeight * quantity.Millimetres(1-gone), true
	}
	return 0, false
}

// Parts of a candle's life.
const (
	half      = 0.5     // until half is burned, hang-up may melt yet (common practice, no source)
	lastThird = 2.0 / 3 // from here on the vessel runs hotter (common practice, no source)
)
