// Package testkit helps tests: a real journal in a temporary folder, and a
// small studio in it. It is imported by tests alone.
package testkit

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// Store opens a new journal that is closed when the test ends.
func Store(tb testing.TB, now func() time.Time) *sqlite.Store {
	tb.Helper()
	s, err := sqlite.Open(context.Background(), filepath.Join(tb.TempDir(), "journal.db"), now)
	if err != nil {
		tb.Fatal(err)
	}
	tb.Cleanup(func() {
		if err := s.Close(); err != nil {
			tb.Error(err)
		}
	})
	return s
}

// Write runs one transaction that must succeed.
func Write(tb testing.TB, s *sqlite.Store, do func(*sqlite.Tx) error) {
	tb.Helper()
	if err := s.Write(context.Background(), do); err != nil {
		tb.Fatal(err)
	}
}

// Studio is a small studio: one wax, one round vessel of 76 mm, a ladder of
// three rungs, one pour a month before now, and three candles of it, one for
// each rung.
type Studio struct {
	Wax     journal.Wax
	Vessel  journal.Vessel
	Ladder  journal.Ladder
	Wicks   []journal.Wick
	Pour    journal.Pour
	Candles []journal.Candle
}

// NewStudio writes a small studio into a journal.
func NewStudio(tb testing.TB, s *sqlite.Store) Studio {
	tb.Helper()
	x := Studio{
		Wax:    journal.Wax{Name: "Meadow blend", Family: "soy", LoadBasis: journal.OfWax},
		Vessel: journal.Vessel{Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 76, Material: "glass"},
		Ladder: journal.Ladder{Name: "Larkspur", Kind: "flat braid"},
	}
	Write(tb, s, func(tx *sqlite.Tx) error {
		for _, err := range []error{tx.SaveWax(&x.Wax), tx.SaveVessel(&x.Vessel), tx.SaveLadder(&x.Ladder)} {
			if err != nil {
				return err
			}
		}
		x.Pour = journal.Pour{At: tx.Now().AddDate(0, 0, -30), Wax: x.Wax.ID, LoadBasis: journal.OfWax}
		if err := tx.SavePour(&x.Pour); err != nil {
			return err
		}
		return x.fill(tx)
	})
	return x
}

// fill saves the rungs and a candle for each.
func (x *Studio) fill(tx *sqlite.Tx) error {
	for _, label := range []string{"6", "7", "8"} {
		w := journal.Wick{Ladder: x.Ladder.ID, Label: label}
		if err := tx.SaveWick(&w); err != nil {
			return err
		}
		c := journal.Candle{Pour: x.Pour.ID, Vessel: x.Vessel.ID, Wick: w.ID, Wicks: 1}
		if err := tx.SaveCandle(&c); err != nil {
			return err
		}
		x.Wicks, x.Candles = append(x.Wicks, w), append(x.Candles, c)
	}
	return nil
}

// Light lights candles together some time before now.
func Light(tb testing.TB, s *sqlite.Store, ago time.Duration, cs ...journal.Candle) []journal.Burn {
	tb.Helper()
	var out []journal.Burn
	Write(tb, s, func(tx *sqlite.Tx) error {
		sitting, err := tx.NewSitting()
		if err != nil {
			return err
		}
		for _, c := range cs {
			b := journal.Burn{Candle: c.ID, Sitting: &sitting, LitAt: tx.Now().Add(-ago)}
			if err := tx.SaveBurn(&b); err != nil {
				return err
			}
			out = append(out, b)
		}
		return nil
	})
	return out
}
