package sqlite_test

import (
	"errors"
	"path/filepath"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// start is when the tests' clocks begin.
var start = time.Date(2026, 3, 14, 18, 0, 0, 0, time.UTC)

// clock is a clock that a test sets by hand.
type clock struct{ at time.Time }

func (c *clock) now() time.Time                       { return c.at }
func (c *clock) wait(d time.Duration)                 { c.at = c.at.Add(d) }
func (c *clock) after(h float64) time.Time            { return start.Add(time.Duration(h * float64(time.Hour))) }
func p[T any](v T) *T                                 { return &v }
func mm(v quantity.Millimetres) *quantity.Millimetres { return &v }

// bench is a journal with a small studio in it.
type bench struct {
	*sqlite.Store
	st    testkit.Studio
	clock *clock
	path  string
}

func newBench(t *testing.T) bench {
	t.Helper()
	c := &clock{start}
	path := journalPath(t)
	s, err := sqlite.Open(t.Context(), path, c.now)
	must(t, err)
	t.Cleanup(func() { must(t, s.Close()) })
	return bench{s, testkit.NewStudio(t, s), c, path}
}

// write runs a transaction and gives back its error.
func (b bench) write(t *testing.T, do func(*sqlite.Tx) error) error {
	t.Helper()
	return b.Store.Write(t.Context(), do)
}

// light lights a candle at the clock's time.
func (b bench) light(t *testing.T, c journal.Candle) journal.Burn {
	t.Helper()
	return testkit.Light(t, b.Store, 0, c)[0]
}

// snuff ends a burn at the clock's time.
func (b bench) snuff(t *testing.T, x journal.Burn) journal.Burn {
	t.Helper()
	x.OutAt, x.Ending = p(b.clock.at), journal.Snuffed
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveBurn(&x) }))
	return x
}

// look saves a check at the clock's time.
func (b bench) look(t *testing.T, x journal.Burn, width quantity.Millimetres) journal.Check {
	t.Helper()
	c := journal.Check{Burn: x.ID, At: b.clock.at, WidthA: &width}
	must(t, b.write(t, func(tx *sqlite.Tx) error { return tx.SaveCheck(&c) }))
	return c
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// got unwraps a read that must succeed.
func got[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		must(t, err)
		return v
	}
}

// wantProblem asserts that an error is a problem of one field.
func wantProblem(t *testing.T, err error, field string) {
	t.Helper()
	var invalid *journal.InvalidError
	if !errors.As(err, &invalid) {
		t.Fatalf("got %v, want a problem of %q", err, field)
	}
	for _, x := range invalid.Problems {
		if x.Field == field {
			return
		}
	}
	t.Errorf("got problems %+v, want one of %q", invalid.Problems, field)
}

func wantIs(t *testing.T, err, want error) {
	t.Helper()
	if !errors.Is(err, want) {
		t.Fatalf("got error %v, want %v", err, want)
	}
}

func journalPath(t *testing.T) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "journal.db")
}
