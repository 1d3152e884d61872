package page_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/web/page"
)

func TestCandleListShowsLivesInWords(t *testing.T) {
	t.Parallel()
	lit := lineOf("B", 11)
	lit.WickName, lit.LitHours, lit.LastLit = "Larkspur 6", 7, of(noon.Add(-hours(2.5)))
	lit.Life.Burns, lit.Life.Lit = 3, true
	lit.Candle.Wicks = 2
	p := page.NewCandlesPage([]journal.CandleLine{lit}, true, page.CandlesQuery{Vessel: 3, Ladder: 4}, page.NewKnown(aShelf()), metricView())
	want := page.CandleRow{Code: "14-B", Href: "/candles/61", Wick: "2 × Larkspur 6", Vessel: "Pebble tumbler", Wax: "Meadow blend",
		State: "lit", Burns: "3", Lit: "9 h 30", Last: "today", LitNow: true, Key: "c61"}
	if diff := cmp.Diff([]page.CandleRow{want}, p.Rows); diff != "" {
		t.Error(diff)
	}
	if p.Pager.Older != "/candles?before=61&vessel=3&wick=ladder-4" {
		t.Errorf("older leads to %q", p.Pager.Older)
	}
}

func TestCandleListReadsItsAddress(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		query string
		want  journal.CandleFilter
	}{
		{"nothing", "", journal.CandleFilter{Limit: 50}},
		{"a wick", "wick=12", journal.CandleFilter{Wick: 12, Limit: 50}},
		{"a whole ladder among the wicks", "wick=ladder-4", journal.CandleFilter{Ladder: 4, Limit: 50}},
		{"a ladder by its own name", "ladder=4", journal.CandleFilter{Ladder: 4, Limit: 50}},
		{"all at once", "vessel=3&wax=1&before=60&withdrawn=1", journal.CandleFilter{Vessel: 3, Wax: 1, Before: 60, Withdrawn: true, Limit: 50}},
		{"nonsense does not narrow", "vessel=x&wax=-1&wick=ladder-&before=1e3", journal.CandleFilter{Limit: 50}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			if diff := cmp.Diff(c.want, page.ReadCandlesQuery(query(t, c.query)).Filter(50)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestCandleListSaysWhenNothingFits(t *testing.T) {
	t.Parallel()
	k := page.NewKnown(aShelf())
	if p := page.NewCandlesPage(nil, false, page.CandlesQuery{}, k, metricView()); p.Empty == nil {
		t.Error("an empty journal does not say what to do first")
	}
	if p := page.NewCandlesPage(nil, false, page.CandlesQuery{Wax: 1}, k, metricView()); p.None == "" || p.Empty != nil {
		t.Error("a filter that fits nothing is taken for an empty journal")
	}
}

func TestCandleFormLeavesOutWhatWasRetired(t *testing.T) {
	t.Parallel()
	k := page.NewKnown(aShelf())
	wicks := func(p page.CandleFormPage) []string {
		var out []string
		for _, f := range p.Form.Groups[0].Fields {
			for _, g := range f.Groups {
				for _, o := range g.Options {
					out = append(out, o.Text)
				}
			}
		}
		return out
	}
	if diff := cmp.Diff([]string{"choose", "Larkspur 5", "Larkspur 6", "Larkspur 8"}, wicks(page.NewCandlesForm(page.Input{}, aPour(), nil, k))); diff != "" {
		t.Error(diff)
	}
	old := aCandle().Candle
	old.Wick = 12
	if got := wicks(page.NewCandleForm(page.Input{}, old, k)); !slices.Contains(got, "Larkspur 7") {
		t.Errorf("the wick already chosen is missing: %v", got)
	}
}

func TestCandleFormSaysWhatTheShelfLacks(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		cut  func(*page.Shelves)
		want []string
	}{
		{"nothing", func(*page.Shelves) {}, nil},
		{"the vessel", func(s *page.Shelves) { s.Vessels = nil }, []string{"/shelf/vessels/new"}},
		{"the wick", func(s *page.Shelves) { s.Wicks = nil }, []string{"/shelf/ladders/new"}},
		{"a ladder that was retired", func(s *page.Shelves) { s.Ladders[0].Gone = of(noon) }, []string{"/shelf/ladders/new"}},
		{"both", func(s *page.Shelves) { s.Vessels, s.Wicks = nil, nil }, []string{"/shelf/vessels/new", "/shelf/ladders/new"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			sh := aShelf()
			c.cut(&sh)
			var got []string
			if m := page.NewCandlesForm(page.Input{}, aPour(), nil, page.NewKnown(sh)).Missing; m != nil {
				for _, a := range m.Acts {
					got = append(got, a.Href)
				}
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestAgainSaysWhatToWeigh(t *testing.T) {
	t.Parallel()
	like := aCandle().Candle
	c := like
	c.Letter, c.Wick, c.Filled = "D", 13, nil
	got := page.AgainSaid(c, like, page.NewKnown(aShelf()), metricView())
	want := "14-D is written down: Larkspur 8 in Pebble tumbler. Write the code on its base and weigh the wax that you fill in; 14-B took 182 g."
	if got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}
