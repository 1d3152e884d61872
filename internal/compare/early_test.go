package compare_test

import (
	"testing"
	"time"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Three burns a day apart; the wax cures for a week, and the first burn came
// after five and a half days: two of them are early.
func TestEarlyBurnsAreCountedAndAreNoCause(t *testing.T) {
	t.Parallel()
	made := func(before time.Duration) journal.CandleLog {
		return candle("A", 6, func(l *journal.CandleLog) {
			l.Wax.CureDays.Low = ptr(quantity.Days(7))
			for i := range 3 {
				l.Burns = append(l.Burns, shifted(reads(70), i, journal.ID(i+1)))
			}
			l.Pour.At = l.Burns[0].Burn.LitAt.Add(-before)
		})
	}
	for _, f := range compare.Facts(unjudged(made(132*time.Hour), made(7*24*time.Hour))) {
		if f.Word != "early lighting" {
			continue
		}
		if f.Values[0].Mid != 2 || f.Values[1].Mid != 0 || !f.Differs || f.Class != compare.Amount {
			t.Errorf("%+v", f)
		}
		return
	}
	t.Error("early burns are not among the facts")
}
