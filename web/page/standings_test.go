package page

import (
	"math"
	"net/url"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

var standingsView = View{Units: quantity.Metric, Zone: time.UTC, Now: time.Date(2026, 5, 14, 19, 42, 0, 0, time.UTC)}

// pairingOf is a pairing of a round vessel of 100 mm whose target hour is 3 h.
func pairingOf(rung int, change func(*standings.Pairing)) standings.Pairing {
	target := quantity.Hours(3)
	p := standings.Pairing{
		Vessel: journal.Vessel{Meta: journal.Meta{ID: 3}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 100, TargetHours: &target},
		Ladder: journal.Ladder{Name: "Larkspur"}, Wick: journal.Wick{Meta: journal.Meta{ID: journal.ID(rung)}, Rung: rung, Label: string(rune('0' + rung))},
		Wicks: 1, Rank: 1, Candles: 2, Burns: 5, AllBurns: 5,
		Figures: tree.Figures{
			Tested: true, Short: 0.016, Soon: 0.0004, OnTarget: 0.58, Closest: 0.64,
			Width: tree.Points{P10: 92, P50: 95.26, P90: 99}, Next: tree.Points{P10: 90, P50: 95, P90: 101}, Full: tree.Points{P10: 2.5, P50: 3.25, P90: math.Inf(1)}, Never: 0.12,
		},
	}
	if change != nil {
		change(&p)
	}
	return p
}

func TestStandingsRow(t *testing.T) {
	t.Parallel()
	type cells struct{ Closeness, Short, Soon, Width, Range, Full, FullRange, OnTarget, Closest, Running string }
	for _, c := range []struct {
		name   string
		change func(*standings.Pairing)
		lone   bool
		want   cells
	}{
		{"all of it", func(p *standings.Pairing) { p.Running = true }, false,
			cells{"98.4", "1.6", "0.0", "95.3", "92.0 – 99.0", "3 h 15", "2 h 30 – may never", "0.58", "0.64", "still in the running"}},
		{"the closest", func(p *standings.Pairing) { p.Running, p.Closest = true, 0.8 }, false,
			cells{"98.4", "1.6", "0.0", "95.3", "92.0 – 99.0", "3 h 15", "2 h 30 – may never", "0.58", "0.80", "the closest"}},
		{"alone", func(p *standings.Pairing) { p.Running, p.Closest = true, 1 }, true,
			cells{"98.4", "1.6", "0.0", "95.3", "92.0 – 99.0", "3 h 15", "2 h 30 – may never", "0.58", "", "nothing to compare it with yet"}},
		{"full at every look", func(p *standings.Pairing) { p.AtLeast, p.Full.P90 = true, 2 }, false,
			cells{"98.4", "1.6", "0.0", "at least 92.0", "upper end not known", "by 2 h 00", "", "0.58", "0.64", ""}},
		{"full at every look, and yet it may never be", func(p *standings.Pairing) { p.AtLeast = true }, false,
			cells{"98.4", "1.6", "0.0", "at least 92.0", "upper end not known", "3 h 15", "2 h 30 – may never", "0.58", "0.64", ""}},
		{"likely never", func(p *standings.Pairing) {
			p.Full = tree.Points{P10: math.Inf(1), P50: math.Inf(1), P90: math.Inf(1)}
			p.Never = 0.97
		}, false,
			cells{"98.4", "1.6", "0.0", "95.3", "92.0 – 99.0", "may never", "chance of never: 0.97", "0.58", "0.64", ""}},
		{"later than any burn goes on", func(p *standings.Pairing) { p.Full = tree.Points{P10: 3.9, P50: 4.5, P90: 12} }, false,
			cells{"98.4", "1.6", "0.0", "95.3", "92.0 – 99.0", "over 4 h 00", "3 h 54 – over 4 h 00", "0.58", "0.64", ""}},
		{"not enough yet", func(p *standings.Pairing) { p.Tested, p.NotYet = false, "Not enough yet." }, false, cells{}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := standingsRow(pairingOf(7, c.change), c.lone, "/x", standingsView)
			plain := strings.NewReplacer("\u00a0", " ", "\u2009", " ").Replace
			got := cells{r.Closeness, r.Short, r.Soon, plain(r.Width), plain(r.WidthRange), plain(r.Full), plain(r.FullRange), r.OnTarget, r.Closest, r.Running}
			if d := cmp.Diff(c.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestStandingsRowSaysWhatItRestsOn(t *testing.T) {
	t.Parallel()
	r := standingsRow(pairingOf(7, func(p *standings.Pairing) {
		p.Rows, p.AllBurns = make([]standings.CandleRow, 2), 6
		p.Warnings = []string{"One candle only: x.", "In 1 of 5 burns " + standings.OneWayOnly}
		p.Faults = []safety.Fault{{Name: "soot", Burns: 2, Of: 5}}
		p.Hard = []safety.Finding{{Text: "There is a flame on the pool.", Candle: "2-D", Burn: 4, At: time.Date(2026, 5, 3, 20, 0, 0, 0, time.UTC)}}
	}), false, "/standings/pairing?a=b", standingsView)
	if r.Behind != "Its curve and readings: 2 candles, 5 of 6 burns count" || r.Inner != "/standings/pairing?a=b&inner=1" || r.Doubts != "One candle only: x." {
		t.Errorf("%q, %q, %q", r.Behind, r.Inner, r.Doubts)
	}
	if d := cmp.Diff([]string{"soot: 2\u00a0of\u00a05"}, r.Faults); d != "" || r.Hard[0].Text != "2-D, burn 4, Sun 3 May: There is a flame on the pool." {
		t.Errorf("%s %q", d, r.Hard[0].Text)
	}
}

func TestStandingsPageParts(t *testing.T) {
	t.Parallel()
	below := pairingOf(9, func(p *standings.Pairing) { p.Rank, p.Hard = 0, []safety.Finding{{Text: "too hot"}} })
	thin := pairingOf(4, func(p *standings.Pairing) { p.Rank, p.Tested, p.NotYet = 0, false, "Not enough yet." })
	guess := pairingOf(8, func(p *standings.Pairing) {
		p.Tested, p.Rank, p.Short, p.Soon, p.Warnings = false, 0, 0.001, 0.09, []string{"A guess from the neighbours: this rung was not burned."}
	})
	table := standings.Table{Shapes: []standings.ShapeWeight{{Exponent: 0.7, Weight: 0.9}, {Exponent: 1, Weight: 0.1}}, Groups: []standings.Group{{
		Vessel: below.Vessel, Target: 3, Candles: 6, Burns: 20, Across: []standings.Chance{{Name: "Larkspur 7", Chance: 0.7}, {Name: "Alder 2", Chance: 0.3}},
		Settings: []standings.Setting{{Wax: journal.Wax{Meta: journal.Meta{ID: 2}, Name: "Meadow blend"}}},
		Series: []standings.Series{{Key: "1.1.none", Ladder: below.Ladder, Wicks: 1, Pairings: []standings.Pairing{pairingOf(7, nil), below, thin}, Guesses: []standings.Pairing{guess},
			Advice: standings.Advice{Step: standings.OneMore, Text: "One more."}}},
	}}}
	p := NewStandingsPage(table, StandingsChoice{}, []journal.Tried{{Vessel: 3, Wax: 2, Burns: 20}}, Shelves{}, "note", standingsView)
	g := p.Groups[0]
	s := g.Series[0]
	if len(s.Ranked) != 1 || s.Ranked[0].Rank != "1" || len(s.Below) != 1 || s.Below[0].Rank != "–" || len(s.Thin) != 1 || s.Next != "One more." || s.Settled {
		t.Errorf("%+v", s)
	}
	if want := "/standings/pairing?series=1.1.none&vessel=3&wax=2&wick=7"; s.Ranked[0].Href != want {
		t.Errorf("%q", s.Ranked[0].Href)
	}
	if want := "Across these ladders, the chance of being the closest: Larkspur 7 0.70, Alder 2 0.30."; g.Across != want {
		t.Errorf("%q", g.Across)
	}
	plain := strings.NewReplacer("\u00a0", " ", "\u2009", " ").Replace
	if want := "90.0 – 101.0 mm at 3 h 00 with no wall, likely full too soon; closeness about 90.9, chance on target 0.58."; plain(s.Guesses[0].Text) != want || s.Guesses[0].Doubt != "" {
		t.Errorf("%q, %q", plain(s.Guesses[0].Text), s.Guesses[0].Doubt)
	}
	if !strings.Contains(p.Doubt, "only roughly known") || p.Note != "note" || p.Empty != "" {
		t.Errorf("%q, %q, %q", p.Doubt, p.Note, p.Empty)
	}
}

func TestWeighedNote(t *testing.T) {
	t.Parallel()
	at := standingsView.Now.Add(-time.Minute)
	if got := WeighedNote(at, true, false, standingsView); got != "" {
		t.Errorf("%q", got)
	}
	if got := WeighedNote(at, false, false, standingsView); !strings.HasPrefix(got, "Worked out today, 19:41. What was saved since then is being worked in") {
		t.Errorf("%q", got)
	}
	if got := WeighedNote(at, false, true, standingsView); !strings.Contains(got, "log says why") {
		t.Errorf("%q", got)
	}
}

// Without a choice the page shows what was burned most; an empty name asks for
// all. 8 % of the wax and 0.08/1.08 of the total are one load.
func TestStandingsChoice(t *testing.T) {
	t.Parallel()
	oil := journal.ID(5)
	load := func(x float64) *float64 { return &x }
	tried := []journal.Tried{
		{Vessel: 1, Wax: 1, Fragrance: &oil, Load: load(0.08), Basis: journal.OfWax, Burns: 9},
		{Vessel: 1, Wax: 1, Fragrance: &oil, Load: load(0.08 / 1.08), Basis: journal.OfTotal, Burns: 9},
		{Vessel: 1, Wax: 1, Burns: 10},
		{Vessel: 1, Wax: 2, Burns: 12},
		{Vessel: 2, Wax: 1, Burns: 11},
	}
	for _, c := range []struct {
		query string
		apart journal.Apart
		want  StandingsChoice
	}{
		{"", journal.ByLoad, StandingsChoice{Vessel: 1, Wax: 1, Setting: "5-8000", Apart: journal.ByLoad}},
		{"", journal.ByFragrance, StandingsChoice{Vessel: 1, Wax: 1, Setting: "5", Apart: journal.ByFragrance}},
		{"", journal.ByWax, StandingsChoice{Vessel: 1, Wax: 1, Apart: journal.ByWax}},
		{"setting=none", journal.ByWax, StandingsChoice{Vessel: 1, Wax: 1, Apart: journal.ByWax}},
		{"vessel=2", journal.ByLoad, StandingsChoice{Vessel: 2, Wax: 1, Setting: "none", Apart: journal.ByLoad}},
		{"vessel=1&wax=2&setting=", journal.ByLoad, StandingsChoice{Vessel: 1, Wax: 2, Apart: journal.ByLoad}},
		{"vessel=&wax=", journal.ByLoad, StandingsChoice{Apart: journal.ByLoad}},
		{"vessel=x&wax=-1", journal.ByLoad, StandingsChoice{Apart: journal.ByLoad}},
	} {
		q, err := url.ParseQuery(c.query)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(c.want, ReadStandingsChoice(q, tried, c.apart)); d != "" {
			t.Errorf("%q by %s: %s", c.query, c.apart, d)
		}
	}
}
