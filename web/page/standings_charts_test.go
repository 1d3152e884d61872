package page

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

// aSeries is a ladder of which two wicks were burned and one is guessed.
func aSeries() (standings.Group, standings.Series) {
	seven := pairingOf(7, nil)
	nine := pairingOf(9, func(p *standings.Pairing) {
		p.Hard, p.AtLeast, p.Full = []safety.Finding{{Text: "The flame stood on the pool."}}, true, tree.Points{P10: 0.8, P50: 1.2, P90: 1.6}
	})
	guess := pairingOf(8, func(p *standings.Pairing) { p.Tested = false; p.Candles, p.Burns = 0, 0 })
	thin := pairingOf(5, func(p *standings.Pairing) { p.Tested, p.NotYet = false, "Not enough yet." })
	s := standings.Series{Key: "1.1", Ladder: seven.Ladder, Wicks: 1, Candles: 4, Burns: 10,
		Pairings: []standings.Pairing{seven, nine, thin}, Guesses: []standings.Pairing{guess}}
	return standings.Group{Vessel: seven.Vessel, Target: 3, Series: []standings.Series{s}}, s
}

func TestLadderChartStandsInOrderOfRungs(t *testing.T) {
	t.Parallel()
	g, s := aSeries()
	c := ladderChart(g, s, standingsView)
	want := [][]string{
		{"Larkspur 7", "yes", "2", "5", "92.0", "95.3", "99.0"},
		{"Larkspur 8", "no, a guess", "0", "0", "90.0", "95.0", "101.0"},
		{"Larkspur 9", "yes", "2", "5", "92.0", "", "not known"},
	}
	if d := cmp.Diff(want, c.Table.Rows); d != "" {
		t.Error(d)
	}
	for _, says := range []string{"its average lies within the line, 8 chances in 10", "guessed from its neighbours; its next candle lies within the line", "Crossed: below the line.", "From 4 candles, 10 burns."} {
		if !strings.Contains(c.Caption, says) {
			t.Errorf("caption %q does not say %q", c.Caption, says)
		}
	}
	s.Pairings = s.Pairings[2:]
	if ladderChart(g, s, standingsView) != nil || fullTimes(g, s, standingsView) != nil {
		t.Error("charts before any burn speaks")
	}
}

func TestFullTimesEndWhereNothingIsKnown(t *testing.T) {
	t.Parallel()
	g, s := aSeries()
	c := fullTimes(g, s, standingsView)
	want := [][]string{{"Larkspur 7", "2.50", "3.25", mayNever}, {"Larkspur 9", "0.80", "1.20", "1.60"}}
	if d := cmp.Diff(want, c.Table.Rows); d != "" {
		t.Error(d)
	}
	// No burn goes on for longer than four hours.
	late := fullRow(pairingOf(7, func(p *standings.Pairing) { p.Full = tree.Points{P10: 3.9, P50: 4.5, P90: 12} }))
	if late.From != 3.9 || late.Mid != 0 || !math.IsInf(late.To, 1) {
		t.Errorf("got %+v", late)
	}
	never := fullRow(pairingOf(7, func(p *standings.Pairing) { p.Full = tree.Points{P10: math.Inf(1), P50: math.Inf(1), P90: math.Inf(1)} }))
	if never.From != 4 || !math.IsInf(never.To, 1) || never.Note != mayNever {
		t.Errorf("got %+v", never)
	}
	// All that is known of a pool that was full at every look is by when.
	least := fullRow(pairingOf(7, func(p *standings.Pairing) { p.AtLeast, p.Full = true, tree.Points{P10: 0.8, P50: 1.2, P90: 1.6} }))
	if least.From != 0 || least.Mid != 0 || least.To != 1.6 {
		t.Errorf("got %+v", least)
	}
}

func TestChartsOfAPairingAreFoundByName(t *testing.T) {
	t.Parallel()
	g, s := aSeries()
	s.Pairings[0].Rows = []standings.CandleRow{{Name: "14-B", Burns: []standings.BurnRow{
		{Number: 1, Readings: []meltpool.Reading{{Hour: 1, Ratio: 0.6}, {Hour: 2, Full: true}}, Full: meltpool.Window{Seen: true, From: 1, To: 2}},
		{Number: 2, Why: "left out", Readings: []meltpool.Reading{{Hour: 1}}, Full: meltpool.Window{Seen: true, Never: true, To: 1}},
	}}}
	g.Series[0] = s
	table := standings.Table{Groups: []standings.Group{g}}
	c, ok := StandingsChart("burns", table, PairingChoice{Wick: 7}, standingsView)
	if d := cmp.Diff([][]string{{"14-B 1", "1.00", "2.00"}}, c.Table.Rows); !ok || d != "" {
		t.Errorf("%v: %s", ok, d)
	}
	for _, name := range []string{"ladder", "full", "pairing"} {
		if _, ok := StandingsChart(name, table, PairingChoice{Wick: 7}, standingsView); !ok {
			t.Errorf("%s is not there", name)
		}
	}
	for _, no := range []struct {
		name string
		wick journal.ID
	}{{"pairing", 5}, {"burns", 0}, {"nothing", 7}, {"", 7}} {
		if _, ok := StandingsChart(no.name, table, PairingChoice{Wick: no.wick}, standingsView); ok {
			t.Errorf("a chart for %+v", no)
		}
	}
}
