package server_test

import (
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
	"rimward/web/page"
)

// planForm is a round as it is typed: two rungs of the studio of testkit, two
// candles of each, poured on the day after the site's noon.
func planForm(change ...string) url.Values {
	u := typed("token", "r", "wax", "1", "vessels", "1", "rungs", "1", "rungs", "2", "copies", "2", "seed", "481516", "pour_on", "2026-05-15", "start", "18:00",
		"hours", "4", "per_evening", "1", "bench_places", "6", "burns", "3", "act", "keep")
	for d := range 7 {
		u.Add("weekdays", string(rune('0'+d)))
	}
	for i := 0; i+1 < len(change); i += 2 {
		if change[i+1] == "" {
			u.Del(change[i])
		} else {
			u.Set(change[i], change[i+1])
		}
	}
	return u
}

func (s candleSite) round(id journal.ID) journal.TestRound {
	s.t.Helper()
	r, err := s.store.Round(s.t.Context(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	return r
}

func TestARoundIsPlannedThenKept(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/rounds", 200, "No round was planned yet", "Plan a round")
	s.shows("/rounds/new?ask=rung", 200, "Which rung of a ladder?", "Number of the draw")
	s.sendsBack("/rounds/new", planForm("act", "plan"), 200, "Nothing is saved yet.", "Keep this round", "Which of Larkspur 6 and 7 in Pebble tumbler with Meadow blend?", "Order of pouring", "What it can tell", "needs the volume of Pebble tumbler")
	if all, err := s.store.Rounds(t.Context()); err != nil || len(all) != 0 {
		t.Fatalf("looking at the plan kept %d rounds, %v", len(all), err)
	}
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	r := s.round(1)
	if len(r.Places) != 4 || r.Seed != 481516 || r.Question != "Which of Larkspur 6 and 7 in Pebble tumbler with Meadow blend?" {
		t.Errorf("kept %+v", r)
	}
	s.shows("/rounds/1", 200, "4 candles of Meadow blend", "Make the pour sheet", "Plan the days anew", "place")
	s.shows("/rounds", 200, "Planned", "Which of Larkspur 6 and 7")
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
}

// The same number draws the same order.
func TestADrawCanBeDrawnAgain(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	s.sendsOn("/rounds/new", planForm("token", "again"), "/rounds/2")
	a, b := s.round(1), s.round(2)
	for i := range a.Places {
		if a.Places[i] != b.Places[i] {
			t.Errorf("place %d: %+v and %+v", i+1, a.Places[i], b.Places[i])
		}
	}
}

func TestARoundThatCannotBe(t *testing.T) {
	s := newCandleSite(t)
	for _, act := range []string{"plan", "keep"} {
		s.sendsBack("/rounds/new", planForm("act", act, "rungs", "1"), 422, "All candles would be alike", `value="481516"`)
		s.sendsBack("/rounds/new", planForm("act", act, "seed", "any"), 422, `value="any"`)
		s.sendsBack("/rounds/new", planForm("act", act, "rungs", ""), 422, "Tick one rung at least.")
		s.sendsBack("/rounds/new", planForm("act", act, "vessels", ""), 422, "Tick one vessel at least.")
		s.sendsBack("/rounds/new", planForm("act", act, "copies", "500"), 422, "It can be 12 at most.", `value="500"`)
		s.sendsBack("/rounds/new", planForm("act", act, "wicks", "1,2"), 422, "can be read in two ways")
	}
	s.sendsBack("/rounds/new", planForm("wicks", "1; 2; 3; 4; 5; 6; 7; 8", "pour_ats", "50;51;52;53;54;55;56;57", "copies", "12"), 422, "a round has at most 400")
	s.sendsBack("/rounds/new", planForm("rungs", "99", "wicks", "1; 2"), 422, "A wick of the round is not in the journal.")
	s.sendsBack("/rounds/new", planForm("square", "1", "copies", "3"), 422, "A Latin square of 2 cells needs 2 candles of each.")
	if all, _ := s.store.Rounds(t.Context()); len(all) != 0 {
		t.Errorf("%d rounds were kept", len(all))
	}
}

func TestARoundIsClosedOpenedAndWithdrawn(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	s.sendsOn("/rounds/1/close", typed("version", "1", "token", "c"), "/rounds/1")
	s.shows("/rounds/1", 200, "Round, answered", "Its question was taken as answered today.", "Open it again")
	if body := s.ask("/rounds/1", nil).Body.String(); strings.Contains(body, "Plan the days anew") || strings.Contains(body, "What it can tell") {
		t.Error("a round that is answered still plans")
	}
	s.shows("/rounds", 200, "Answered")
	s.sendsBack("/rounds/1/reopen", typed("version", "1", "token", "o"), http.StatusConflict)
	s.sendsOn("/rounds/1/reopen", typed("version", "2", "token", "o2"), "/rounds/1")
	s.sendsOn("/rounds/1/edit", typed("version", "3", "token", "e", "question", "Six or seven?", "note", "hurry"), "/rounds/1")
	s.shows("/rounds/1", 200, "Six or seven?", "hurry", "Corrected")
	s.sendsBack("/rounds/1/edit", typed("version", "4", "token", "f", "question", ""), 422, "Say what the round is to answer.")
	s.shows("/withdraw/round/1", 200, "Withdraw this round?")
	s.sendsOn("/withdraw/round/1", typed("token", "w", "why", "no time"), "/rounds/1")
	s.shows("/rounds/1", 200, "no time", "Bring it back")
	s.sendsOn("/restore/round/1", typed("token", "b"), "/rounds/1")
	s.shows("/rounds/9", 404)
	s.shows("/rounds/x/days", 404)
}

func TestTheDaysOfARoundArePlannedAnew(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	s.shows("/rounds/1/days", 200, "Plan the days anew", `value="2026-05-15"`)
	days := planForm("pour_on", "2026-05-20", "away", "2026-05-22 to 2026-05-24", "version", "1", "act", "plan")
	s.sendsBack("/rounds/1/days", days, 200, "What moves", "from tomorrow to Wed 20 May", "Keep these days")
	if s.round(1).Days.PourOn != "2026-05-15" {
		t.Error("looking at the days changed them")
	}
	s.sendsBack("/rounds/1/days", planForm("hours", "5", "version", "1", "act", "plan"), 422, "No burn may be longer than 4 h 00.")
	days.Set("act", "keep")
	s.sendsOn("/rounds/1/days", days, "/rounds/1")
	if d := s.round(1).Days; d.PourOn != "2026-05-20" || len(d.Away) != 3 {
		t.Errorf("kept %+v", d)
	}
	s.sendsBack("/rounds/1/days", planForm("version", "2", "weekdays", "", "act", "keep"), 422, "Tick one evening of the week at least.")
}

func TestTheCalendarOfARound(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	w := s.ask("/rounds/1/calendar.ics", nil)
	if w.Code != 200 || w.Header().Get("Content-Type") != "text/calendar; charset=utf-8" || !strings.HasPrefix(w.Body.String(), "BEGIN:VCALENDAR\r\n") {
		t.Fatalf("answers %d, %q", w.Code, w.Header().Get("Content-Type"))
	}
	if n := strings.Count(w.Body.String(), "BEGIN:VEVENT"); n != 6 { // pour, set check, ready and three burns of one group
		t.Errorf("%d events:\n%s", n, w.Body)
	}
	again := s.ask("/rounds/1/calendar.ics", nil)
	if !bytes.Equal(w.Body.Bytes(), again.Body.Bytes()) {
		t.Error("the same calendar differs when it is taken again")
	}
}

// The round's page says what is next.
func TestTheNextChoreOfARound(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	s.shows("/rounds/1", 200, "Next: tomorrow, pour melt", `href="#melts"`)
}

// What is recorded of a candle moves the days of its round: a calendar program
// that has read them takes the new ones for newer (RFC 5545, 3.8.7.4).
func TestTheSequenceRisesWithTheRecord(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	sequence := func() (n int) {
		_, rest, _ := strings.Cut(s.ask("/rounds/1/calendar.ics", nil).Body.String(), "\r\nSEQUENCE:")
		if _, err := fmt.Sscan(rest, &n); err != nil {
			t.Fatal(err)
		}
		return n
	}
	was := sequence()
	r := s.round(1)
	c := journal.Candle{Pour: s.Pour.ID, Vessel: s.Vessel.ID, Wick: r.Places[2].Wick, Wicks: 1, Round: &r.ID, RoundPlace: 3}
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.SaveCandle(&c) })
	if is := sequence(); is <= was || s.round(1).Version != r.Version {
		t.Errorf("the sequence was %d and is %d", was, is)
	}
}

