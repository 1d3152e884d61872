package server_test

import (
	"context"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/server"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

// candleSite is a studio with a server in front of its journal.
type candleSite struct {
	testkit.Studio
	t     *testing.T
	store *sqlite.Store
	files string // the folder of photos
	web   http.Handler
}

var candleNoon = time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)

// emptySite is a server before an empty journal.
func emptySite(t *testing.T) candleSite {
	t.Helper()
	now := func() time.Time { return candleNoon }
	s := testkit.Store(t, now)
	files := filepath.Join(t.TempDir(), "journal.db.photos")
	h, err := server.New(server.Options{Store: s, Photos: photo.At(files), Now: now, Draw: rand.IntN, Log: slog.New(slog.NewTextHandler(io.Discard, nil)), Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	return candleSite{t: t, store: s, files: files, web: h}
}

func newCandleSite(t *testing.T) candleSite {
	t.Helper()
	s := emptySite(t)
	s.Studio = testkit.NewStudio(t, s.store)
	return s
}

// ask sends one request; a form makes it a post.
func (s candleSite) ask(path string, form url.Values) *httptest.ResponseRecorder {
	s.t.Helper()
	r := httptest.NewRequest(http.MethodGet, "http://127.0.0.1:7373"+path, nil)
	if form != nil {
		r = httptest.NewRequest(http.MethodPost, "http://127.0.0.1:7373"+path, strings.NewReader(form.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	w := httptest.NewRecorder()
	s.web.ServeHTTP(w, r)
	return w
}

// shows asks for a page and looks for texts on it.
func (s candleSite) shows(path string, status int, texts ...string) {
	s.t.Helper()
	w := s.ask(path, nil)
	s.hold(path, w, status, texts)
}

func (s candleSite) hold(path string, w *httptest.ResponseRecorder, status int, texts []string) {
	s.t.Helper()
	if w.Code != status {
		s.t.Errorf("%s answers %d, want %d", path, w.Code, status)
	}
	for _, text := range texts {
		if !strings.Contains(w.Body.String(), text) {
			s.t.Errorf("%s does not say %q:\n%s", path, text, w.Body)
		}
	}
}

// sendsOn posts a form and holds where it leads.
func (s candleSite) sendsOn(path string, form url.Values, to string) {
	s.t.Helper()
	w := s.ask(path, form)
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != to {
		s.t.Errorf("%s answers %d to %q, want 303 to %q:\n%s", path, w.Code, w.Header().Get("Location"), to, w.Body)
	}
}

// sendsBack posts a form and looks for texts on the page that comes back.
func (s candleSite) sendsBack(path string, form url.Values, status int, texts ...string) {
	s.t.Helper()
	s.hold(path, s.ask(path, form), status, texts)
}

func (s candleSite) candle(id journal.ID) journal.Candle {
	s.t.Helper()
	c, err := s.store.Candle(context.Background(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	return c
}

// pourForm is a pour as it is typed; the wax and the wicks of testkit have the
// IDs 1 and 1 to 3.
func pourForm(change ...string) url.Values {
	return formOf(change, "token", "p", "at_date", "2026-05-13", "at_time", "18:20", "wax", "1", "heated_to", "150F", "poured_at", "63.5")
}

func candleForm(change ...string) url.Values {
	return formOf(change, "token", "c", "vessel", "1", "wick", "2", "wicks", "2")
}

func formOf(change []string, pairs ...string) url.Values {
	v := url.Values{}
	for i := 0; i+1 < len(pairs); i += 2 {
		v.Set(pairs[i], pairs[i+1])
	}
	for i := 0; i+1 < len(change); i += 2 {
		v.Set(change[i], change[i+1])
	}
	return v
}
