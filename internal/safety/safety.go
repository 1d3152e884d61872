// Package safety holds the limits that test burns are read against and the
// rules that compare a check, a burn or a candle with them.
//
// A rule is a named function from what was written down to a finding or none.
// A finding is never an error and blocks nothing. The limits are references,
// each with its source or marked as chosen by this program, and can be
// changed. The package refuses to say that a candle meets a standard or may be
// sold: for that there are the standards themselves, local rules and a test
// laboratory.
package safety

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Level is how much a finding weighs.
type Level string

// The levels, heaviest first.
const (
	Hard    Level = "hard"    // stands against the pairing
	Caution Level = "caution" // look at it, change one thing, try again
	Note    Level = "note"    // worth knowing
)

// Finding is one thing that a rule found.
type Finding struct {
	Rule    string // the rule's name, the same for the same kind of finding
	Level   Level
	Text    string         // a sentence with the reading and the limit
	Reading quantity.Shown // empty where the finding has no number
	Limit   quantity.Shown
	Source  string    // where the limit or the advice comes from
	At      time.Time // when it was seen
	Now     bool      // danger: act at once
	Do      []string  // what to do, in order

	// Where it was seen; Candle is empty and Burn 0 where the caller knows.
	Candle   string // the candle's code
	CandleID journal.ID
	Burn     int            // the burn's number
	Hour     quantity.Hours // since lighting; 0 where it was not seen at an hour of a burn
	Check    journal.ID     // the check that shows it; 0 where none does
}

// Dangers picks the findings that cannot wait.
func Dangers(fs []Finding) []Finding {
	return pick(fs, func(f Finding) bool { return f.Now })
}

// OfLevel picks the findings of one level.
func OfLevel(fs []Finding, l Level) []Finding {
	return pick(fs, func(f Finding) bool { return f.Level == l })
}

func pick(fs []Finding, keep func(Finding) bool) []Finding {
	var out []Finding
	for _, f := range fs {
		if keep(f) {
			out = append(out, f)
		}
	}
	return out
}

// over says how a reading above its limit stands to it, also where both are
// shown alike after rounding.
func over(reading, limit quantity.Shown) string {
	if reading == limit {
		return "just over the limit of " + limit.String()
	}
	return "over the limit of " + limit.String()
}

// Sources that several rules share.
const (
	practice = "common practice, no source"
	ours     = "app default"
)
