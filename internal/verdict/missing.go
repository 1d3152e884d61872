package verdict

import (
	"strconv"

	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// What accepting asks for.
const (
	// Candles is how many of a pairing are burned before it is accepted (common
	// practice; a European standard for soot takes the mean of three as well,
	// EN 15426, read in a secondary source).
	Candles = 3
	// LikelyOnTarget is the least chance of a pool that is full in time and not
	// too soon (app default).
	LikelyOnTarget = 0.5
)

// ByHand are the two checks that no reading shows.
type ByHand struct{ Tip, Base bool }

// Item is one thing that accepting asks for.
type Item struct {
	Key    string
	Done   bool
	Text   string // what is asked for
	Now    string // how it stands
	Source string
	Ticked bool // it is ticked by hand on the form
}

// Asked lists everything that accepting asks for, done or not, in order.
func Asked(f Figures, by ByHand, lim safety.Limits, u quantity.Units) []Item {
	list := []Item{
		{"candles", f.Candles >= Candles, "Three candles burned", counted(f.Candles, "candle") + " so far", "common practice; EN 15426 takes the mean of three (read in a secondary source)", false},
		{"ended", f.Ended > 0, "One burned to the end, down to " + u.ShowLength(lim.WaxLeft()).String() + " of wax", burnedOut(f.Ended), lim.Source("wax_left"), false},
		{"hard", len(f.Hard) == 0, "No hard finding", hardNow(f.Hard), "the limits kept in this studio", false},
		{"target", f.Known && f.OnTarget >= LikelyOnTarget, "Chance on target of " + quantity.Chance(LikelyOnTarget).String() + " or more", chanceNow(f), "app default", false},
	}
	if f.AfterSmoke != nil {
		mean := quantity.Seconds(*f.AfterSmoke)
		list = append(list, Item{"smoke", mean <= lim.AfterSmoke(), "After-smoke of " + lim.AfterSmoke().Shown().String() + " or less in the mean",
			mean.Shown().String() + " over " + counted(f.SmokeBurns, "burn"), lim.Source("after_smoke"), false})
	}
	return append(list,
		Item{"tip", by.Tip, "Tipped 10° every way, full and near its end, and it stayed up", doneNow(by.Tip), "EN 15493, read in a secondary source; by hand", true},
		Item{"base", by.Base, "The surface under it stayed cool enough to keep a hand on", doneNow(by.Base), "common practice, no source; by hand", true})
}

// Missing are the items that are not done.
func Missing(items []Item) []Item {
	var out []Item
	for _, x := range items {
		if !x.Done {
			out = append(out, x)
		}
	}
	return out
}

func counted(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

func burnedOut(n int) string {
	if n == 0 {
		return "none yet without a hard finding"
	}
	return strconv.Itoa(n) + " without a hard finding"
}

func hardNow(hard []string) string {
	switch len(hard) {
	case 0:
		return "none recorded"
	case 1:
		return hard[0]
	}
	return counted(len(hard), "hard finding") + ", the first: " + hard[0]
}

func chanceNow(f Figures) string {
	if !f.Known {
		return "not enough yet: no burn tells the width at the target hour"
	}
	return quantity.Chance(f.OnTarget).String() + ", from " + counted(f.Candles, "candle") + " and " + counted(f.Burns, "burn")
}

func doneNow(done bool) string {
	if done {
		return "done"
	}
	return "not ticked"
}
