package sqlite

import (
	"context"

	"rimward/internal/journal"
)

var burns = kind[journal.Burn]{
	noun: journal.NounBurn, table: "burn",
	meta: func(x *journal.Burn) *journal.Meta { return &x.Meta },
	own: func(x *journal.Burn) []field {
		return []field{
			{name: "candle_id", at: &x.Candle, ref: "candle"}, {name: "sitting_id", at: &x.Sitting, ref: "sitting"}, {name: "number", at: &x.Number},
			{name: "lit_at", at: moment{&x.LitAt}}, {name: "trim", at: &x.Trim}, {name: "mass_before", at: &x.MassBefore}, {name: "room", at: &x.Room},
			{name: "draught", at: &x.Draught}, {name: "place", at: &x.Place}, {name: "out_at", at: maybeMoment{&x.OutAt}}, {name: "mass_after", at: &x.MassAfter},
			{name: "after_smoke", at: &x.AfterSmoke}, {name: "ending", at: &x.Ending}, {name: "note", at: &x.Note},
		}
	},
	taken: journal.Problem{Field: "candle", Text: "This candle is lit already."},
}

// SaveBurn keeps a burn, new or corrected; a new one gets the candle's next
// number. Its candle stays, and so does its sitting unless another is given.
func (tx *Tx) SaveBurn(x *journal.Burn) error {
	return save(tx, burns, x, func(next, before *journal.Burn) error {
		if before != nil {
			next.Candle, next.Number = before.Candle, before.Number
			if next.Sitting == nil {
				next.Sitting = before.Sitting
			}
		}
		if next.Number == 0 {
			var err error
			if next.Number, err = tx.nextBurn(next.Candle); err != nil {
				return err
			}
		}
		return orMissing(tx.fitsBurn(next), "candle")
	})
}

// fitsBurn holds the rules of a burn beside what else is kept. A withdrawn
// candle cannot be lit, not even by bringing an old burn back.
func (tx *Tx) fitsBurn(b *journal.Burn) error {
	f, err := tx.burnFacts(*b)
	if err != nil {
		return err
	}
	if b.Lit() && f.Life.Gone {
		return journal.Invalid("candle", f.Candle.Code()+" was withdrawn.")
	}
	f.Now = tx.Now()
	return b.Validate(f)
}

// nextBurn is the number of a candle's next burn; withdrawn ones keep theirs.
func (r reader) nextBurn(candle journal.ID) (n int, err error) {
	_, err = r.value("SELECT coalesce(max(number), 0) + 1 FROM burn WHERE candle_id = ?", []any{candle}, &n)
	return n, err
}

// burnFacts gathers what the rules of a burn need to know beside it, without
// the moment. A withdrawn burn has no neighbours: it takes up no time.
func (r reader) burnFacts(b journal.Burn) (journal.BurnFacts, error) {
	var f journal.BurnFacts
	var err error
	if f.Candle, err = one(r, candles, b.Candle); err != nil {
		return f, err
	}
	p, err := one(r, pours, f.Candle.Pour)
	if err != nil {
		return f, err
	}
	w, err := one(r, waxes, p.Wax)
	if err != nil {
		return f, err
	}
	looks, err := r.setChecksOf([]journal.Candle{f.Candle}, counts)
	if err != nil {
		return f, err
	}
	log := journal.CandleLog{Made: journal.Made{Candle: f.Candle, Pour: p, Wax: w}, SetChecks: looks[f.Candle.ID]}
	others, err := all(r, burns, "WHERE candle_id = ? AND gone_at IS NULL ORDER BY number", b.Candle)
	if err != nil {
		return f, err
	}
	for _, o := range others {
		log.Burns = append(log.Burns, journal.BurnLog{Burn: o})
		if o.ID != b.ID && !b.IsGone() {
			f.Others = append(f.Others, o)
		}
	}
	f.Life = log.Life()
	if b.ID != 0 {
		if f.Checks, err = all(r, checks, "WHERE burn_id = ? AND gone_at IS NULL ORDER BY at", b.ID); err != nil {
			return f, err
		}
	}
	f.Cracked, err = r.cracked(b)
	return f, err
}

// cracked reports whether a check made before the burn was lit says that the
// vessel cracked.
func (r reader) cracked(b journal.Burn) (yes bool, err error) {
	_, err = r.value(`SELECT EXISTS (SELECT 1 FROM burn JOIN checks ON checks.burn_id = burn.id
		WHERE burn.candle_id = ? AND burn.id <> ? AND burn.gone_at IS NULL AND checks.gone_at IS NULL AND checks.at <= ? AND instr(checks.odd, ?) > 0)`,
		[]any{b.Candle, b.ID, moment{&b.LitAt}, string(journal.Cracked)}, &yes)
	return yes, err
}

// BurnFacts gathers what is to be known beside a burn before it is saved.
func (s *Store) BurnFacts(ctx context.Context, b journal.Burn) (journal.BurnFacts, error) {
	return view(ctx, s, func(r reader) (journal.BurnFacts, error) {
		f, err := r.burnFacts(b)
		f.Now = s.moment()
		return f, err
	})
}

// Burn reads one burn.
func (s *Store) Burn(ctx context.Context, id journal.ID) (journal.Burn, error) {
	return find(ctx, s, burns, id)
}

// BurnLog reads one burn with all its checks in order of time.
func (s *Store) BurnLog(ctx context.Context, id journal.ID) (journal.BurnLog, error) {
	return view(ctx, s, func(r reader) (journal.BurnLog, error) { return r.burnLog(id) })
}

func (r reader) burnLog(id journal.ID) (journal.BurnLog, error) {
	b, err := one(r, burns, id)
	if err != nil {
		return journal.BurnLog{}, err
	}
	cs, err := all(r, checks, "WHERE burn_id = ? ORDER BY at, id", id)
	return journal.BurnLog{Burn: b, Checks: cs}, err
}
