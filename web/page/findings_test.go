package page_test

import (
	"net/url"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/page"
)

var noLimits = safety.NewLimits(nil)

// plainLog is a candle with nothing outside the limits.
func plainLog() journal.CandleLog {
	l := aCandle(aBurn(1, 48, journal.Check{Full: false}, journal.Check{}, journal.Check{Full: true}))
	l.Pour.OilAt, l.Pour.PouredAt, l.Pour.HeatedTo, l.Pour.Load = nil, nil, nil, nil
	l.Vessel.Certificate = true
	l.Burns[0].Burn.Trim = of(quantity.Millimetres(6))
	l.Burns[0].Checks[0].WidthA = of(quantity.Millimetres(40))
	return l
}

// sootyLog adds a tall flame once, and soot three times in two burns.
func sootyLog() journal.CandleLog {
	l := plainLog()
	l.Burns = append(l.Burns, aBurn(2, 24, journal.Check{Soot: "marks"}, journal.Check{Soot: "marks"}, journal.Check{Full: true, Flame: of(quantity.Millimetres(80))}))
	l.Burns[1].Burn.Trim = of(quantity.Millimetres(6))
	l.Burns[0].Checks[1].Soot = "thread"
	return l
}

func TestNoFindingsIsNoProof(t *testing.T) {
	t.Parallel()
	p := page.NewFindingsPage(plainLog(), noLimits, "", metricView()).List
	if p.Empty != "Nothing that was recorded lies outside the limits kept here. That is no proof of safety." || p.Count != "" || len(p.Groups) != 0 || len(p.Filters) != 0 {
		t.Errorf("%+v", p)
	}
}