func TestTheSheetOfAMelt(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	s.sendsOn("/rounds/1/sheet", typed("melt", "1", "token", "m"), "/pours/sheets/1")
	s.sendsOn("/rounds/1/sheet", typed("melt", "1", "token", "m"), "/pours/sheets/1")
	x, err := s.store.PourSheet(t.Context(), 1)
	if err != nil || x.Round == nil || *x.Round != 1 || len(x.Body.Lines) != 2 || len(x.Body.Lines[0].Places)+len(x.Body.Lines[1].Places) != 4 {
		t.Errorf("got %+v, %v", x, err)
	}
	s.shows("/rounds/1", 200, "Weigh it")
	s.sendsBack("/rounds/1/sheet", typed("token", "n"), 404)
	s.sendsBack("/rounds/1/sheet", typed("melt", "7", "token", "o"), 404)
}

func TestACandleNamesItsPlace(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	r := s.round(1)
	c := journal.Candle{Pour: s.Pour.ID, Vessel: s.Vessel.ID, Wick: r.Places[2].Wick, Wicks: 1, Round: &r.ID, RoundPlace: 3}
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.SaveCandle(&c) })
	at := "/candles/" + fmt.Sprint(c.ID)
	s.shows(at, 200, r.Question, "place 3")
	s.shows("/rounds/1", 200, c.Code(), "1 of 4 candles are poured")
	s.sendsOn(at+"/edit", candleForm("version", "1", "wick", fmt.Sprint(c.Wick), "wicks", "1", "note", "tall"), at)
	if got := s.candle(c.ID); got.Round == nil || got.RoundPlace != 3 || got.Note != "tall" {
		t.Errorf("a correction lost its place: %+v", got)
	}
	s.sendsBack("/rounds/1/days", planForm("version", "1", "act", "plan", "pour_on", "2026-05-18"), 200, "What moves")
	s.sendsOn("/rounds/1/sheet", typed("melt", "1", "token", "m"), "/pours/sheets/1")
	x, err := s.store.PourSheet(t.Context(), 1)
	if err != nil {
		t.Fatal(err)
	}
	var places []int
	for _, l := range x.Body.Lines {
		places = append(places, l.Places...)
	}
	if len(places) != 3 || slices.Contains(places, 3) {
		t.Errorf("the sheet of what is left fills places %v", places)
	}
}

