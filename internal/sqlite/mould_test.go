package sqlite_test

import (
	"errors"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

var castNow = time.Date(2026, 5, 14, 20, 0, 0, 0, time.UTC)

// castStudio is a studio with a pour of yesterday afternoon and a mould.
func castStudio(t *testing.T) (*sqlite.Store, journal.Pour, journal.Mould) {
	t.Helper()
	s := testkit.Store(t, func() time.Time { return castNow })
	x := testkit.NewStudio(t, s)
	pour := journal.Pour{At: castNow.Add(-27 * time.Hour), Wax: x.Wax.ID, LoadBasis: journal.OfWax}
	mould := journal.Mould{Name: "Fir cones", Cavities: 4, CavityVolume: new(quantity.Millilitres(55)), Detail: journal.Undercut, Material: "silicone", Note: "from the tip"}
	testkit.Write(t, s, func(tx *sqlite.Tx) error { return errors.Join(tx.SavePour(&pour), tx.SaveMould(&mould)) })
	return s, pour, mould
}

func saveCast(t *testing.T, s *sqlite.Store, c *journal.Cast) {
	t.Helper()
	testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.SaveCast(c) })
}

func TestCastsAreKeptWhole(t *testing.T) {
	t.Parallel()
	s, pour, mould := castStudio(t)
	c := journal.Cast{Pour: pour.ID, Mould: mould.ID, Pieces: 8}
	saveCast(t, s, &c)
	inside, err := s.Casts(t.Context(), journal.CastFilter{Inside: true})
	if err != nil || len(inside) != 1 || inside[0].Mould.Name != "Fir cones" || inside[0].Wax.Name != "Meadow blend" || inside[0].Pour.Number != pour.Number {
		t.Fatalf("inside: %+v, %v", inside, err)
	}
	c.Out, c.Clean, c.Chipped, c.Broken = new(castNow.Add(-2*time.Hour)), new(6), new(0), new(2)
	c.Captured, c.Surface, c.Firmness, c.Note = journal.DetailSoft, journal.SurfacePitted, journal.Brittle, "cold"
	saveCast(t, s, &c)
	l, err := s.CastLine(t.Context(), c.ID)
	if d := cmp.Diff(journal.CastLine{Cast: c, Pour: pour, Wax: l.Wax, Mould: mould}, l); d != "" || err != nil {
		t.Errorf("read back: %v\n%s", err, d)
	}
	if inside, _ := s.Casts(t.Context(), journal.CastFilter{Inside: true}); len(inside) != 0 {
		t.Errorf("still inside: %+v", inside)
	}
	h, err := s.History(t.Context(), journal.NounCast, c.ID)
	if err != nil || len(h) != 2 || h[0].Kind != journal.Corrected {
		t.Errorf("history: %+v, %v", h, err)
	}
	use, err := s.Use(t.Context(), journal.NounMould, mould.ID)
	if d := cmp.Diff(journal.Use{Pours: 1, Casts: 1}, use); d != "" || err != nil {
		t.Errorf("use: %v\n%s", err, d)
	}
}

// A withdrawn cast, or one of a withdrawn pour, is listed only where that is
// asked for, and comes back.
func TestWithdrawnCastsCountNoMore(t *testing.T) {
	t.Parallel()
	s, pour, mould := castStudio(t)
	c := journal.Cast{Pour: pour.ID, Mould: mould.ID, Pieces: 8}
	saveCast(t, s, &c)
	count := func(f journal.CastFilter) int {
		list, err := s.Casts(t.Context(), f)
		if err != nil {
			t.Fatal(err)
		}
		return len(list)
	}
	for _, x := range []struct {
		noun journal.Noun
		id   journal.ID
	}{{journal.NounCast, c.ID}, {journal.NounPour, pour.ID}} {
		testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.Withdraw(x.noun, x.id, "a slip") })
		if n, all := count(journal.CastFilter{Mould: mould.ID}), count(journal.CastFilter{Pour: pour.ID, Withdrawn: true}); n != 0 || all != 1 {
			t.Errorf("%s withdrawn: %d count, %d in all", x.noun, n, all)
		}
		if use, _ := s.Use(t.Context(), journal.NounMould, mould.ID); use.Casts != 0 {
			t.Errorf("%s withdrawn: the mould has %d casts", x.noun, use.Casts)
		}
		testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.Restore(x.noun, x.id) })
		if n := count(journal.CastFilter{Mould: mould.ID}); n != 1 {
			t.Errorf("%s restored: %d count", x.noun, n)
		}
	}
	if n := count(journal.CastFilter{Mould: mould.ID + 1}); n != 0 {
		t.Errorf("another mould has %d casts", n)
	}
}

// The rules are held where the write happens.
func TestCastsThatCannotBe(t *testing.T) {
	t.Parallel()
	s, pour, mould := castStudio(t)
	c := journal.Cast{Pour: pour.ID, Mould: mould.ID, Pieces: 4, Out: new(castNow.Add(-25 * time.Hour))}
	saveCast(t, s, &c)
	testkit.Write(t, s, func(tx *sqlite.Tx) error {
		retired := journal.Mould{Name: "Old", Cavities: 1, Detail: journal.Plain}
		return errors.Join(tx.SaveMould(&retired), tx.Withdraw(journal.NounMould, retired.ID, ""))
	})
	later := pour
	later.At = castNow.Add(-24 * time.Hour)
	for name, x := range map[string]struct {
		save  func(tx *sqlite.Tx) error
		field string
	}{
		"no such pour":         {func(tx *sqlite.Tx) error { return tx.SaveCast(&journal.Cast{Pour: 99, Mould: mould.ID, Pieces: 4}) }, "pour"},
		"no such mould":        {func(tx *sqlite.Tx) error { return tx.SaveCast(&journal.Cast{Pour: pour.ID, Mould: 99, Pieces: 4}) }, "mould"},
		"a retired mould":      {func(tx *sqlite.Tx) error { return tx.SaveCast(&journal.Cast{Pour: pour.ID, Mould: 2, Pieces: 4}) }, "mould"},
		"no pieces":            {func(tx *sqlite.Tx) error { return tx.SaveCast(&journal.Cast{Pour: pour.ID, Mould: mould.ID}) }, "pieces"},
		"a pour past its cast": {func(tx *sqlite.Tx) error { x := later; return tx.SavePour(&x) }, "at"},
	} {
		err := s.Write(t.Context(), x.save)
		var invalid *journal.InvalidError
		if !errors.As(err, &invalid) || invalid.Problems[0].Field != x.field {
			t.Errorf("%s: %v, want a problem at %s", name, err, x.field)
		}
	}
	moved := c
	moved.Pour = 1
	saveCast(t, s, &moved)
	if moved.Pour != pour.ID {
		t.Errorf("a correction moved the cast to pour %d", moved.Pour)
	}
}
