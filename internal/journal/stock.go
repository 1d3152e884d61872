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
	Weighed int            // of those, how many say wholly how much they took: what was weighed in, or filled into every candle
	Mass    quantity.Grams // that was weighed in or filled
	Pieces  int            // vessels or wicks, in candles poured since
}

// Unweighed is how many of the pours do not say what was weighed in.
func (t Taken) Unweighed() int { return t.Pours - t.Weighed }

// Takings are what was taken of each thing since it was counted, by its noun
// and its ID; things that were never counted are not among them.
type Takings map[Noun]map[ID]Taken

// Of is what was taken of one thing; nothing where that is not known.
func (t Takings) Of(noun Noun, id ID) Taken { return t[noun][id] }

// MassLeft is what is left of a wax or a fragrance: what was counted less what
// was weighed since, never below nothing; nil where nothing was counted.
// Pours that were not weighed are not taken off.
func MassLeft(s Stock[quantity.Grams], t Taken) *quantity.Grams { return left(s, t.Mass) }

// PiecesLeft is how many of a vessel or a wick are left: those counted less
// those in candles poured since, never below nothing; nil where none was
// counted.
func PiecesLeft(s Stock[int], t Taken) *int { return left(s, t.Pieces) }

func left[T quantity.Grams | int](s Stock[T], taken T) *T {
	if s.OnHand == nil {
		return nil
	}
	n := max(*s.OnHand-taken, 0)
	return &n
}
