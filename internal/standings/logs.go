package standings

import (
	"cmp"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// Options are what the studio chose that the standings depend on.
type Options struct {
	Ruler  quantity.Millimetres // the ruler's step
	Limits safety.Limits
	Units  quantity.Units // for the words of faults, findings and warnings
	Apart  journal.Apart
	Shelf  []journal.Wick // the rungs that there are, for guesses between and beside the burned ones
}

// Stacks sorts candles of the journal into series. Records that were withdrawn
// do not count. The order of the logs does not matter.
func Stacks(logs []journal.CandleLog, opt Options) []*Stack {
	type key struct {
		vessel, ladder journal.ID
		wicks          int
		setting        settingKey
	}
	var out []*Stack
	for _, ls := range split(counted(logs), func(l journal.CandleLog) key {
		return key{l.Vessel.ID, l.Ladder.ID, l.Candle.Wicks, settingOf(l).key(opt.Apart)}
	}) {
		out = append(out, stack(ls, opt))
	}
	slices.SortStableFunc(out, compareStacks)
	return out
}

func compareStacks(a, b *Stack) int {
	return cmp.Or(cmp.Compare(a.Vessel.Name, b.Vessel.Name), cmp.Compare(a.Vessel.ID, b.Vessel.ID),
		cmp.Compare(a.Settings[0].Wax.Name, b.Settings[0].Wax.Name), compareKeys(a.group, b.group),
		cmp.Compare(a.Ladder.Name, b.Ladder.Name), cmp.Compare(a.Ladder.ID, b.Ladder.ID), cmp.Compare(a.Wicks, b.Wicks))
}

func compareKeys(a, b settingKey) int {
	return cmp.Or(cmp.Compare(a.wax, b.wax), cmp.Compare(a.oil, b.oil), cmp.Compare(a.load, b.load))
}

// stack gathers one series.
func stack(logs []journal.CandleLog, opt Options) *Stack {
	m := logs[0].Made
	s := &Stack{Vessel: m.Vessel, Ladder: m.Ladder, Wicks: m.Candle.Wicks, Ruler: opt.Ruler, Settings: settings(logs), group: settingOf(logs[0]).key(opt.Apart)}
	for _, ls := range split(logs, func(l journal.CandleLog) journal.ID { return l.Wick.ID }) {
		s.Rungs = append(s.Rungs, rung(ls, opt))
	}
	s.sort(opt.Shelf)
	if w := mixed(s.Settings); w != "" {
		s.Warnings = append(s.Warnings, w)
	}
	return s
}

// rung gathers the candles of one wick.
func rung(logs []journal.CandleLog, opt Options) Rung {
	r := Rung{Wick: logs[0].Wick, Settings: settings(logs), Faults: safety.FaultsOf(logs, opt.Limits, opt.Units)}
	for _, l := range logs {
		row := CandleRow{Candle: l.Candle, Name: l.Candle.Code()}
		for _, b := range l.Burns {
			row.Burns = append(row.Burns, burnRow(b, l.Vessel, opt.Ruler))
		}
		r.Rows = append(r.Rows, row)
		hard := safety.OfLevel(safety.All(l, opt.Limits, opt.Units), safety.Hard)
		r.Hard = append(r.Hard, hard...)
		if l.Life().Spent && len(hard) == 0 {
			r.Ended++
		}
	}
	if f := tooSoon(r.Rows); f.Burns > 0 {
		r.Faults = append(r.Faults, f)
	}
	return r
}

// tooSoon counts the burns that were full before half the target hour.
func tooSoon(rows []CandleRow) safety.Fault {
	f := safety.Fault{Name: "full before half the target hour"}
	for _, c := range rows {
		for _, b := range c.Burns {
			if b.Used() {
				f.Of++
			}
			if b.TooSoon {
				f.Burns++
			}
		}
	}
	return f
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
