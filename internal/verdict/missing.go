package verdict

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// What is wanted before a pairing is accepted.
const (
	// CandlesEnough is how many candles of a pairing should have told a width:
	// common practice, and EN 15426 takes the mean of three (read in a
	// secondary source).
	CandlesEnough = 3
	// EndedEnough is how many should have been burned to the end: common
	// practice, no source.
	EndedEnough = 1
	// OnTargetEnough is the least chance of being on target (app default).
	OnTargetEnough = 0.5
)

// The names of what is wanted.
const (
	KeyReadings = "readings"
	KeyCandles  = "candles"
	KeyEnded    = "ended"
	KeyHard     = "hard"
	KeyOnTarget = "on_target"
	KeySmoke    = "after_smoke"
	KeyTip      = "tip_test"
	KeyBase     = "base_check"
	KeyLabel    = "label"
	KeySet      = "set_checks"
)

// Item is one thing that is wanted before accepting.
type Item struct {
	Key    string
	Name   string // what is wanted, as a short clause
	Has    string // what there is
	Source string // who wants it
	Done   bool
	// Optional items are shown and miss nothing; Bars items cannot be accepted
	// over; ByHand items are ticked by a person.
	Optional, Bars, ByHand bool
}

// Misses reports whether the item is wanted and not there.
func (i Item) Misses() bool { return !i.Done && !i.Optional }

// Hands is what was tried by hand.
type Hands struct{ Tip, Base bool }

// Missing lists all that is wanted before accepting, done or not, in the order
// in which it is shown.
func Missing(f journal.VerdictFigures, h Hands) []Item {
	return append(measured(f),
		Item{Key: KeyTip, Name: "a cold candle stays up on a slope of 10°, each way round", Done: h.Tip, ByHand: true, Has: byHand(h.Tip),
			Source: "the slope is that of EN 15493, read in a secondary source"},
		Item{Key: KeyBase, Name: "the surface under the vessel stays touchable to the end of a burn", Done: h.Base, ByHand: true, Has: byHand(h.Base), Source: "common practice, no source"},
		label(f))
}

// Measured reports whether nothing is missing of what is recorded; what is
// tried by hand is left out.
func Measured(f journal.VerdictFigures) bool { return len(f.Missing) == 0 }

func byHand(done bool) string {
	if done {
		return "ticked by hand"
	}
	return "not ticked yet"
}

// measured are the items that the record answers.
func measured(f journal.VerdictFigures) []Item {
	return []Item{
		{Key: KeyReadings, Name: "readings that tell how wide the pool is at the target hour", Done: f.Enough, Has: count(f.Burns, "burn tells", "burns tell") + " it", Source: "app default"},
		{Key: KeyCandles, Name: "three candles burned", Done: f.Telling >= CandlesEnough, Has: count(f.Telling, "candle", "candles"),
			Source: "common practice; EN 15426 takes the mean of three, read in a secondary source"},
		{Key: KeyEnded, Name: "one candle burned to the end", Done: f.Ended >= EndedEnough, Has: count(f.Ended, "candle", "candles"), Source: "common practice, no source"},
		{Key: KeyHard, Name: "no hard finding", Done: len(f.Hard) == 0, Bars: true, Has: count(len(f.Hard), "hard finding", "hard findings"), Source: "the limits in the settings"},
		{Key: KeyOnTarget, Name: "more likely on target than not", Done: f.Enough && f.OnTarget >= OnTargetEnough, Has: onTarget(f), Source: "app default"},
		smokeItem(f.AfterSmoke),
		setItem(f),
	}
}

func onTarget(f journal.VerdictFigures) string {
	if !f.Enough {
		return "not known yet"
	}
	return "chance " + quantity.Chance(f.OnTarget).String()
}

// smokeItem is wanted only where after-smoke was timed at all.
func smokeItem(s *journal.SmokeFigures) Item {
	i := Item{Key: KeySmoke, Name: "after-smoke within its limit on average", Source: "the limits in the settings; EN 15493 takes the mean over all burns, read in a secondary source"}
	if s == nil {
		i.Optional, i.Has = true, "never timed"
		return i
	}
	i.Done = !s.Over()
	i.Has = s.Mean.Shown().String() + " over " + count(s.Burns, "burn", "burns") + ", limit " + s.Limit.Shown().String()
	return i
}

// label is the burn time for a label: good to have.
func label(f journal.VerdictFigures) Item {
	i := Item{Key: KeyLabel, Name: "a burn time for the label", Optional: true, Source: "three candles burned to the end: app default", Has: count(f.Ended, "candle", "candles") + " burned to the end"}
	if f.Label != nil && f.Label.Bound != nil {
		i.Done, i.Has = true, "at most "+f.Label.Bound.WholeDown().String()+", from "+i.Has
	}
	return i
}

// namesOf are the names of what is missing.
func namesOf(items []Item) []string {
	var out []string
	for _, i := range items {
		if i.Misses() {
			out = append(out, i.Name)
		}
	}
	return out
}

// count writes a count with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	if n == 0 {
		return "no " + many
	}
	return quantity.Number(float64(n), 0) + " " + many
}
