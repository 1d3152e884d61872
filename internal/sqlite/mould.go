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

// Casts lists casts, those of the newest pour first.
func (s *Store) Casts(ctx context.Context, f journal.CastFilter) ([]journal.CastLine, error) {
	return view(ctx, s, func(r reader) ([]journal.CastLine, error) {
		where, args := castConditions(f)
		return r.castLines(all(r, casts, "JOIN pour ON pour.id = pour_cast.pour_id WHERE 1"+where+" ORDER BY pour.number DESC, pour_cast.id", args...))
	})
}

// CastLine reads one cast with what it was poured from and into.
func (s *Store) CastLine(ctx context.Context, id journal.ID) (journal.CastLine, error) {
	return view(ctx, s, func(r reader) (journal.CastLine, error) {
		c, err := one(r, casts, id)
		if err != nil {
			return journal.CastLine{}, err
		}
		lines, err := r.castLines([]journal.Cast{c}, nil)
		if err != nil {
			return journal.CastLine{}, err
		}
		return lines[0], nil
	})
}

func castConditions(f journal.CastFilter) (where string, args []any) {
	if f.Pour != 0 {
		where, args = where+" AND pour_cast.pour_id = ?", append(args, f.Pour)
	}
	if f.Mould != 0 {
		where, args = where+" AND pour_cast.mould_id = ?", append(args, f.Mould)
	}
	if f.Inside {
		where += " AND pour_cast.out_at IS NULL"
	}
	if !f.Withdrawn {
		where += " AND pour_cast.gone_at IS NULL AND pour.gone_at IS NULL"
	}
	return where, args
}

// castLines adds to casts what they were poured from and into.
func (r reader) castLines(list []journal.Cast, err error) ([]journal.CastLine, error) {
	if err != nil {
		return nil, err
	}
	in := "WHERE id IN (SELECT value FROM json_each(?))"
	pourOf, err := byID(r, pours, in, idList(idsOf(list, func(c journal.Cast) journal.ID { return c.Pour })))
	if err != nil {
		return nil, err
	}
	waxOf, err := byID(r, waxes, "")
	if err != nil {
		return nil, err
	}
	mouldOf, err := byID(r, moulds, "")
	if err != nil {
		return nil, err
	}
	out := make([]journal.CastLine, len(list))
	for i, c := range list {
		out[i] = journal.CastLine{Cast: c, Pour: pourOf[c.Pour], Wax: waxOf[pourOf[c.Pour].Wax], Mould: mouldOf[c.Mould]}
	}
	return out, nil
}

// castBefore refuses a pour that lies after a cast of it came out.
func (tx *Tx) castBefore(p *journal.Pour) error {
	var early bool
	_, err := tx.value("SELECT EXISTS (SELECT 1 FROM pour_cast WHERE pour_id = ? AND gone_at IS NULL AND out_at < ?)", []any{p.ID, moment{&p.At}}, &early)
	if err == nil && early {
		return journal.Invalid("at", "One of its casts came out of the mould before that.")
	}
	return err
}

// mouldUse counts the casts of a mould, and the pours that they came from.
func (r reader) mouldUse(id journal.ID) (u journal.Use, err error) {
	_, err = r.value(`SELECT count(DISTINCT pour.id), count(*) FROM pour_cast JOIN pour ON pour.id = pour_cast.pour_id
		WHERE pour_cast.gone_at IS NULL AND pour.gone_at IS NULL AND mould_id = ?`, []any{id}, &u.Pours, &u.Casts)
	return u, err
}
