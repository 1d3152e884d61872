package main

import (
	"context"
	"io"
	"log/slog"
	"math/rand/v2"
	"net"
	"net/http"
	"path/filepath"
	"sync/atomic"
	"testing"
	"time"

	"rimward/internal/demo"
	"rimward/internal/journal"
	"rimward/internal/photo"
	"rimward/internal/server"
	"rimward/internal/sqlite"
)

// studio is a real server over a real journal, whose clock a test can move.
type studio struct {
	tb    testing.TB
	path  string
	addr  string
	store *sqlite.Store
	http  *http.Server
	ahead atomic.Int64 // nanoseconds that the studio's clock is ahead
	demo  bool
}

func (s *studio) now() time.Time { return time.Now().Add(time.Duration(s.ahead.Load())) }

// later moves the studio's clock on.
func (s *studio) later(d time.Duration) { s.ahead.Add(int64(d)) }

func (s *studio) base() string { return "http://" + s.addr }

// emptyStudio starts a server over a new journal.
func emptyStudio(tb testing.TB) *studio {
	tb.Helper()
	s := &studio{tb: tb, path: filepath.Join(tb.TempDir(), "journal.db"), addr: "127.0.0.1:0"}
	s.start()
	tb.Cleanup(s.stop)
	return s
}

// demoStudio starts a server over the demo season, on one evening for ever: which
// candles are lit and what a label may say hang on the day of the week.
func demoStudio(tb testing.TB) *studio {
	tb.Helper()
	s := &studio{tb: tb, path: filepath.Join(tb.TempDir(), "journal.db"), addr: "127.0.0.1:0", demo: true}
	evening := time.Date(2026, 11, 26, 19, 42, 0, 0, time.UTC)
	s.later(time.Until(evening))
	s.fill(demo.NewSeason(1, evening, time.UTC))
	s.start()
	tb.Cleanup(s.stop)
	return s
}

// fill writes a season into the journal with the clock of each event.
func (s *studio) fill(season demo.Season) {
	s.tb.Helper()
	clock := time.Now()
	store, err := sqlite.Open(context.Background(), s.path, func() time.Time { return clock })
	if err != nil {
		s.tb.Fatal(err)
	}
	defer store.Close()
	in := func(do func(demo.Writer) error) error {
		return store.Write(context.Background(), func(tx *sqlite.Tx) error { return do(tx) })
	}
	decide := func(v journal.Verdict) error { return judge(context.Background(), store, v, clock) }
	if err := season.FillWith(in, func(t time.Time) { clock = t }, nil, decide); err != nil {
		s.tb.Fatal(err)
	}
	if err := weighSheets(context.Background(), store, func(t time.Time) { clock = t }, season.Events[len(season.Events)-1].At); err != nil {
		s.tb.Fatal(err)
	}
}

// start opens the journal and listens; again on the same port after a stop.
func (s *studio) start() {
	s.tb.Helper()
	var err error
	if s.store, err = sqlite.Open(context.Background(), s.path, s.now); err != nil {
		s.tb.Fatal(err)
	}
	h, err := server.New(server.Options{Store: s.store, Now: s.now, Draw: rand.IntN, Log: slog.New(slog.NewTextHandler(io.Discard, nil)), Version: "test", Demo: s.demo, Photos: photo.At(photo.Beside(s.path))})
	if err != nil {
		s.tb.Fatal(err)
	}
	l, err := net.Listen("tcp", s.addr)
	if err != nil {
		s.tb.Fatal(err)
	}
	s.addr = l.Addr().String()
	s.http = &http.Server{Handler: h}
	go s.http.Serve(l) //nolint:errcheck // it ends when it is closed
}

// stop closes the server and the journal, as a crash would: nothing is waited
// for.
func (s *studio) stop() {
	if s.http == nil {
		return
	}
	s.http.Close()
	s.store.Close()
	s.http = nil
}

// shelved puts a wax, a vessel of 76 mm and a ladder of three rungs on the
// shelf, with one pour a month old and the given number of candles.
func (s *studio) shelved(candles int) []journal.Candle {
	s.tb.Helper()
	var out []journal.Candle
	err := s.store.Write(context.Background(), func(tx *sqlite.Tx) error {
		wax := journal.Wax{Name: "Meadow blend", Family: "soy", LoadBasis: journal.OfWax}
		vessel := journal.Vessel{Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 76, Material: "glass"}
		ladder := journal.Ladder{Name: "Larkspur", Kind: "flat braid"}
		for _, err := range []error{tx.SaveWax(&wax), tx.SaveVessel(&vessel), tx.SaveLadder(&ladder)} {
			if err != nil {
				return err
			}
		}
		wicks := make([]journal.Wick, 3)
		for i, label := range []string{"6", "7", "8"} {
			wicks[i] = journal.Wick{Ladder: ladder.ID, Label: label}
			if err := tx.SaveWick(&wicks[i]); err != nil {
				return err
			}
		}
		pour := journal.Pour{At: s.now().AddDate(0, 0, -30), Wax: wax.ID, LoadBasis: journal.OfWax}
		if err := tx.SavePour(&pour); err != nil {
			return err
		}
		for i := range candles {
			c := journal.Candle{Pour: pour.ID, Vessel: vessel.ID, Wick: wicks[i%3].ID, Wicks: 1}
			if err := tx.SaveCandle(&c); err != nil {
				return err
			}
			out = append(out, c)
		}
		return nil
	})
	if err != nil {
		s.tb.Fatal(err)
	}
	return out
}

// lit lights candles together, some time ago.
func (s *studio) lit(ago time.Duration, cs ...journal.Candle) []journal.Burn {
	s.tb.Helper()
	var out []journal.Burn
	err := s.store.Write(context.Background(), func(tx *sqlite.Tx) error {
		sitting, err := tx.NewSitting()
		if err != nil {
			return err
		}
		for _, c := range cs {
			b := journal.Burn{Candle: c.ID, Sitting: &sitting, LitAt: s.now().Add(-ago)}
			if err := tx.SaveBurn(&b); err != nil {
				return err
			}
			out = append(out, b)
		}
		return nil
	})
	if err != nil {
		s.tb.Fatal(err)
	}
	return out
}
