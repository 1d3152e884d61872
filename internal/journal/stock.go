package journal

import (
	"time"

	"rimward/internal/quantity"
)

// Counted is the stock to keep in the place of before, which is nil where
// nothing was kept: a number that is new or another was counted now; one that
// stays keeps its moment, unless it says that it was counted again; without a
// number there is no moment.
func (s Stock[T]) Counted(before *Stock[T], now time.Time) Stock[T] {
	switch {
	case s.OnHand == nil:
		s.CountedAt = nil
	case before == nil || before.OnHand == nil || *before.OnHand != *s.OnHand:
		s.CountedAt = &now
	case s.CountedAt == nil:
		s.CountedAt = before.CountedAt
	}
	return s
}

// Taken is what the journal knows to have been taken from the shelf since a
// count.
type Taken struct {
	Pours   int            // of the wax or the fragrance
	Weighed int            // of those, how many say how much was weighed in
	Mass    quantity.Grams // that was weighed in
	Pieces  int            // vessels or wicks, in candles poured since
}
