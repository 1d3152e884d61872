package sqlite_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// saveSet keeps a set check of a candle at the clock's time.
func (b bench) saveSet(t *testing.T, c journal.Candle, change func(*journal.SetCheck)) journal.SetCheck {
	t.Helper()
	x := journal.SetCheck{Candle: c.ID, At: b.clock.at, Top: journal.TopSmooth}
	if change != nil {
		change(&x)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveSetCheck(&x) }))
	return x
}

func TestASetCheckIsReadAsItWasKept(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	depth, stuck, throw := quantity.Millimetres(2.5), quantity.Fraction(0.85), 3
	x := b.saveSet(t, c, func(s *journal.SetCheck) {
		s.Top, s.Dip, s.SinkHole, s.Cracks, s.Frosting, s.Sweating = journal.TopDip, &depth, journal.AmountSlight, journal.AmountNone, journal.AmountHeavy, journal.AmountSlight
		s.Stuck, s.ColdThrow, s.Note = &stuck, &throw, "by the window"
	})
	if d := cmp.Diff(x, got(b.SetCheck(t.Context(), x.ID))(t)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]journal.SetCheck{x}, got(b.SetChecks(t.Context(), c.ID))(t)); d != "" {
		t.Error(d)
	}
	corrected := x
	corrected.Candle, corrected.Frosting = b.st.Candles[1].ID, journal.AmountNone
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveSetCheck(&corrected) }))
	if corrected.Candle != c.ID || corrected.Version != 2 {
		t.Errorf("a correction moved it to candle %d, version %d", corrected.Candle, corrected.Version)
	}
	if n := len(got(b.History(t.Context(), journal.NounSetCheck, x.ID))(t)); n != 2 {
		t.Errorf("%d changes", n)
	}
	if n := len(got(b.CandleHistory(t.Context(), c.ID))(t)); n != 3 {
		t.Errorf("%d changes of the candle, want its own and two of its set check", n)
	}
}

func TestASetCheckIsOfACandleThatWasNeverLit(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	b.saveSet(t, c, nil)
	b.clock.wait(time.Hour)
	burn := b.light(t, c)
	b.saveSet(t, c, nil) // at the match
	b.clock.wait(time.Minute)
	late := func(tx *sqlite.Tx) error {
		return tx.SaveSetCheck(&journal.SetCheck{Candle: c.ID, At: b.clock.at, Top: journal.TopSmooth})
	}
	if err := b.write(t, late); err == nil {
		t.Error("a set check of a lit candle was kept")
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, burn.ID, "") }))
	must(t, b.write(t, late))
}

func TestASetCheckComesBackOnlyWhereItFits(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	x := b.saveSet(t, c, nil)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSetCheck, x.ID, "the wrong candle") }))
	if l := got(b.CandleLog(t.Context(), c.ID))(t); len(l.SetChecks) != 1 || len(l.CountedSetChecks()) != 0 || l.SetChecks[0].GoneWhy != "the wrong candle" {
		t.Errorf("withdrawn: %+v", l.SetChecks)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounSetCheck, x.ID) }))
	if l := got(b.CandleLog(t.Context(), c.ID))(t); len(l.CountedSetChecks()) != 1 {
		t.Error("it did not come back")
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSetCheck, x.ID, "") }))
	must(t, b.write(t, func(tx *sqlite.Tx) error {
		return tx.SaveBurn(&journal.Burn{Candle: c.ID, LitAt: x.At.Add(-time.Hour)})
	}))
	if err := b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounSetCheck, x.ID) }); err == nil {
		t.Error("it came back after the candle was lit before it")
	}
}

