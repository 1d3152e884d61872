package plan

import (
	"slices"
	"time"

	"rimward/internal/journal"
)

// Kind is what an item of the bench asks for.
type Kind string

// What an item can ask for.
const (
	Weigh      Kind = "weigh"            // cold burns without their mass after
	LookAtTops Kind = "look at the tops" // a pour that is set and was not looked at since
	TakeOut    Kind = "take out"         // pieces that are a day in the mould
	LightFirst Kind = "light first"      // set and cured, never burned
	LightAgain Kind = "light again"      // rested since the last burn
)

// Kinds lists the kinds in the order the bench shows them.
var Kinds = []Kind{Weigh, LookAtTops, TakeOut, LightFirst, LightAgain}

// Item is one line of what is due or coming: candles of one pour that ask for
// the same thing.
type Item struct {
	Kind       Kind
	Pour       journal.ID
	PourNumber int
	Candles    []journal.Candle     // in the order of their codes
	Lines      []journal.CandleLine // the same candles as a list shows them; nil for Weigh
	Pours      []journal.Candle     // one of each pour, oldest first, where several are gathered; nil for one pour
	Burns      []journal.Burn       // to weigh after, in the order of Candles; nil but for Weigh
	Cast       *journal.CastLine    // to take out of its mould; nil but for TakeOut
	At         time.Time            // when it falls due, or fell due, for the first of them
	Advised    time.Time            // when the advised rest is over for all; zero but for LightAgain
}

const (
	// solidAfter is how long a candle rests before it is solid enough to be
	// moved to the scale (common practice, no source).
	solidAfter = 2 * time.Hour
)

// wish is what a single candle asks for, before wishes are grouped.
type wish struct {
	kind    Kind
	candle  journal.Candle
	line    *journal.CandleLine
	burn    *journal.Burn
	at      time.Time
	advised time.Time
}

// items gathers what the candles ask for and groups it by pour.
func (p Pace) items(now time.Time, lit []journal.CandleLog, waiting []journal.CandleLine, cold []journal.BurnLine) []Item {
	var ws []wish
	for i := range waiting {
		ws = append(ws, p.wishesOf(&waiting[i], now)...)
	}
	ws = append(ws, weighings(lit, waiting, cold)...)
	slices.SortStableFunc(ws, func(a, b wish) int { return compareCandles(a.candle, b.candle) })
	return gathered(grouped(ws, now), now)
}

// wishesOf is what a candle that does not burn asks for.
func (p Pace) wishesOf(l *journal.CandleLine, now time.Time) []wish {
	var ws []wish
	state := l.Life.StateAt(now)
	if state == journal.Withdrew || state == journal.IsSpent || state == journal.LitNow {
		return nil
	}
	ws = append(ws, topsWish(l)...)
	switch {
	case state != journal.Resting:
		ws = append(ws, wish{kind: LightFirst, candle: l.Candle, line: l, at: l.Life.ReadyAt()})
	case l.Life.LastOut != nil:
		ws = append(ws, wish{kind: LightAgain, candle: l.Candle, line: l,
			at: after(*l.Life.LastOut, p.Rest), advised: after(*l.Life.LastOut, p.RestAdvised)})
	}
	return ws
}

// weighings are the burns that can still be weighed after: those of candles
// that were not lit again since.
func weighings(lit []journal.CandleLog, waiting []journal.CandleLine, cold []journal.BurnLine) []wish {
	ended := map[journal.ID]time.Time{} // when the candle's latest burn ended
	burning := map[journal.ID]bool{}
	for _, l := range lit {
		burning[l.Candle.ID] = true
	}
	for _, l := range waiting {
		if l.Life.LastOut != nil {
			ended[l.Candle.ID] = *l.Life.LastOut
		}
	}
	for _, b := range cold {
		if b.Burn.OutAt != nil && b.Burn.OutAt.After(ended[b.Candle.ID]) {
			ended[b.Candle.ID] = *b.Burn.OutAt
		}
	}
	var ws []wish
	for i, b := range cold {
		if b.Burn.OutAt != nil && b.Burn.MassAfter == nil && !b.Burn.IsGone() &&
			!burning[b.Candle.ID] && !b.Burn.OutAt.Before(ended[b.Candle.ID]) {
			ws = append(ws, wish{kind: Weigh, candle: b.Candle, burn: &cold[i].Burn, at: b.Burn.OutAt.Add(solidAfter)})
		}
	}
	return ws
}

// grouped makes one item of the wishes of one kind and one pour; what is due
// and what is still to come stay apart.
func grouped(ws []wish, now time.Time) []Item {
	type key struct {
		kind   Kind
		pour   journal.ID
		coming bool
	}
	var items []Item
	at := map[key]int{}
	for _, w := range ws {
		k := key{w.kind, w.candle.Pour, w.at.After(now)}
		i, ok := at[k]
		if !ok {
			i = len(items)
			at[k] = i
			items = append(items, Item{Kind: w.kind, Pour: w.candle.Pour, PourNumber: w.candle.PourNumber, At: w.at})
		}
		items[i].add(w)
	}
	return items
}

func (it *Item) add(w wish) {
	it.Candles = append(it.Candles, w.candle)
	if w.line != nil {
		it.Lines = append(it.Lines, *w.line)
	}
	if w.burn != nil {
		it.Burns = append(it.Burns, *w.burn)
	}
	if w.at.Before(it.At) {
		it.At = w.at
	}
	if w.advised.After(it.Advised) {
		it.Advised = w.advised
	}
}
