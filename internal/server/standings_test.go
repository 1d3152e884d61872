package server_test

import (
	"html"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// pairingLink finds where the standings lead for their first pairing.
func (s candleSite) pairingLink() string {
	s.t.Helper()
	m := regexp.MustCompile(`href="(/standings/pairing\?[^"]*)"`).FindStringSubmatch(s.ask("/standings", nil).Body.String())
	if m == nil {
		s.t.Fatal("the standings lead to no pairing")
	}
	return html.UnescapeString(m[1])
}

// A row opens to its burns: on a page of their own, and without the frame for
// the row itself.
func TestAPairingOpensToItsReadings(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	link := s.pairingLink()
	s.shows(link, 200, "<!doctype html>", "Larkspur 6 in Pebble tumbler", "chart-band", "burn 1", "1 h 30", "with no wall, by the curve fitted to it", "Back to the standings")
	inner := s.ask(link+"&inner=1", nil).Body.String()
	if strings.Contains(inner, "<!doctype") || !strings.Contains(inner, "chart-band") {
		t.Errorf("the piece of a page: %.200s", inner)
	}
	s.shows("/standings/pairing?vessel=1&series=no", 404)
	s.shows("/standings/pairing", 404)
}

// What was saved is in the standings at once: a correction, a withdrawal.
func TestStandingsFollowTheRecord(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	before := s.ask("/standings", nil).Body.String()
	again := s.ask("/standings", nil).Body.String()
	if before != again {
		t.Error("the standings change by themselves")
	}
	s.sendsOn("/withdraw/burn/1", url.Values{"token": {"w"}, "version": {"1"}, "why": {"wrong candle"}}, "/candles/1")
	s.shows("/standings", 200, "Nothing was burned yet")
}

func TestBeliefs(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	before := s.ask("/standings", nil).Body.String()
	form := func(more ...string) url.Values {
		v := url.Values{"token": {more[0]}, "version": {more[1]}, "apart": {"load"}}
		for i := 2; i < len(more); i += 2 {
			v.Set(more[i], more[i+1])
		}
		return v
	}
	s.shows("/settings/beliefs", 200, "not measured facts", "2.5 (25), 4 (45), 6.5 (30)", "1.5 mm")
	s.sendsBack("/settings/beliefs", form("a", "0", "reading", "wide", "slip", "3"), 422, "Write one number, between 0.2 mm and 10 mm.", `value="wide"`, `value="3"`)
	s.sendsBack("/settings/beliefs", form("a", "0", "burn", "2 (50), 1 (50)"), 422, "small to large", `value="2 (50), 1 (50)"`)
	s.sendsBack("/settings/beliefs", form("a", "0", "slope", "2.5 (1)"), 422, "Whole per cents only")
	s.sendsBack("/settings/beliefs", url.Values{"token": {"a"}, "version": {"0"}, "apart": {"colour"}}, 422, "Choose one from the list.")
	s.sendsOn("/settings/beliefs", form("b", "0", "reading", "4", "burn", "3 (40), 5,5 (60)"), "/settings/beliefs")
	s.shows("/settings/beliefs", 200, `value="4"`, `value="3 (40), 5.5 (60)"`, "Go back to all defaults", "Believed: Ruler and eye")
	s.shows("/standings/method", 200, "4 mm", "set in this studio; default 1.5 mm")
	if after := s.ask("/standings", nil).Body.String(); after == before {
		t.Error("the standings do not follow what is believed")
	}
	s.sendsOn("/settings/beliefs", form("c", "1", "reading", "4", "reset", "yes"), "/settings/beliefs")
	if after := s.ask("/standings", nil).Body.String(); after != before {
		t.Error("going back to the defaults does not bring the standings back")
	}
	s.sendsBack("/settings/beliefs", form("d", "1", "reading", "4"), 409, "changed meanwhile")
}
