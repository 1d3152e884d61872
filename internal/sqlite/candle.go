package sqlite

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"rimward/internal/journal"
)

var candles = kind[journal.Candle]{
	noun: journal.NounCandle, table: "candle",
	meta: func(x *journal.Candle) *journal.Meta { return &x.Meta },
	own: func(x *journal.Candle) []field {
		return []field{
			{name: "pour_id", at: &x.Pour, ref: "pour"},
			{name: "pour_number", at: &x.PourNumber, from: "(SELECT number FROM pour WHERE pour.id = candle.pour_id)"},
			{name: "letter", at: &x.Letter}, {name: "vessel_id", at: &x.Vessel, ref: "vessel"}, {name: "wick_id", at: &x.Wick, ref: "wick"},
			{name: "wicks", at: &x.Wicks}, {name: "filled", at: &x.Filled},
			{name: "round_id", at: &x.Round, ref: "round"}, {name: "round_place", at: &x.RoundPlace}, {name: "note", at: &x.Note},
		}
	},
	taken: journal.Problem{Field: "letter", Text: "Another candle of this pour has this letter."},
}

// SaveCandle keeps a candle, new or corrected; a new one gets the next letter
// of its pour. Its pour and its code stay.
func (tx *Tx) SaveCandle(x *journal.Candle) error {
	return save(tx, candles, x, func(next, before *journal.Candle) error {
		if before != nil {
			next.Pour, next.PourNumber, next.Letter = before.Pour, before.PourNumber, before.Letter
			if err := tx.fitsRound(next, before); err != nil {
				return err
			}
			return next.Validate()
		}
		if err := tx.fitsRound(next, nil); err != nil {
			return err
		}
		p, err := one(tx.reader, pours, next.Pour)
		if err != nil {
			return orMissing(err, "pour")
		}
		if p.IsGone() {
			return journal.Invalid("pour", fmt.Sprintf("Pour %d was withdrawn.", p.Number))
		}
		next.PourNumber = p.Number
		if next.Letter == "" {
			if next.Letter, err = tx.nextLetter(p.ID); err != nil {
				return err
			}
		}
		next.Letter = strings.ToUpper(next.Letter)
		if err := next.Validate(); err != nil {
			return err
		}
		if len(next.Letter) > 3 || strings.Trim(next.Letter, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
			return journal.Invalid("letter", "One to three letters from A to Z.")
		}
		return nil
	})
}

// nextLetter is the first letter of a pour that no candle has; withdrawn ones
// keep theirs.
func (r reader) nextLetter(pour journal.ID) (string, error) {
	given, err := all(r, candles, "WHERE pour_id = ?", pour)
	for n := 0; ; n++ {
		letter := journal.LetterOf(n)
		if !slices.ContainsFunc(given, func(c journal.Candle) bool { return c.Letter == letter }) {
			return letter, err
		}
	}
}

// Candle reads one candle.
func (s *Store) Candle(ctx context.Context, id journal.ID) (journal.Candle, error) {
	return find(ctx, s, candles, id)
}

// CandleByCode reads the candle with a code's two halves.
func (s *Store) CandleByCode(ctx context.Context, pourNumber int, letter string) (journal.Candle, error) {
	return view(ctx, s, func(r reader) (journal.Candle, error) {
		found, err := all(r, candles, "JOIN pour ON pour.id = candle.pour_id WHERE pour.number = ? AND candle.letter = ?", pourNumber, strings.ToUpper(letter))
		if err == nil && len(found) == 0 {
			err = fmt.Errorf("find candle %d-%s: %w", pourNumber, letter, journal.ErrNotFound)
		}
		if err != nil {
			return journal.Candle{}, err
		}
		return found[0], nil
	})
}
