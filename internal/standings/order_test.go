package standings

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings/tree"
)

// rungOf is a pairing with figures made by hand.
func rungOf(rung int, miss, onTarget, closest float64) Pairing {
	target := quantity.Hours(3)
	return Pairing{
		Vessel: journal.Vessel{InnerWidth: 100, TargetHours: &target}, Ladder: journal.Ladder{Name: "Larkspur"},
		Wick:    journal.Wick{Rung: rung, Label: string(rune('0' + rung)), Meta: journal.Meta{ID: journal.ID(rung)}},
		Figures: tree.Figures{Tested: true, Short: miss, OnTarget: onTarget, Closest: closest}, Candles: 1, Burns: 1,
		Rows: []CandleRow{{Burns: []BurnRow{{Readings: []meltpool.Reading{{Hour: 1, Ratio: 0.6}}}}}},
	}
}

func (p Pairing) hard() Pairing {
	p.Hard = []safety.Finding{{Level: safety.Hard, Text: "too hot"}}
	return p
}

func (p Pairing) faulty() Pairing {
	p.Faults = []safety.Fault{{Name: "soot", Burns: 1, Of: 2}}
	return p
}

// ended gives the pairing what a verdict needs.
func (p Pairing) ended(candles int) Pairing {
	p.Candles, p.Ended = candles, 1
	return p
}

func (p Pairing) fullAtFirst() Pairing {
	p.Rows = []CandleRow{{Burns: []BurnRow{{Readings: []meltpool.Reading{{Hour: 2, Full: true}}}}}}
	return p
}

