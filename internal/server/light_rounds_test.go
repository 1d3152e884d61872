package server_test

import (
	"fmt"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// pouredRound is a round of four whose candles were poured a month ago: at
// noon its first sitting lies ahead, at 18:00.
func (s candleSite) pouredRound(change ...string) journal.TestRound {
	s.t.Helper()
	s.ask("/rounds/new", planForm(change...))
	all, err := s.store.Rounds(s.t.Context())
	if err != nil || len(all) == 0 {
		s.t.Fatal("no round", err)
	}
	r := all[0]
	for _, x := range all {
		if x.ID > r.ID {
			r = x
		}
	}
	testkit.Write(s.t, s.store, func(tx *sqlite.Tx) error {
		for _, p := range r.Places {
			c := journal.Candle{Pour: s.Pour.ID, Vessel: p.Vessel, Wick: p.Wick, Wicks: p.Wicks, Round: &r.ID, RoundPlace: p.Number}
			if err := tx.SaveCandle(&c); err != nil {
				return err
			}
		}
		return nil
	})
	return r
}

// ticked are the candles that a page ticks, with the places that it writes.
func (s candleSite) ticked(path string) map[string]string {
	s.t.Helper()
	body, out := s.ask(path, nil).Body.String(), map[string]string{}
	for _, m := range regexp.MustCompile(`name="(c\d+\.)pick" value="1" checked`).FindAllStringSubmatch(body, -1) {
		place := regexp.MustCompile(`name="` + regexp.QuoteMeta(m[1]) + `place" value="([^"]*)"`).FindStringSubmatch(body)
		out[m[1]] = ""
		if place != nil {
			out[m[1]] = place[1]
		}
	}
	return out
}

func (s candleSite) lacks(path string, texts ...string) {
	s.t.Helper()
	body := s.ask(path, nil).Body.String()
	for _, text := range texts {
		if strings.Contains(body, text) {
			s.t.Errorf("%s says %q", path, text)
		}
	}
}

// Tonight's sitting is one link away; the link ticks its candles and says where
// each was drawn to stand, and what is lit is written there.
func TestARoundIsLitTonight(t *testing.T) {
	s := newCandleSite(t)
	s.lacks("/light", "Tonight at")
	r := s.pouredRound()
	s.shows("/", 200, "Burn 1 of ", "Tonight: "+r.Question, `href="/light?round=1"`)
	s.shows("/rounds/1", 200, "at 18:00", `href="/light?round=1"`)
	s.shows("/light", 200, "Tonight at 18:00: ", r.Question, `<span class="lt-word">Burn</span>`, "Tick these four", `href="/light?round=1"`)
	if n := len(s.ticked("/light")); n != 0 {
		t.Errorf("%d candles are ticked by nobody", n)
	}
	s.shows("/light?round=1", 200, "Ticked below", `name="round" value="1"`)
	ticks := s.ticked("/light?round=1")
	places := map[string]bool{}
	form := url.Values{"token": {"l"}, "round": {"1"}}
	for prefix, place := range ticks {
		places[place] = true
		form.Set(prefix+"pick", "1")
		form.Set(prefix+"place", place)
	}
	if len(ticks) != 4 || len(places) != 4 || places[""] {
		t.Fatalf("ticks %v", ticks)
	}
	form.Set("c4.place", "window sill") // the first of the round's candles, elsewhere than drawn
	form.Set("c5.trim", "short")
	s.sendsBack("/light", form, 422, "Write a length such as", `value="window sill"`, "Ticked below", `name="round" value="1"`)
	form.Del("c5.trim")
	s.sendsOn("/light", form, "/")
	if got := s.open(4).Place; got != "window sill" {
		t.Errorf("lit at %q", got)
	}
	if got := s.open(5).Place; got != ticks["c5."] {
		t.Errorf("lit at %q, drawn at %q", got, ticks["c5."])
	}
	s.lacks("/light", "Tonight at")
	s.lacks("/", "Tonight: ")
	s.shows("/light?round=1", 200, "are lit. Its next sitting is today at 18:00.") // out by 16:00, rested by then
	s.lacks("/light?round=1", `name="round"`)
}

// Both rounds of an evening are offered, each for itself; together they are
// more than the bench holds, one after the other they are not.
func TestTwoRoundsOfAnEvening(t *testing.T) {
	s := newCandleSite(t)
	s.pouredRound()
	s.lacks("/light", "would burn at once")
	s.pouredRound("token", "second", "seed", "7", "question", "Another?")
	s.shows("/light", 200, `href="/light?round=1"`, `href="/light?round=2"`, "8 candles would burn at once, and the bench has 6 places.")
	s.shows("/light?round=2", 200, `href="/light?round=1"`, "Ticked below")
	s.lacks("/light?round=2", `href="/light?round=2"`)
	for prefix := range s.ticked("/light?round=2") {
		var id journal.ID
		if _, err := fmt.Sscanf(prefix, "c%d.", &id); err != nil || *s.candle(id).Round != 2 {
			t.Errorf("%s is ticked, which is not of the round", prefix)
		}
	}
	apart := newCandleSite(t)
	apart.pouredRound("hours", "2")
	apart.pouredRound("token", "second", "seed", "7", "hours", "2", "start", "20:00")
	apart.shows("/light", 200, "Tonight at 18:00: ", "Tonight at 20:00: ")
	apart.lacks("/light", "would burn at once")
}

// What is lit takes places too, as long as it may still burn.
func TestTheBenchIsFullOfOthers(t *testing.T) {
	s := newCandleSite(t)
	s.pouredRound()
	testkit.Light(t, s.store, 0, s.Candles...)
	s.lacks("/light", "would burn at once") // out by 16:00
	s.shows("/light?round=1", 200, "7 candles would burn at once with those that are lit, and the bench has 6 places.")
	late := newCandleSite(t)
	late.pouredRound()
	testkit.Light(t, late.store, 5*time.Hour, late.Candles...) // should be out, and is not
	late.shows("/light?round=1", 200, "7 candles would burn at once with those that are lit")
	s.sendsOn("/light", url.Values{"token": {"x"}, "c4.pick": {"1"}, "c4.place": {s.ticked("/light?round=1")["c5."]}}, "/")
	s.shows("/light?round=1", 200, " is taken: 1-D is lit there.")
}

func TestARoundThatIsNotLit(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/light?round=9", 404)
	away := newCandleSite(t)
	away.pouredRound("away", "2026-05-14")
	away.shows("/light?round=1", 200, "Nothing more of the round", "Its next sitting is tomorrow at 18:00.")
	away.lacks("/", "/light?round=1")
	s.sendsBack("/light", url.Values{"token": {"x"}, "round": {"9"}}, 404)
	s.pouredRound()
	s.sendsOn("/rounds/1/close", typed("version", "1", "token", "c"), "/rounds/1")
	s.lacks("/light", "Tonight at")
	s.shows("/light?round=1", 200, "is closed: nothing of it is planned.")
	s.sendsOn("/withdraw/round/1", typed("token", "w", "why", "no time"), "/rounds/1")
	s.shows("/light?round=1", 200, "was withdrawn: nothing of it is planned.")
}
