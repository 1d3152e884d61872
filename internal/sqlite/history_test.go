package sqlite_test

import (
	"encoding/json"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// wantHistory asserts that the last line of a record's history tells its first
// and its second state, and the line before that how it was written.
func wantHistory[T any](t *testing.T, b bench, n noun[T], id journal.ID, first, second T) {
	t.Helper()
	lines := got(b.History(t.Context(), n.noun, id))(t)
	if len(lines) != 2 {
		t.Fatalf("got %d lines of history, want 2", len(lines))
	}
	if lines[0].Kind != journal.Corrected || lines[1].Kind != journal.Written || lines[1].Before != nil || lines[0].ID <= lines[1].ID {
		t.Errorf("history is not newest first: %s, %s", lines[0].Kind, lines[1].Kind)
	}
	for _, c := range []struct {
		text []byte
		want T
	}{{lines[0].After, second}, {lines[0].Before, first}, {lines[1].After, first}} {
		var is T
		must(t, json.Unmarshal(c.text, &is))
		if diff := cmp.Diff(c.want, is); diff != "" {
			t.Errorf("history (-want +got):\n%s", diff)
		}
	}
	if !lines[1].At.Equal(start) || !lines[0].At.Equal(start.Add(time.Minute)) {
		t.Errorf("history's times: %s, %s", lines[1].At, lines[0].At)
	}
}

func TestCandleHistoryGathersBurnsAndChecks(t *testing.T) {
	b := newBench(t)
	other := b.light(t, b.st.Candles[1])
	x := b.light(t, b.st.Candles[0])
	b.clock.wait(time.Hour)
	b.look(t, other, 20)
	c := b.look(t, x, 30)
	x = b.snuff(t, x)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCheck, c.ID, "slip of the ruler") }))
	type line struct {
		Noun journal.Noun
		Of   journal.ID
		Kind journal.ChangeKind
	}
	var lines []line
	for _, h := range got(b.CandleHistory(t.Context(), b.st.Candles[0].ID))(t) {
		lines = append(lines, line{h.Noun, h.Of, h.Kind})
	}
	want := []line{
		{journal.NounCheck, c.ID, journal.Withdrawn}, {journal.NounBurn, x.ID, journal.Corrected}, {journal.NounCheck, c.ID, journal.Written},
		{journal.NounBurn, x.ID, journal.Written}, {journal.NounCandle, b.st.Candles[0].ID, journal.Written},
	}
	if diff := cmp.Diff(want, lines); diff != "" {
		t.Errorf("history of the candle (-want +got):\n%s", diff)
	}
}

func TestRevisionRisesWithEveryChange(t *testing.T) {
	b := newBench(t)
	before := got(b.Revision(t.Context()))(t)
	if same := got(b.Revision(t.Context()))(t); same != before {
		t.Errorf("revision went from %d to %d by itself", before, same)
	}
	b.light(t, b.st.Candles[0])
	if after := got(b.Revision(t.Context()))(t); after != before+1 {
		t.Errorf("got revision %d after %d", after, before)
	}
}
