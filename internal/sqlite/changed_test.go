package sqlite_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// What was changed leads to the candles that it is part of, and to no others.
func TestChanged(t *testing.T) {
	s := newSeason(t)
	ids := func(codes ...string) []journal.ID {
		var out []journal.ID
		for _, c := range codes {
			out = append(out, s.candles[c].ID)
		}
		return out
	}
	check := got(s.BurnLog(t.Context(), s.burns["1-C/1"].ID))(t).Checks[0]
	pour := got(s.Pour(t.Context(), s.candles["1-A"].Pour))(t)
	for name, c := range map[string]struct {
		change func(*sqlite.Tx) error
		want   []journal.ID
		all    bool
	}{
		"a check": {func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCheck, check.ID, "") }, ids("1-C"), false},
		"a set check": {func(tx *sqlite.Tx) error {
			return tx.SaveSetCheck(&journal.SetCheck{Candle: s.candles["1-C"].ID, At: pour.At, Note: "dull"})
		}, ids("1-C"), false},
		"a burn":       {func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, s.burns["1-A/1"].ID, "") }, ids("1-A"), false},
		"a candle":     {func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, s.candles["1-B"].ID, "") }, ids("1-B"), false},
		"a pour":       {func(tx *sqlite.Tx) error { x := pour; x.Note = "a cold morning"; return tx.SavePour(&x) }, ids("1-A", "1-B", "1-C"), false},
		"a fragrance":  {func(tx *sqlite.Tx) error { x := s.oil; x.Name = "Moss"; return tx.SaveFragrance(&x) }, ids("2-A", "2-B", "2-C"), false},
		"the settings": {func(tx *sqlite.Tx) error { x := journal.DefaultSettings(); x.Ruler = 0.5; return tx.SaveSettings(&x) }, nil, true},
	} {
		t.Run(name, func(t *testing.T) {
			before := got(s.Changed(t.Context(), 0))(t).Revision
			must(t, s.write(t, c.change))
			changed := got(s.Changed(t.Context(), before))(t)
			if d := cmp.Diff(c.want, changed.Candles); d != "" || changed.All != c.all || changed.Revision <= before {
				t.Errorf("all %v, revision %d after %d; candles (-want +got):\n%s", changed.All, changed.Revision, before, d)
			}
			if again := got(s.Changed(t.Context(), changed.Revision))(t); again.All || again.Candles != nil || again.Revision != changed.Revision {
				t.Errorf("nothing was changed since: %+v", again)
			}
		})
	}
	for name, c := range map[string]func(*sqlite.Tx) error{
		"the wax":    func(tx *sqlite.Tx) error { x := s.st.Wax; x.Name = "Dune blend"; return tx.SaveWax(&x) },
		"the vessel": func(tx *sqlite.Tx) error { x := s.st.Vessel; x.Name = "Dune pot"; return tx.SaveVessel(&x) },
		"the ladder": func(tx *sqlite.Tx) error { x := s.st.Ladder; x.Name = "Sedge"; return tx.SaveLadder(&x) },
	} {
		t.Run(name, func(t *testing.T) {
			before := got(s.Changed(t.Context(), 0))(t).Revision
			must(t, s.write(t, c))
			if n := len(got(s.Changed(t.Context(), before))(t).Candles); n != len(s.candles) {
				t.Errorf("%d of %d candles", n, len(s.candles))
			}
		})
	}
}
