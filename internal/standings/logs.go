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

// OptionsOf are the options that a studio's settings ask for, with the wicks
// on its shelf.
func OptionsOf(set journal.Settings, shelf []journal.Wick) Options {
	return Options{Ruler: set.Ruler, Limits: safety.NewLimits(set.Limits), Units: set.Units, Apart: set.Apart, Shelf: shelf}
}

// Digest is one candle as the standings see it: small enough to be kept for
// every candle of a journal.
type Digest struct {
	made   journal.Made
	row    CandleRow
	faults []safety.Fault // counted, also those never seen
	hard   []safety.Finding
	spent  bool
}

// Candle is which candle it is.
func (d Digest) Candle() journal.ID { return d.made.Candle.ID }

// NewDigest reads one candle; ok is false when it does not count: it was
// withdrawn, or never lit. Burns and checks that were withdrawn do not count,
// and their order does not matter.
func NewDigest(l journal.CandleLog, opt Options) (d Digest, ok bool) {
	if l.Candle.IsGone() || l.Pour.IsGone() {
		return Digest{}, false
	}
	if l.Burns = countedBurns(l.Burns); len(l.Burns) == 0 {
		return Digest{}, false
	}
	d = Digest{made: l.Made, row: CandleRow{Candle: l.Candle, Name: l.Candle.Code()}, spent: l.Life().Spent,
		faults: safety.CountFaults(l, opt.Limits, opt.Units), hard: safety.OfLevel(safety.All(l, opt.Limits, opt.Units), safety.Hard)}
	for _, b := range l.Burns {
		d.row.Burns = append(d.row.Burns, burnRow(b, l.Vessel, opt.Ruler))
	}
	markEarly(d.row.Burns, l)
	return d, true
}

// StacksOf sorts candles of the journal into series.
func StacksOf(logs []journal.CandleLog, opt Options) []*Stack {
	var ds []Digest
	for _, l := range logs {
		if d, ok := NewDigest(l, opt); ok {
			ds = append(ds, d)
		}
	}
	return Stacks(ds, opt)
}

// Stacks sorts candles into series. Their order does not matter.
func Stacks(ds []Digest, opt Options) []*Stack {
	type key struct {
		vessel, ladder journal.ID
		wicks          int
		setting        settingKey
	}
	ds = slices.Clone(ds)
	slices.SortStableFunc(ds, compareDigests)
	var out []*Stack
	for _, part := range split(ds, func(d Digest) key {
		return key{d.made.Vessel.ID, d.made.Ladder.ID, d.made.Candle.Wicks, settingOf(d.made).key(opt.Apart)}
	}) {
		out = append(out, stack(part, opt))
	}
	slices.SortStableFunc(out, compareStacks)
	tellNamesakes(out)
	return out
}

// tellNamesakes warns where another vessel has the same name.
func tellNamesakes(stacks []*Stack) {
	ids := map[string]map[journal.ID]bool{}
	for _, s := range stacks {
		if ids[s.Vessel.Name] == nil {
			ids[s.Vessel.Name] = map[journal.ID]bool{}
		}
		ids[s.Vessel.Name][s.Vessel.ID] = true
	}
	for _, s := range stacks {
		if len(ids[s.Vessel.Name]) > 1 {
			s.Warnings = append(s.Warnings, "Another vessel is called "+s.Vessel.Name+" too: tell them apart by their width, and better by their names.")
		}
	}
}

// compareDigests puts candles in order of their codes, so that sums come out
// the same whatever order they arrive in.
func compareDigests(a, b Digest) int {
	x, y := a.made.Candle, b.made.Candle
	return cmp.Or(cmp.Compare(x.PourNumber, y.PourNumber), cmp.Compare(len(x.Letter), len(y.Letter)), cmp.Compare(x.Letter, y.Letter), cmp.Compare(x.ID, y.ID))
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
func stack(ds []Digest, opt Options) *Stack {
	m := ds[0].made
	s := &Stack{Vessel: m.Vessel, Ladder: m.Ladder, Wicks: m.Candle.Wicks, Ruler: opt.Ruler, Settings: settings(ds), group: settingOf(m).key(opt.Apart)}
	for _, part := range split(ds, func(d Digest) journal.ID { return d.made.Wick.ID }) {
		s.Rungs = append(s.Rungs, rung(part))
	}
	s.sort(opt.Shelf)
	if w := mixed(s.Settings); w != "" {
		s.Warnings = append(s.Warnings, w)
	}
	return s
}

// rung gathers the candles of one wick.
func rung(ds []Digest) Rung {
	r := Rung{Wick: ds[0].made.Wick, Settings: settings(ds)}
	var counts [][]safety.Fault
	for _, d := range ds {
		r.Rows = append(r.Rows, d.row)
		r.Hard = append(r.Hard, d.hard...)
		counts = append(counts, d.faults)
		if d.spent && len(d.hard) == 0 {
			r.Ended++
		}
	}
	r.Faults = safety.AddFaults(counts)
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

// countedBurns keeps the burns and checks that were not withdrawn, in order.
func countedBurns(burns []journal.BurnLog) []journal.BurnLog {
	out := slices.DeleteFunc(slices.Clone(burns), func(b journal.BurnLog) bool { return b.Burn.IsGone() })
	for i := range out {
		out[i].Checks = inOrder(out[i].Checks)
	}
	slices.SortStableFunc(out, func(a, b journal.BurnLog) int {
		return cmp.Or(cmp.Compare(a.Burn.Number, b.Burn.Number), cmp.Compare(a.Burn.ID, b.Burn.ID))
	})
	return out
}

// split parts candles by a key, keeping their order within and between the
// parts.
func split[K comparable](ds []Digest, key func(Digest) K) [][]Digest {
	at := map[K]int{}
	var parts [][]Digest
	for _, d := range ds {
		k := key(d)
		i, ok := at[k]
		if !ok {
			i = len(parts)
			at[k] = i
			parts = append(parts, nil)
		}
		parts[i] = append(parts[i], d)
	}
	return parts
}
