// Package plan says what falls due and when: the checks of a burn that is lit,
// and what waits on the bench; and it lays out the days of a round, from the pour
// to the last burn.
//
// It has no clock: whoever asks hands the moment. It refuses to pile up what
// was missed: a check that nobody made is passed over once the next falls due.
// Its results are values; the words are for the pages to find, but for what
// stands in the way of a plan, which it says in sentences.
package plan

import (
	"time"

	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// Pace is the rhythm of a studio's test burns.
type Pace struct {
	Every       quantity.Hours // between two checks
	Longest     quantity.Hours // of a burn
	Rest        quantity.Hours // between two burns, at least
	RestAdvised quantity.Hours // between two burns, better
}

// PaceOf is the rhythm that a studio's limits set.
func PaceOf(l safety.Limits) Pace {
	return Pace{Every: l.CheckEvery(), Longest: l.LongestBurn(), Rest: l.Rest(), RestAdvised: l.RestAdvised()}
}

// Usual is the rhythm of a studio that changed nothing.
func Usual() Pace { return PaceOf(safety.NewLimits(nil)) }

// after is the moment some hours after another.
func after(t time.Time, h quantity.Hours) time.Time {
	return t.Add(time.Duration(float64(h) * float64(time.Hour)).Round(time.Second))
}

// since is the span from one moment to another in hours.
func since(from, to time.Time) quantity.Hours { return quantity.Hours(to.Sub(from).Hours()) }

// ExpectedShare is the share of the way to the wall where a pool would be by
// now if it went there at a steady pace and arrived at the target hour. It is
// a mark to look at, not a model: pools open quickly and then slow down.
func ExpectedShare(lit, target quantity.Hours) float64 {
	if lit <= 0 {
		return 0
	}
	if target <= lit {
		return 1
	}
	return float64(lit / target)
}
