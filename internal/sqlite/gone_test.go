package sqlite_test

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

func TestEveryNounIsWithdrawnAndRestored(t *testing.T) {
	b := newBench(t)
	x := b.light(t, b.st.Candles[0])
	b.clock.wait(time.Hour)
	c := b.look(t, x, 30)
	x = b.snuff(t, x)
	f := journal.Fragrance{Name: "Wet slate"}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveFragrance(&f) }))
	ctx := t.Context()
	for noun, n := range map[journal.Noun]struct {
		id   journal.ID
		meta func() journal.Meta
	}{
		journal.NounWax:       {b.st.Wax.ID, func() journal.Meta { return got(b.Wax(ctx, b.st.Wax.ID))(t).Meta }},
		journal.NounFragrance: {f.ID, func() journal.Meta { return got(b.Fragrance(ctx, f.ID))(t).Meta }},
		journal.NounVessel:    {b.st.Vessel.ID, func() journal.Meta { return got(b.Vessel(ctx, b.st.Vessel.ID))(t).Meta }},
		journal.NounLadder:    {b.st.Ladder.ID, func() journal.Meta { return got(b.Ladder(ctx, b.st.Ladder.ID))(t).Meta }},
		journal.NounWick:      {b.st.Wicks[1].ID, func() journal.Meta { return got(b.Wick(ctx, b.st.Wicks[1].ID))(t).Meta }},
		journal.NounPour:      {b.st.Pour.ID, func() journal.Meta { return got(b.Pour(ctx, b.st.Pour.ID))(t).Meta }},
		journal.NounCandle:    {b.st.Candles[0].ID, func() journal.Meta { return got(b.Candle(ctx, b.st.Candles[0].ID))(t).Meta }},
		journal.NounBurn:      {x.ID, func() journal.Meta { return got(b.Burn(ctx, x.ID))(t).Meta }},
		journal.NounCheck:     {c.ID, func() journal.Meta { return got(b.Check(ctx, c.ID))(t).Meta }},
	} {
		t.Run(string(noun), func(t *testing.T) {
			was := n.meta()
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(noun, n.id, "a slip") }))
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(noun, n.id, "again") }))
			gone := n.meta()
			if gone.Gone == nil || !gone.Gone.Equal(b.clock.at) || gone.GoneWhy != "a slip" || gone.Version != was.Version+1 {
				t.Errorf("withdrawn: %+v", gone)
			}
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(noun, n.id) }))
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(noun, n.id) }))
			back := n.meta()
			if back.IsGone() || back.GoneWhy != "" || back.Version != was.Version+2 {
				t.Errorf("restored: %+v", back)
			}
			lines := got(b.History(ctx, noun, n.id))(t)
			if lines[0].Kind != journal.Restored || lines[1].Kind != journal.Withdrawn {
				t.Errorf("history: %s after %s", lines[0].Kind, lines[1].Kind)
			}
			wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(noun, 999, "") }), journal.ErrNotFound)
			wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(noun, 999) }), journal.ErrNotFound)
		})
	}
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounSettings, 1, "") }), journal.ErrNotFound)
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounSettings, 1) }), journal.ErrNotFound)
}

func TestNothingIsWithdrawnFromUnderAFlame(t *testing.T) {
	b := newBench(t)
	x := b.light(t, b.st.Candles[0])
	withdraw := func(noun journal.Noun, id journal.ID) func(*sqlite.Tx) error {
		return func(tx *sqlite.Tx) error { return tx.Withdraw(noun, id, "") }
	}
	b.refused(t, "", withdraw(journal.NounCandle, b.st.Candles[0].ID))
	b.refused(t, "", withdraw(journal.NounPour, b.st.Pour.ID))
	must(t, b.write(t, withdraw(journal.NounCandle, b.st.Candles[1].ID)))
	t.Run("but a burn that was lit by mistake is", func(t *testing.T) {
		must(t, b.write(t, withdraw(journal.NounBurn, x.ID)))
		must(t, b.write(t, withdraw(journal.NounCandle, b.st.Candles[0].ID)))
	})
	t.Run("and no flame comes back to a withdrawn candle", func(t *testing.T) {
		b.refused(t, "candle", func(tx *sqlite.Tx) error { return tx.Restore(journal.NounBurn, x.ID) })
		b.refusedBurn(t, "candle", journal.Burn{Candle: b.st.Candles[1].ID, LitAt: b.clock.at})
	})
}

func TestWithdrawnRecordsDoNotCountInRules(t *testing.T) {
	b := newBench(t)
	first := b.light(t, b.st.Candles[0])
	b.clock.wait(time.Hour)
	c := b.look(t, first, 30)
	first = b.snuff(t, first)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCheck, c.ID, "") }))
	again := b.lookAt(t, first, c.At)
	t.Run("a check that its minute was given to stays out", func(t *testing.T) {
		b.refused(t, "at", func(tx *sqlite.Tx) error { return tx.Restore(journal.NounCheck, c.ID) })
	})
	t.Run("but can be corrected and then comes back", func(t *testing.T) {
		x := got(b.Check(t.Context(), c.ID))(t)
		x.Note = "misread"
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCheck(&x) }))
		x.At = again.At.Add(-10 * time.Minute)
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCheck(&x) }))
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounCheck, c.ID) }))
	})
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounBurn, first.ID, "") }))
	t.Run("a withdrawn burn takes no checks", func(t *testing.T) {
		b.refusedCheck(t, "burn", journal.Check{Burn: first.ID, At: b.clock.after(0.5), Full: true})
	})
	second := journal.Burn{Candle: b.st.Candles[0].ID, LitAt: b.clock.after(0.2), OutAt: p(b.clock.after(0.9)), Ending: journal.Snuffed}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveBurn(&second) }))
	t.Run("a burn whose time was given away stays out", func(t *testing.T) {
		b.refused(t, "lit_at", func(tx *sqlite.Tx) error { return tx.Restore(journal.NounBurn, first.ID) })
		x := got(b.Burn(t.Context(), first.ID))(t)
		x.Note = "the wrong candle"
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveBurn(&x) }))
	})
}

// lookAt saves a check at a moment.
func (b bench) lookAt(t *testing.T, x journal.Burn, at time.Time) journal.Check {
	t.Helper()
	c := journal.Check{Burn: x.ID, At: at, Full: true}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCheck(&c) }))
	return c
}
