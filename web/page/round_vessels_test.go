package page_test

import (
	"strings"
	"testing"

	"rimward/internal/answer"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/web/page"
)

// Each state has its own sentence, and whatever is not the answer says what
// would be enough.
func TestVesselsInWords(t *testing.T) {
	t.Parallel()
	sh := roundShelf()
	sh.Vessels = append(sh.Vessels, journal.Vessel{Meta: journal.Meta{ID: 4}, Name: "Wide bowl"})
	tumbler, bowl := answer.VesselChoice{Vessel: 3, Best: aChoice(6, 1), Chance: 0.86}, answer.VesselChoice{Vessel: 4, Best: aChoice(7, 1), Chance: 0.14}
	both := []answer.VesselChoice{tumbler, bowl}
	for name, c := range map[string]struct {
		a          answer.VesselAnswer
		text, next string
		told       bool
	}{
		"closest":       {answer.VesselAnswer{State: answer.Closest, Standing: both}, "Pebble tumbler comes closest to a full pool at its own target hour (chance 0.86)", "", true},
		"only one left": {answer.VesselAnswer{State: answer.Closest, Standing: both[:1], Below: []journal.ID{4}}, "the only vessel without a hard finding", "", true},
		"so far":        {answer.VesselAnswer{State: answer.SoFar, Standing: both, Waiting: []journal.ID{4}, CandlesLeft: 1, BurnsLeft: 2}, "but not all that is planned in Wide bowl", "2 planned burns are still to come", false},
		"running":       {answer.VesselAnswer{State: answer.Running, Standing: both, CandlesLeft: 1}, "Can’t tell yet", "1 candle is still to burn", false},
		"running, over": {answer.VesselAnswer{State: answer.Running, Standing: both}, "Can’t tell yet", "One more candle in each of", false},
		"not yet":       {answer.VesselAnswer{State: answer.NotYet, Waiting: []journal.ID{3, 4}, CandlesLeft: 2}, "Not enough yet", "in Pebble tumbler and Wide bowl", false},
		"not yet, over": {answer.VesselAnswer{State: answer.NotYet}, "Not enough yet", "too few readings count", false},
		"all below":     {answer.VesselAnswer{State: answer.AllBelow, Below: []journal.ID{3, 4}}, "A hard finding stands against everything", "other wicks or other vessels", false},
	} {
		p := page.NewRoundAnswer(answer.RoundAnswer{Vessels: &c.a}, journal.TestRound{}, sh, "", metricView())
		got := p.Vessels
		if got == nil || !strings.Contains(got.Text, c.text) || (c.next == "") != (got.Next == "") || !strings.Contains(got.Next, c.next) || got.Told != c.told || len(got.Rows) != len(c.a.Standing) {
			t.Errorf("%s: %+v", name, got)
		}
	}
	if p := page.NewRoundAnswer(answer.RoundAnswer{}, journal.TestRound{}, sh, "", metricView()); p.Vessels != nil {
		t.Error("a round of one vessel compares vessels")
	}
}

// What is said beforehand of vessels is what is answered afterwards: no
// difference of widths.
func TestWhatARoundTellsOfVessels(t *testing.T) {
	t.Parallel()
	var p page.RoundPlan
	r := journal.TestRound{Factors: journal.RoundFactors{Vessels: []journal.ID{3, 4}}}
	p.ShowTells(page.RoundTells{Burns: 4, Chances: make([][]plan.Naming, 2)}, r, page.NewKnown(roundShelf()), metricView())
	if len(p.Tells) != 1 || !strings.Contains(p.Tells[0], "judged by its own wall") || strings.Contains(p.Tells[0], "width") {
		t.Errorf("%q", p.Tells)
	}
}
