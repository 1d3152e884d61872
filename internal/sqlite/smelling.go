package sqlite

import (
	"context"
	"fmt"

	"rimward/internal/journal"
)

var smellings = kind[journal.Smelling]{
	noun: journal.NounSmelling, table: "smelling",
	meta: func(x *journal.Smelling) *journal.Meta { return &x.Meta },
	own: func(x *journal.Smelling) []field {
		return []field{
			{name: "at", at: moment{&x.At}}, {name: "kind", at: &x.Kind}, {name: "room", at: &x.Room}, {name: "blind", at: &x.Blind},
			{name: "uncovered_at", at: maybeMoment{&x.Uncovered}}, {name: "note", at: &x.Note},
		}
	},
}

var cups = kind[journal.Cup]{
	noun: journal.NounCup, table: "cup",
	meta: func(x *journal.Cup) *journal.Meta { return &x.Meta },
	own: func(x *journal.Cup) []field {
		return []field{
			{name: "smelling_id", at: &x.Smelling, ref: "smelling"}, {name: "candle_id", at: &x.Candle, ref: "candle"},
			{name: "code", at: &x.Code}, {name: "minutes", at: &x.Minutes},
		}
	},
	taken: journal.Problem{Field: "code", Text: "Another candle of this smelling has this code."},
}

var scores = kind[journal.Score]{
	noun: journal.NounScore, table: "score",
	meta: func(x *journal.Score) *journal.Meta { return &x.Meta },
	own: func(x *journal.Score) []field {
		return []field{
			{name: "cup_id", at: &x.Cup, ref: "cup"}, {name: "nose", at: &x.Nose}, {name: "score", at: &x.Score},
			{name: "place", at: &x.Order}, {name: "at", at: moment{&x.At}}, {name: "note", at: &x.Note},
		}
	},
	taken: journal.Problem{Field: "nose", Text: "This nose has scored it already. Correct that score instead."},
}

// SaveSmelling keeps a smelling, new or corrected. Setting Uncovered resolves
// the codes of a blind one.
func (tx *Tx) SaveSmelling(x *journal.Smelling) error {
	return save(tx, smellings, x, func(next, before *journal.Smelling) error {
		if before != nil && before.Uncovered != nil && next.Uncovered != nil {
			next.Uncovered = before.Uncovered // the first time stands
		}
		f, err := tx.smellingFacts(next.ID)
		if err != nil {
			return err
		}
		f.Before = before
		return next.Validate(f)
	})
}

// smellingFacts reads what the cups of a smelling say of its rules.
func (tx *Tx) smellingFacts(id journal.ID) (journal.SmellingFacts, error) {
	f := journal.SmellingFacts{Now: tx.Now()}
	_, err := tx.value(`SELECT count(*), min(score.at) FROM cup JOIN score ON score.cup_id = cup.id
		WHERE cup.smelling_id = ? AND cup.gone_at IS NULL AND score.gone_at IS NULL`, []any{id}, &f.Scores, maybeMoment{&f.First})
	if err != nil {
		return f, err
	}
	_, err = tx.value(`SELECT max(pour.at) FROM cup JOIN candle ON candle.id = cup.candle_id JOIN pour ON pour.id = candle.pour_id
		WHERE cup.smelling_id = ? AND cup.gone_at IS NULL`, []any{id}, maybeMoment{&f.Poured})
	return f, err
}

// SaveCup keeps a cup, new or corrected. Its smelling, its candle and its code
// stay.
func (tx *Tx) SaveCup(x *journal.Cup) error {
	return save(tx, cups, x, func(next, before *journal.Cup) error {
		if before != nil {
			next.Smelling, next.Candle, next.Code = before.Smelling, before.Candle, before.Code
		}
		return tx.fitsCup(next)
	})
}

// fitsCup holds the rules of a cup beside what else is kept.
func (tx *Tx) fitsCup(c *journal.Cup) error {
	var f journal.CupFacts
	var err error
	if f.Smelling, err = one(tx.reader, smellings, c.Smelling); err != nil {
		return orMissing(err, "smelling")
	}
	if f.Candle, err = one(tx.reader, candles, c.Candle); err != nil {
		return orMissing(err, "candle")
	}
	p, err := one(tx.reader, pours, f.Candle.Pour)
	if err != nil {
		return err
	}
	f.PouredAt, f.Gone = p.At, p.IsGone() || f.Candle.IsGone()
	if f.Others, err = all(tx.reader, cups, "WHERE smelling_id = ?", c.Smelling); err != nil {
		return err
	}
	return c.Validate(f)
}

// SaveScore keeps a score, new or corrected. Its cup and its nose stay.
func (tx *Tx) SaveScore(x *journal.Score) error {
	return save(tx, scores, x, func(next, before *journal.Score) error {
		if before != nil {
			next.Cup, next.Nose, next.Order, next.At = before.Cup, before.Nose, before.Order, before.At
		}
		next.Nose = journal.TidyNose(next.Nose)
		return tx.fitsScore(next)
	})
}

// fitsScore holds the rules of a score beside what else is kept.
func (tx *Tx) fitsScore(s *journal.Score) error {
	f := journal.ScoreFacts{Now: tx.Now()}
	var err error
	if f.Cup, err = one(tx.reader, cups, s.Cup); err != nil {
		return orMissing(err, "cup")
	}
	if f.Smelling, err = one(tx.reader, smellings, f.Cup.Smelling); err != nil {
		return err
	}
	if f.Others, err = all(tx.reader, scores, "WHERE cup_id = ? AND gone_at IS NULL", s.Cup); err != nil {
		return err
	}
	return s.Validate(f)
}

// TakeBackScore withdraws a score that is still as the person saw it; one that
// was changed since is a conflict.
func (tx *Tx) TakeBackScore(seen journal.Score, why string) error {
	is, err := one(tx.reader, scores, seen.ID)
	if err != nil {
		return err
	}
	if is.Version != seen.Version {
		return fmt.Errorf("take back score %d: %w", is.ID, journal.ErrConflict)
	}
	return withdraw(tx, scores, is.ID, why)
}

// uncovered refuses a cup that may not leave its smelling yet.
func (tx *Tx) uncovered(cup journal.ID) error {
	c, err := one(tx.reader, cups, cup)
	if err != nil {
		return err
	}
	x, err := one(tx.reader, smellings, c.Smelling)
	if err != nil {
		return err
	}
	return x.LosesCups()
}

// Smelling reads one smelling.
func (s *Store) Smelling(ctx context.Context, id journal.ID) (journal.Smelling, error) {
	return find(ctx, s, smellings, id)
}

// Cup reads one cup.
func (s *Store) Cup(ctx context.Context, id journal.ID) (journal.Cup, error) {
	return find(ctx, s, cups, id)
}

// Score reads one score.
func (s *Store) Score(ctx context.Context, id journal.ID) (journal.Score, error) {
	return find(ctx, s, scores, id)
}
