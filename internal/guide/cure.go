package guide

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// UsualCure is how long candles of a family usually cure, in days; nothing
// where the trade has no usual range. Common practice, no source: a hint for
// waxes whose supplier states none, never a guidance.
func UsualCure(f journal.WaxFamily) journal.Range[quantity.Days] {
	usual, known := map[journal.WaxFamily][2]quantity.Days{
		"paraffin": {3, 5}, "soy": {7, 14}, "coconut": {14, 14}, "beeswax": {1, 2},
	}[f]
	if !known {
		return journal.Range[quantity.Days]{}
	}
	return journal.Range[quantity.Days]{Low: &usual[0], High: &usual[1]}
}

// Early is a burn that was lit before its candle was set and cured.
type Early struct {
	Burn   int // its number
	LitAt  time.Time
	Waited quantity.Days // from the pour to the lighting
	Meant  quantity.Days // from the pour until it was set and cured
	By     quantity.Days // how much too early
}

// EarlyBurns lists the burns that count and were lit before their candle was
// set (24 h after the pour, common practice, no source) and cured as its wax's
// supplier states, in order of lighting. A wax that states no cure asks only
// that the candle has set.
func EarlyBurns(l journal.CandleLog) []Early {
	if l.Pour.At.IsZero() {
		return nil
	}
	ready := l.Life().ReadyAt()
	var out []Early
	for _, b := range l.CountedBurns() {
		if lit := b.Burn.LitAt; lit.Before(ready) {
			out = append(out, Early{b.Burn.Number, lit, days(l.Pour.At, lit), days(l.Pour.At, ready), days(lit, ready)})
		}
	}
	return out
}

func days(from, to time.Time) quantity.Days { return quantity.Days(to.Sub(from).Hours() / 24) }

// Cure holds the time between a candle's pour and its first burn that counts
// against the cure that its wax's supplier states. Waiting longer is no fault:
// it is Above, and Differs should not be asked of it.
func Cure(l journal.CandleLog) Compared[quantity.Days] {
	burns := l.CountedBurns()
	if len(burns) == 0 {
		return compared(nil, l.Wax.CureDays)
	}
	waited := days(l.Pour.At, burns[0].Burn.LitAt)
	return compared(&waited, l.Wax.CureDays)
}
