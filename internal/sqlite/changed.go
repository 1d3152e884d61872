package sqlite

import (
	"context"
	"database/sql"

	"rimward/internal/journal"
)

// Changes is what became different in the record since some revision.
type Changes struct {
	Revision int64        // of the record as it is now
	Candles  []journal.ID // whose log may have changed, new ones too
	All      bool         // the settings changed: anything may be different
}

// Changed tells which candles may have changed since a revision.
func (s *Store) Changed(ctx context.Context, since int64) (Changes, error) {
	return view(ctx, s, func(r reader) (Changes, error) { return r.changed(since) })
}

func (r reader) changed(since int64) (c Changes, err error) {
	if _, err = r.value("SELECT coalesce(max(id), 0) FROM history", nil, &c.Revision); err != nil {
		return c, err
	}
	if _, err = r.value("SELECT count(*) > 0 FROM history NOT INDEXED WHERE id > ? AND noun = ?", []any{since, journal.NounSettings}, &c.All); err != nil {
		return c, err
	}
	err = r.rows(func(rows *sql.Rows) error {
		var id journal.ID
		err := rows.Scan(&id)
		c.Candles = append(c.Candles, id)
		return err
	}, changedCandles, since)
	return c, err
}

// changedCandles goes from what was changed to the candles that it is part of.
// The history is read from its end: an index by noun would be read whole.
const changedCandles = `WITH c AS MATERIALIZED (SELECT DISTINCT noun, of_id FROM history NOT INDEXED WHERE id > ?)
	SELECT of_id FROM c WHERE noun = 'candle'
	UNION SELECT burn.candle_id FROM c CROSS JOIN burn ON burn.id = of_id WHERE noun = 'burn'
	UNION SELECT burn.candle_id FROM c CROSS JOIN checks ON checks.id = of_id CROSS JOIN burn ON burn.id = checks.burn_id WHERE noun = 'check'
	UNION SELECT set_check.candle_id FROM c CROSS JOIN set_check ON set_check.id = of_id WHERE noun = 'set check'
	UNION SELECT candle.id FROM c CROSS JOIN candle ON candle.pour_id = of_id WHERE noun = 'pour'
	UNION SELECT candle.id FROM c CROSS JOIN candle ON candle.vessel_id = of_id WHERE noun = 'vessel'
	UNION SELECT candle.id FROM c CROSS JOIN candle ON candle.wick_id = of_id WHERE noun = 'wick'
	UNION SELECT candle.id FROM c CROSS JOIN wick ON wick.ladder_id = of_id CROSS JOIN candle ON candle.wick_id = wick.id WHERE noun = 'ladder'
	UNION SELECT candle.id FROM c CROSS JOIN pour ON pour.wax_id = of_id CROSS JOIN candle ON candle.pour_id = pour.id WHERE noun = 'wax'
	UNION SELECT candle.id FROM c CROSS JOIN pour ON pour.fragrance_id = of_id CROSS JOIN candle ON candle.pour_id = pour.id WHERE noun = 'fragrance'
	ORDER BY 1`
