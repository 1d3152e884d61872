package plan_test

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/plan"
)

// Pieces come out after a full day (common practice, no source): a second
// before it is over they are coming, then they are due, and stay so until they
// are out.
func TestCastsFallDueAfterAFullDay(t *testing.T) {
	t.Parallel()
	poured := time.Date(2026, 5, 13, 15, 0, 0, 0, time.UTC)
	l := journal.CastLine{Cast: journal.Cast{Pieces: 4}, Pour: journal.Pour{Meta: journal.Meta{ID: 7}, Number: 12, At: poured}}
	gone, out := l, l
	gone.Cast.Gone, out.Cast.Out = &poured, &poured
	for after, want := range map[time.Duration][2]int{24*time.Hour - time.Second: {0, 1}, 24 * time.Hour: {1, 0}, 90 * time.Hour: {1, 0}} {
		now := poured.Add(after)
		b := plan.Bench(now, nil, nil, nil)
		b.AddCasts(now, []journal.CastLine{l, gone, out})
		if got := [2]int{len(b.Due), len(b.Coming)}; got != want {
			t.Fatalf("after %s: %v due and coming, want %v", after, got, want)
		}
		it := append(b.Due, b.Coming...)[0]
		if it.Kind != plan.TakeOut || it.PourNumber != 12 || it.Pour != 7 || !it.At.Equal(poured.Add(24*time.Hour)) || it.Cast.Cast.Pieces != 4 {
			t.Errorf("after %s: %+v", after, it)
		}
	}
}
