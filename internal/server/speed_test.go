package server_test

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rimward/internal/demo"
	"rimward/internal/server"
	"rimward/internal/sqlite"
)

// season writes a season into a new journal and returns a server before it.
func season(b *testing.B, make func(uint64, time.Time, *time.Location) demo.Season) http.Handler {
	b.Helper()
	clock := candleNoon
	path := filepath.Join(b.TempDir(), "journal.db")
	store, err := sqlite.Open(context.Background(), path, func() time.Time { return clock })
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { store.Close() })
	in := func(do func(demo.Writer) error) error {
		return store.Write(context.Background(), func(tx *sqlite.Tx) error { return do(tx) })
	}
	if err := make(1, candleNoon, time.UTC).Fill(in, func(t time.Time) { clock = t }); err != nil {
		b.Fatal(err)
	}
	clock = candleNoon
	h, err := server.New(server.Options{Store: store, Now: func() time.Time { return clock }, Draw: rand.IntN, Log: slog.New(slog.NewTextHandler(io.Discard, nil)), Version: "bench"})
	if err != nil {
		b.Fatal(err)
	}
	return h
}

// speedPages are the pages a maker opens in an evening.
var speedPages = []string{"/", "/walk", "/light", "/weigh", "/candles", "/candles/1", "/standings", "/standings/pairing?series=1.1.1-8000&vessel=1&wax=1&wick=5", "/side-by-side", "/side-by-side?of=c1&of=c2&of=c3&of=c4&of=c5&of=c6", "/side-by-side?of=p1.1.3.1.1.1-8000&of=p1.1.5.1.1.1-8000", "/pours", "/pours/1", "/shelf", "/settings", "/standings/moved", "/candles/1/findings", "/curing", "/settled", "/casts", "/rounds", "/rounds/new", "/rounds/1", "/rounds/2", "/rounds/2/calendar.ics", "/rounds/2/labels", "/pours/1/tops", "/pours/sheets", "/pours/sheets/new", "/pours/sheets/left"}

func benchPages(b *testing.B, h http.Handler) {
	for _, path := range speedPages {
		b.Run(path, func(b *testing.B) {
			size := 0
			for b.Loop() {
				w := httptest.NewRecorder()
				h.ServeHTTP(w, httptest.NewRequest("GET", "http://127.0.0.1:7373"+path, nil))
				if w.Code != 200 {
					b.Fatalf("%s answers %d", path, w.Code)
				}
				size = w.Body.Len()
			}
			b.ReportMetric(float64(size)/1024, "KiB/page")
		})
	}
}

// BenchmarkDemoPages is the server's time for each page of the demo season.
func BenchmarkDemoPages(b *testing.B) { benchPages(b, season(b, demo.NewSeason)) }

// BenchmarkTenYearPages is the same on ten years of records: 3,000 candles,
// 20,000 burns, 80,000 checks. Filling it takes the better part of a minute;
// RIMWARD_TEN_YEARS=1 asks for it.
func BenchmarkTenYearPages(b *testing.B) {
	if os.Getenv("RIMWARD_TEN_YEARS") == "" {
		b.Skip("set RIMWARD_TEN_YEARS=1 to fill a journal of ten years")
	}
	benchPages(b, season(b, demo.TenYears))
}

// BenchmarkSave is one form posted and on the disk.
func BenchmarkSave(b *testing.B) { benchSaves(b, season(b, demo.NewSeason)) }

// BenchmarkSaveWhileWeighing is the same while the standings are asked for
// again and again, so that the whole journal is weighed after every save.
func BenchmarkSaveWhileWeighing(b *testing.B) {
	h := season(b, demo.NewSeason)
	ctx, stop := context.WithCancel(b.Context())
	defer stop()
	go func() {
		for ctx.Err() == nil {
			h.ServeHTTP(httptest.NewRecorder(), httptest.NewRequest("GET", "http://127.0.0.1:7373/standings", nil))
		}
	}()
	benchSaves(b, h)
}

func benchSaves(b *testing.B, h http.Handler) {
	for n := 0; b.Loop(); n++ {
		form := fmt.Sprintf("name=Fig+%d&token=t%d", n, n)
		r := httptest.NewRequest("POST", "http://127.0.0.1:7373/shelf/fragrances/new", strings.NewReader(form))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusSeeOther {
			b.Fatalf("answers %d", w.Code)
		}
	}
}
