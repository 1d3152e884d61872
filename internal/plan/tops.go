package plan

import (
	"cmp"
	"slices"
	"time"

	"rimward/internal/journal"
)

// topsOld is how long ago a pour was set when its tops, still not looked at,
// are asked for together with those of other old pours: a week (chosen by us).
const topsOld = 7 * 24 * time.Hour

// topsWish asks for a look at a candle's top: from a day after the pour until
// somebody looked at it set, or it was lit.
func topsWish(l *journal.CandleLine) []wish {
	if l.Life.Burns > 0 || l.Life.SetLooked() {
		return nil
	}
	return []wish{{kind: LookAtTops, candle: l.Candle, line: l, at: journal.SetsBy(l.Life.PouredAt)}}
}

// gathered makes one item of all old pours whose tops were never looked at, so
// that a long list of them stays calm. It leads to the oldest.
func gathered(items []Item, now time.Time) []Item {
	var old, out []Item
	for _, it := range items {
		if it.Kind == LookAtTops && it.At.Before(now.Add(-topsOld)) {
			old = append(old, it)
			continue
		}
		out = append(out, it)
	}
	if len(old) < 2 {
		return items
	}
	slices.SortStableFunc(old, func(a, b Item) int { return cmp.Or(a.At.Compare(b.At), cmp.Compare(a.PourNumber, b.PourNumber)) })
	all := Item{Kind: LookAtTops, Pour: old[0].Pour, PourNumber: old[0].PourNumber, At: old[0].At}
	for _, it := range old {
		all.Pours = append(all.Pours, it.Candles[0])
		all.Candles, all.Lines = append(all.Candles, it.Candles...), append(all.Lines, it.Lines...)
	}
	return append(out, all)
}
