package sqlite_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

func TestSettings(t *testing.T) {
	b := newBench(t)
	set := got(b.Settings(t.Context()))(t)
	if set.Units != quantity.Metric || set.Ruler != 1 || set.Version != 0 || set.Limits != nil || set.Apart != journal.ByLoad || set.Beliefs != nil {
		t.Errorf("settings of a new journal: %+v", set)
	}
	stale := set
	set.Units, set.Scheme, set.TimeZone = quantity.Imperial, journal.SchemeNight, "Europe/Oslo"
	set.Limits = map[string]float64{"flame": 60, "rest": 2}
	set.Apart, set.Beliefs = journal.ByWax, map[string][]float64{"slip": {0.02}, "burn": {0.03, 40, 0.05, 60}}
	save := func(x journal.Settings) error {
		return b.write(t, func(tx *sqlite.Tx) error { return tx.SaveSettings(&x) })
	}
	must(t, save(set))
	wantIs(t, save(stale), journal.ErrConflict)
	now := got(b.Settings(t.Context()))(t)
	if now.Version != 1 || now.Units != quantity.Imperial || now.Limits["rest"] != 2 || len(now.Limits) != 2 || now.TimeZone != "Europe/Oslo" || now.Scheme != journal.SchemeNight {
		t.Errorf("settings after saving: %+v", now)
	}
	if d := cmp.Diff(set.Beliefs, now.Beliefs); d != "" || now.Apart != journal.ByWax {
		t.Errorf("kept apart by %q; beliefs (-want +got):\n%s", now.Apart, d)
	}
	lines := len(got(b.History(t.Context(), journal.NounSettings, 1))(t))
	must(t, save(now))
	delete(now.Limits, "rest")
	must(t, save(now))
	if again := got(b.Settings(t.Context()))(t); again.Version != 2 || len(again.Limits) != 1 {
		t.Errorf("settings after a limit was taken back: %+v", again)
	}
	if after := len(got(b.History(t.Context(), journal.NounSettings, 1))(t)); after != lines+1 {
		t.Errorf("%d lines of history after %d", after, lines)
	}
	for field, spoil := range map[string]func(*journal.Settings){
		"time_zone": func(x *journal.Settings) { x.TimeZone = "Sea/Atlantis" },
		"":          func(x *journal.Settings) { x.Units.Length = "ell" },
	} {
		x := got(b.Settings(t.Context()))(t)
		spoil(&x)
		b.refused(t, field, func(tx *sqlite.Tx) error { return tx.SaveSettings(&x) })
	}
}
