package demo_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/demo"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// keep writes a season into a journal on disk.
func keep(tb testing.TB, s demo.Season) (store *sqlite.Store, path string) {
	tb.Helper()
	ctx, clock := context.Background(), evening
	path = filepath.Join(tb.TempDir(), "journal.db")
	store, err := sqlite.Open(ctx, path, func() time.Time { return clock })
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() { store.Close() })
	err = s.Fill(func(do func(demo.Writer) error) error {
		return store.Write(ctx, func(tx *sqlite.Tx) error { return do(tx) })
	}, func(t time.Time) { clock = t })
	if err != nil {
		tb.Fatal(err)
	}
	clock = evening
	return store, path
}

func TestSeasonIsKeptWhole(t *testing.T) {
	t.Parallel()
	ctx, season := context.Background(), demo.NewSeason(1, evening, lisbon(t))
	store, path := keep(t, season)
	problems, err := sqlite.Verify(ctx, path)
	if err != nil || len(problems) > 0 {
		t.Errorf("the journal is not whole: %v, %v", problems, err)
	}
	candles, burns, checks := season.Counts()
	logs, err := store.Logs(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var lit, kept, read int
	for _, l := range logs {
		lit++
		kept += len(l.Burns)
		for _, b := range l.Burns {
			read += len(b.Checks)
		}
	}
	if d := cmp.Diff([]int{burns, checks}, []int{kept, read}); d != "" {
		t.Errorf("burns and checks:\n%s", d)
	}
	if lit >= candles || lit < candles-15 {
		t.Errorf("%d of %d candles were burned, want all but a few", lit, candles)
	}
}

// Histories look as if the season had been written down as it happened.
func TestHistoryHasTheMomentsOfTheSeason(t *testing.T) {
	t.Parallel()
	ctx := context.Background()
	store, _ := keep(t, demo.NewSeason(1, evening, lisbon(t)))
	logs, err := store.Logs(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range logs {
		for _, b := range l.Burns {
			if !b.Burn.Created.Equal(b.Burn.LitAt) {
				t.Fatalf("%s burn %d was lit at %s and written at %s", l.Candle.Code(), b.Burn.Number, b.Burn.LitAt, b.Burn.Created)
			}
			changes, err := store.History(ctx, journal.NounBurn, b.Burn.ID)
			if err != nil {
				t.Fatal(err)
			}
			want := 1
			if b.Burn.OutAt != nil {
				want++
			}
			if b.Burn.MassAfter != nil {
				want++
			}
			if len(changes) != want || (want > 1 && !changes[want-2].At.Equal(*b.Burn.OutAt)) {
				t.Errorf("%s burn %d has %d lines of history, want %d", l.Candle.Code(), b.Burn.Number, len(changes), want)
			}
		}
	}
	set, err := store.Settings(ctx)
	if err != nil || set.TimeZone != "Europe/Lisbon" {
		t.Errorf("the studio's zone is %q, %v", set.TimeZone, err)
	}
}

// Filling a journal must not keep the person who starts the demo waiting.
func BenchmarkFill(b *testing.B) {
	for b.Loop() {
		keep(b, demo.NewSeason(1, evening, time.UTC))
	}
}

// BenchmarkTenYears fills the journal that other benchmarks run on.
func BenchmarkTenYears(b *testing.B) {
	for b.Loop() {
		keep(b, demo.TenYears(1, evening, time.UTC))
	}
}