func TestOrder(t *testing.T) {
	t.Parallel()
	thin := rungOf(2, 0, 0, 0)
	thin.Tested = false
	for _, c := range []struct {
		name string
		ps   []Pairing
		want []int // rungs as they are shown
		rank []int
	}{
		{"the smallest miss first", []Pairing{rungOf(3, 0.05, 0.5, 0), rungOf(4, 0.01, 0.2, 0), rungOf(5, 0.03, 0.9, 0)}, []int{4, 5, 3}, []int{1, 2, 3}},
		{"equal to a tenth of closeness: the better chance on target", []Pairing{rungOf(3, 0.0301, 0.5, 0), rungOf(4, 0.0299, 0.4, 0)}, []int{3, 4}, []int{1, 2}},
		{"equal chances too: fewer faults a burn", []Pairing{rungOf(3, 0.03, 0.5, 0).faulty(), rungOf(4, 0.03, 0.5, 0)}, []int{4, 3}, []int{1, 2}},
		{"all equal: by rung", []Pairing{rungOf(5, 0.03, 0.5, 0), rungOf(3, 0.03, 0.5, 0)}, []int{3, 5}, []int{1, 2}},
		{"below the line has no place", []Pairing{rungOf(3, 0.05, 0.5, 0), rungOf(4, 0.01, 0.5, 0).hard(), rungOf(5, 0.03, 0.5, 0)}, []int{5, 3, 4}, []int{1, 2, 0}},
		{"not enough yet comes last", []Pairing{thin, rungOf(4, 0.01, 0.5, 0).hard(), rungOf(5, 0.03, 0.5, 0)}, []int{5, 4, 2}, []int{1, 0, 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			rank(c.ps)
			var rungs, ranks []int
			for _, p := range c.ps {
				rungs, ranks = append(rungs, p.Wick.Rung), append(ranks, p.Rank)
			}
			if d := cmp.Diff(c.want, rungs) + cmp.Diff(c.rank, ranks); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestStillInTheRunning(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		ps   []Pairing
		want []int
	}{
		{"one is sure enough", []Pairing{rungOf(3, 0.01, 0, 0.81), rungOf(4, 0.02, 0, 0.19)}, []int{3}},
		{"the fewest that add up to 0.8", []Pairing{rungOf(3, 0.01, 0, 0.5), rungOf(4, 0.02, 0, 0.1), rungOf(5, 0.02, 0, 0.4)}, []int{3, 5}},
		{"none of those below the line", []Pairing{rungOf(3, 0.01, 0, 0.7).hard(), rungOf(4, 0.02, 0, 0.25), rungOf(5, 0.02, 0, 0.05)}, []int{4}},
	} {
		t.Run(c.name, func(t *testing.T) {
			mark(c.ps)
			var got []int
			for _, p := range c.ps {
				if p.Running {
					got = append(got, p.Wick.Rung)
				}
			}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestAdvice(t *testing.T) {
	t.Parallel()
	guess := func(rung int, miss, doubt float64) Pairing {
		p := rungOf(rung, miss, 0.5, 0)
		p.Tested, p.MissSD, p.Rows = false, doubt, nil
		return p
	}
	unread := rungOf(2, 0, 0, 0)
	unread.Tested = false
	for _, c := range []struct {
		name  string
		ps    []Pairing
		guess []Pairing
		step  Step
		says  string
	}{
		{"settled", []Pairing{rungOf(3, 0.01, 0.6, 0.8).ended(3), rungOf(4, 0.02, 0, 0.2)}, nil, Settled, "Settled: Larkspur 3 is the closest (chance 0.80), with 3 candles"},
		{"settled comes before a promising guess", []Pairing{rungOf(3, 0.3, 0.6, 0.8).ended(3)}, []Pairing{guess(4, 0.01, 0.01)}, Settled, "Settled"},
		{"sure, but two candles", []Pairing{rungOf(3, 0.01, 0.6, 0.9).ended(2), rungOf(4, 0.02, 0, 0.1)}, nil, Confirm, "Before a verdict: one more candle."},
		{"sure, but none to the end", []Pairing{rungOf(3, 0.01, 0.6, 0.9), rungOf(4, 0.02, 0, 0.1)}, nil, Confirm, "Before a verdict: 2 more candles, one burned to the end without a hard finding."},
		{"settled, though alone, when it is on target", []Pairing{rungOf(3, 0.01, 0.7, 1).ended(3)}, nil, Settled, "Settled"},
		{"alone and short of the wall", []Pairing{rungOf(3, 0.2, 0.1, 1).ended(3)}, []Pairing{guess(2, 0.3, 0.1), guess(4, 0.15, 0.1)}, TryRung, "Only Larkspur 3 was burned, and it is likely short of the wall. Try Larkspur 4."},
		{"poor at the end of the ladder", []Pairing{rungOf(3, 0.2, 0.1, 0.6), rungOf(2, 0.3, 0, 0.4)}, nil, TryRung, "Larkspur 3 comes closest and is likely short of the wall (chance on target 0.10), with no stronger wick on this ladder."},
		{"poor between two that were burned", []Pairing{rungOf(3, 0.1, 0.3, 0.6), rungOf(4, 0.12, 0.2, 0.4)}, []Pairing{guess(5, 0.1, 0.1)}, OneMore, "Larkspur 3 and 4 are still in the running."},
		{"alone and on target", []Pairing{rungOf(3, 0.01, 0.7, 1)}, nil, OneMore, "nothing to compare it with yet. One more candle of it would"},
		{"settled, but poor", []Pairing{rungOf(3, 0.2, 0.1, 0.9).ended(3), rungOf(2, 0.3, 0, 0.1)}, nil, Settled, "though likely short of the wall (chance on target 0.10). Time for a verdict."},
		{"a rung that promises more than its own doubt", []Pairing{rungOf(3, 0.2, 0.6, 1)}, []Pairing{guess(4, 0.08, 0.1), guess(5, 0.1, 0.05)}, TryRung, "Try Larkspur 4"},
		{"no further than its doubt", []Pairing{rungOf(3, 0.2, 0.6, 0.6), rungOf(2, 0.3, 0, 0.4)}, []Pairing{guess(4, 0.12, 0.09)}, OneMore, "Larkspur 3 and 2 are still in the running. One more candle of each"},
		{"full at the first look", []Pairing{rungOf(3, 0.02, 0.6, 0.6).fullAtFirst(), rungOf(4, 0.02, 0, 0.4)}, nil, LookEarly, "The pools of Larkspur 3 were full at the first look. Another burn with a check at 1 h 30"},
		{"only what is above the line", []Pairing{rungOf(3, 0.01, 0, 0.7).hard(), rungOf(4, 0.02, 0.6, 0.3)}, nil, Confirm, "Larkspur 4 is the closest (chance over 0.99)"},
		{"not beyond an unsafe rung", []Pairing{rungOf(3, 0.3, 0.1, 0.5), rungOf(4, 0.2, 0.1, 0.4), rungOf(5, 0.1, 0.1, 0.1).hard()}, []Pairing{guess(6, 0.01, 0.01)}, OneMore, "Larkspur 4 and 3 are still in the running"},
		{"settled beside an unsafe one that is closer", []Pairing{rungOf(3, 0.1, 0.6, 0.1).ended(3), rungOf(5, 0.05, 0.1, 0.9).hard()}, nil, Settled, "Settled: Larkspur 3 is the closest (chance over 0.99)"},
		{"one below the line, one without enough", []Pairing{rungOf(3, 0.1, 0, 1).hard(), unread}, nil, FirstBurn, "Not enough yet"},
		{"all below the line", []Pairing{rungOf(3, 0.01, 0, 1).hard()}, nil, Otherwise, "All that was burned here stands below the line."},
	} {
		t.Run(c.name, func(t *testing.T) {
			rank(c.ps)
			mark(c.ps)
			a := advise(Series{Pairings: c.ps, Guesses: c.guess})
			if a.Step != c.step || !strings.Contains(strings.ToLower(a.Text), strings.ToLower(c.says)) {
				t.Errorf("%s: %q", a.Step, a.Text)
			}
		})
	}
}

func TestBeliefsAreTheDefaults(t *testing.T) {
	t.Parallel()
	changed := map[string][]float64{}
	for _, b := range Beliefs() {
		if p := b.Problem(b.Default); p != "" || !b.IsDefault(b.Default) {
			t.Errorf("%s: its default is refused: %q", b.Key, p)
		}
		changed[b.Key] = b.Default
	}
	if d := cmp.Diff(tree.Default(), PriorOf(changed), cmp.Comparer(func(a, b float64) bool { return a-b < 1e-12 && b-a < 1e-12 })); d != "" {
		t.Error(d)
	}
}

func TestBeliefsReachThePrior(t *testing.T) {
	t.Parallel()
	p := PriorOf(map[string][]float64{"slip": {0.05}, "burn": {0.03, 1, 0.06, 3}, "rate": {-1}, "unknown": {3}})
	want := tree.Default()
	want.Slip, want.Burn = 0.05, []tree.Weighted{{Value: 0.03, Weight: 0.25}, {Value: 0.06, Weight: 0.75}}
	if d := cmp.Diff(want, p); d != "" {
		t.Error(d)
	}
}

func TestBeliefsThatCannotBeUsed(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		key  string
		v    []float64
		says string
	}{
		{"slip", nil, "one number, between 0.01 % and 20 %"}, {"slip", []float64{0.5}, "Between 0.01 % and 20 %."}, {"slip", []float64{0.1, 0.2}, "one number"},
		{"burn", []float64{0.04}, "weight in brackets"}, {"burn", []float64{0.04, 0}, "weight must be above 0"},
		{"burn", []float64{0.04, 1, 0.03, 1}, "small to large"}, {"burn", []float64{0.001, 1}, "Between 1 % and 30 %."},
		{"slope", []float64{0.025, 1}, "Whole per cents"}, {"burn", []float64{.01, 1, .02, 1, .03, 1, .04, 1, .05, 1, .06, 1}, "one to five"},
	} {
		for _, b := range Beliefs() {
			if b.Key == c.key {
				if got := b.Problem(c.v); !strings.Contains(got, c.says) {
					t.Errorf("%s %v: %q", c.key, c.v, got)
				}
			}
		}
	}
}

func TestShapesInWords(t *testing.T) {
	t.Parallel()
	for c, says := range map[float64]string{0.7: "quickly and then creep", 0.85: "rather quickly", 1: "falls steadily", 1.2: "slowly at first"} {
		if got := (ShapeWeight{Exponent: c}).Words(); !strings.Contains(got, says) {
			t.Errorf("%v: %q", c, got)
		}
	}
	inside, edge := []ShapeWeight{{0.7, 0.4}, {1, 0.4}, {1.2, 0.2}}, []ShapeWeight{{0.7, 0.6}, {1, 0.4}}
	if ShapeDoubt(inside) != "" || ShapeDoubt(edge) == "" {
		t.Error("the edge of the shapes is not seen")
	}
}
