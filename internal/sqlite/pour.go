package sqlite

import (
	"context"
	"database/sql"

	"rimward/internal/journal"
)

var pours = kind[journal.Pour]{
	noun: journal.NounPour, table: "pour",
	meta: func(x *journal.Pour) *journal.Meta { return &x.Meta },
	own: func(x *journal.Pour) []field {
		return []field{
			{name: "number", at: &x.Number}, {name: "at", at: moment{&x.At}}, {name: "wax_id", at: &x.Wax, ref: "wax"}, {name: "wax_lot", at: &x.WaxLot},
			{name: "fragrance_id", at: &x.Fragrance, ref: "fragrance"}, {name: "fragrance_lot", at: &x.FragranceLot},
			{name: "load", at: &x.Load}, {name: "load_basis", at: &x.LoadBasis}, {name: "wax_mass", at: &x.WaxMass}, {name: "oil_mass", at: &x.OilMass}, {name: "heated_to", at: &x.HeatedTo}, {name: "oil_at", at: &x.OilAt},
			{name: "poured_at", at: &x.PouredAt}, {name: "room", at: &x.Room}, {name: "vessel_warmed", at: &x.VesselWarmed},
			{name: "second_pour", at: &x.SecondPour}, {name: "heat_gun", at: &x.HeatGun}, {name: "dye", at: &x.Dye},
			{name: "sheet_id", at: &x.Sheet, ref: "pour_sheet"}, {name: "note", at: &x.Note},
		}
	},
	taken: journal.Problem{Field: "number", Text: "Another pour has this number."},
}

// SavePour keeps a pour, new or corrected; a new one gets the next number. A
// pour cannot move past the first burn of its candles, nor past a set check or
// a smelling of them, nor past its pieces' coming out of the mould.
func (tx *Tx) SavePour(x *journal.Pour) error {
	return save(tx, pours, x, func(next, before *journal.Pour) error {
		if before != nil {
			next.Number, next.Sheet = before.Number, before.Sheet
		} else if next.Number == 0 {
			if _, err := tx.value("SELECT coalesce(max(number), 0) + 1 FROM pour", nil, &next.Number); err != nil {
				return err
			}
		}
		if err := next.Validate(tx.Now()); err != nil {
			return err
		}
		if err := tx.burnedBefore(next); err != nil {
			return err
		}
		if err := tx.castBefore(next); err != nil {
			return err
		}
		if err := tx.lookedBefore(next); err != nil {
			return err
		}
		return tx.smelledBefore(next)
	})
}

// burnedBefore refuses a pour that lies after a burn of one of its candles.
func (tx *Tx) burnedBefore(p *journal.Pour) error {
	if p.ID == 0 {
		return nil
	}
	var early bool
	_, err := tx.value(`SELECT EXISTS (SELECT 1 FROM candle JOIN burn ON burn.candle_id = candle.id
		WHERE candle.pour_id = ? AND burn.gone_at IS NULL AND burn.lit_at < ?)`, []any{p.ID, moment{&p.At}}, &early)
	if err == nil && early {
		return journal.Invalid("at", "One of its candles was lit before that.")
	}
	return err
}

// smelledBefore refuses a pour that lies after a smelling of one of its
// candles.
func (tx *Tx) smelledBefore(p *journal.Pour) error {
	var early bool
	_, err := tx.value(`SELECT EXISTS (SELECT 1 FROM candle JOIN cup ON cup.candle_id = candle.id JOIN smelling ON smelling.id = cup.smelling_id
		WHERE candle.pour_id = ? AND cup.gone_at IS NULL AND smelling.at < ?)`, []any{p.ID, moment{&p.At}}, &early)
	if err == nil && early {
		return journal.Invalid("at", "One of its candles was smelled before that.")
	}
	return err
}

// Pour reads one pour.
func (s *Store) Pour(ctx context.Context, id journal.ID) (journal.Pour, error) {
	return find(ctx, s, pours, id)
}

// Pours lists pours, the newest number first: those below a number (0 for
// all), at most limit of them; more tells whether others follow.
func (s *Store) Pours(ctx context.Context, below, limit int) (lines []journal.PourLine, more bool, err error) {
	lines, err = view(ctx, s, func(r reader) ([]journal.PourLine, error) {
		list, err := all(r, pours, "WHERE ? = 0 OR number < ? ORDER BY number DESC LIMIT ?", below, below, limit+1)
		if err != nil {
			return nil, err
		}
		return r.pourLines(list)
	})
	if len(lines) > limit {
		return lines[:limit], true, err
	}
	return lines, false, err
}

// pourLines adds to pours what a list shows of them.
func (r reader) pourLines(list []journal.Pour) ([]journal.PourLine, error) {
	out := make([]journal.PourLine, len(list))
	for i, p := range list {
		out[i].Pour = p
		var fragrance sql.NullString
		_, err := r.value(`SELECT wax.name, (SELECT name FROM fragrance WHERE id = ?),
			(SELECT count(*) FROM candle WHERE pour_id = ? AND gone_at IS NULL) FROM wax WHERE id = ?`,
			[]any{p.Fragrance, p.ID, p.Wax}, &out[i].WaxName, &fragrance, &out[i].Candles)
		if err != nil {
			return nil, err
		}
		out[i].FragranceName = fragrance.String
	}
	return out, nil
}
