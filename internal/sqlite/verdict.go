package sqlite

import (
	"context"
	"database/sql/driver"
	"encoding/json"
	"fmt"

	"rimward/internal/journal"
)

var verdicts = kind[journal.Verdict]{
	noun: journal.NounVerdict, table: "verdict",
	meta: func(x *journal.Verdict) *journal.Meta { return &x.Meta },
	own: func(x *journal.Verdict) []field {
		return []field{
			{name: "vessel_id", at: &x.Vessel, ref: "vessel"}, {name: "wax_id", at: &x.Wax, ref: "wax"}, {name: "wick_id", at: &x.Wick, ref: "wick"},
			{name: "series", at: &x.Series}, {name: "ruling", at: &x.Ruling}, {name: "at", at: moment{&x.At}}, {name: "by", at: &x.By}, {name: "why", at: &x.Why},
			{name: "tip_test", at: &x.TipTest}, {name: "base_check", at: &x.BaseCheck}, {name: "claimed", at: &x.Claimed},
			{name: "hard", at: &x.Hard}, {name: "missing", at: &x.Missing}, {name: "figures", at: rawJSON{&x.Figures}},
		}
	},
}

// rawJSON keeps a piece of JSON as text.
type rawJSON struct{ text *json.RawMessage }

// Value is the text to keep.
func (j rawJSON) Value() (driver.Value, error) { return string(*j.text), nil }

// Scan reads the text back.
func (j rawJSON) Scan(src any) error {
	text, ok := src.(string)
	if !ok {
		return fmt.Errorf("read figures: %T is not text", src)
	}
	*j.text = json.RawMessage(text)
	return nil
}

// SaveVerdict keeps a verdict, new or corrected. What it is about, when it was
// given and the figures that it rested on stay; so does the ruling: another one
// is a verdict of its own.
func (tx *Tx) SaveVerdict(x *journal.Verdict) error {
	return save(tx, verdicts, x, func(next, before *journal.Verdict) error {
		*next = next.Tidied()
		if before != nil {
			said := *next
			*next = *before
			next.By, next.Why, next.TipTest, next.BaseCheck, next.Claimed = said.By, said.Why, said.TipTest, said.BaseCheck, said.Claimed
		} else {
			next.At = tx.Now()
		}
		return next.Validate()
	})
}

// Verdict reads one verdict.
func (s *Store) Verdict(ctx context.Context, id journal.ID) (journal.Verdict, error) {
	return find(ctx, s, verdicts, id)
}

// Verdicts lists every verdict, withdrawn ones too, newest first.
func (s *Store) Verdicts(ctx context.Context) ([]journal.Verdict, error) {
	return view(ctx, s, func(r reader) ([]journal.Verdict, error) {
		return all(r, verdicts, `ORDER BY verdict."at" DESC, verdict.id DESC`)
	})
}

// PairingVerdicts lists the verdicts about one pairing, withdrawn ones too,
// newest first.
func (s *Store) PairingVerdicts(ctx context.Context, vessel, wick journal.ID, series string) ([]journal.Verdict, error) {
	return view(ctx, s, func(r reader) ([]journal.Verdict, error) { return r.pairingVerdicts(vessel, wick, series) })
}

func (r reader) pairingVerdicts(vessel, wick journal.ID, series string) ([]journal.Verdict, error) {
	return all(r, verdicts, `WHERE vessel_id = ? AND wick_id = ? AND series = ? ORDER BY verdict."at" DESC, verdict.id DESC`, vessel, wick, series)
}
