package sqlite

import (
	"context"
	"errors"

	"rimward/internal/journal"
)

var rounds = kind[journal.TestRound]{
	noun: journal.NounRound, table: "round",
	meta: func(x *journal.TestRound) *journal.Meta { return &x.Meta },
	own: func(x *journal.TestRound) []field {
		return []field{
			{name: "question", at: &x.Question}, {name: "wax_id", at: &x.Wax, ref: "wax"}, {name: "fragrance_id", at: &x.Fragrance, ref: "fragrance"},
			{name: "factors", at: asJSON[journal.RoundFactors]{&x.Factors}}, {name: "copies", at: &x.Copies}, {name: "seed", at: &x.Seed}, {name: "drawn", at: asJSON[journal.RoundDrawing]{&x.Drawn}},
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
		if err := next.Validate(f); err != nil {
			return err
		}
		return tx.onShelf(next)
	})
}

// onShelf refuses vessels and wicks that are not in the journal: they are kept
// as one text, which the database does not look into.
func (r reader) onShelf(x *journal.TestRound) error {
	for _, v := range x.Factors.Vessels {
		if _, err := one(r, vessels, v); err != nil {
			return orAbsent(err, "vessels", "A vessel of the round is not in the journal.")
		}
	}
	for _, w := range x.Factors.Wicks {
		if _, err := one(r, wicks, w.Wick); err != nil {
			return orAbsent(err, "rungs", "A wick of the round is not in the journal.")
		}
	}
	return nil
}

// orAbsent turns a record that was not found into a problem of a list of them.
func orAbsent(err error, field, text string) error {
	if errors.Is(err, journal.ErrNotFound) {
		return journal.Invalid(field, text)
	}
	return err
}

// fitsRound holds the rules of a candle that takes a place in a round. A place
// that it has already stays its own, whatever became of the round.
func (tx *Tx) fitsRound(next, before *journal.Candle) error {
	if next.Round == nil {
		next.RoundPlace = 0
		return nil
	}
	if before != nil && before.Round != nil && *before.Round == *next.Round && before.RoundPlace == next.RoundPlace {
		return nil
	}
	r, err := one(tx.reader, rounds, *next.Round)
	if err != nil {
		return orMissing(err, "round")
	}
	seat := journal.RoundSeat{Round: r}
	seat.Taken, err = tx.seated(next)
	if err != nil {
		return err
	}
	return next.FitsRound(seat)
}

// seated is the candle that has the place that another is to take; nil when it
// is free. Withdrawn candles and those of a withdrawn pour make room.
func (r reader) seated(x *journal.Candle) (*journal.Candle, error) {
	found, err := all(r, candles, `JOIN pour ON pour.id = candle.pour_id
		WHERE round_id = ? AND round_place = ? AND candle.gone_at IS NULL AND pour.gone_at IS NULL AND candle.id <> ?`, *x.Round, x.RoundPlace, x.ID)
	if err != nil || len(found) == 0 {
		return nil, err
	}
	return &found[0], nil
}

// fitsSeat lets a withdrawn candle come back only where its place is free
// still.
func (tx *Tx) fitsSeat(x *journal.Candle) error {
	if x.Round == nil {
		return nil
	}
	taken, err := tx.seated(x)
	if err == nil && taken != nil {
		return journal.Invalid("", "Candle "+taken.Code()+" has taken its place in the round meanwhile.")
	}
	return err
}

// fitsSeats lets a withdrawn pour come back only where the places of its
// candles are free still.
func (tx *Tx) fitsSeats(p *journal.Pour) error {
	list, err := all(tx.reader, candles, "WHERE pour_id = ? AND gone_at IS NULL ORDER BY id", p.ID)
	for i := range list {
		if err == nil {
			err = tx.fitsSeat(&list[i])
		}
	}
	return err
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
