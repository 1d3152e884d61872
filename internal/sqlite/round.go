package sqlite

import (
	"context"

	"rimward/internal/journal"
)

var rounds = kind[journal.TestRound]{
	noun: journal.NounRound, table: "round",
	meta: func(x *journal.TestRound) *journal.Meta { return &x.Meta },
	own: func(x *journal.TestRound) []field {
		return []field{
			{name: "question", at: &x.Question}, {name: "wax_id", at: &x.Wax, ref: "wax"}, {name: "fragrance_id", at: &x.Fragrance, ref: "fragrance"},
			{name: "factors", at: asJSON[journal.RoundFactors]{&x.Factors}}, {name: "copies", at: &x.Copies}, {name: "seed", at: &x.Seed},
			{name: "places", at: asJSON[[]journal.RoundPlace]{&x.Places}}, {name: "days", at: asJSON[journal.RoundDays]{&x.Days}},
			{name: "closed_at", at: maybeMoment{&x.Closed}}, {name: "note", at: &x.Note},
		}
	},
}

// SaveRound keeps a round, new or corrected. What its candles were drawn from
// stays once the first of them is poured.
func (tx *Tx) SaveRound(x *journal.TestRound) error {
	return save(tx, rounds, x, func(next, before *journal.TestRound) error {
		f := journal.RoundRecord{Before: before}
		if before != nil {
			if _, err := tx.value(`SELECT count(*) FROM candle JOIN pour ON pour.id = candle.pour_id
				WHERE candle.round_id = ? AND candle.gone_at IS NULL AND pour.gone_at IS NULL`, []any{next.ID}, &f.Poured); err != nil {
				return err
			}
		}
		return next.Validate(f)
	})
}

// Round reads one round.
func (s *Store) Round(ctx context.Context, id journal.ID) (journal.TestRound, error) {
	return find(ctx, s, rounds, id)
}

// Rounds lists all rounds, the newest first, withdrawn ones too.
func (s *Store) Rounds(ctx context.Context) ([]journal.TestRound, error) {
	return list(ctx, s, rounds, "ORDER BY id DESC")
}

// RoundCandles lists the candles of a round in its order, withdrawn ones too.
func (s *Store) RoundCandles(ctx context.Context, round journal.ID) ([]journal.CandleLine, error) {
	return view(ctx, s, func(r reader) ([]journal.CandleLine, error) {
		return r.lines(all(r, candles, "WHERE round_id = ? ORDER BY round_place, candle.id", round))
	})
}