// The bench, the pour and the summary see a look that counts, and no other.
func TestLooksThatCount(t *testing.T) {
	b := newBench(t)
	a, other := b.st.Candles[0], b.st.Candles[1]
	x := b.saveSet(t, a, nil)
	seen := func() map[journal.ID]bool {
		out := map[journal.ID]bool{}
		for _, l := range got(b.Waiting(t.Context(), 10))(t) {
			out[l.Candle.ID] = l.Life.SetLooked()
		}
		return out
	}
	if s := seen(); !s[a.ID] || s[other.ID] || len(s) != len(b.st.Candles) {
		t.Errorf("looked at: %v", s)
	}
	logs := got(b.SettingLogs(t.Context(), b.st.Wax.ID))(t)
	if len(logs) != len(b.st.Candles) || len(logs[0].SetChecks) != 1 || logs[0].Wax.Name != b.st.Wax.Name || len(got(b.SettingLogs(t.Context(), 999))(t)) != 0 {
		t.Errorf("%d logs of the wax: %+v", len(logs), logs)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSetCheck, x.ID, "") }))
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, other.ID, "") }))
	if s := seen(); s[a.ID] {
		t.Error("a withdrawn look counts")
	}
	logs = got(b.SettingLogs(t.Context(), 0))(t)
	if len(logs) != len(b.st.Candles)-1 || len(logs[0].SetChecks) != 0 {
		t.Errorf("%d logs: %+v", len(logs), logs)
	}
	if n := len(got(b.PourLogs(t.Context(), b.st.Pour.ID))(t)); n != len(b.st.Candles)-1 {
		t.Errorf("%d candles of the pour count", n)
	}
}

func TestPhotosOfASetCheckBelongToItsCandle(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	x := b.saveSet(t, c, nil)
	b.clock.wait(time.Hour)
	burn := b.light(t, c)
	b.photo(t, journal.NounBurn, burn.ID, 2)
	b.photo(t, journal.NounSetCheck, x.ID, 1)
	if s := hashes(got(b.CandlePhotos(t.Context(), c.ID))(t)); s != "12" {
		t.Errorf("photos come as %s", s)
	}
	photos := 0
	for _, change := range got(b.CandleHistory(t.Context(), c.ID))(t) {
		if change.Noun == journal.NounPhoto {
			photos++
		}
	}
	if photos != 2 {
		t.Errorf("%d photos in the candle's history", photos)
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSetCheck, x.ID, "") }))
	if s := hashes(got(b.CandlePhotos(t.Context(), c.ID))(t)); s != "2" {
		t.Errorf("with the set check withdrawn: %s", s)
	}
	if err := b.write(t, func(tx *sqlite.Tx) error {
		return tx.SavePhoto(&journal.Photo{Of: journal.NounSetCheck, OfID: x.ID, Hash: hash(4), Width: 10, Height: 10, At: b.clock.at})
	}); err == nil {
		t.Error("a photo of a withdrawn set check was kept")
	}
}

// A set check is of a candle that was never lit, whichever of the two is
// written down last; once it is withdrawn, it stands in nobody's way.
func TestNoBurnGoesBeforeASetCheck(t *testing.T) {
	b := newBench(t)
	c := b.st.Candles[0]
	x := b.saveSet(t, c, nil)
	before := func(tx *sqlite.Tx) error {
		return tx.SaveBurn(&journal.Burn{Candle: c.ID, LitAt: x.At.Add(-time.Hour)})
	}
	if err := b.write(t, before); err == nil {
		t.Error("a candle was lit before it was looked at as one that was never lit")
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSetCheck, x.ID, "") }))
	must(t, b.write(t, before))
}

func TestAPourDoesNotMovePastASetCheck(t *testing.T) {
	b := newBench(t)
	x := b.saveSet(t, b.st.Candles[0], func(s *journal.SetCheck) { s.At = b.st.Pour.At.Add(24 * time.Hour) })
	move := func(tx *sqlite.Tx) error {
		p := b.st.Pour
		p.At = x.At.Add(time.Hour)
		return tx.SavePour(&p)
	}
	if err := b.write(t, move); err == nil {
		t.Error("a candle was looked at before it was poured")
	}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSetCheck, x.ID, "") }))
	must(t, b.write(t, move))
}
