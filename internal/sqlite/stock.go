package sqlite

import (
	"context"
	"fmt"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// stockOf is the stock of a record that may not be there.
func stockOf[T any, N quantity.Grams | int](x *T, part func(*T) *journal.Stock[N]) *journal.Stock[N] {
	if x == nil {
		return nil
	}
	return part(x)
}

// takings are the questions of what was taken of each kind of thing since a
// moment; withdrawn pours were poured all the same, and count.
var takings = map[journal.Noun]string{
	journal.NounWax:       "SELECT count(*), count(wax_mass), coalesce(sum(wax_mass), 0), 0 FROM pour WHERE wax_id = ? AND at > ?",
	journal.NounFragrance: "SELECT count(*), count(oil_mass), coalesce(sum(oil_mass), 0), 0 FROM pour WHERE fragrance_id = ? AND at > ?",
	journal.NounVessel: `SELECT count(DISTINCT pour.id), 0, 0.0, count(*) FROM candle JOIN pour ON pour.id = candle.pour_id
		WHERE candle.vessel_id = ? AND pour.at > ?`,
	journal.NounWick: `SELECT count(DISTINCT pour.id), 0, 0.0, coalesce(sum(candle.wicks), 0) FROM candle JOIN pour ON pour.id = candle.pour_id
		WHERE candle.wick_id = ? AND pour.at > ?`,
}

// Taken counts what was poured of a wax, a fragrance, a vessel or a wick after
// a moment.
func (s *Store) Taken(ctx context.Context, noun journal.Noun, id journal.ID, since time.Time) (journal.Taken, error) {
	return view(ctx, s, func(r reader) (journal.Taken, error) {
		var t journal.Taken
		query, known := takings[noun]
		if !known {
			return t, fmt.Errorf("count what was taken of %s: %w", noun, journal.ErrNotFound)
		}
		_, err := r.value(query, []any{id, moment{&since}}, &t.Pours, &t.Weighed, &t.Mass, &t.Pieces)
		return t, err
	})
}
