package server_test

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// sidesSite is a studio whose first two candles were burned twice each.
func sidesSite(t *testing.T) candleSite {
	t.Helper()
	s := newCandleSite(t)
	for _, b := range []struct{ path, day, before, after string }{
		{"/candles/1", "2026-05-08", "250", "231"}, {"/candles/1", "2026-05-10", "231", "213"},
		{"/candles/2", "2026-05-08", "250", "228"}, {"/candles/2", "2026-05-10", "228", "205"},
	} {
		form := paperForm("token", b.path+b.day, "lit_date", b.day, "mass_before", b.before, "mass_after", b.after, "k3.at_time", "01:30")
		s.sendsOn(b.path+"/paper", form, b.path)
	}
	return s
}

// heads are the names of the columns, in order.
func (s candleSite) heads(path string, status int) string {
	s.t.Helper()
	w := s.ask(path, nil)
	if w.Code != status {
		s.t.Errorf("%s answers %d, want %d", path, w.Code, status)
	}
	var out []string
	for _, m := range regexp.MustCompile(`(?s)class="sides-name[^"]*"[^>]*>([^<]*)<`).FindAllStringSubmatch(w.Body.String(), -1) {
		out = append(out, strings.TrimSpace(m[1]))
	}
	return strings.Join(out, " ")
}

func TestSideBySide(t *testing.T) {
	s := sidesSite(t)
	s.shows("/side-by-side?of=c1&of=c2", 200, "They differ in", "<b>wick</b>", "Width at", "2 burns", "Pools by burn and hour", "In the standings")
	for path, want := range map[string]string{
		"/side-by-side?of=c2&of=c1":                               "1-B 1-A",
		"/side-by-side?of=c1&of=c2&of=c3":                         "1-A 1-B 1-C",
		"/side-by-side?of=c1&of=c1":                               "1-A",
		"/side-by-side?of=c1&of=c99&of=c2":                        "1-A 1-B",
		"/side-by-side?of=c1&of=c2&of=c3&of=c4&of=c5&of=c6&of=c7": "1-A 1-B 1-C",
	} {
		if got := s.heads(path, 200); got != want {
			t.Errorf("%s shows %q, want %q", path, got, want)
		}
	}
	s.shows("/side-by-side?of=c1", 200, "One alone says little", "Add a candle or a pairing")
	s.shows("/side-by-side?of=c1&of=c1", 200, "What was named twice stands once.")
	s.shows("/side-by-side?of=c1&of=c99", 200, "One candle of the address is not in this journal.")
	s.shows("/side-by-side?of=c1&of=c2&of=c3&of=c4&of=c5&of=c6&of=c7", 200, "One more was left out.", "Three candles of the address")
	s.shows("/side-by-side?of=c3&of=c1", 200, "not burned yet", "not lit")
	s.shows("/side-by-side", 200, "The two burned candles of pour 1", "The rungs of Larkspur in Pebble tumbler")
}

// Only where nothing at all is found there is nothing there, and the page says
// how to go on.
func TestNothingSideBySide(t *testing.T) {
	s := sidesSite(t)
	s.shows("/side-by-side?of=c99", http.StatusNotFound, "One candle of the address is not in this journal.", "Ready-made choices")
	s.shows("/side-by-side?of=nonsense&of=p1.2", http.StatusNotFound, "Two parts of the address could not be read")
	s.shows("/side-by-side?of=p1.1.1.9.9.none", http.StatusNotFound, "not in the standings")
	s.shows("/side-by-side?kin=99", http.StatusNotFound, "There is nothing here")
	emptySite(t).shows("/side-by-side", 200, "There is nothing to set side by side yet", "Light candles")
}

// A withdrawn candle is shown as such; a pairing counts it no more.
func TestWithdrawnSideBySide(t *testing.T) {
	s := sidesSite(t)
	m := regexp.MustCompile(`value="(p[^"]*)"[^>]*form="sides-chosen"`).FindStringSubmatch(s.ask("/standings", nil).Body.String())
	if m == nil {
		t.Fatal("the standings offer no pairing")
	}
	key := url.QueryEscape(html.UnescapeString(m[1]))
	if got := s.heads("/side-by-side?of="+key+"&of=c2", 200); !strings.HasPrefix(got, "Larkspur ") || !strings.HasSuffix(got, " 1-B") {
		t.Errorf("a pairing and a candle are %q", got)
	}
	s.sendsOn("/withdraw/candle/1", url.Values{"token": {"w"}, "version": {"1"}}, "/candles/1")
	s.shows("/side-by-side?of=c1&of=c2", 200, "withdrawn", "1-A")
	s.sendsOn("/withdraw/candle/2", url.Values{"token": {"x"}, "version": {"1"}}, "/candles/2")
	s.shows("/side-by-side?of="+key, 404, "not in the standings")
}

