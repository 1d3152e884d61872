package sqlite

import (
	"context"
	"database/sql/driver"
	"fmt"
	"slices"
	"strings"

	"rimward/internal/journal"
)

var checks = kind[journal.Check]{
	noun: journal.NounCheck, table: "checks",
	meta: func(x *journal.Check) *journal.Meta { return &x.Meta },
	own: func(x *journal.Check) []field {
		return []field{
			{name: "burn_id", at: &x.Burn, ref: "burn"}, {name: "at", at: moment{&x.At}}, {name: "width_a", at: &x.WidthA}, {name: "width_b", at: &x.WidthB},
			{name: "full", at: &x.Full}, {name: "depth", at: &x.Depth}, {name: "flame", at: &x.Flame},
			{name: "mushroom", at: &x.Mushroom}, {name: "soot", at: &x.Soot}, {name: "wall_wax", at: &x.WallWax},
			{name: "vessel_temp", at: &x.VesselTemp}, {name: "hot_throw", at: &x.HotThrow}, {name: "odd", at: oddList{&x.Odd}},
			{name: "left_out", at: &x.LeftOut}, {name: "note", at: &x.Note},
		}
	},
}

// oddList keeps the odd events as one text with commas between them.
type oddList struct{ list *[]journal.Odd }

// Value is the text to keep.
func (o oddList) Value() (driver.Value, error) {
	words := make([]string, len(*o.list))
	for i, x := range *o.list {
		words[i] = string(x)
	}
	return strings.Join(words, ","), nil
}

// Scan reads the text back.
func (o oddList) Scan(src any) error {
	text, ok := src.(string)
	if !ok {
		return fmt.Errorf("read odd events: %T is not text", src)
	}
	*o.list = nil
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' }) {
		*o.list = append(*o.list, journal.Odd(w))
	}
	return nil
}

// tidy puts the events in the order of the journal's list, each once.
func (o oddList) tidy() {
	given := slices.Clone(*o.list)
	*o.list = nil
	for _, w := range journal.Odds {
		if slices.Contains(given, w.Odd) {
			*o.list = append(*o.list, w.Odd)
		}
		given = slices.DeleteFunc(given, func(x journal.Odd) bool { return x == w.Odd })
	}
	*o.list = append(*o.list, given...) // unknown words, which the table refuses
}

// SaveCheck keeps a check, new or corrected. Its burn stays.
func (tx *Tx) SaveCheck(x *journal.Check) error {
	return save(tx, checks, x, func(next, before *journal.Check) error {
		if before != nil {
			next.Burn = before.Burn
		}
		return orMissing(tx.fitsCheck(next), "burn")
	})
}

// fitsCheck holds the rules of a check beside what else is kept.
func (tx *Tx) fitsCheck(c *journal.Check) error {
	f, err := tx.checkFacts(*c)
	if err != nil {
		return err
	}
	if f.Burn.IsGone() {
		return journal.Invalid("burn", "The burn was withdrawn.")
	}
	f.Now = tx.Now()
	return c.Validate(f)
}

// checkFacts gathers what the rules of a check need to know beside it,
// without the moment.
func (r reader) checkFacts(c journal.Check) (journal.CheckFacts, error) {
	var f journal.CheckFacts
	var err error
	if f.Burn, err = one(r, burns, c.Burn); err != nil {
		return f, err
	}
	of, err := one(r, candles, f.Burn.Candle)
	if err != nil {
		return f, err
	}
	if f.Vessel, err = one(r, vessels, of.Vessel); err != nil {
		return f, err
	}
	set, err := r.settings()
	if err != nil {
		return f, err
	}
	f.Wicks, f.Ruler = of.Wicks, set.Ruler
	if c.IsGone() {
		return f, nil // a withdrawn check stands in no other's way
	}
	f.Others, err = all(r, checks, "WHERE burn_id = ? AND id <> ? AND gone_at IS NULL ORDER BY at", c.Burn, c.ID)
	return f, err
}

// CheckFacts gathers what is to be known beside a check before it is saved.
func (s *Store) CheckFacts(ctx context.Context, c journal.Check) (journal.CheckFacts, error) {
	return view(ctx, s, func(r reader) (journal.CheckFacts, error) {
		f, err := r.checkFacts(c)
		f.Now = s.moment()
		return f, err
	})
}

// Check reads one check.
func (s *Store) Check(ctx context.Context, id journal.ID) (journal.Check, error) {
	return find(ctx, s, checks, id)
}
