package sqlite

import (
	"context"

	"rimward/internal/journal"
)

var setChecks = kind[journal.SetCheck]{
	noun: journal.NounSetCheck, table: "set_check",
	meta: func(x *journal.SetCheck) *journal.Meta { return &x.Meta },
	own: func(x *journal.SetCheck) []field {
		return []field{
			{name: "candle_id", at: &x.Candle, ref: "candle"}, {name: "at", at: moment{&x.At}}, {name: "top", at: &x.Top}, {name: "dip", at: &x.Dip},
			{name: "sink_hole", at: &x.SinkHole}, {name: "cracks", at: &x.Cracks}, {name: "frosting", at: &x.Frosting}, {name: "sweating", at: &x.Sweating},
			{name: "stuck", at: &x.Stuck}, {name: "cold_throw", at: &x.ColdThrow}, {name: "note", at: &x.Note},
		}
	},
}

// SaveSetCheck keeps a set check, new or corrected. Its candle stays.
func (tx *Tx) SaveSetCheck(x *journal.SetCheck) error {
	return save(tx, setChecks, x, func(next, before *journal.SetCheck) error {
		if before != nil {
			next.Candle = before.Candle
		}
		return tx.fitsSetCheck(next)
	})
}

// fitsSetCheck holds the rules of a set check beside what else is kept.
func (tx *Tx) fitsSetCheck(x *journal.SetCheck) error {
	f := journal.SetCheckFacts{Now: tx.Now()}
	var err error
	if f.Candle, err = one(tx.reader, candles, x.Candle); err != nil {
		return orMissing(err, "candle")
	}
	p, err := one(tx.reader, pours, f.Candle.Pour)
	if err != nil {
		return err
	}
	f.PouredAt, f.Gone = p.At, p.IsGone() || f.Candle.IsGone()
	return x.Validate(f)
}

// SetCheck reads one set check.
func (s *Store) SetCheck(ctx context.Context, id journal.ID) (journal.SetCheck, error) {
	return find(ctx, s, setChecks, id)
}

// SetChecks lists the set checks of a candle in order of time, withdrawn ones
// too.
func (s *Store) SetChecks(ctx context.Context, candle journal.ID) ([]journal.SetCheck, error) {
	return list(ctx, s, setChecks, "WHERE candle_id = ? ORDER BY at, id", candle)
}
