// Package verdict says what is still missing before a pairing can be accepted,
// freezes the figures that a verdict rests on, and says what has moved since.
//
// It puts together what the standings, the limits and the lives of candles
// say. It refuses to decide anything: a person accepts or rejects. It refuses
// to call a pairing safe, fit for sale or in keeping with any standard, and it
// knows no storage, no pages and no clock.
package verdict

import (
	"fmt"
	"math"
	"time"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

// Evidence is everything that is known of a pairing at a moment.
type Evidence struct {
	Series   standings.Series
	Pairing  standings.Pairing
	Logs     []journal.CandleLog // of its candles, with the burns and checks that count
	Limits   safety.Limits
	Revision int64 // of the journal that this was worked out from
	At       time.Time
}

// Freeze copies what a verdict rests on. What was not measured is nil.
func Freeze(e Evidence) journal.VerdictFigures {
	p := e.Pairing
	f := journal.VerdictFigures{
		Schema: journal.FiguresSchema, At: e.At, Revision: e.Revision,
		Candles: p.CandleIDs(), Telling: p.Candles, Burns: p.Burns, AllBurns: p.AllBurns,
		Wall: p.Vessel.Width(), Target: p.Vessel.Target(), Rank: p.Rank, Ranked: ranked(e.Series),
	}
	if p.Enough() {
		f.Enough, f.AtLeast = true, p.AtLeast
		f.Width, f.Next, f.Full = widths(p.Width), widths(p.Next), hours(p.Full)
		f.Never, f.OnTarget, f.Closest, f.Closeness = p.Never, p.OnTarget, p.Closest, p.Closeness()
	}
	for _, x := range p.Faults {
		f.Faults = append(f.Faults, journal.FaultCount{Name: x.Name, Burns: x.Burns, Of: x.Of})
	}
	for _, x := range p.Hard {
		f.Hard, f.HardKeys = append(f.Hard, hardText(x)), append(f.HardKeys, hardKey(x))
	}
	lived(&f, e)
	settled(&f, e.Logs)
	f.Missing = namesOf(measured(f))
	return f
}

// ranked counts the pairings of a series that have a place.
func ranked(s standings.Series) int {
	n := 0
	for _, p := range s.Pairings {
		if p.Rank > 0 {
			n++
		}
	}
	return n
}

// hardText is a finding with the candle and the burn it was seen in.
func hardText(f safety.Finding) string {
	switch {
	case f.Candle == "":
		return f.Text
	case f.Burn == 0:
		return f.Candle + ": " + f.Text
	}
	return f.Candle + ", burn " + quantity.Number(float64(f.Burn), 0) + ": " + f.Text
}

// hardKey tells a finding from others by its rule and where it was seen, so
// that other words for it or a corrected reading make no other finding.
func hardKey(f safety.Finding) string {
	return fmt.Sprintf("%s/%d/%d/%d", f.Rule, f.CandleID, f.Burn, f.Check)
}

// lived fills in how fast and how long the candles burned.
func lived(f *journal.VerdictFigures, e Evidence) {
	label := life.LabelTime(e.Logs, e.Limits.WaxLeft())
	if f.Ended = len(label.Ended); f.Ended > 0 {
		f.Label = &journal.LabelFigures{Candles: f.Ended, Mean: label.Mean, Doubts: label.Doubts}
		if label.Enough() && !label.Useless() {
			f.Label.Bound = &label.Bound
		}
	}
	if o := life.RatesOver(e.Logs); o.Candles > 0 {
		f.Rate = &journal.RateSpan{Mean: o.Mean, Candles: o.Candles, Burns: o.Burns}
		if o.Range.Known {
			low, high := quantity.GramsPerHour(o.Range.Low), quantity.GramsPerHour(o.Range.High)
			f.Rate.Low, f.Rate.High = &low, &high
		}
	}
	f.AfterSmoke = smoke(e.Logs, e.Limits)
}

// smoke is the mean after-smoke over every burn of every candle in which it
// was timed; nil when it never was. EN 15493:2019 takes its mean so (read in a
// secondary source).
func smoke(logs []journal.CandleLog, lim safety.Limits) *journal.SmokeFigures {
	out := journal.SmokeFigures{Limit: lim.AfterSmoke()}
	var sum quantity.Seconds
	for _, l := range logs {
		for _, b := range l.Burns {
			if b.Burn.AfterSmoke != nil && !b.Burn.IsGone() {
				sum, out.Burns = sum+*b.Burn.AfterSmoke, out.Burns+1
			}
		}
	}
	if out.Burns == 0 {
		return nil
	}
	out.Mean = sum / quantity.Seconds(out.Burns)
	return &out
}

func widths(p tree.Points) journal.WidthSpan {
	return journal.WidthSpan{P10: quantity.Millimetres(p.P10), P50: quantity.Millimetres(p.P50), P90: quantity.Millimetres(p.P90)}
}

// hours are three points of a time; nil where it may never come.
func hours(p tree.Points) journal.HoursSpan {
	at := func(v float64) *quantity.Hours {
		if math.IsInf(v, 0) || math.IsNaN(v) {
			return nil
		}
		h := quantity.Hours(v)
		return &h
	}
	return journal.HoursSpan{P10: at(p.P10), P50: at(p.P50), P90: at(p.P90)}
}