// A code, and a candle with its fellows, lead to an address that can be
// shared.
func TestAskingLeadsToAnAddress(t *testing.T) {
	s := sidesSite(t)
	for path, want := range map[string]string{
		"/side-by-side?kin=2":                  "/side-by-side?of=c2&of=c1",
		"/side-by-side?kin=3":                  "/side-by-side?of=c3&of=c1&of=c2",
		"/side-by-side?of=c1&code=1-b":         "/side-by-side?of=c1&of=c2",
		"/side-by-side?code=1B":                "/side-by-side?of=c2",
		"/side-by-side?of=c3&of=&code=1-A&x=1": "/side-by-side?of=c3&of=c1",
	} {
		w := s.ask(path, nil)
		if got := w.Header().Get("Location"); w.Code != http.StatusSeeOther || got != want {
			t.Errorf("%s answers %d to %q, want %q", path, w.Code, got, want)
		}
	}
	s.shows("/side-by-side?of=c1&code=9-Z", 200, "No candle has the code “9-Z”", "1-A")
	s.shows("/side-by-side?of=c1&code=1-A", 200, "1-A")
}

// Every list offers its rows.
func TestListsOfferSideBySide(t *testing.T) {
	s := sidesSite(t)
	s.shows("/candles", 200, `value="c1" form="sides-chosen"`, `id="sides-chosen"`)
	s.shows("/pours/1", 200, `value="c2" form="sides-chosen"`, `id="sides-chosen"`)
	s.shows("/standings", 200, `form="sides-chosen"`, `id="sides-chosen"`)
	s.shows("/candles/1", 200, "/side-by-side?kin=1", "Compare with others of pour 1")
	s.shows(s.pairingLink(), 200, "/side-by-side?of=p1.1.")
	if body := s.ask("/candles/3", nil).Body.String(); strings.Contains(body, "kin=3") {
		t.Error("a candle that was never lit leads side by side")
	}
}

// Photos of checks stand at their pools, and those of candles in a row of
// their own.
func TestPhotosSideBySide(t *testing.T) {
	s := sidesSite(t)
	for _, c := range []struct {
		of string
		id int
	}{{"check", 1}, {"burn", 3}, {"candle", 2}} {
		if w := s.upload(c.of, c.id, sentFile{"a.jpg", grey(uint8(40 * c.id))}); w.Code != http.StatusSeeOther {
			t.Fatalf("%s: %d", c.of, w.Code)
		}
	}
	s.shows("/side-by-side?of=c1&of=c2", 200, `class="sides-photo" href="/photos/1"`, `alt="Candle 1-A, burn 1, at 1 h 00"`, `href="/photos/2"`, "whole burn", "The candle itself", `href="/photos/3"`)
	if body := s.ask("/side-by-side?of=c1&of=c3", nil).Body.String(); strings.Contains(body, "The candle itself") || strings.Contains(body, `href="/photos/3"`) {
		t.Error("a photo of another candle is shown")
	}
}

// Charts can be taken away as a drawing and as numbers.
func TestChartsSideBySideAreFiles(t *testing.T) {
	s := sidesSite(t)
	s.shows("/side-by-side?of=c2&of=c1", 200, `href="/side-by-side/charts/curves.svg?of=c2&amp;of=c1"`, `href="/side-by-side/charts/hours.csv?of=c2&amp;of=c1"`)
	for path, says := range map[string]string{"curves.svg": "<svg", "curves.csv": "Hour,\"1-B, mm\",\"1-A, mm\"\r\n", "hours.svg": "<svg", "hours.csv": "Candle,Lit for,Mass"} {
		w := s.ask("/side-by-side/charts/"+path+"?of=c2&of=c1", nil)
		if w.Code != 200 || !strings.Contains(w.Body.String(), says) || !strings.Contains(w.Header().Get("Content-Disposition"), "side-by-side-"+path) {
			t.Errorf("%s answers %d: %.200s", path, w.Code, w.Body)
		}
	}
	for _, path := range []string{"curves.png?of=c1&of=c2", "other.svg?of=c1&of=c2", "curves.svg", "curves.svg?of=c99"} {
		s.shows("/side-by-side/charts/"+path, 404)
	}
}
