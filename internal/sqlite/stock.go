package sqlite

import (
	"context"
	"database/sql"
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

// pouredOf is what a pour took of wax and of oil: what was weighed in or, where
// nobody weighed, what its candles say was filled, parted at its load. A pour
// is told whole unless a candle does not say, or moulded pieces took of it too.
const pouredOf = `(SELECT id, at, wax_id, fragrance_id,
	wax_mass IS NOT NULL OR whole AS wax_told, coalesce(wax_mass, fills * wax_share, 0) AS wax,
	oil_mass IS NOT NULL OR (whole AND load IS NOT NULL) AS oil_told, coalesce(oil_mass, fills * (1 - wax_share), 0) AS oil
	FROM (SELECT pour.*,
		CASE load_basis WHEN 'total' THEN 1 - coalesce(load, 0) ELSE 1 / (1 + coalesce(load, 0)) END AS wax_share,
		(SELECT sum(filled) FROM candle WHERE pour_id = pour.id) AS fills,
		EXISTS (SELECT 1 FROM candle WHERE pour_id = pour.id) AND NOT EXISTS (SELECT 1 FROM candle WHERE pour_id = pour.id AND filled IS NULL)
			AND NOT EXISTS (SELECT 1 FROM pour_cast WHERE pour_id = pour.id) AS whole
		FROM pour)) AS taken`

// takings are the questions of what was taken of each kind of thing since a
// moment; withdrawn pours were poured all the same, and count.
var takings = map[journal.Noun]string{
	journal.NounWax:       "SELECT count(*), coalesce(sum(wax_told), 0), coalesce(sum(wax), 0.0), 0 FROM " + pouredOf + " WHERE wax_id = ? AND at > ?",
	journal.NounFragrance: "SELECT count(*), coalesce(sum(oil_told), 0), coalesce(sum(oil), 0.0), 0 FROM " + pouredOf + " WHERE fragrance_id = ? AND at > ?",
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

// allTakings are the same questions of everything that was counted, each since
// its own count.
var allTakings = map[journal.Noun]string{
	journal.NounWax: "SELECT wax.id, count(*), sum(taken.wax_told), sum(taken.wax), 0 FROM wax JOIN " + pouredOf +
		" ON taken.wax_id = wax.id AND taken.at > wax.counted_at GROUP BY wax.id",
	journal.NounFragrance: "SELECT fragrance.id, count(*), sum(taken.oil_told), sum(taken.oil), 0 FROM fragrance JOIN " + pouredOf +
		" ON taken.fragrance_id = fragrance.id AND taken.at > fragrance.counted_at GROUP BY fragrance.id",
	journal.NounVessel: `SELECT vessel.id, count(DISTINCT pour.id), 0, 0.0, count(*)
		FROM vessel JOIN candle ON candle.vessel_id = vessel.id JOIN pour ON pour.id = candle.pour_id AND pour.at > vessel.counted_at GROUP BY vessel.id`,
	journal.NounWick: `SELECT wick.id, count(DISTINCT pour.id), 0, 0.0, coalesce(sum(candle.wicks), 0)
		FROM wick JOIN candle ON candle.wick_id = wick.id JOIN pour ON pour.id = candle.pour_id AND pour.at > wick.counted_at GROUP BY wick.id`,
}

// Takings counts what was poured of everything on the shelf since it was
// counted.
func (s *Store) Takings(ctx context.Context) (journal.Takings, error) {
	return view(ctx, s, func(r reader) (journal.Takings, error) {
		out := journal.Takings{}
		for noun, query := range allTakings {
			of := map[journal.ID]journal.Taken{}
			err := r.rows(func(rows *sql.Rows) error {
				var id journal.ID
				var t journal.Taken
				err := rows.Scan(&id, &t.Pours, &t.Weighed, &t.Mass, &t.Pieces)
				of[id] = t
				return err
			}, query)
			if err != nil {
				return nil, err
			}
			out[noun] = of
		}
		return out, nil
	})
}
