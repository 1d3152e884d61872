package plan_test

import (
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/plan"
)

// Counted by hand on a line of hours.
func TestPeakOfAnEvening(t *testing.T) {
	t.Parallel()
	span := func(from, to, n int) plan.Span {
		return plan.Span{From: monday.Add(time.Duration(from) * time.Hour), To: monday.Add(time.Duration(to) * time.Hour), Candles: n}
	}
	for name, c := range map[string]struct {
		spans []plan.Span
		want  int
	}{
		"nothing":              {nil, 0},
		"one":                  {[]plan.Span{span(18, 22, 3)}, 3},
		"together":             {[]plan.Span{span(18, 22, 3), span(18, 20, 4)}, 7},
		"one after the other":  {[]plan.Span{span(20, 22, 3), span(18, 20, 4)}, 4},
		"overlapping in pairs": {[]plan.Span{span(18, 20, 2), span(19, 22, 3), span(21, 23, 4)}, 7},
	} {
		if got := plan.Peak(c.spans); got != c.want {
			t.Errorf("%s: %d burn at once, want %d", name, got, c.want)
		}
	}
}

func TestWhatARoundAsksIsNotAskedTwice(t *testing.T) {
	t.Parallel()
	of := func(ids ...journal.ID) (out []journal.Candle) {
		for _, id := range ids {
			out = append(out, journal.Candle{Meta: journal.Meta{ID: id}})
		}
		return out
	}
	b := plan.Board{Due: []plan.Item{{Kind: plan.Weigh, Candles: of(1)}, {Kind: plan.LightAgain, Candles: of(1, 2)}, {Kind: plan.LightAgain, Candles: of(2, 3)}, {Kind: plan.LightFirst, Candles: of(2)}}}
	b.Leave(map[journal.ID]bool{1: true, 2: true})
	if len(b.Due) != 2 || b.Due[0].Kind != plan.Weigh || len(b.Due[1].Candles) != 2 || b.Due[1].Candles[1].ID != 3 {
		t.Errorf("left %+v", b.Due)
	}
}
