package sqlite_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// labels are the labels on a ladder from the bottom up, once its rungs were
// found to be 1, 2, 3 …
func (b bench) labels(t *testing.T) string {
	t.Helper()
	var out []string
	for i, w := range got(b.WicksOf(t.Context(), b.st.Ladder.ID))(t) {
		if w.Rung != i+1 {
			t.Errorf("wick %s stands on rung %d, want %d", w.Label, w.Rung, i+1)
		}
		out = append(out, w.Label)
	}
	return strings.Join(out, " ")
}

func TestRungsMakeRoom(t *testing.T) {
	b := newBench(t)
	wantLabels := func(want string) {
		t.Helper()
		if is := b.labels(t); is != want {
			t.Errorf("got ladder %q, want %q", is, want)
		}
	}
	add := func(label string, rung int) {
		t.Helper()
		must(t, b.write(t, func(tx *sqlite.Tx) error {
			return tx.SaveWick(&journal.Wick{Ladder: b.st.Ladder.ID, Label: label, Rung: rung})
		}))
	}
	move := func(w journal.Wick, rung int) {
		t.Helper()
		must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.MoveWick(w.ID, rung) }))
	}
	wantLabels("6 7 8")
	add("5", 1)
	wantLabels("5 6 7 8")
	add("7b", 4)
	wantLabels("5 6 7 7b 8")
	add("20", 20)
	wantLabels("5 6 7 7b 8 20")
	move(b.st.Wicks[0], 5)
	wantLabels("5 7 7b 8 6 20")
	move(b.st.Wicks[2], 1)
	wantLabels("8 5 7 7b 6 20")
	move(b.st.Wicks[2], 99)
	wantLabels("5 7 7b 6 20 8")
	move(b.st.Wicks[2], -3)
	wantLabels("8 5 7 7b 6 20")
	before := got(b.Revision(t.Context()))(t)
	move(b.st.Wicks[2], 1)
	if after := got(b.Revision(t.Context()))(t); after != before {
		t.Error("a move to the same rung was written down")
	}
	b.refused(t, "rung", func(tx *sqlite.Tx) error {
		return tx.SaveWick(&journal.Wick{Ladder: b.st.Ladder.ID, Label: "0", Rung: -1})
	})
	wantIs(t, b.write(t, func(tx *sqlite.Tx) error { return tx.MoveWick(999, 1) }), journal.ErrNotFound)
}

func TestEveryMovedWickHasALineInItsHistory(t *testing.T) {
	b := newBench(t)
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.MoveWick(b.st.Wicks[2].ID, 1) }))
	for i, w := range b.st.Wicks {
		lines := got(b.History(t.Context(), journal.NounWick, w.ID))(t)
		now := got(b.Wick(t.Context(), w.ID))(t)
		if len(lines) != 2 || now.Version != 2 || !strings.Contains(string(lines[0].After), fmt.Sprintf(`"rung":%d,`, now.Rung)) ||
			!strings.Contains(string(lines[0].Before), fmt.Sprintf(`"rung":%d,`, i+1)) {
			t.Errorf("wick %s, version %d, rung %d: %d lines, the last from %s to %s", w.Label, now.Version, now.Rung, len(lines), lines[0].Before, lines[0].After)
		}
	}
}

func TestACorrectionLeavesTheRung(t *testing.T) {
	b := newBench(t)
	w := b.st.Wicks[0]
	w.Rung, w.Label = 3, "6 waxed"
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveWick(&w) }))
	if is := b.labels(t); w.Rung != 1 || is != "6 waxed 7 8" {
		t.Errorf("got rung %d and ladder %q", w.Rung, is)
	}
}

// The ladder is compared with a plain list that is moved the same way.
func TestMovesMatchAPlainList(t *testing.T) {
	b := newBench(t)
	list := []string{"6", "7", "8"}
	ids := map[string]journal.ID{}
	for _, w := range b.st.Wicks {
		ids[w.Label] = w.ID
	}
	rapid.Check(t, func(rt *rapid.T) {
		to := rapid.IntRange(1, len(list)).Draw(rt, "rung")
		if len(list) < 8 {
			w := journal.Wick{Ladder: b.st.Ladder.ID, Label: fmt.Sprintf("x%d", len(list)), Rung: to}
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveWick(&w) }))
			list, ids[w.Label] = slices.Insert(list, to-1, w.Label), w.ID
		} else {
			label := rapid.SampledFrom(list).Draw(rt, "wick")
			must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.MoveWick(ids[label], to) }))
			from := slices.Index(list, label)
			list = slices.Insert(slices.Delete(list, from, from+1), to-1, label)
		}
		if is, want := b.labels(t), strings.Join(list, " "); is != want {
			rt.Fatalf("got %q, want %q", is, want)
		}
	})
}
