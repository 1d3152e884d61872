package plan

import (
	"time"

	"rimward/internal/journal"
)

// Span is a time during which some candles burn.
type Span struct {
	From, To time.Time // lit from, out by
	Candles  int
}

// Peak is the most candles that burn at one moment; a span that ends as
// another begins burns with it no longer.
func Peak(spans []Span) int {
	most := 0
	for _, at := range spans { // the count rises only where a span begins
		n := 0
		for _, s := range spans {
			if !s.From.After(at.From) && s.To.After(at.From) {
				n += s.Candles
			}
		}
		most = max(most, n)
	}
	return most
}

// Leave takes candles that another entry asks to be lit from what is due; an
// item that asks for other candles too stays whole.
func (b *Board) Leave(asked map[journal.ID]bool) {
	var due []Item
	for _, it := range b.Due {
		if (it.Kind == LightFirst || it.Kind == LightAgain) && allOf(it.Candles, asked) {
			continue
		}
		due = append(due, it)
	}
	b.Due = due
}

func allOf(cs []journal.Candle, in map[journal.ID]bool) bool {
	for _, c := range cs {
		if !in[c.ID] {
			return false
		}
	}
	return true
}
