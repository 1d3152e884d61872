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
	if _, err := tx.value("SELECT min(lit_at) FROM burn WHERE candle_id = ? AND gone_at IS NULL", []any{x.Candle}, maybeMoment{&f.FirstLit}); err != nil {
		return err
	}
	return x.Validate(f)
}

// lookedBefore refuses a pour that lies after a set check of one of its candles.
func (tx *Tx) lookedBefore(p *journal.Pour) error {
	var early bool
	_, err := tx.value(`SELECT EXISTS (SELECT 1 FROM candle JOIN set_check ON set_check.candle_id = candle.id
		WHERE candle.pour_id = ? AND set_check.gone_at IS NULL AND set_check.at < ?)`, []any{p.ID, moment{&p.At}}, &early)
	if err == nil && early {
		return journal.Invalid("at", "One of its candles was looked at, as it had set, before that.")
	}
	return err
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

// setChecksOf reads the set checks of candles, in order of time.
func (r reader) setChecksOf(list []journal.Candle, which string) (map[journal.ID][]journal.SetCheck, error) {
	found, err := all(r, setChecks, "WHERE candle_id IN (SELECT value FROM json_each(?))"+which+" ORDER BY candle_id, at, id",
		idList(idsOf(list, func(c journal.Candle) journal.ID { return c.ID })))
	out := map[journal.ID][]journal.SetCheck{}
	for _, x := range found {
		out[x.Candle] = append(out[x.Candle], x)
	}
	return out, err
}

// SettingLogs reads every candle that counts with the set checks that count,
// and without its burns: what tells how a wax sets. wax narrows it to one; 0
// reads all.
func (s *Store) SettingLogs(ctx context.Context, wax journal.ID) ([]journal.CandleLog, error) {
	return view(ctx, s, func(r reader) ([]journal.CandleLog, error) { return r.settingLogs(wax) })
}

func (r reader) settingLogs(wax journal.ID) ([]journal.CandleLog, error) {
	list, err := all(r, candles, `JOIN pour AS p ON p.id = candle.pour_id
		WHERE candle.gone_at IS NULL AND p.gone_at IS NULL AND (? = 0 OR p.wax_id = ?)
		ORDER BY p.number, length(candle.letter), candle.letter`, wax, wax)
	if err != nil {
		return nil, err
	}
	return r.unlit(list, counts)
}

// unlit adds to candles what they are made of and their set checks, not their
// burns.
func (r reader) unlit(list []journal.Candle, whichChecks string) ([]journal.CandleLog, error) {
	made, err := r.made(list)
	if err != nil {
		return nil, err
	}
	seen, err := r.setChecksOf(list, whichChecks)
	out := make([]journal.CandleLog, len(made))
	for i, m := range made {
		out[i] = journal.CandleLog{Made: m, SetChecks: seen[m.Candle.ID]}
	}
	return out, err
}

// PourLogs reads the candles of a pour that count, in the order of their
// letters, each with everything that counts of it.
func (s *Store) PourLogs(ctx context.Context, pour journal.ID) ([]journal.CandleLog, error) {
	return view(ctx, s, func(r reader) ([]journal.CandleLog, error) {
		list, err := all(r, candles, "WHERE pour_id = ? AND candle.gone_at IS NULL ORDER BY length(letter), letter", pour)
		if err != nil {
			return nil, err
		}
		return r.logs(list, counts, counts, counts)
	})
}
