package plan

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Been is the candle of a calendar with what has become of it.
func (c CalendarCandle) Been(l journal.CandleLine) CalendarCandle {
	f := l.Life
	c.PouredAt, c.Burns, c.LitHours, c.LastOut, c.Over = &f.PouredAt, f.Burns, quantity.Hours(l.LitHours), f.LastOut, f.Spent || f.Gone
	if f.Lit {
		c.Burns, c.LitAt = c.Burns-1, l.LastLit
	}
	return c
}

// Taken are the numbers of the places that have a candle.
func (p RoundProgress) Taken() (out []int) {
	for _, x := range p.Places {
		if x.Candle != nil {
			out = append(out, x.Place.Number)
		}
	}
	return out
}
