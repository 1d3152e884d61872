package sqlite

import (
	"context"

	"rimward/internal/journal"
)

var verdicts = kind[journal.Verdict]{
	noun: journal.NounVerdict, table: "verdict",
	meta: func(x *journal.Verdict) *journal.Meta { return &x.Meta },
	own: func(x *journal.Verdict) []field {
		return []field{
			{name: "vessel_id", at: &x.Vessel, ref: "vessel"}, {name: "wick_id", at: &x.Wick, ref: "wick"}, {name: "wicks", at: &x.Wicks},
			{name: "wax_id", at: &x.Wax, ref: "wax"}, {name: "fragrance_id", at: &x.Fragrance, ref: "fragrance"}, {name: "load", at: &x.Load},
			{name: "apart", at: &x.Apart}, {name: "series", at: &x.Series}, {name: "ruling", at: &x.Ruling}, {name: "decided_by", at: &x.By},
			{name: "at", at: moment{&x.At}}, {name: "why", at: &x.Why}, {name: "tip_test", at: &x.TipTest}, {name: "base_check", at: &x.BaseCheck},
			{name: "claimed_hours", at: &x.ClaimedHours}, {name: "figures", at: frozen{asJSON[journal.VerdictFigures]{&x.Figures}}},
		}
	},
}

// frozen keeps a verdict's figures.
type frozen struct {
	asJSON[journal.VerdictFigures]
}

func (z frozen) tidy() { z.v.At = toSecond(z.v.At) }

// SaveVerdict keeps a verdict, new or corrected. A new one without a moment is
// made now. What it is about, its ruling, its moment and its figures stay as
// they were: a change of mind is a verdict of its own.
func (tx *Tx) SaveVerdict(x *journal.Verdict) error {
	return save(tx, verdicts, x, func(next, before *journal.Verdict) error {
		*next = next.Tidied()
		if before == nil {
			if next.At.IsZero() {
				next.At = tx.Now()
			}
			return tx.fitsVerdict(next, true)
		}
		said := *next
		*next = *before
		next.By, next.Why, next.TipTest, next.BaseCheck, next.ClaimedHours = said.By, said.Why, said.TipTest, said.BaseCheck, said.ClaimedHours
		return tx.fitsVerdict(next, false)
	})
}

// fitsVerdict holds the rules of a verdict beside what else is kept. A new one
// must rest on figures of the record as it is.
func (tx *Tx) fitsVerdict(v *journal.Verdict, fresh bool) error {
	f := journal.VerdictFacts{Now: tx.Now(), Poured: true}
	if !fresh {
		return v.Validate(f)
	}
	var err error
	f.Poured, err = tx.value(`SELECT 1 FROM candle JOIN pour ON pour.id = candle.pour_id WHERE candle.vessel_id = ? AND candle.wick_id = ? AND candle.wicks = ?
		AND pour.wax_id = ? AND candle.gone_at IS NULL AND pour.gone_at IS NULL LIMIT 1`, []any{v.Vessel, v.Wick, v.Wicks, v.Wax}, new(int))
	if err != nil {
		return err
	}
	if f.Changed, err = tx.changedSince(v); err != nil {
		return err
	}
	return v.Validate(f)
}

// changedSince reports whether a candle of the verdict's pairing, or the
// settings, changed after its figures were worked out.
func (tx *Tx) changedSince(v *journal.Verdict) (bool, error) {
	c, err := tx.changed(v.Figures.Revision)
	if err != nil || c.All {
		return c.All, err
	}
	return tx.value(`SELECT 1 FROM candle WHERE candle.id IN (SELECT value FROM json_each(?)) AND vessel_id = ? AND wick_id = ? AND wicks = ? LIMIT 1`,
		[]any{idList(c.Candles), v.Vessel, v.Wick, v.Wicks}, new(int))
}

// Verdict reads one verdict.
func (s *Store) Verdict(ctx context.Context, id journal.ID) (journal.Verdict, error) {
	return find(ctx, s, verdicts, id)
}

// Verdicts lists all verdicts, withdrawn ones too, the newest first.
func (s *Store) Verdicts(ctx context.Context) ([]journal.Verdict, error) {
	return view(ctx, s, func(r reader) ([]journal.Verdict, error) { return all(r, verdicts, "ORDER BY at DESC, id DESC") })
}

// VerdictsOn lists the verdicts on one pairing, withdrawn ones too, the newest
// first.
func (s *Store) VerdictsOn(ctx context.Context, p journal.Place) ([]journal.Verdict, error) {
	return view(ctx, s, func(r reader) ([]journal.Verdict, error) {
		return all(r, verdicts, "WHERE vessel_id = ? AND wick_id = ? AND wax_id = ? AND series = ? ORDER BY at DESC, id DESC", p.Vessel, p.Wick, p.Wax, p.Series)
	})
}
