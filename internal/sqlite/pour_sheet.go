package sqlite

import (
	"context"
	"fmt"

	"rimward/internal/journal"
)

var pourSheets = kind[journal.PourSheet]{
	noun: journal.NounPourSheet, table: "pour_sheet",
	meta: func(x *journal.PourSheet) *journal.Meta { return &x.Meta },
	own: func(x *journal.PourSheet) []field {
		return []field{
			{name: "wax_id", at: &x.Wax, ref: "wax"}, {name: "fragrance_id", at: &x.Fragrance, ref: "fragrance"}, {name: "load", at: &x.Load}, {name: "load_basis", at: &x.LoadBasis},
			{name: "pour_id", at: &x.Pour, ref: "pour"}, {name: "round_id", at: &x.Round, ref: "round"}, {name: "body", at: asJSON[journal.SheetBody]{&x.Body}}, {name: "note", at: &x.Note},
		}
	},
}

// SavePourSheet keeps a pour sheet, new or corrected. Once it is poured it
// stays as it was.
func (tx *Tx) SavePourSheet(x *journal.PourSheet) error {
	return save(tx, pourSheets, x, func(next, before *journal.PourSheet) error {
		f := journal.SheetFacts{Before: before}
		if before != nil && before.Pour != nil {
			p, err := one(tx.reader, pours, *before.Pour)
			if err != nil {
				return err
			}
			f.PourIsGone = p.IsGone()
		}
		if err := next.Validate(f); err != nil {
			return err
		}
		return tx.sheetLinesKnown(next)
	})
}

// sheetLinesKnown refuses lines whose vessel, mould or wick is not there: they
// are kept as one text, which no foreign key looks into.
func (r reader) sheetLinesKnown(s *journal.PourSheet) error {
	for i, l := range s.Body.Lines {
		at := fmt.Sprintf("l%d.", i)
		for _, x := range []struct {
			table, field string
			id           *journal.ID
		}{{"vessel", at + "what", l.Vessel}, {"mould", at + "what", l.Mould}, {"wick", at + "wick", l.Wick}} {
			if x.id == nil {
				continue
			}
			var known bool
			if _, err := r.value("SELECT EXISTS (SELECT 1 FROM "+x.table+" WHERE id = ?)", []any{*x.id}, &known); err != nil {
				return err
			}
			if !known {
				return journal.Invalid(x.field, "Choose one from the list.")
			}
		}
	}
	return nil
}

// PourSheet reads one pour sheet within the transaction: what is ticked on it as
// it stands now loses nothing of what another screen ticked.
func (tx *Tx) PourSheet(id journal.ID) (journal.PourSheet, error) {
	return one(tx.reader, pourSheets, id)
}

// PourSheet reads one pour sheet.
func (s *Store) PourSheet(ctx context.Context, id journal.ID) (journal.PourSheet, error) {
	return find(ctx, s, pourSheets, id)
}

// PourSheets lists all pour sheets, the newest first, withdrawn ones too.
func (s *Store) PourSheets(ctx context.Context) ([]journal.PourSheet, error) {
	return list(ctx, s, pourSheets, "ORDER BY id DESC")
}

// pouredOf reads the pour that counts of those that were made of a sheet, other
// than one of them; nil when there is none.
func (r reader) pouredOf(sheet, but journal.ID) (*journal.Pour, error) {
	list, err := all(r, pours, "WHERE sheet_id = ? AND id <> ? AND gone_at IS NULL", sheet, but)
	if err != nil || len(list) == 0 {
		return nil, err
	}
	return &list[0], nil
}

// fitsPourAgain lets a withdrawn pour come back only where its sheet was not
// poured again meanwhile and the places of its candles are free still. Its
// sheet names it again.
func (tx *Tx) fitsPourAgain(p *journal.Pour) error {
	if p.Sheet != nil {
		other, err := tx.pouredOf(*p.Sheet, p.ID)
		if err != nil {
			return err
		}
		if other != nil {
			return journal.Invalid("", fmt.Sprintf("Its pour sheet was poured again, as pour %d. Withdraw that one first.", other.Number))
		}
		if err := tx.sheetNames(*p.Sheet, p.ID); err != nil {
			return err
		}
	}
	return tx.fitsSeats(p)
}

// sheetNames makes a sheet name the pour that was made of it.
func (tx *Tx) sheetNames(sheet, made journal.ID) error {
	s, err := one(tx.reader, pourSheets, sheet)
	if err != nil {
		return err
	}
	s.Pour = &made
	return save(tx, pourSheets, &s, func(_, _ *journal.PourSheet) error { return nil })
}
