package plan

import (
	"cmp"
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Board is the bench: what is lit, what is due and what is coming.
type Board struct {
	Lit    []LitTile // in order of lighting, then of the candles' codes
	Due    []Item    // by kind, then by when it fell due
	Coming []Item    // by when it falls due
}

// LitTile is one lit candle.
type LitTile struct {
	Log           journal.CandleLog
	LitFor        quantity.Hours
	Next          Due // the check it asks for
	StopAt        time.Time
	TargetAt      time.Time
	TargetReached bool           // the target hour has come
	OverStop      bool           // it should be out by now
	LastCheck     *journal.Check // that counts; nil when there is none
}

// Bench lays out the bench at the usual pace. lit are the candles that burn;
// waiting are candles that were not yet burned or rest; cold are burns whose
// mass after is not written down.
func Bench(now time.Time, lit []journal.CandleLog, waiting []journal.CandleLine, cold []journal.BurnLine) Board {
	return Usual().Bench(now, lit, waiting, cold)
}

// Bench lays out the bench.
func (p Pace) Bench(now time.Time, lit []journal.CandleLog, waiting []journal.CandleLine, cold []journal.BurnLine) Board {
	var b Board
	for _, l := range lit {
		if l.OpenBurn() != nil {
			b.Lit = append(b.Lit, p.tile(l, now))
		}
	}
	slices.SortStableFunc(b.Lit, compareTiles)
	for _, it := range p.items(now, lit, waiting, cold) {
		if it.At.After(now) {
			b.Coming = append(b.Coming, it)
		} else {
			b.Due = append(b.Due, it)
		}
	}
	b.order()
	return b
}

// order puts what is due by kind, and what is coming by when it falls due.
func (b *Board) order() {
	slices.SortStableFunc(b.Due, func(a, b Item) int {
		return cmp.Or(cmp.Compare(slices.Index(Kinds, a.Kind), slices.Index(Kinds, b.Kind)), compareItems(a, b))
	})
	slices.SortStableFunc(b.Coming, compareItems)
}

func (p Pace) tile(l journal.CandleLog, now time.Time) LitTile {
	o := l.OpenBurn()
	t := LitTile{
		Log: l, LitFor: o.Burn.Lasted(now), Next: p.Next(o.Burn, o.Checks, l.Vessel.Target(), now),
		StopAt: p.StopAt(o.Burn), TargetAt: TargetAt(o.Burn, l.Vessel.Target()),
	}
	t.TargetReached, t.OverStop = !t.TargetAt.After(now), !t.StopAt.After(now)
	for _, c := range o.Checks {
		if !c.IsGone() && (t.LastCheck == nil || !c.At.Before(t.LastCheck.At)) {
			t.LastCheck = &c
		}
	}
	return t
}

func compareTiles(a, b LitTile) int {
	return cmp.Or(a.Log.OpenBurn().Burn.LitAt.Compare(b.Log.OpenBurn().Burn.LitAt), compareCandles(a.Log.Candle, b.Log.Candle))
}

// compareCandles orders candles the way their codes are counted.
func compareCandles(a, b journal.Candle) int {
	return cmp.Or(cmp.Compare(a.PourNumber, b.PourNumber), cmp.Compare(len(a.Letter), len(b.Letter)),
		cmp.Compare(a.Letter, b.Letter), cmp.Compare(a.ID, b.ID))
}

func compareItems(a, b Item) int {
	return cmp.Or(a.At.Compare(b.At), cmp.Compare(slices.Index(Kinds, a.Kind), slices.Index(Kinds, b.Kind)), cmp.Compare(a.PourNumber, b.PourNumber))
}
