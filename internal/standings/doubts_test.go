package standings_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rimward/internal/journal"
)

func TestDoubtsOfAPairing(t *testing.T) {
	t.Parallel()
	axis := width(3, 80)
	axis.WidthB = nil
	wide := width(3, 104)
	for _, c := range []struct {
		name string
		logs []journal.CandleLog
		want string // "" when there is no doubt at all
	}{
		{"none", []journal.CandleLog{candle("A", 5, reads(80)), candle("B", 5, reads(81))}, ""},
		{"one candle only", []journal.CandleLog{candle("A", 5, reads(80))}, "One candle only: how much its like differ is not seen here."},
		{"one reading a burn", []journal.CandleLog{candle("A", 5, burn(width(3, 80))), candle("B", 5, burn(width(3, 80)))},
			"One reading a burn: how fast the pool opens is taken from elsewhere. Read a width before it is full, too."},
		{"full at every look", []journal.CandleLog{candle("A", 5, burn(full(2), full(3))), candle("B", 5, burn(full(2)))},
			"Full at every look, so only a lower bound is known. Look earlier, at 1 h 30."},
		{"full at the first look, soon after lighting", []journal.CandleLog{candle("A", 5, burn(full(1), full(2))), candle("B", 5, burn(full(1)))},
			"Full at every look, the first at 1 h 00, half the target hour or before: too strong. Only a lower bound is known."},
		{"one axis", []journal.CandleLog{candle("A", 5, burn(width(2, 75), axis)), candle("B", 5, reads(80))}, "In 1 of 2 burns some widths were measured one way only."},
		{"wider than the vessel", []journal.CandleLog{candle("A", 5, burn(width(2, 80), wide)), candle("B", 5, burn(width(2, 80), full(3)))},
			"In 1 of 2 burns a width was larger than the vessel; it counts as full."},
		{"a slip", []journal.CandleLog{candle("A", 5, burn(width(1, 55), width(2, 72), width(3, 20), width(4, 82)), reads(80)), candle("B", 5, reads(80))},
			"Hardly fits: 14-A, burn 1, at 3 h 00."},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := only(t, c.logs...).Warnings
			if (c.want == "" && len(got) > 0) || (c.want != "" && !slices.Contains(got, c.want)) {
				t.Errorf("%q", got)
			}
		})
	}
}

func TestNotEnoughYet(t *testing.T) {
	t.Parallel()
	s := onlySeries(t, options, candle("A", 5, burn(journal.Check{At: lit.Add(3600e9), Soot: "none"})))
	p := s.Pairings[0]
	if p.Enough() || p.Rank != 0 || p.Candles != 0 || p.AllBurns != 1 || len(p.Warnings) > 0 {
		t.Errorf("%+v", p)
	}
	if want := "Not enough yet: one burn with a width, or with a pool seen full, would do."; p.NotYet != want {
		t.Errorf("%q", p.NotYet)
	}
	if want := "Not enough yet: burn one candle"; !strings.HasPrefix(s.Advice.Text, want) {
		t.Errorf("%q", s.Advice.Text)
	}
}

// Three readings of nothing, and three of a pool that shrinks, are slips to a
// pool that opens: no figure is made of them.
func TestReadingsThatFitNothing(t *testing.T) {
	t.Parallel()
	for want, b := range map[string]journal.BurnLog{
		"No pool was seen in any burn":                burn(width(1, 0), width(2, 0), width(3, 0)),
		"None of its readings fits a pool that opens": burn(width(1, 90), width(2, 50), width(3, 15)),
	} {
		s := onlySeries(t, options, candle("A", 5, b))
		if p := s.Pairings[0]; p.Enough() || p.Rank != 0 || !strings.HasPrefix(p.NotYet, want) {
			t.Errorf("rank %d, %q, want %q", p.Rank, p.NotYet, want)
		}
		if !strings.HasPrefix(s.Advice.Text, "None of these readings tells a width.") {
			t.Errorf("%q", s.Advice.Text)
		}
	}
}

// Pools that open along a line instead of a curve that levels off are wider
// than fitted at one end and narrower at the other.
func TestLackOfFitIsTold(t *testing.T) {
	t.Parallel()
	var logs []journal.CandleLog
	for _, letter := range []string{"A", "B", "C"} {
		var bs []journal.BurnLog
		for range 4 {
			bs = append(bs, burn(width(0.5, 40), width(1, 42), width(2, 46), width(3, 75)))
		}
		logs = append(logs, candle(letter, 5, bs...))
	}
	got := onlySeries(t, options, logs...).Warnings
	if !slices.ContainsFunc(got, func(w string) bool { return strings.Contains(w, "does not quite fit") }) {
		t.Errorf("%q", got)
	}
	for _, rung := range onlySeries(t, options, candle("A", 5, reads(80), reads(81), reads(79)), candle("B", 5, reads(80), reads(80))).Warnings {
		t.Errorf("steady pools are doubted: %q", rung)
	}
}

func TestWidthIsALowerBoundWhenFullAtEveryLook(t *testing.T) {
	t.Parallel()
	if !only(t, candle("A", 5, burn(full(2)))).AtLeast || only(t, candle("A", 5, burn(width(1, 70), full(2)))).AtLeast {
		t.Error("a pairing is called bounded by the wrong readings")
	}
}

// A candle that four others contradict is fitted all the same, and told.
func TestAnAbsurdCandleIsFittedAndTold(t *testing.T) {
	t.Parallel()
	opens := func(to float64) journal.BurnLog {
		var cs []journal.Check
		for h := 0.25; h <= 3; h += 0.25 {
			if mm := 100 * to * (1 - math.Exp(-0.9*h)) / (1 - math.Exp(-0.9*3)); mm < 99.5 {
				cs = append(cs, width(h, mm))
			} else {
				cs = append(cs, full(h))
			}
		}
		return burn(cs...)
	}
	logs := []journal.CandleLog{candle("Z", 4, opens(0.3), opens(0.3))}
	for _, letter := range []string{"A", "B", "C", "D"} {
		logs = append(logs, candle(letter, 4, opens(1.2), opens(1.2)))
	}
	p := only(t, logs...)
	for _, c := range p.Rows {
		for _, b := range c.Burns {
			if math.IsNaN(b.Fit.Theta) || len(b.Fit.Checks) != len(b.Readings) {
				t.Errorf("%s, burn %d: theta %v, %d of %d readings fitted", c.Name, b.Number, b.Fit.Theta, len(b.Fit.Checks), len(b.Readings))
			}
		}
	}
	if !slices.ContainsFunc(p.Warnings, func(w string) bool { return strings.HasPrefix(w, "Hardly fits: 14-Z, burn 1") }) {
		t.Errorf("%q", p.Warnings)
	}
}
