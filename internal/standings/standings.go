// Package standings puts pairings (a vessel, a wick and how many of them) in
// order of how close they come to a full pool at the target hour, with
// everything that the order rests on and what to try next.
//
// It turns the journal's candles, or readings kept elsewhere, into ladders of
// wicks, has package tree work those out, and says the answer in words. It
// refuses to rank a pairing that nothing speaks for, to hide what was left
// out, and to let the order depend on the order of its input. It has no clock
// and reads no storage.
package standings

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings/tree"
)

// Table is the standings of everything that was asked for.
type Table struct {
	Groups  []Group       // in order of the vessels' names and the settings
	Shapes  []ShapeWeight // how pools open in this studio
	Candles int           // behind all of it
	Burns   int
	Between []Between // chances over all groups; only from JudgeBetween
}

// Group is what was burned in one vessel in one setting: here pairings can be
// compared, for the wall and the target hour are the same.
type Group struct {
	Vessel   journal.Vessel
	Target   quantity.Hours
	Settings []Setting // one, but where different ones are taken together
	Series   []Series
	Across   []Chance // the chances over all its series, where there are several
	Candles  int
	Burns    int
}

// Series is one ladder of wicks in a group, with so many wicks to a candle.
type Series struct {
	Key      string // names it in an address, within its vessel and wax
	Setting  string // names its fragrance and load in an address
	Ladder   journal.Ladder
	Wicks    int
	Pairings []Pairing // ranked ones first, then those below the line, then those without enough
	Guesses  []Pairing // rungs between and beside the tested ones, by rung; never ranked
	Advice   Advice
	Warnings []string
	Candles  int
	Burns    int
}

// Chance is one pairing's chance of being the closest.
type Chance struct {
	Name   string
	Chance float64
	Wick   journal.ID // with Wicks, which pairing; 0 where it is not in the journal
	Wicks  int
}

// Pairing is one vessel, wick and number of wicks, with what its candles did.
type Pairing struct {
	Vessel journal.Vessel
	Wick   journal.Wick
	Ladder journal.Ladder
	Wicks  int

	// Rank is the place by closeness among the pairings of the series that have
	// enough and stand above the line, 1 for the closest; 0 for all others.
	Rank int
	tree.Figures
	Running bool // still in the running for the closest
	Slips   bool // every reading hardly fits: they say nothing of the pool
	AtLeast bool // no reading below the wall: the upper ends of widths are not known

	Candles  int // with at least one burn that tells
	Burns    int // that tell
	AllBurns int // that were looked at
	Ended    int // candles burned to the end without a hard finding
	Faults   []safety.Fault
	Hard     []safety.Finding // why it stands below the line; empty when it does not
	NotYet   string           // what would be enough; "" when there is enough
	Warnings []string
	Rows     []CandleRow
}

// Find is the pairing of a wick, with its group and series, in a table of one
// series; ok is false when it is not there.
func (t Table) Find(wick journal.ID) (g Group, s Series, p Pairing, ok bool) {
	for _, g := range t.Groups {
		for _, s := range g.Series {
			for _, p := range s.Pairings {
				if p.Wick.ID == wick {
					return g, s, p, true
				}
			}
		}
	}
	return Group{}, Series{}, Pairing{}, false
}

// Each hands every burned pairing of a table to do, with its group and series.
func (t Table) Each(do func(Group, Series, Pairing)) {
	for _, g := range t.Groups {
		for _, s := range g.Series {
			for _, p := range s.Pairings {
				do(g, s, p)
			}
		}
	}
}

// CandleIDs are the candles that were burned in the pairing.
func (p Pairing) CandleIDs() []journal.ID {
	var out []journal.ID
	for _, c := range p.Rows {
		if c.Candle.ID != 0 {
			out = append(out, c.Candle.ID)
		}
	}
	return out
}

// Enough reports whether at least one burn tells the width at the hour.
func (p Pairing) Enough() bool { return p.Tested && !p.Slips }

// BelowLine reports whether a hard finding stands against the pairing.
func (p Pairing) BelowLine() bool { return len(p.Hard) > 0 }

// Name is the pairing's wick as makers say it.
func (p Pairing) Name() string {
	if p.Wick.Label == "" {
		return p.Ladder.Name
	}
	return p.Ladder.Name + " " + p.Wick.Label
}

// Closeness is 100 less the miss in hundredths of log width: 100 for a pool
// that is sure to be full in time and not too soon. It is not below 0.
func (p Pairing) Closeness() float64 { return max(0, 100*(1-p.Miss())) }

// CandleRow is what one candle adds to its pairing.
type CandleRow struct {
	Candle journal.Candle
	Name   string // its code
	Burns  []BurnRow
}

// BurnRow is what one burn adds to its candle.
type BurnRow struct {
	Burn     journal.ID
	Number   int
	LitAt    time.Time
	Readings []meltpool.Reading // in order of time; they count when the burn does
	Why      string             // why it does not count; "" when it does
	OneAxis  bool               // some width was measured one way only
	Full     meltpool.Window
	TooSoon  bool
	Early    bool         // it was lit before the candle was set and cured
	LeftOut  []LeftOut    // checks with a width that were not used
	Fit      tree.BurnFit // empty when it does not count
	overWall bool         // some width was larger than the vessel
	jumbled  bool         // its hours were written out of order
}

// Used reports whether the burn counts.
func (b BurnRow) Used() bool { return b.Why == "" && len(b.Readings) > 0 }

// LeftOut is a reading that was kept out, with the reason.
type LeftOut struct {
	Check journal.ID
	At    time.Time
	Why   string
}
