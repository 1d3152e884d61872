package sqlite

import (
	"database/sql"
	"flag"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
)

// The tests in this package proper look at what the outside cannot see: the
// tables, the plans of queries, files of other versions.

var insideNow = time.Date(2026, 3, 14, 18, 0, 0, 0, time.UTC)

func openInside(t *testing.T) (*Store, string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "journal.db")
	s, err := Open(t.Context(), path, func() time.Time { return insideNow })
	ok(t, err)
	t.Cleanup(func() { ok(t, s.Close()) })
	return s, path
}

func ok(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// fillInside writes one record of every kind, and settings.
func fillInside(t *testing.T, s *Store) {
	t.Helper()
	ok(t, s.Write(t.Context(), func(tx *Tx) error {
		set := journal.DefaultSettings()
		set.Limits = map[string]float64{"flame": 60}
		set.Beliefs = map[string][]float64{"spread": {0.1}}
		wick := journal.Wick{Ladder: 1, Label: "6"}
		steps := []func() error{
			func() error { return tx.SaveSettings(&set) },
			func() error { return tx.SaveWax(&journal.Wax{Name: "Thistle", Family: "soy"}) },
			func() error { return tx.SaveFragrance(&journal.Fragrance{Name: "Wet slate"}) },
			func() error {
				return tx.SaveVessel(&journal.Vessel{Name: "Pebble", Shape: journal.Round, Material: "glass", InnerWidth: 76})
			},
			func() error { return tx.SaveLadder(&journal.Ladder{Name: "Larkspur", Kind: "cored"}) },
			func() error { return tx.SaveWick(&wick) },
			func() error {
				return tx.SavePour(&journal.Pour{At: insideNow.AddDate(0, -1, 0), Wax: 1, LoadBasis: journal.OfWax})
			},
			func() error { return tx.SaveCandle(&journal.Candle{Pour: 1, Vessel: 1, Wick: 1, Wicks: 1}) },
			func() error { _, err := tx.NewSitting(); return err },
			func() error { return tx.SaveBurn(&journal.Burn{Candle: 1, LitAt: insideNow.Add(-time.Hour)}) },
			func() error { return tx.SaveCheck(&journal.Check{Burn: 1, At: insideNow, Full: true}) },
			func() error {
				return tx.SaveVerdict(&journal.Verdict{Vessel: 1, Wick: 1, Wicks: 1, Wax: 1, Apart: journal.ByLoad, Series: "1.1.none", Ruling: journal.Rejected, By: "Maren", Why: "sooty",
					Figures: journal.VerdictFigures{Schema: journal.FiguresSchema, Revision: 1 << 40}})
			},
			func() error {
				return tx.SavePhoto(&journal.Photo{Of: journal.NounCheck, OfID: 1, Hash: strings.Repeat("a1", 32), Width: 1600, Height: 1200, At: insideNow})
			},
			func() error {
				return tx.SaveSmelling(&journal.Smelling{At: insideNow, Kind: journal.HotThrow, Blind: true})
			},
			func() error { return tx.SaveCup(&journal.Cup{Smelling: 1, Candle: 1, Code: "314"}) },
			func() error { return tx.SaveScore(&journal.Score{Cup: 1, Nose: "Mara", Score: 3, At: insideNow}) },
			func() error { return tx.SaveMould(&journal.Mould{Name: "Shell", Cavities: 6, Detail: journal.Relief}) },
			func() error { return tx.SaveCast(&journal.Cast{Pour: 1, Mould: 1, Pieces: 6, Out: new(insideNow)}) },
			func() error {
				return tx.SaveSetCheck(&journal.SetCheck{Candle: 1, At: insideNow.AddDate(0, 0, -20), Top: journal.TopSmooth})
			},
			func() error {
				return tx.SaveRound(oneCandle())
			},
			func() error {
				return tx.SavePourSheet(&journal.PourSheet{Wax: 1, LoadBasis: journal.OfWax, Body: journal.SheetBody{Lines: []journal.SheetLine{{Vessel: new(journal.ID(1)), Count: 2}}, Step: 1}})
			},
		}
		for _, step := range steps {
			if err := step(); err != nil {
				return err
			}
		}
		return nil
	}))
	_, _, err := s.Once(t.Context(), "token", func(*Tx) (string, error) { return "/", nil })
	ok(t, err)
}

var updateFlag = flag.Bool("update", false, "write the files that tests compare with")

type sqlRows = sql.Rows

// oneCandle is the smallest round there is.
func oneCandle() *journal.TestRound {
	return &journal.TestRound{Question: "Which rung?", Wax: 1, Copies: 1,
		Factors: journal.RoundFactors{Vessels: []journal.ID{1}, Wicks: []journal.RoundWick{{Wick: 1, Wicks: 1}}, LoadBasis: journal.OfWax},
		Places:  []journal.RoundPlace{{Number: 1, Melt: 1, Copy: 1, Vessel: 1, Wick: 1, Wicks: 1, Bench: 1, Evening: 1}},
		Days:    journal.RoundDays{Hours: 4, PerEvening: 1, BenchPlaces: 6, Weekdays: []time.Weekday{time.Monday}}}
}
