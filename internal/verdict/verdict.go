// Package verdict says what a decision about a pairing rests on: the figures
// as they stood, what was still missing, and what has moved since.
//
// It decides nothing: a person accepts or rejects. It refuses to call a pairing
// safe, or to say that it meets a standard. It has no clock and reads no
// storage.
package verdict

import (
	"encoding/json"
	"fmt"
	"math"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
)

// Evidence is all that is known of a pairing.
type Evidence struct {
	Pairing standings.Pairing
	Ranked  int // how many pairings of its series stand above the line
	Logs    []journal.CandleLog
	Limits  safety.Limits
}

// Span is a figure with the ends of its 80 % interval.
type Span struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// Count is how often something showed, out of how many burns that were looked
// at for it.
type Count struct {
	Name  string `json:"name"`
	Burns int    `json:"burns"`
	Of    int    `json:"of"`
}

// Figures are what a verdict rests on, frozen with it. Lengths are mm, times
// hours, rates g/h. A nil is not known.
type Figures struct {
	Candles int `json:"candles"` // with at least one burn that tells
	Burns   int `json:"burns"`
	Ended   int `json:"ended"` // burned to the end without a hard finding

	Target  float64 `json:"target"`
	Known   bool    `json:"known"` // at least one burn tells the width
	Width   Span    `json:"width"` // at the target hour with no wall, the pairing's average
	Next    Span    `json:"next"`  // the same for a next candle
	AtLeast bool    `json:"at_least,omitempty"`
	// Full is the time to a full pool of the next candle; an end that may never
	// come is left out.
	Full     [3]*float64 `json:"full"`
	OnTarget float64     `json:"on_target"`
	Never    float64     `json:"never"`
	Close    float64     `json:"closeness"`
	Rank     int         `json:"rank"`
	Ranked   int         `json:"ranked"`

	Faults []Count  `json:"faults"`
	Hard   []string `json:"hard"`

	Rate        *Span    `json:"rate"` // over candles, 95 % interval
	RateCandles int      `json:"rate_candles"`
	AfterSmoke  *float64 `json:"after_smoke"` // s, mean over burns
	SmokeBurns  int      `json:"smoke_burns"`
	Label       *float64 `json:"label"` // h, the bound of the burn time
	LabelOn     int      `json:"label_on"`
}

// Freeze gathers the figures as they are now.
func Freeze(e Evidence) Figures {
	x := e.Pairing
	f := Figures{Candles: x.Candles, Burns: x.Burns, Ended: x.Ended, Target: float64(x.Vessel.Target()), Known: x.Enough(), Rank: x.Rank, Ranked: e.Ranked}
	if f.Known {
		f.Width, f.Next = Span{x.Width.P10, x.Width.P50, x.Width.P90}, Span{x.Next.P10, x.Next.P50, x.Next.P90}
		f.AtLeast, f.OnTarget, f.Never, f.Close = x.AtLeast, x.OnTarget, x.Never, x.Closeness()
		f.Full = [3]*float64{ever(x.Full.P10), ever(x.Full.P50), ever(x.Full.P90)}
	}
	for _, c := range x.Faults {
		f.Faults = append(f.Faults, Count{c.Name, c.Burns, c.Of})
	}
	for _, h := range x.Hard {
		f.Hard = append(f.Hard, seenIn(h)+h.Text)
	}
	f.burning(e)
	return f
}

// burning fills in what the weighings and the snuffings tell.
func (f *Figures) burning(e Evidence) {
	if o := life.RatesOver(e.Logs); o.Candles > 0 {
		f.RateCandles, f.Rate = o.Candles, &Span{Mid: float64(o.Mean)}
		if o.Range.Known {
			f.Rate.Low, f.Rate.High = o.Range.Low, o.Range.High
		}
	}
	if l := life.LabelTime(e.Logs, e.Limits.WaxLeft()); l.Enough() && !l.Useless() {
		bound := float64(l.Bound)
		f.Label, f.LabelOn = &bound, len(l.Ended)
	}
	sum := 0.0
	for _, l := range e.Logs {
		for _, b := range l.Burns {
			if s := b.Burn.AfterSmoke; s != nil && !b.Burn.IsGone() {
				sum, f.SmokeBurns = sum+float64(*s), f.SmokeBurns+1
			}
		}
	}
	if f.SmokeBurns > 0 {
		mean := sum / float64(f.SmokeBurns)
		f.AfterSmoke = &mean
	}
}

// ever is a time that comes; nil for one that may not.
func ever(h float64) *float64 {
	if math.IsInf(h, 0) || math.IsNaN(h) {
		return nil
	}
	return &h
}

func seenIn(f safety.Finding) string {
	switch {
	case f.Candle == "":
		return ""
	case f.Burn == 0:
		return f.Candle + ": "
	}
	return fmt.Sprintf("%s, burn %d: ", f.Candle, f.Burn)
}

// Write is the figures as a verdict keeps them.
func (f Figures) Write() (json.RawMessage, error) {
	text, err := json.Marshal(f)
	if err != nil {
		return nil, fmt.Errorf("write figures: %w", err)
	}
	return text, nil
}

// Read reads the figures of a verdict.
func Read(text json.RawMessage) (Figures, error) {
	var f Figures
	if err := json.Unmarshal(text, &f); err != nil {
		return f, fmt.Errorf("read figures: %w", err)
	}
	return f, nil
}

// LabelTime is the bound as hours; ok is false when there is none.
func (f Figures) LabelTime() (h quantity.Hours, ok bool) {
	if f.Label == nil {
		return 0, false
	}
	return quantity.Hours(*f.Label), true
}
