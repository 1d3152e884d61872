// Package tree works out how wide the pools of a ladder of wicks are from the
// readings of their burns: exact inference on a small tree, from burns to
// candles to pairings to the line of the ladder, each message a sheet of
// numbers on a fixed grid, averaged over short lists of values for what no
// single series can tell.
//
// It draws no random numbers and does not iterate: the same readings give the
// same answer. It knows no journal, no clock and no storage; it refuses to
// rank, which is for those who know about faults, and to guess for a rung
// without saying that it was not tested.
package tree

import (
	"math"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// Burn is the readings of one burn that count; there is at least one.
type Burn []meltpool.Reading

// Pairing is one rung of a series with its candles, each a list of burns. One
// without candles is a rung that was not tested.
type Pairing struct {
	Rung    int
	Candles [][]Burn
}

// Tested reports whether any burn speaks for the rung.
func (p Pairing) Tested() bool { return p.Burns() > 0 }

// Burns counts the burns.
func (p Pairing) Burns() int {
	n := 0
	for _, c := range p.Candles {
		n += len(c)
	}
	return n
}

// Series is one ladder of wicks in one vessel in one setting. Pairings have
// different rungs.
type Series struct {
	Wall     meltpool.Wall
	Ruler    quantity.Millimetres // the ruler's step
	Pairings []Pairing

	mid int // the middle rung; filled in when the series is taken up
}

// middle is the rung that the ladder's line is pinned to: the mean of the
// tested rungs, rounded half up.
func (s Series) middle() int {
	n, sum := 0, 0
	for _, p := range s.Pairings {
		if p.Tested() {
			n, sum = n+1, sum+p.Rung
		}
	}
	if n == 0 {
		return 0
	}
	return int(math.Floor(float64(sum)/float64(n) + 0.5))
}

// burns counts what a series holds.
func (s Series) burns() int {
	n := 0
	for _, p := range s.Pairings {
		n += p.Burns()
	}
	return n
}
