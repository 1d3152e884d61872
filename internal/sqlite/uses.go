package sqlite

import (
	"context"
	"database/sql"
	"fmt"

	"rimward/internal/journal"
)

// Tried lists the settings that candles were burned in, with the candles and
// burns that count.
func (s *Store) Tried(ctx context.Context) ([]journal.Tried, error) {
	return view(ctx, s, reader.tried)
}

func (r reader) tried() ([]journal.Tried, error) {
	var out []journal.Tried
	err := r.rows(func(rows *sql.Rows) error {
		var t journal.Tried
		if err := rows.Scan(&t.Vessel, &t.Wax, &t.Fragrance, &t.Load, &t.Basis, &t.Candles, &t.Burns); err != nil {
			return err
		}
		out = append(out, t)
		return nil
	}, `SELECT vessel_id, wax_id, fragrance_id, load, load_basis, count(*), sum(burns) FROM (
			SELECT candle.vessel_id, pour.wax_id, pour.fragrance_id, pour.load, pour.load_basis,
				(SELECT count(*) FROM burn WHERE burn.candle_id = candle.id AND burn.gone_at IS NULL) AS burns
			FROM candle JOIN pour ON pour.id = candle.pour_id WHERE candle.gone_at IS NULL AND pour.gone_at IS NULL)
		WHERE burns > 0 GROUP BY 1, 2, 3, 4, 5 ORDER BY 1, 2, 3, 4, 5`)
	return out, err
}

// usedBy is the column that refers to each kind of thing.
var usedBy = map[journal.Noun]string{
	journal.NounWax: "pour.wax_id", journal.NounFragrance: "pour.fragrance_id", journal.NounVessel: "candle.vessel_id",
	journal.NounWick: "candle.wick_id", journal.NounLadder: "wick.ladder_id", journal.NounPour: "candle.pour_id",
}

// Use counts what refers to a thing on the shelf, withdrawn records left out.
func (s *Store) Use(ctx context.Context, noun journal.Noun, id journal.ID) (journal.Use, error) {
	return view(ctx, s, func(r reader) (journal.Use, error) { return r.use(noun, id) })
}

func (r reader) use(noun journal.Noun, id journal.ID) (journal.Use, error) {
	if noun == journal.NounMould {
		return r.mouldUse(id)
	}
	var u journal.Use
	column := usedBy[noun]
	if column == "" {
		return u, fmt.Errorf("count uses of %s: %w", noun, journal.ErrNotFound)
	}
	_, err := r.value(`SELECT count(DISTINCT pour.id), count(DISTINCT candle.id), count(burn.id)
		FROM pour LEFT JOIN candle ON candle.pour_id = pour.id AND candle.gone_at IS NULL
		LEFT JOIN wick ON wick.id = candle.wick_id LEFT JOIN burn ON burn.candle_id = candle.id AND burn.gone_at IS NULL
		WHERE pour.gone_at IS NULL AND `+column+` = ?`, []any{id}, &u.Pours, &u.Candles, &u.Burns)
	return u, err
}
