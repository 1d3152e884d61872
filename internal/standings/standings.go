// Package standings puts pairings (a vessel, a wick and how many of them) in
// order of how close they come to a full pool at the target hour, with
// everything that the order rests on.
//
// For now the width at the target hour is read by straight lines between
// checks and averaged twice: burns within a candle, candles within a pairing.
// The package refuses to rank a pairing whose burns say nothing about the
// hour, to hide what was left out, and to let the order depend on the order of
// its input. It has no clock and reads no storage.
package standings

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// Options are what the studio chose that the standings depend on.
type Options struct {
	Ruler  quantity.Millimetres // the ruler's step
	Limits safety.Limits
	Units  quantity.Units // for the words of faults, findings and warnings
}

// Table is the standings of every vessel that the logs speak of.
type Table struct {
	Groups  []Group // in order of the vessels' names
	Candles int     // behind all of it
	Burns   int
}

// Group is the standings in one vessel: pairings are only compared where the
// wall and the target hour are the same.
type Group struct {
	Vessel   journal.Vessel
	Target   quantity.Hours
	Settings []Setting // waxes and loads behind the pairings
	Pairings []Pairing // ranked ones first, then those below the line, then those without enough
	Candles  int
	Burns    int
	Warnings []string
}

// Setting is a wax with a fragrance load that candles were made of.
type Setting struct {
	Wax       journal.Wax
	Fragrance *journal.Fragrance
	Load      *quantity.Fraction // of the wax; nil when not recorded
	Candles   int
}

// Interval is three points of what is believed about a quantity; a nil point
// was not worked out.
type Interval struct{ P10, P50, P90 *float64 }

// Pairing is one vessel, wick and number of wicks, with what its candles did.
type Pairing struct {
	Vessel journal.Vessel
	Wick   journal.Wick
	Ladder journal.Ladder
	Wicks  int

	// Rank is the place by closeness among the pairings of the group that have
	// enough, 1 for the closest; 0 when there is not enough yet. Pairings
	// below the line keep theirs.
	Rank  int
	Ratio *float64 // mean width at the target hour over the inner width; nil when there is not enough yet
	Width *quantity.Millimetres
	Left  *quantity.Millimetres // wax left at the wall, on each side
	Min   *float64              // the narrowest burn's ratio
	Max   *float64              // the widest burn's

	// What a growth curve adds; nil or empty when it was not worked out.
	Miss          *float64 // how far from the band between too late and too soon, in log width
	WidthRange    Interval // mm
	HoursToFull   Interval // h
	ChanceOnTime  *float64
	ChanceClosest *float64

	Full     FullHours
	Candles  int // with at least one burn that tells
	Burns    int // that tell
	AllBurns int // that were looked at
	Settings []Setting
	Faults   []safety.Fault
	Hard     []safety.Finding // why it stands below the line; empty when it does not
	NotYet   string           // what would be enough; "" when there is enough
	Warnings []string
	Rows     []CandleRow
}

// Enough reports whether at least one burn tells the width at the hour.
func (p Pairing) Enough() bool { return p.Ratio != nil }

// BelowLine reports whether a hard finding stands against the pairing.
func (p Pairing) BelowLine() bool { return len(p.Hard) > 0 }

// Name is the pairing's wick as makers say it.
func (p Pairing) Name() string { return p.Ladder.Name + " " + p.Wick.Label }

// FullHours says between which hours the pools of a pairing became full.
type FullHours struct {
	Seen     int            // burns in which a pool was seen full
	From, To quantity.Hours // from the earliest window's start to the latest window's end
	NotSeen  int            // burns with widths, none of them full
	Within   quantity.Hours // the longest that such a burn was watched
	TooSoon  int            // burns seen full before half the target hour
}

// CandleRow is what one candle adds to its pairing.
type CandleRow struct {
	Candle journal.Candle
	Mean   *float64 // of its burns' ratios; nil when none tells
	Burns  []BurnRow
}

// BurnRow is what one burn adds to its candle.
type BurnRow struct {
	Burn    journal.ID
	Number  int
	LitAt   time.Time
	Used    bool
	Why     string       // why it is not used; "" when it is
	Ratio   float64      // at the target hour, when used
	How     meltpool.How // what the ratio rests on, when used
	OneAxis bool         // some width was measured one way only
	Full    meltpool.Window
	TooSoon bool
	LeftOut []LeftOut // checks with a width that were not used
}

// LeftOut is a reading that was kept out, with the reason.
type LeftOut struct {
	Check journal.ID
	At    time.Time
	Why   string
}
