package sqlite

import (
	"fmt"

	"rimward/internal/journal"
)

// Withdraw takes a record out of the count, or retires a thing on the shelf.
// It stays on record, with the reason. What burns is not withdrawn from under
// its flame.
func (tx *Tx) Withdraw(noun journal.Noun, id journal.ID, why string) error {
	switch noun {
	case journal.NounWax:
		return withdraw(tx, waxes, id, why)
	case journal.NounFragrance:
		return withdraw(tx, fragrances, id, why)
	case journal.NounVessel:
		return withdraw(tx, vessels, id, why)
	case journal.NounLadder:
		return withdraw(tx, ladders, id, why)
	case journal.NounWick:
		return withdraw(tx, wicks, id, why)
	case journal.NounPour:
		if err := tx.notLit("candle.pour_id", id); err != nil {
			return err
		}
		return withdraw(tx, pours, id, why)
	case journal.NounCandle:
		if err := tx.notLit("candle.id", id); err != nil {
			return err
		}
		return withdraw(tx, candles, id, why)
	case journal.NounBurn:
		return withdraw(tx, burns, id, why)
	case journal.NounCheck:
		return withdraw(tx, checks, id, why)
	case journal.NounPhoto:
		return withdraw(tx, photos, id, why)
	case journal.NounSmelling:
		return withdraw(tx, smellings, id, why)
	case journal.NounCup:
		if err := tx.uncovered(id); err != nil {
			return err
		}
		return withdraw(tx, cups, id, why)
	case journal.NounScore:
		return withdraw(tx, scores, id, why)
	case journal.NounVerdict:
		return withdraw(tx, verdicts, id, why)
	case journal.NounMould:
		return withdraw(tx, moulds, id, why)
	case journal.NounCast:
		return withdraw(tx, casts, id, why)
	case journal.NounSetCheck:
		return withdraw(tx, setChecks, id, why)
	case journal.NounRound:
		return withdraw(tx, rounds, id, why)
	case journal.NounPourSheet:
		return withdraw(tx, pourSheets, id, why)
	}
	return fmt.Errorf("withdraw %s: %w", noun, journal.ErrNotFound)
}

// notLit refuses when a candle that the column picks is lit.
func (tx *Tx) notLit(column string, id journal.ID) error {
	var code string
	lit, err := tx.value(`SELECT pour.number || '-' || candle.letter FROM candle JOIN pour ON pour.id = candle.pour_id
		JOIN burn ON burn.candle_id = candle.id AND burn.out_at IS NULL AND burn.gone_at IS NULL WHERE `+column+` = ? LIMIT 1`, []any{id}, &code)
	if err == nil && lit {
		return journal.Invalid("", "Candle "+code+" is lit. Snuff it first.")
	}
	return err
}

func withdraw[T any](tx *Tx, k kind[T], id journal.ID, why string) error {
	before, err := one(tx.reader, k, id)
	if err != nil {
		return err
	}
	next := before
	m := k.meta(&next)
	if m.IsGone() {
		return nil
	}
	at := tx.Now()
	m.Gone, m.GoneWhy = &at, why
	return update(tx, k, journal.Withdrawn, &next, &before)
}

// Restore brings a record back that was withdrawn or retired. A burn or a
// check must fit in again beside what was written since.
func (tx *Tx) Restore(noun journal.Noun, id journal.ID) error {
	switch noun {
	case journal.NounWax:
		return restore(tx, waxes, id, nil)
	case journal.NounFragrance:
		return restore(tx, fragrances, id, nil)
	case journal.NounVessel:
		return restore(tx, vessels, id, nil)
	case journal.NounLadder:
		return restore(tx, ladders, id, nil)
	case journal.NounWick:
		return restore(tx, wicks, id, nil)
	case journal.NounPour:
		return restore(tx, pours, id, tx.fitsPourAgain)
	case journal.NounCandle:
		return restore(tx, candles, id, tx.fitsSeat)
	case journal.NounBurn:
		return restore(tx, burns, id, tx.fitsBurn)
	case journal.NounCheck:
		return restore(tx, checks, id, tx.fitsCheck)
	case journal.NounPhoto:
		return restore(tx, photos, id, tx.fitsPhoto)
	case journal.NounSmelling:
		return restore(tx, smellings, id, nil)
	case journal.NounCup:
		return restore(tx, cups, id, tx.fitsCup)
	case journal.NounScore:
		return restore(tx, scores, id, tx.fitsScore)
	case journal.NounVerdict:
		return restore(tx, verdicts, id, nil)
	case journal.NounMould:
		return restore(tx, moulds, id, nil)
	case journal.NounCast:
		return restore(tx, casts, id, tx.fitsCast)
	case journal.NounSetCheck:
		return restore(tx, setChecks, id, tx.fitsSetCheck)
	case journal.NounRound:
		return restore(tx, rounds, id, nil)
	case journal.NounPourSheet:
		return restore(tx, pourSheets, id, nil)
	}
	return fmt.Errorf("restore %s: %w", noun, journal.ErrNotFound)
}

func restore[T any](tx *Tx, k kind[T], id journal.ID, fits func(*T) error) error {
	before, err := one(tx.reader, k, id)
	if err != nil {
		return err
	}
	next := before
	m := k.meta(&next)
	if !m.IsGone() {
		return nil
	}
	m.Gone, m.GoneWhy = nil, ""
	if fits != nil {
		if err := fits(&next); err != nil {
			return err
		}
	}
	return update(tx, k, journal.Restored, &next, &before)
}
