package demo

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// round is one question put to several candles: which rung, in this vessel and
// this setting?
type round struct {
	daysAgo   int
	wax       journal.ID
	fragrance journal.ID
	load      quantity.Fraction // of the wax
	vessel    journal.ID
	ladder    journal.ID
	rungs     []int
	copies    int // candles of each rung
	wicks     int
	burns     int // how often each is lit before the season ends; 0: until spent
	litNow    []int
	mishaps   []mishap
	pictured  []pictured
	asks      *asked // the planned round that it belongs to; nil for none
	copy      int    // which copy of that round it pours; 0: all
}

// pictured is a burn whose whole hours are photographed, of one candle of the
// round's batch.
type pictured struct{ nth, burn int }

// Moments of a candle that have no burn's number.
const (
	asSet      = 0
	burningNow = -1
)

// mishap is something that the plan brings about in one burn.
type mishap struct {
	rung, copy, burn int
	what             mishapKind
}

type mishapKind int

const (
	none        mishapKind = iota
	drowns                 // the flame sinks into the wax and goes out
	spreads                // a tall flame, and fire on the pool
	misread                // a width written down wrongly, corrected soon after
	wrongCandle            // another candle's reading, withdrawn soon after
)

// plan is what a studio sets out to do.
type plan struct {
	days     int // how far back the studio goes
	rounds   []round
	bench    int     // most candles lit together
	keenness float64 // chance that a day with candles ready has a sitting
	together time.Duration
	verdicts []judged
	asked    []asked
	casts    bool // some pours fill a mould too
	settled  bool // somebody looks at the tops a day after a pour
}

// Sittings that go on now, by the marks in round.litNow.
const (
	sittingNow   = 1
	sittingLater = 2
)

// seasonPlan is the season's list of rounds, oldest first.
func seasonPlan() plan {
	return plan{days: 152, casts: true, settled: true, bench: 8, keenness: 0.62, together: 12 * time.Hour, verdicts: seasonVerdicts(), asked: []asked{whichRung, rainRung}, rounds: []round{
		{daysAgo: 150, wax: meadow, fragrance: fig, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{2, 4, 6}, copies: 2, wicks: 1,
			mishaps: []mishap{{rung: 2, burn: 3, what: drowns}}, pictured: []pictured{{0, 1}, {0, 10}}},
		{daysAgo: 133, wax: meadow, fragrance: fig, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{4, 5, 6, 7}, copies: 2, wicks: 1,
			mishaps: []mishap{{rung: 7, burn: 4, what: spreads}, {rung: 5, copy: 1, burn: 2, what: misread}}},
		{daysAgo: 121, wax: meadow, fragrance: fig, load: 0.08, vessel: fern, ladder: larkspur, rungs: []int{1, 2, 3, 4, 5}, copies: 2, wicks: 2},
		{daysAgo: 100, wax: harbour, fragrance: rain, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{3, 4, 5, 6}, copies: 2, wicks: 1, asks: &whichRung,
			mishaps: []mishap{{rung: 4, burn: 3, what: wrongCandle}}},
		{daysAgo: 88, wax: harbour, fragrance: rain, load: 0.08, vessel: slate, ladder: alder, rungs: []int{1, 2, 3, 4}, copies: 2, wicks: 1},
		{daysAgo: 61, wax: meadow, fragrance: rain, load: 0.1, vessel: slate, ladder: alder, rungs: []int{2, 3}, copies: 2, wicks: 1},
		{daysAgo: 58, wax: harbour, fragrance: fig, load: 0.06, vessel: fern, ladder: larkspur, rungs: []int{2, 3, 4}, copies: 1, wicks: 2},
		{daysAgo: 55, wax: meadow, fragrance: fig, load: 0.1, vessel: pebble, ladder: larkspur, rungs: []int{4, 5}, copies: 1, wicks: 1, burns: 4},
		{daysAgo: 50, wax: meadow, fragrance: fig, load: 0.1, vessel: pebble, ladder: larkspur, rungs: []int{4, 5}, copies: 1, wicks: 1, burns: 4},
		{daysAgo: 31, wax: meadow, fragrance: fig, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{5}, copies: 3, wicks: 1, burns: 3,
			litNow: []int{sittingNow, sittingNow}, pictured: []pictured{{0, asSet}, {0, 1}, {0, burningNow}}},
		{daysAgo: 29, wax: harbour, fragrance: rain, load: 0.08, vessel: slate, ladder: alder, rungs: []int{2}, copies: 2, wicks: 1, burns: 2, litNow: []int{sittingLater}},
		{daysAgo: 22, wax: meadow, fragrance: fig, load: 0.08, vessel: fern, ladder: larkspur, rungs: []int{3, 4}, copies: 1, wicks: 2, burns: 2, litNow: []int{sittingNow},
			pictured: []pictured{{0, asSet}, {0, 1}, {0, burningNow}}},
		{daysAgo: 21, wax: meadow, fragrance: fig, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{3}, copies: 2, wicks: 1, burns: 2, litNow: []int{sittingNow}},
		{daysAgo: 15, wax: meadow, fragrance: rain, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{4, 5, 6}, copies: 1, wicks: 1, asks: &rainRung, copy: 1},
		{daysAgo: 12, wax: meadow, fragrance: rain, load: 0.08, vessel: pebble, ladder: alder, rungs: []int{2, 3}, copies: 1, wicks: 1, burns: -1},
		{daysAgo: 6, wax: harbour, fragrance: fig, load: 0.08, vessel: fern, ladder: larkspur, rungs: []int{3, 4}, copies: 1, wicks: 2},
		{daysAgo: 1, wax: meadow, fragrance: rain, load: 0.08, vessel: pebble, ladder: larkspur, rungs: []int{4, 5, 6}, copies: 1, wicks: 1, asks: &rainRung, copy: 2},
	}}
}
