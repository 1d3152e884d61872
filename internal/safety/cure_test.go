package safety_test

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

func TestEveryEarlyBurnIsFound(t *testing.T) {
	t.Parallel()
	poured := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	l := journal.CandleLog{Made: journal.Made{Candle: journal.Candle{PourNumber: 14, Letter: "C"}, Pour: journal.Pour{At: poured},
		Wax: journal.Wax{CureDays: journal.Range[quantity.Days]{Low: ptr(quantity.Days(7))}}}}
	for i, hours := range []time.Duration{4 * 24, 6*24 + 12, 7 * 24} {
		l.Burns = append(l.Burns, journal.BurnLog{Burn: journal.Burn{Number: i + 1, LitAt: poured.Add(hours * time.Hour)}})
	}
	got := safety.OfCure(l)
	want := []string{
		"Burn 1 was lit 4 days after the pour, 3 days early: 7 days of setting and cure is meant. It may not show what a cured candle does.",
		"Burn 2 was lit 6.5 days after the pour, 12 h 00 early: 7 days of setting and cure is meant. It may not show what a cured candle does.",
	}
	if len(got) != len(want) {
		t.Fatalf("%d findings", len(got))
	}
	for i, f := range got {
		if f.Text != want[i] || f.Burn != i+1 || f.Candle != "14-C" || f.Rule != safety.EarlyRule || f.Level != safety.Note {
			t.Errorf("%+v", f)
		}
	}
}
