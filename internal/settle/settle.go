// Package settle counts how the candles of a wax set: how often each fault was
// seen at a set check, of how many candles that were looked at for it, and what
// the temperature of the pour went with.
//
// Candles of one pour share their wax, their oil and their evening, so they are
// not independent: every count comes with the number of pours behind it, and
// the interval, which takes candles as independent, is too narrow where pours
// are few. A candle that nobody looked at is counted apart and never as sound.
// The package refuses to say what caused a fault, and to guess at what was not
// written down.
package settle

import (
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/stats"
)

// Level is the level of the intervals.
const Level = 0.95

// Enough is how many candles must have been looked at for a fault before how
// often it comes is told as a share (app default).
const Enough = 5

// Count is how often one fault was seen in some candles.
type Count struct {
	Fault     safety.SetFault
	Seen      int // candles that showed it
	Heavy     int // of those, heavily
	Looked    int // candles that were looked at for it, set
	NotLooked int // candles that are set and were not looked at for it
	Pours     int // that the candles looked at came from
	PoursSeen int // of those, with at least one candle that showed it
	// Low and High are Wilson's interval of the share of candles that show it,
	// as if candles were independent; 0 and 1 where none was looked at.
	Low, High float64
}

// Enough reports whether a share may be told.
func (c Count) Enough() bool { return c.Looked >= Enough }

// OnePour reports whether all that is known comes from a single pour, whose
// candles share their luck.
func (c Count) OnePour() bool { return c.Pours == 1 }

// Share is the share of candles that showed the fault; 0 where none was looked
// at.
func (c Count) Share() float64 {
	if c.Looked == 0 {
		return 0
	}
	return float64(c.Seen) / float64(c.Looked)
}

// Group is some candles with the count of every fault.
type Group struct {
	Candles int // that are set
	Looked  int // of those, looked at when set
	Early   int // of the rest, looked at only before a day had passed
	Pours   int // that the candles looked at came from
	Counts  []Count
}

// Of counts the faults of candles. Set checks before a full day do not count,
// and candles that are not set by now are left out, as are those that were
// withdrawn.
func Of(logs []journal.CandleLog, now time.Time) Group {
	cs := settled(logs, now)
	g := Group{Candles: len(cs)}
	looked := pours{}
	for _, c := range cs {
		switch {
		case len(c.checks) > 0:
			g.Looked++
			looked[c.log.Candle.Pour] = true
		case c.early:
			g.Early++
		}
	}
	g.Pours = len(looked)
	for _, f := range safety.SetFaults {
		g.Counts = append(g.Counts, count(cs, f))
	}
	return g
}

type pours map[journal.ID]bool

// candle is one set candle with the set checks made once it was set.
type candle struct {
	log    journal.CandleLog
	checks []journal.SetCheck
	early  bool // it was looked at before it was set
}

func settled(logs []journal.CandleLog, now time.Time) []candle {
	var out []candle
	for _, l := range logs {
		if l.Withdrawn() || now.Before(journal.SetsBy(l.Pour.At)) {
			continue
		}
		c := candle{log: l}
		for _, s := range l.CountedSetChecks() {
			if s.Early(l.Pour.At) {
				c.early = true
				continue
			}
			c.checks = append(c.checks, s)
		}
		out = append(out, c)
	}
	return out
}

func count(cs []candle, f safety.SetFault) Count {
	n := Count{Fault: f}
	looked, seen := pours{}, pours{}
	for _, c := range cs {
		worst, did := safety.Worst(c.checks, f)
		if !did {
			n.NotLooked++
			continue
		}
		n.Looked++
		looked[c.log.Candle.Pour] = true
		if worst.Seen() {
			n.Seen++
			seen[c.log.Candle.Pour] = true
		}
		if worst == journal.AmountHeavy {
			n.Heavy++
		}
	}
	n.Pours, n.PoursSeen = len(looked), len(seen)
	n.Low, n.High = stats.WilsonInterval(n.Seen, n.Looked, Level)
	return n
}

// Wax is how the candles of one wax set.
type Wax struct {
	Wax     journal.Wax
	All     Group
	ByGuide []Band // against the supplier's range for pouring
	BySteps []Band // by temperature, in steps of Step
}

// ByWax counts the candles of each wax by itself, in the order of the waxes'
// names; waxes without a set candle are left out.
func ByWax(logs []journal.CandleLog, now time.Time) []Wax {
	of := map[journal.ID][]journal.CandleLog{}
	var order []journal.Wax
	for _, l := range logs {
		if len(of[l.Wax.ID]) == 0 {
			order = append(order, l.Wax)
		}
		of[l.Wax.ID] = append(of[l.Wax.ID], l)
	}
	slices.SortStableFunc(order, compareNames)
	var out []Wax
	for _, w := range order {
		x := Wax{Wax: w, All: Of(of[w.ID], now), ByGuide: byGuide(of[w.ID], now), BySteps: bySteps(of[w.ID], now)}
		if x.All.Candles > 0 {
			out = append(out, x)
		}
	}
	return out
}
