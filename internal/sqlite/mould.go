package sqlite

import (
	"context"

	"rimward/internal/journal"
)

var moulds = kind[journal.Mould]{
	noun: journal.NounMould, table: "mould",
	meta: func(x *journal.Mould) *journal.Meta { return &x.Meta },
	own: func(x *journal.Mould) []field {
		return []field{
			{name: "name", at: &x.Name}, {name: "cavities", at: &x.Cavities}, {name: "cavity_volume", at: &x.CavityVolume}, {name: "water_fill", at: &x.WaterFill},
			{name: "detail", at: &x.Detail}, {name: "material", at: &x.Material}, {name: "note", at: &x.Note},
		}
	},
}

// SaveMould keeps a mould, new or corrected.
func (tx *Tx) SaveMould(x *journal.Mould) error { return saveValid(tx, moulds, x) }

// Mould reads one mould.
func (s *Store) Mould(ctx context.Context, id journal.ID) (journal.Mould, error) {
	return find(ctx, s, moulds, id)
}

// Moulds lists all moulds by name, retired ones too.
func (s *Store) Moulds(ctx context.Context) ([]journal.Mould, error) {
	return list(ctx, s, moulds, byName)
}

var casts = kind[journal.Cast]{
	noun: journal.NounCast, table: "pour_cast",
	meta: func(x *journal.Cast) *journal.Meta { return &x.Meta },
	own: func(x *journal.Cast) []field {
		return []field{
			{name: "pour_id", at: &x.Pour, ref: "pour"}, {name: "mould_id", at: &x.Mould, ref: "mould"}, {name: "pieces", at: &x.Pieces},
			{name: "out_at", at: maybeMoment{&x.Out}}, {name: "clean", at: &x.Clean}, {name: "chipped", at: &x.Chipped}, {name: "broken", at: &x.Broken},
			{name: "captured", at: &x.Captured}, {name: "surface", at: &x.Surface}, {name: "firmness", at: &x.Firmness}, {name: "note", at: &x.Note},
		}
	},
}

// SaveCast keeps a cast, new or corrected. Its pour stays.
func (tx *Tx) SaveCast(x *journal.Cast) error {
	return save(tx, casts, x, func(next, before *journal.Cast) error {
		if before != nil {
			next.Pour = before.Pour
		}
		return tx.fitsCast(next)
	})
}

// fitsCast holds the rules of a cast beside what else is kept.
func (tx *Tx) fitsCast(c *journal.Cast) error {
	f := journal.CastFacts{Now: tx.Now()}
	var err error
	if f.Pour, err = one(tx.reader, pours, c.Pour); err != nil {
		return orMissing(err, "pour")
	}
	if f.Mould, err = one(tx.reader, moulds, c.Mould); err != nil {
		return orMissing(err, "mould")
	}
	return c.Validate(f)
}

// Cast reads one cast.
func (s *Store) Cast(ctx context.Context, id journal.ID) (journal.Cast, error) {
	return find(ctx, s, casts, id)
}

// PourCasts lists the casts of a pour as they were written, withdrawn ones
// too.
func (s *Store) PourCasts(ctx context.Context, pour journal.ID) ([]journal.Cast, error) {
	return list(ctx, s, casts, "WHERE pour_id = ? ORDER BY id", pour)
}
