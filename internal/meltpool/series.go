package meltpool

import (
	"cmp"
	"slices"

	"rimward/internal/quantity"
)

// Reading is one measured pool of a burn.
type Reading struct {
	Hour  quantity.Hours // since lighting
	Ratio float64        // of the inner width; not looked at when Full
	Full  bool           // the pool touched the wall all round
}

// reach is the reading's ratio, a full pool counted as the wall.
func (r Reading) reach() float64 {
	if r.Full {
		return 1
	}
	return r.Ratio
}

// How says what a width at an hour rests on.
type How string

// What a width at an hour can rest on, from firm to coarse.
const (
	AtCheck  How = "read at a check"
	Between  How = "by a straight line between two checks"
	FullEre  How = "the pool was full before"
	Held     How = "held from a check shortly before"
	FromNone How = "a coarse guess: by a straight line from nothing at lighting to the first check"
)

// Near is how long before an hour a last check still stands for it: ten
// minutes, in which a pool that nears the wall grows by about a hundredth of
// the width (chosen by us).
const Near quantity.Hours = 1.0 / 6

// Estimate is a width at an hour, with what it rests on.
type Estimate struct {
	Ratio float64 // of the inner width
	How   How
}

// AtHour is the pool's width at an hour after lighting, by straight lines
// between the readings around it. Before the first reading the line starts at
// nothing, which is a coarse guess. After the last one there is a width only
// when that was full or no longer than Near ago. When ok is false why says
// what is lacking.
func AtHour(readings []Reading, hour quantity.Hours) (e Estimate, ok bool, why string) {
	if len(readings) == 0 {
		return Estimate{}, false, "no width was measured"
	}
	rs := inOrder(readings)
	i, found := slices.BinarySearchFunc(rs, hour, func(r Reading, h quantity.Hours) int { return cmp.Compare(r.Hour, h) })
	switch {
	case found:
		return Estimate{rs[i].reach(), AtCheck}, true, ""
	case i == len(rs):
		return afterLast(rs[i-1], hour)
	case i == 0:
		return Estimate{onLine(Reading{}, rs[0], hour), FromNone}, true, ""
	}
	return Estimate{onLine(rs[i-1], rs[i], hour), Between}, true, ""
}

// afterLast is the width at an hour that no later reading frames.
func afterLast(last Reading, hour quantity.Hours) (Estimate, bool, string) {
	switch {
	case last.Full:
		return Estimate{1, FullEre}, true, ""
	case hour-last.Hour <= Near+1e-9:
		return Estimate{last.reach(), Held}, true, ""
	}
	return Estimate{}, false, "the last width was read at " + last.Hour.Clock() + ", before the target hour of " + hour.Clock()
}

// onLine reads the straight line through two readings at an hour.
func onLine(a, b Reading, hour quantity.Hours) float64 {
	share := float64((hour - a.Hour) / (b.Hour - a.Hour))
	return a.reach() + share*(b.reach()-a.reach())
}

// inOrder sorts a copy by hour; of readings at one hour the widest comes first.
func inOrder(readings []Reading) []Reading {
	rs := slices.Clone(readings)
	slices.SortStableFunc(rs, func(a, b Reading) int {
		return cmp.Or(cmp.Compare(a.Hour, b.Hour), cmp.Compare(b.reach(), a.reach()), fullFirst(a, b))
	})
	return rs
}

// fullFirst puts a full reading before one that is as wide but was not ticked.
func fullFirst(a, b Reading) int {
	switch {
	case a.Full == b.Full:
		return 0
	case a.Full:
		return -1
	}
	return 1
}

// Window is the span in which a pool became full.
type Window struct {
	Seen     bool           // there was a reading at all
	Never    bool           // no reading was full; To is then the last one
	From, To quantity.Hours // after From and by To
}

// FullWindow finds between which readings the pool met the wall: after the
// last one short of it before the first full one, or after lighting when the
// first was full already.
func FullWindow(readings []Reading) Window {
	w := Window{Seen: len(readings) > 0, Never: true}
	for _, r := range inOrder(readings) {
		w.To = r.Hour
		if r.Full {
			w.Never = false
			return w
		}
		w.From = r.Hour
	}
	return w
}

// TooSoon reports whether the pool was seen full by half the target hour, or
// no later than Near after it.
func (w Window) TooSoon(target quantity.Hours) bool {
	return w.Seen && !w.Never && w.To <= target/2+Near
}
