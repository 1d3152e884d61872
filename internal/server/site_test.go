package server_test

import (
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"testing"

	"github.com/go-chi/chi/v5"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

func TestRoutesAreThoseListed(t *testing.T) {
	s := emptySite(t)
	var lines []string
	err := chi.Walk(s.web.(chi.Routes), func(method, route string, _ http.Handler, _ ...func(http.Handler) http.Handler) error {
		lines = append(lines, fmt.Sprintf("%-5s %s", method, route))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	sort.Slice(lines, func(i, j int) bool { return lines[i][6:]+lines[i] < lines[j][6:]+lines[j] })
	got := strings.Join(lines, "\n") + "\n"
	golden := filepath.Join("..", "..", "testdata", "golden", "routes.txt")
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("the routes differ from %s (-listed +served):\n%s", golden, diff)
	}
}

// request sends one request with its headers set by the test.
func (s candleSite) request(method, target string, body string, header ...string) *httptest.ResponseRecorder {
	s.t.Helper()
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	if body != "" {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	s.web.ServeHTTP(w, r)
	return w
}

// A page of another name that was pointed at this machine gets nothing.
func TestOtherHostsAreRefused(t *testing.T) {
	s := emptySite(t)
	for host, want := range map[string]int{
		"127.0.0.1:7373": 200, "localhost:7373": 200, "[::1]:7373": 200, "localhost": 200,
		"evil.test": 421, "evil.test:7373": 421, "127.0.0.1.evil.test": 421, "192.0.2.7:7373": 421,
	} {
		for _, path := range []string{"/", "/healthz", "/settings"} {
			if w := s.request("GET", "http://"+host+path, ""); w.Code != want {
				t.Errorf("%s%s answers %d, want %d", host, path, w.Code, want)
			}
		}
	}
}

func TestPostsFromOtherSitesAreRefused(t *testing.T) {
	s := emptySite(t)
	form := "name=Meadow&family=soy&token=x"
	for name, c := range map[string]struct {
		header []string
		want   int
	}{
		"the same page":               {[]string{"Sec-Fetch-Site", "same-origin"}, 303},
		"another site":                {[]string{"Sec-Fetch-Site", "cross-site"}, 403},
		"another port of this host":   {[]string{"Sec-Fetch-Site", "same-site"}, 403},
		"an old browser, other site":  {[]string{"Origin", "http://evil.test"}, 403},
		"an old browser, this origin": {[]string{"Origin", "http://127.0.0.1:7373"}, 303},
	} {
		if w := s.request("POST", "http://127.0.0.1:7373/shelf/waxes/new", form+url.QueryEscape(name), c.header...); w.Code != c.want {
			t.Errorf("%s: %d, want %d", name, w.Code, c.want)
		}
	}
}

var inline = regexp.MustCompile(`(?i)<script(?:\s[^>]*)?>[^<]|\sstyle="|<style|\son[a-z]+="|https?://`)

// Pages carry no inline script or style and ask nothing of other machines; the
// headers forbid both.
func TestPagesAreStrict(t *testing.T) {
	s := newCandleSite(t)
	for _, path := range []string{"/", "/walk", "/light", "/snuff", "/weigh", "/shelf", "/shelf/waxes/new", "/candles", "/candles/1", "/candles/1/paper", "/standings", "/standings/method", "/side-by-side", "/side-by-side?of=c1&of=c2", "/settings", "/settings/limits", "/settings/beliefs", "/about", "/cautions", "/nowhere", "/candles/1/findings", "/standings/moved", "/verdicts", "/pours/1/tops", "/settled"} {
		w := s.ask(path, nil)
		body := strings.ReplaceAll(w.Body.String(), `xmlns="http://www.w3.org/2000/svg"`, "")
		if found := inline.FindString(body); found != "" {
			t.Errorf("%s holds %q", path, found)
		}
		for name, want := range map[string]string{"Content-Security-Policy": "default-src 'self'", "Referrer-Policy": "same-origin", "X-Content-Type-Options": "nosniff", "X-Frame-Options": "DENY"} {
			if !strings.Contains(w.Header().Get(name), want) {
				t.Errorf("%s: %s is %q", path, name, w.Header().Get(name))
			}
		}
		if strings.Contains(w.Header().Get("Content-Security-Policy"), "unsafe") {
			t.Errorf("%s allows what is unsafe", path)
		}
	}
}

// No page claims that a candle meets a standard.
func TestNoPageClaimsCompliance(t *testing.T) {
	s := newCandleSite(t)
	for _, path := range []string{"/", "/candles/1", "/candles/1/findings", "/standings", "/standings/method", "/standings/moved", "/settings/limits", "/settings/beliefs", "/about", "/cautions"} {
		text := strings.ToLower(s.ask(path, nil).Body.String())
		for _, claim := range []string{"complies", "compliant", "passes astm", "passes en ", "certified safe", "is safe to sell"} {
			if strings.Contains(text, claim) {
				t.Errorf("%s says %q", path, claim)
			}
		}
	}
}

// What went wrong inside is never shown, only a sentence and a number to find
// it by.
func TestErrorsDoNotLeak(t *testing.T) {
	s := newCandleSite(t)
	for _, path := range []string{"/candles/999", "/candles/x", "/burns/0/edit", "/checks/-1/edit", "/shelf/waxes/99", "/withdraw/nothing/1", "/shelf/ladders/1/rungs/77", "/static/rimward.css", "/nowhere"} {
		s.shows(path, http.StatusNotFound, "There is nothing here")
	}
	if err := s.store.Close(); err != nil {
		t.Fatal(err)
	}
	w := s.ask("/candles", nil)
	if w.Code != http.StatusInternalServerError || strings.Contains(w.Body.String(), "sql") || strings.Contains(w.Body.String(), "database") {
		t.Errorf("a broken journal answers %d:\n%s", w.Code, w.Body)
	}
}

func TestBodiesAreLimited(t *testing.T) {
	s := newCandleSite(t)
	w := s.request("POST", "http://127.0.0.1:7373/walk", "note="+strings.Repeat("x", 1<<20))
	if w.Code != http.StatusRequestEntityTooLarge {
		t.Errorf("two megabytes answer %d", w.Code)
	}
	if w := s.request("POST", "http://127.0.0.1:7373/walk", "note=%zz"); w.Code != http.StatusBadRequest {
		t.Errorf("a broken form answers %d", w.Code)
	}
}

// What browsers keep for ever carries a fingerprint, and comes compressed.
func TestFilesAreFingerprinted(t *testing.T) {
	s := emptySite(t)
	page := s.ask("/", nil).Body.String()
	for _, ext := range []string{"css", "js", "svg"} {
		path := regexp.MustCompile(`/static/[a-z]+-[0-9a-f]{12}\.` + ext).FindString(page)
		if path == "" {
			t.Fatalf("the page names no %s", ext)
		}
		w := s.request("GET", "http://127.0.0.1:7373"+path, "", "Accept-Encoding", "gzip")
		if w.Code != 200 || !strings.Contains(w.Header().Get("Cache-Control"), "immutable") || w.Header().Get("Content-Encoding") != "gzip" {
			t.Errorf("%s answers %d with %v", path, w.Code, w.Header())
		}
	}
}

func TestHowQuantitiesAreRead(t *testing.T) {
	s := emptySite(t)
	for query, want := range map[string]string{
		"kind=length&text=2+7%2F8+in": "73 mm", "kind=temperature&text=150F": "65.6 °C", "kind=mass&text=1+lb+2+oz": "510 g",
		"kind=volume&text=8+fl+oz": "237 mL", "kind=hours&text=2.5": "2 h 30", "kind=length&text=f": "wall all round",
	} {
		if w := s.ask("/understood?"+query, nil); w.Code != 200 || w.Body.String() != want {
			t.Errorf("%s is read as %q (%d), want %q", query, w.Body, w.Code, want)
		}
	}
	if w := s.ask("/understood?kind=length&text=73+g", nil); w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "length") {
		t.Errorf("a mass for a length answers %d: %s", w.Code, w.Body)
	}
}
