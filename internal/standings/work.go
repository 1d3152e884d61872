package standings

import (
	"cmp"
	"slices"

	"rimward/internal/journal"
)

// Work puts the pairings of candles in order, vessel by vessel. Records that
// were withdrawn do not count. The order of the logs does not matter.
func Work(logs []journal.CandleLog, opt Options) Table {
	var t Table
	all := counted(logs)
	for _, ls := range split(all, func(l journal.CandleLog) journal.ID { return l.Vessel.ID }) {
		g := group(ls, opt)
		t.Candles, t.Burns = t.Candles+g.Candles, t.Burns+g.Burns
		t.Groups = append(t.Groups, g)
	}
	slices.SortStableFunc(t.Groups, func(a, b Group) int {
		return cmp.Or(cmp.Compare(a.Vessel.Name, b.Vessel.Name), cmp.Compare(a.Vessel.ID, b.Vessel.ID))
	})
	return t
}

// group works out the standings in one vessel.
func group(logs []journal.CandleLog, opt Options) Group {
	type key struct {
		wick  journal.ID
		wicks int
	}
	v := logs[0].Vessel
	g := Group{Vessel: v, Target: v.Target(), Settings: settings(logs), Candles: len(logs)}
	for _, ls := range split(logs, func(l journal.CandleLog) key { return key{l.Wick.ID, l.Candle.Wicks} }) {
		p := pairing(ls, opt)
		g.Burns += p.AllBurns
		g.Pairings = append(g.Pairings, p)
	}
	rank(g.Pairings)
	if w := mixed(g.Settings, "are compared with each other"); w != "" {
		g.Warnings = append(g.Warnings, w)
	}
	return g
}

// counted keeps the candles and burns and checks that were not withdrawn, and
// puts them in an order of their own, so that sums come out the same whatever
// order they arrive in. Candles without such a burn are left out.
func counted(logs []journal.CandleLog) []journal.CandleLog {
	var out []journal.CandleLog
	for _, l := range logs {
		if l.Candle.IsGone() || l.Pour.IsGone() {
			continue
		}
		l.Burns = slices.DeleteFunc(slices.Clone(l.Burns), func(b journal.BurnLog) bool { return b.Burn.IsGone() })
		for i := range l.Burns {
			l.Burns[i].Checks = inOrder(l.Burns[i].Checks)
		}
		slices.SortStableFunc(l.Burns, func(a, b journal.BurnLog) int {
			return cmp.Or(cmp.Compare(a.Burn.Number, b.Burn.Number), cmp.Compare(a.Burn.ID, b.Burn.ID))
		})
		if len(l.Burns) > 0 {
			out = append(out, l)
		}
	}
	slices.SortStableFunc(out, func(a, b journal.CandleLog) int {
		return cmp.Or(cmp.Compare(a.Candle.PourNumber, b.Candle.PourNumber), cmp.Compare(len(a.Candle.Letter), len(b.Candle.Letter)),
			cmp.Compare(a.Candle.Letter, b.Candle.Letter), cmp.Compare(a.Candle.ID, b.Candle.ID))
	})
	return out
}

// split parts logs by a key, keeping their order within and between the parts.
func split[K comparable](logs []journal.CandleLog, key func(journal.CandleLog) K) [][]journal.CandleLog {
	at := map[K]int{}
	var parts [][]journal.CandleLog
	for _, l := range logs {
		k := key(l)
		i, ok := at[k]
		if !ok {
			i = len(parts)
			at[k] = i
			parts = append(parts, nil)
		}
		parts[i] = append(parts[i], l)
	}
	return parts
}
