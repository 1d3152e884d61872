package server_test

import (
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

var bigLabel = regexp.MustCompile(`<div class="lb-text"><b>([^<]*)</b>`)

// laidOut asks for a sheet and gives back what its labels say first.
func (s candleSite) laidOut(path string, status int) (big, body string) {
	s.t.Helper()
	w := s.request("GET", "http://127.0.0.1:7373"+path, "")
	if w.Code != status {
		s.t.Fatalf("%s answers %d, want %d", path, w.Code, status)
	}
	body = w.Body.String()
	if found := regexp.MustCompile(`(?i)<script(?:\s[^>]*)?>[^<]|\sstyle="|<style|\son[a-z]+="`).FindString(body); found != "" {
		s.t.Errorf("%s holds %q", path, found)
	}
	var out []string
	for _, m := range bigLabel.FindAllStringSubmatch(body, -1) {
		out = append(out, m[1])
	}
	return strings.Join(out, " "), body
}

func TestLabelsOfAPour(t *testing.T) {
	s := newCandleSite(t)
	got, body := s.laidOut("/pours/1/labels", 200)
	if got != "1-A 1-B 1-C" || strings.Count(body, `class="qr"`) != 3 || !strings.Contains(body, `value="http://127.0.0.1:7373"`) || !strings.Contains(body, "opens on this computer alone") {
		t.Errorf("labels %q", got)
	}
	if got, _ := s.laidOut("/pours/1/labels?size=25&paper=letter&start=4&of=c2", 200); got != "1-B" {
		t.Errorf("one label chosen: %q", got)
	}
	if got, body := s.laidOut("/pours/1/labels?size=25&start=999&base=studio&of=c2", 422); got != "" || !strings.Contains(body, `value="999"`) || !strings.Contains(body, `value="studio"`) || strings.Count(body, `aria-invalid="true"`) != 2 {
		t.Errorf("what cannot be used lays out %q", got)
	}
	s.laidOut("/pours/99/labels", 404)
}

func TestLabelsOfAnyCandles(t *testing.T) {
	s := newCandleSite(t)
	if got, body := s.laidOut("/labels", 200); got != "" || !strings.Contains(body, "Tick the labels to print.") {
		t.Errorf("unasked: %q", got)
	}
	if got, _ := s.laidOut("/labels?of=c3&of=c1", 200); got != "1-C 1-A" && got != "1-A 1-C" {
		t.Errorf("two chosen: %q", got)
	}
	s.laidOut("/labels?of=c999", 404)
	empty := emptySite(t)
	if _, body := empty.laidOut("/labels", 200); !strings.Contains(body, "No candle yet") {
		t.Error("an empty journal does not say so")
	}
}

// The address of a browser that came by TLS is kept, and a base that was typed
// wins.
func TestAddressInTheCodes(t *testing.T) {
	s := newCandleSite(t)
	w := s.request("GET", "http://127.0.0.1:7373/pours/1/labels", "", "Referer", "https://127.0.0.1:7373/pours/1")
	if !strings.Contains(w.Body.String(), `value="https://127.0.0.1:7373"`) {
		t.Error("TLS is forgotten")
	}
	if _, body := s.laidOut("/pours/1/labels?base="+url.QueryEscape("http://192.168.1.20:7373/"), 200); strings.Contains(body, "this computer alone") || !strings.Contains(body, `value="http://192.168.1.20:7373"`) {
		t.Error("the address that was typed is not used")
	}
}

// A round's labels stand in its order; places to pour have no code to scan.
func TestLabelsOfARound(t *testing.T) {
	s := newCandleSite(t)
	x := journal.TestRound{Question: "Which rung?", Wax: 1, Copies: 1, Factors: journal.RoundFactors{Vessels: []journal.ID{1}, LoadBasis: journal.OfWax}, Days: journal.RoundDays{Hours: quantity.Hours(4), PerEvening: 1, BenchPlaces: 6, Burns: 2, Weekdays: []time.Weekday{time.Friday}}}
	for i := 1; i <= 3; i++ {
		x.Factors.Wicks = append(x.Factors.Wicks, journal.RoundWick{Wick: journal.ID(i), Wicks: 1})
		x.Places = append(x.Places, journal.RoundPlace{Number: i, Melt: 1, Copy: 1, Vessel: 1, Wick: journal.ID(i), Wicks: 1, Bench: i, Evening: 1})
	}
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		if err := tx.SaveRound(&x); err != nil {
			return err
		}
		return tx.SaveCandle(&journal.Candle{Pour: 1, Vessel: 1, Wick: 2, Wicks: 1, Round: &x.ID, RoundPlace: 2})
	})
	got, body := s.laidOut("/rounds/1/labels", 200)
	if got != "place 1 1-D place 3" || strings.Count(body, `class="qr"`) != 1 || !strings.Contains(body, "<span>melt 1</span>") {
		t.Errorf("labels %q", got)
	}
	s.laidOut("/rounds/9/labels", 404)
}

// Covered codes print without anything that tells the candles, and not at all
// once they are uncovered or where nothing was covered.
func TestCodesOfASmelling(t *testing.T) {
	s := newCandleSite(t)
	l := s.begun("blind")
	got, body := s.laidOut("/throw/1/codes", 200)
	var want []string
	for _, c := range l.Cups {
		want = append(want, c.Cup.Code)
	}
	if got != strings.Join(want, " ") {
		t.Errorf("codes %q, want %v", got, want)
	}
	for _, c := range l.Cups {
		for _, tell := range []string{c.Made.Candle.Code(), "/candles/" + "1", c.Made.WickName()} {
			if strings.Contains(body, tell) {
				t.Errorf("the sheet says %q", tell)
			}
		}
	}
	s.sendsOn("/throw/1/scores", sheet(l, "Ines", "3", "2", "4"), "/throw/1")
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		x := s.smelling(1).Smelling
		now := tx.Now()
		x.Uncovered = &now
		return tx.SaveSmelling(&x)
	})
	s.laidOut("/throw/1/codes", 404)
}
