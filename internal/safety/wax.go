package safety

import (
	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// waxLeft tells how much of a candle's wax was left after its burns, as far as
// they were weighed.
type waxLeft struct {
	l     journal.CandleLog
	first *quantity.Grams // the whole candle before its first burn; nil when not weighed
	total quantity.Grams  // of wax in the new candle; 0 when not known
}

func newWaxLeft(l journal.CandleLog, burns []journal.BurnLog) *waxLeft {
	w := &waxLeft{l: l}
	if len(burns) > 0 {
		w.first = burns[0].Burn.MassBefore
	}
	switch {
	case l.Candle.Filled != nil:
		w.total = *l.Candle.Filled
	case w.first != nil:
		w.total, _, _ = l.WaxAt(*w.first, w.first)
	}
	return w
}

// after is the wax that is left after a burn; false when that is not known.
func (w *waxLeft) after(b journal.Burn) (quantity.Grams, bool) {
	if b.MassAfter == nil {
		return 0, false
	}
	left, _, ok := w.l.WaxAt(*b.MassAfter, w.first)
	return left, ok
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
