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

// Near is how long after half the target hour a pool that was seen full still
// counts as full too soon: ten minutes, in which a pool that nears the wall
// grows by about a hundredth of the width (chosen by us).
const Near quantity.Hours = 1.0 / 6

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
