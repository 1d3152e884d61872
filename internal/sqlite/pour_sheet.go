package sqlite

import (
	"context"

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

// SavePourSheet keeps a pour sheet, new or corrected.
func (tx *Tx) SavePourSheet(x *journal.PourSheet) error { return saveValid(tx, pourSheets, x) }

// PourSheet reads one pour sheet.
func (s *Store) PourSheet(ctx context.Context, id journal.ID) (journal.PourSheet, error) {
	return find(ctx, s, pourSheets, id)
}

// PourSheets lists all pour sheets, the newest first, withdrawn ones too.
func (s *Store) PourSheets(ctx context.Context) ([]journal.PourSheet, error) {
	return list(ctx, s, pourSheets, "ORDER BY id DESC")
}
