package sqlite

import (
	"context"

	"rimward/internal/journal"
)

// burnLines adds to burns the candles they belong to.
func (r reader) burnLines(list []journal.Burn, err error) ([]journal.BurnLine, error) {
	if err != nil {
		return nil, err
	}
	ids := make([]journal.ID, len(list))
	for i, b := range list {
		ids[i] = b.Candle
	}
	of, err := byID(r, candles, "WHERE candle.id IN (SELECT value FROM json_each(?))", idList(ids))
	out := make([]journal.BurnLine, len(list))
	for i, b := range list {
		out[i] = journal.BurnLine{Burn: b, Candle: of[b.Candle]}
	}
	return out, err
}

// Cold lists burns that are over and whose candle was weighed before but not
// yet after, the latest first. Withdrawn candles are left out.
func (s *Store) Cold(ctx context.Context, limit int) ([]journal.BurnLine, error) {
	return view(ctx, s, func(r reader) ([]journal.BurnLine, error) { return r.cold(limit) })
}

func (r reader) cold(limit int) ([]journal.BurnLine, error) {
	return r.burnLines(all(r, burns, `INDEXED BY burn_cold WHERE out_at IS NOT NULL AND mass_before IS NOT NULL AND mass_after IS NULL AND gone_at IS NULL
			AND candle_id IN (SELECT candle.id FROM candle JOIN pour ON pour.id = candle.pour_id WHERE candle.gone_at IS NULL AND pour.gone_at IS NULL)
			ORDER BY out_at DESC LIMIT ?`, limit))
}

// SittingBurns lists the burns of candles that were lit together.
func (s *Store) SittingBurns(ctx context.Context, sitting journal.ID) ([]journal.BurnLine, error) {
	return view(ctx, s, func(r reader) ([]journal.BurnLine, error) { return r.sittingBurns(sitting) })
}

func (r reader) sittingBurns(sitting journal.ID) ([]journal.BurnLine, error) {
	return r.burnLines(all(r, burns, "WHERE sitting_id = ? ORDER BY id", sitting))
}
