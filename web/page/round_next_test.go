package page_test

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/web/page"
)

// nextOf is what the page of a round of three places says is next, at noon of
// 14 May 2026.
func nextOf(r journal.TestRound, candles map[int]string, lit int, es ...plan.CalendarEvent) *page.RoundNext {
	v := metricView()
	v.Zone, v.Now = time.UTC, time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)
	var p plan.RoundProgress
	for n := 1; n <= 3; n++ {
		x := plan.PlaceProgress{Place: journal.RoundPlace{Number: n, Melt: 1, Vessel: 3, Wick: 6, Wicks: 1}, Stage: plan.ToPour}
		if letter := candles[n]; letter != "" {
			x.Candle = &journal.CandleLine{Candle: journal.Candle{Meta: journal.Meta{ID: journal.ID(40 + n)}, Pour: 7, PourNumber: 21, Letter: letter}}
			x.Stage = plan.Rests
		}
		if n == lit {
			x.Stage = plan.IsLit
		}
		p.Places = append(p.Places, x)
	}
	c := plan.Calendar{Zone: time.UTC, Events: es}
	for _, e := range es {
		if e.Kind == plan.SittingEvent {
			c.Sittings = append(c.Sittings, plan.PlannedSitting{Key: e.Key, Day: e.Day, From: e.From, To: e.To, Burns: e.Burns})
		}
	}
	r.ID = 9
	in := page.RoundShown{RoundInput: page.RoundInput{Round: r, Progress: &p, Calendar: c}}
	return page.NewRoundPage(in, page.NewKnown(roundShelf()), v).Next
}

func TestWhatIsNextInARound(t *testing.T) {
	t.Parallel()
	all := map[int]string{1: "A", 2: "B", 3: "C"}
	at := func(hour int) time.Time { return time.Date(2026, 5, 14, hour, 0, 0, 0, time.UTC) }
	poured := plan.CalendarEvent{Kind: plan.PourEvent, Day: "2026-05-13", Places: []int{1, 2, 3}, Done: true}
	pour := plan.CalendarEvent{Kind: plan.PourEvent, Day: "2026-05-15", Places: []int{1, 2, 3}, Melts: []int{1, 2}}
	set := plan.CalendarEvent{Kind: plan.SetEvent, Day: "2026-05-14", Places: []int{1, 2}}
	ready := plan.CalendarEvent{Kind: plan.ReadyEvent, Day: "2026-05-14", Places: []int{3}}
	tonight := plan.CalendarEvent{Key: "burn-1-2", Kind: plan.SittingEvent, Day: "2026-05-14", From: at(18), To: at(22), Places: []int{1, 3},
		Burns: []plan.PlannedBurn{{Place: 3, Number: 1, Bench: 1}, {Place: 1, Number: 2, Bench: 2}}}
	second := tonight
	second.Key, second.From, second.To = "burn-2-1", at(20), at(23)
	later := tonight
	later.Day, later.From, later.To = "2026-05-20", later.From.AddDate(0, 0, 6), later.To.AddDate(0, 0, 6)
	for name, c := range map[string]struct {
		candles map[int]string
		lit     int
		events  []plan.CalendarEvent
		text    string
		hrefs   string
	}{
		"a pour":             {nil, 0, []plan.CalendarEvent{pour, later}, "Next: tomorrow, pour melts 1 and 2.", "#melts"},
		"all of one day":     {all, 0, []plan.CalendarEvent{poured, set, ready, tonight, later}, "Next: today, look at the set candles 21-A and 21-B; light candles 21-A and 21-C at 18:00.", "/pours/7/tops /light?round=9"},
		"two this evening":   {all, 0, []plan.CalendarEvent{tonight, second}, "Next: today, light candles 21-A and 21-C at 18:00; light candles 21-A and 21-C at 20:00.", "/light?round=9"},
		"another day":        {all, 0, []plan.CalendarEvent{poured, ready, later}, "Next: Wed 20 May, light candles 21-A and 21-C at 18:00.", ""},
		"lit already":        {all, 2, []plan.CalendarEvent{later}, "Lit now: 21-B. Next: Wed 20 May, light candles 21-A and 21-C at 18:00.", "/walk"},
		"none are poured":    {nil, 0, []plan.CalendarEvent{tonight}, "Next: today, light the candles of places 1 and 3 at 18:00.", ""},
		"not all are poured": {map[int]string{1: "A"}, 0, []plan.CalendarEvent{tonight}, "Next: today, light 21-A and place 3 at 18:00.", "/light?round=9"},
	} {
		got := nextOf(journal.TestRound{}, c.candles, c.lit, c.events...)
		if got == nil {
			t.Fatalf("%s: nothing is next", name)
		}
		var hrefs []string
		for _, a := range got.Links {
			hrefs = append(hrefs, a.Href)
		}
		if got.Text != c.text || strings.Join(hrefs, " ") != c.hrefs {
			t.Errorf("%s: %q, %q", name, got.Text, hrefs)
		}
	}
	if got := nextOf(journal.TestRound{}, all, 0, poured); got != nil {
		t.Errorf("all is done: %+v", got)
	}
	closed := at(9)
	if got := nextOf(journal.TestRound{Closed: &closed}, all, 0, tonight); got != nil {
		t.Errorf("a closed round asks for %+v", got)
	}
}