// A round that is planned like another, by its seed too, has the same candles
// in the same order: nothing that the order was drawn by is lost.
func TestARoundIsPlannedLikeAnother(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm("own_melts", "1", "copies", "3", "wicks", "1; 2", "per_melt", "2", "pour_ats", "60; 65", "burns", ""), "/rounds/1")
	s.shows("/rounds/1", 200, "/rounds/new?like=1")
	s.shows("/rounds/new?like=1", 200, `value="60; 65"`, `value="1; 2"`)
	s.shows("/rounds/new?like=7", 404)
	s.shows("/rounds/new?like=x", 404)
	first := s.round(1)
	view := page.View{Units: quantity.Metric, Zone: time.UTC, Now: time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)}
	v := page.AgainValues(first, int(first.Seed), journal.DefaultSettings(), view)
	v.Set("act", "keep")
	v.Set("token", "again")
	s.sendsOn("/rounds/new", v, "/rounds/2")
	second := s.round(2)
	if d := cmp.Diff(first.Places, second.Places); d != "" || first.Drawn != second.Drawn || len(first.Places) != 24 || !first.Drawn.OwnMelts {
		t.Errorf("drawn by %+v, then by %+v:\n%s", first.Drawn, second.Drawn, d)
	}
	if second.Days.Burns != 0 || len(second.Days.Weekdays) != 7 {
		t.Errorf("days: %+v", second.Days)
	}
}
