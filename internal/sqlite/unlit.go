package sqlite

import (
	"context"

	"rimward/internal/journal"
)

// Unlit lists the candles that count and were never lit, of the pours that
// were poured last, at most limit of them.
func (s *Store) Unlit(ctx context.Context, limit int) ([]journal.Made, error) {
	return view(ctx, s, func(r reader) ([]journal.Made, error) {
		list, err := all(r, candles, `JOIN pour AS p ON p.id = candle.pour_id
			WHERE candle.gone_at IS NULL AND p.gone_at IS NULL
			AND NOT EXISTS (SELECT 1 FROM burn WHERE burn.candle_id = candle.id AND gone_at IS NULL)
			ORDER BY p.at DESC, p.id DESC, candle.id LIMIT ?`, limit)
		if err != nil {
			return nil, err
		}
		return r.made(list)
	})
}
