package page_test

import (
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
)

// A printed sheet says no less than its verdict: what was missing, what has
// moved since, how many wicks, and what was used outside the guidance.
func TestASheetSaysNoLessThanItsVerdict(t *testing.T) {
	t.Parallel()
	x := aVerdict(func(x *journal.Verdict) { x.Wicks, x.Figures.Missing = 2, []string{"three candles burned"} })
	now := figures(func(f *journal.VerdictFigures) { f.Hard = []string{"3-A, burn 1: The vessel cracked."} })
	s := page.SpecSource{Verdict: x, Counts: true, Known: shelved(), Now: &now}
	p := page.NewSpecPage(s, metricView())
	got := linesOf(p)
	if got["Missing at the time"] != "three candles burned / " || !strings.Contains(got["Since then"], "finding") {
		t.Errorf("missing %q, since %q", got["Missing at the time"], got["Since then"])
	}
	if p.Title != "2 × Larkspur 7 in Pebble tumbler" {
		t.Errorf("title %q", p.Title)
	}
	same := x.Figures
	s.Now, s.Verdict.Figures.Missing = &same, nil
	if got := linesOf(page.NewSpecPage(s, metricView())); got["Since then"] != "" || got["Missing at the time"] != "" {
		t.Errorf("nothing has moved, nothing was missing: %q, %q", got["Since then"], got["Missing at the time"])
	}
}

func TestASheetMarksWhatWasUsedOutsideTheGuidance(t *testing.T) {
	t.Parallel()
	for heated, want := range map[quantity.Celsius]string{74: "75–85 °C; used outside it", 75: "75–85 °C", 85: "75–85 °C", 86: "75–85 °C; used outside it"} {
		l := journal.CandleLog{Made: journal.Made{Candle: journal.Candle{Filled: of(quantity.Grams(108))},
			Pour: journal.Pour{Meta: journal.Meta{ID: 1}, Number: 1, HeatedTo: of(heated), Load: of(quantity.Fraction(0.08)), LoadBasis: journal.OfWax}}}
		p := page.NewSpecPage(page.SpecSource{Verdict: aVerdict(nil), Counts: true, Known: shelved(), Logs: []journal.CandleLog{l}}, metricView())
		got := linesOf(p)
		if !strings.HasSuffix(got["Heated to"], want) || strings.HasSuffix(want, "C") && strings.Contains(got["Heated to"], "outside") {
			t.Errorf("%v: %q", heated, got["Heated to"])
		}
		if got["In each, on average"] != "100 g of wax, 8 g of oil / " {
			t.Errorf("in each: %q", got["In each, on average"])
		}
	}
}

// Two candles give an interval of their mean that says nothing.
func TestARateIsGivenAnIntervalFromThreeCandlesOn(t *testing.T) {
	t.Parallel()
	for candles, want := range map[int]string{2: "2 candles, 8 weighed burns", 3: "95 % interval 5.5–7 g/h; 3 candles, 8 weighed burns"} {
		x := aVerdict(func(x *journal.Verdict) { x.Figures.Rate.Candles = candles })
		if got := linesOf(specOf(x, true))["Burn rate"]; got != "6.2 g/h / "+want {
			t.Errorf("%d: %q", candles, got)
		}
	}
}
