// Package influence asks what went with wider and narrower pools across the
// candles of one wax: fragrance load, pour temperature, warmed vessels and days
// of cure.
//
// It compares only within a pairing (vessel, wick, number of wicks) of one
// fragrance, each thing adjusted for the others, and says of each whether the
// candles can tell. Candles of one pour share whatever was particular to that
// pour, so that the doubt about a thing that belongs to pours is that of the
// pours, however many candles were made of each. What never varied within a
// pairing, what always moved together with something else, and what too few
// candles or pours speak for has no figure; the answer says why. It refuses to call a difference a cause: candles
// that were not made to differ in one thing alone may differ in more than was
// written down. It reads no storage and has no clock.
package influence

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Level is the level of the intervals, that of the standings.
const Level = 0.8

// Factor is one thing that may move the pool.
type Factor int

// The factors, with the unit that each is counted in.
const (
	Load     Factor = iota // share of the wax
	PouredAt               // °C
	Warmed                 // 1 for a vessel that was warmed, 0 for one that was not, or where that was not noted
	Cured                  // days from the pour to the first burn
)

// Factors lists them in the order a page shows them.
var Factors = []Factor{Load, PouredAt, Warmed, Cured}

// Step is how much of a factor its effect is judged and told by: a percentage
// point of oil, 5 °C, warmed or not, a week.
func (f Factor) Step() float64 {
	return map[Factor]float64{Load: 0.01, PouredAt: 5, Warmed: 1, Cured: 7}[f]
}

// Stratum is what candles are compared within.
type Stratum struct {
	Vessel, Wick, Fragrance journal.ID // Fragrance is 0 without one
	Wicks                   int
}

// Candle is one candle with what may have moved its pool.
type Candle struct {
	Code    string
	Stratum Stratum
	Pour    journal.ID
	Wall    quantity.Millimetres // the vessel's inner width
	Values  map[Factor]float64   // what is known, in the factor's unit
	// Width is the logarithm of the pool's width at the target hour over the
	// wall, if no wall stopped it, as a mean over its burns.
	Width stats.Censored
	Burns int // behind it
}

// Answer is what the candles of one wax tell.
type Answer struct {
	Effects  []Effect
	Untold   []Untold
	Candles  int // that were compared
	Pairings int // that they belong to, fragrances apart
	Burns    int
	Open     int                  // of the candles, full so early that their width is hardly known but from below
	Typical  quantity.Millimetres // the middle width of the pools compared
	Scatter  float64              // standard deviation, in log width, from candle to candle of a pairing
	DF       int                  // degrees of freedom of the candles behind Scatter
	LeftOut  LeftOut
}

// Effect is how the pool's log width goes with one factor, for each of its
// units, the other factors held.
type Effect struct {
	Factor              Factor
	Estimate, Low, High float64
	Candles, Pairings   int // where the factor varied within the pairing
	Batches             int // the different pours among them
	From, To            float64
	// DF are the degrees of freedom behind the interval: of pours, or of candles
	// where the effect is Inside.
	DF float64
	// Inside says that only candles of one pour were compared with each other,
	// so that nothing that belongs to a pour as a whole counts along.
	Inside bool
}

// Told reports whether the interval leaves the direction without doubt.
func (e Effect) Told() bool { return e.Low > 0 || e.High < 0 }

// Untold is a factor that the candles cannot tell of.
type Untold struct {
	Factor Factor
	Why    Why
	With   []Factor // what it moved together with
	Noted  int      // candles that it was noted of, of
	Of     int      // so many
	Lacks  int      // how many more candles, or pours, would do, at least
	Pours  int      // how many speak for it, where they are TooFewPours
	Effect Effect   // what was found all the same, where it is TooAlike
}

// Why says why a factor cannot be told.
type Why int

// The reasons.
const (
	NeverVaried  Why = iota // it was the same for all candles
	NotWithin               // it varied, but never within a pairing
	Together                // it moved together with With
	HardlyNoted             // it was noted of too few candles
	TooFew                  // too few candles for so many pairings
	TooFewPours             // too few pours, or all but a few of them alike in it
	WallHidesAll            // where it differed, all pools were at the wall
	TooAlike                // the candles differ in it too little: the interval says nothing
)

// LeftOut counts the candles that were not compared.
type LeftOut struct {
	NoWidth    int // no width was read late enough in a burn
	Incomplete int // something that varied was not noted of it
	Alone      int // no other candle of its pairing is left
	AtWall     int // every candle of its pairing was full at every look
}
