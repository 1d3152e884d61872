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
