package standings_test

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

func ptr[T any](v T) *T { return &v }

var (
	lit     = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	options = standings.Options{Ruler: 1, Limits: safety.NewLimits(nil), Units: quantity.Metric, Apart: journal.ByLoad}

	// A round vessel of 100 mm whose target hour is set to 3 h: ratios read as
	// per cent of the width.
	tumbler = journal.Vessel{Meta: journal.Meta{ID: 1}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 100, Material: "glass", TargetHours: ptr(quantity.Hours(3))}
	meadow  = journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Meadow blend"}
	harbour = journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Harbour blend"}
	fig     = journal.Fragrance{Meta: journal.Meta{ID: 1}, Name: "Fig and smoke"}
	larks   = journal.Ladder{Meta: journal.Meta{ID: 1}, Name: "Larkspur"}
)

func wick(rung int) journal.Wick {
	return journal.Wick{Meta: journal.Meta{ID: journal.ID(rung)}, Ladder: 1, Rung: rung, Label: string(rune('0' + rung))}
}

// candle is a candle of one pour with a wick of some rung.
func candle(letter string, rung int, burns ...journal.BurnLog) journal.CandleLog {
	l := journal.CandleLog{Made: journal.Made{
		Candle: journal.Candle{Meta: journal.Meta{ID: journal.ID(letter[0])}, Pour: 14, PourNumber: 14, Letter: letter, Vessel: 1, Wick: journal.ID(rung), Wicks: 1},
		Pour:   journal.Pour{Number: 14, LoadBasis: journal.OfWax}, Wax: meadow, Vessel: tumbler, Wick: wick(rung), Ladder: larks,
	}}
	for i, b := range burns {
		b.Burn.ID, b.Burn.Number = journal.ID(1000*int(letter[0])+i+1), i+1
		shift := time.Duration(i) * 24 * time.Hour
		b.Burn.LitAt = b.Burn.LitAt.Add(shift)
		if b.Burn.OutAt != nil {
			b.Burn.OutAt = ptr(b.Burn.OutAt.Add(shift))
		}
		for k := range b.Checks {
			b.Checks[k].At = b.Checks[k].At.Add(shift)
		}
		l.Burns = append(l.Burns, b)
	}
	return l
}

// width is a check some hours after lighting, both ways alike.
func width(hour, mm float64) journal.Check {
	return journal.Check{At: lit.Add(time.Duration(hour * float64(time.Hour))), WidthA: ptr(quantity.Millimetres(mm)), WidthB: ptr(quantity.Millimetres(mm))}
}

// full is a check that found the pool full.
func full(hour float64) journal.Check {
	return journal.Check{At: lit.Add(time.Duration(hour * float64(time.Hour))), Full: true}
}

// burn is a burn of four hours with these checks.
func burn(checks ...journal.Check) journal.BurnLog {
	return journal.BurnLog{Burn: journal.Burn{LitAt: lit, OutAt: ptr(lit.Add(4 * time.Hour)), Ending: journal.Snuffed}, Checks: checks}
}

// reads is a burn whose pool had one width at the target hour.
func reads(mm float64) journal.BurnLog { return burn(width(2, mm-10), width(3, mm)) }

// only works out logs that make a single pairing.
func only(t *testing.T, logs ...journal.CandleLog) standings.Pairing {
	t.Helper()
	s := onlySeries(t, options, logs...)
	if len(s.Pairings) != 1 {
		t.Fatalf("%d pairings", len(s.Pairings))
	}
	return s.Pairings[0]
}

// onlySeries works out logs that make a single series.
func onlySeries(t *testing.T, opt standings.Options, logs ...journal.CandleLog) standings.Series {
	t.Helper()
	g := work(t, opt, logs...).Groups
	if len(g) != 1 || len(g[0].Series) != 1 {
		t.Fatalf("%d groups", len(g))
	}
	return g[0].Series[0]
}

func work(t *testing.T, opt standings.Options, logs ...journal.CandleLog) standings.Table {
	t.Helper()
	got, err := standings.Work(t.Context(), logs, opt, tree.Default())
	if err != nil {
		t.Fatal(err)
	}
	return got
}