func TestFindingsAreByWeightAndSaidOnce(t *testing.T) {
	t.Parallel()
	p := page.NewFindingsPage(sootyLog(), noLimits, "", metricView())
	if p.List.Count != "Five findings: one stands against it and four ask for care." {
		t.Error(p.List.Count)
	}
	type line struct{ Group, Rule, Count, Text, Reading, Limit, Places string }
	var got []line
	for _, g := range p.List.Groups {
		for _, r := range g.Rules {
			for _, s := range r.Seen {
				var places []string
				for _, x := range s.Places {
					text := x.Where + " " + x.Day
					for _, h := range x.Hours {
						text += " " + h.At + h.Reading
					}
					places = append(places, strings.ReplaceAll(text, "\u00a0", " "))
				}
				got = append(got, line{g.Title, r.Name, r.Count, s.Text, s.Reading, s.Limit, strings.Join(places, "; ")})
			}
		}
	}
	want := []line{
		{"Stands against it", "Flame over the limit", "once", "The flame stands at 80 mm, over the limit of 75 mm.", "80 mm", "75 mm", "burn 2 yesterday 3 h 00"},
		{"Take care", "Soot", "three times", "It smokes: thread.", "", "", "burn 1 Tue 12 May 2 h 00"},
		{"Take care", "Soot", "three times", "It smokes: marks.", "", "", "burn 2 yesterday 1 h 00 2 h 00"},
		{"Take care", "Soot again", "once", "It smoked in 2 burns.", "", "", " yesterday"},
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if r := p.List.Groups[0].Rules[0]; !strings.HasPrefix(r.Source, "EN 15493") || len(r.Do) == 0 || !p.List.Groups[0].Hard {
		t.Errorf("%+v", r)
	}
}

func TestFindingsOfOneWeight(t *testing.T) {
	t.Parallel()
	q, err := url.ParseQuery("level=hard")
	if err != nil {
		t.Fatal(err)
	}
	p := page.NewFindingsPage(sootyLog(), noLimits, page.FindingsLevel(q), metricView()).List
	var links []string
	for _, f := range p.Filters {
		mark := ""
		if f.Current {
			mark = " here"
		}
		links = append(links, f.Text+" "+f.Href+mark)
	}
	want := []string{"All 5 /candles/7/findings#findings", "Stands against it 1 /candles/7/findings?level=hard#findings here", "Take care 4 /candles/7/findings?level=caution#findings"}
	if d := cmp.Diff(want, links); d != "" || len(p.Groups) != 1 {
		t.Errorf("%d groups, %s", len(p.Groups), d)
	}
	if p := page.NewFindingsPage(sootyLog(), noLimits, safety.Note, metricView()).List; len(p.Groups) != 0 || !strings.Contains(p.Empty, "no proof") {
		t.Errorf("%+v", p)
	}
	if got := page.FindingsLevel(url.Values{"level": {"nonsense"}}); got != "" {
		t.Errorf("%q is a level", got)
	}
}

func TestReadingsThatDifferStandWithTheirPlaces(t *testing.T) {
	t.Parallel()
	l := plainLog()
	l.Burns = append(l.Burns, aBurn(2, 24, journal.Check{Flame: of(quantity.Millimetres(60))}, journal.Check{Flame: of(quantity.Millimetres(65))}, journal.Check{Full: true}))
	l.Burns[1].Burn.Trim = of(quantity.Millimetres(6))
	s := page.NewFindingsPage(l, noLimits, "", metricView()).List.Groups[0].Rules[0].Seen
	if len(s) != 1 || s[0].Reading != "" || s[0].Limit != "51 mm" || len(s[0].Places) != 1 {
		t.Fatalf("%+v", s)
	}
	if h := s[0].Places[0].Hours; len(h) != 2 || h[0].Reading != "60\u00a0mm" || h[1].Reading != "65\u00a0mm" || h[1].At != "2\u00a0h\u00a000" {
		t.Errorf("%+v", h)
	}
}

func TestFaultsAndTheOneChange(t *testing.T) {
	t.Parallel()
	p := page.NewFindingsPage(sootyLog(), noLimits, "", metricView()).List
	if len(p.Faults) != 1 || p.Faults[0].Name != "Sooting" || !strings.HasPrefix(p.Faults[0].Text, "Seen in 2 of 2 burns") {
		t.Errorf("%+v", p.Faults)
	}
	if p.Change != "Wick down: try the wick below." || !strings.HasPrefix(p.Why, "For sooting; common practice, no source. Change one thing at a time") {
		t.Errorf("%q, %q", p.Change, p.Why)
	}
	if p.Unseen != "Looked for and not seen: sweating (2 burns) and drowning (2 burns)." {
		t.Error(p.Unseen)
	}
}

func TestPairingFindingsNameTheirCandles(t *testing.T) {
	t.Parallel()
	q := url.Values{"vessel": {"3"}, "wick": {"11"}, "series": {"1.1.none"}, "level": {"caution"}}
	p := page.NewPairingFindings([]journal.CandleLog{sootyLog()}, noLimits, q, metricView())
	place := p.Groups[0].Rules[0].Seen[0].Places[0]
	if place.Where != "14-B\u00a0burn\u00a01" || place.Href != "/candles/7" {
		t.Errorf("%+v", place)
	}
	if p.CSV != "/standings/pairing/findings.csv?series=1.1.none&vessel=3&wick=11" || p.Filters[0].Href != "/standings/pairing?series=1.1.none&vessel=3&wick=11#findings" {
		t.Errorf("%q, %q", p.CSV, p.Filters[0].Href)
	}
}

func TestFindingsTable(t *testing.T) {
	t.Parallel()
	rows := page.FindingsTable(safety.Everything(sootyLog(), noLimits, quantity.Metric), metricView())
	want := []string{"hard", "flame over the limit", "14-B", "2", "2026-05-13T15:00:00Z", "3", "80 mm", "75 mm", "The flame stands at 80 mm, over the limit of 75 mm."}
	if d := cmp.Diff(want, rows[1][:9]); d != "" || len(rows) != 6 || len(rows[0]) != len(rows[1]) {
		t.Errorf("%d rows, %s", len(rows), d)
	}
}
