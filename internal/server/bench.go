package server

import (
	"context"
	"net/http"
	"strconv"

	"github.com/go-chi/chi/v5"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/safety"
	"rimward/web/page"
)

// benchRoutes are the addresses of the evening: what is lit and what is due.
func (s *Server) benchRoutes(r chi.Router) {
	r.Get("/", s.visited(s.showBench))
	r.Get("/walk", s.visited(s.showWalk))
	r.Post("/walk", s.visited(s.saveWalk))
	r.Get("/candles/{id}/check", s.visited(s.newCheck))
	r.Post("/candles/{id}/check", s.visited(s.saveNewCheck))
	r.Get("/checks/{id}/danger", s.visited(s.showDanger))
}

// How much the bench shows of what waits; a studio's bench is never longer.
const (
	waitingShown = 60
	coldShown    = 40
)

// showBench shows what is lit, what is due and what is coming.
func (s *Server) showBench(w http.ResponseWriter, r *http.Request, v visit) error {
	ctx := r.Context()
	lit, err := s.store.LitLogs(ctx)
	if err != nil {
		return err
	}
	waiting, err := s.store.Waiting(ctx, waitingShown)
	if err != nil {
		return err
	}
	cold, err := s.store.Cold(ctx, coldShown)
	if err != nil {
		return err
	}
	first, err := s.firstSteps(ctx, len(lit)+len(waiting) > 0)
	if err != nil {
		return err
	}
	lim := safety.NewLimits(v.set.Limits)
	board := plan.PaceOf(lim).Bench(v.view.Now, lit, waiting, cold)
	inside, err := s.store.Casts(ctx, journal.CastFilter{Inside: true})
	if err != nil {
		return err
	}
	board.AddCasts(v.view.Now, inside)
	ahead, err := s.roundsAhead(ctx, v)
	if err != nil {
		return err
	}
	board.Leave(page.TonightCandles(ahead, v.view))
	p := page.NewBenchPage(board, first, lim, v.view)
	p.ShowRounds(ahead, v.view)
	frame := s.frame(r, v.set, "Bench", "bench")
	rev, err := s.store.Revision(ctx)
	frame.Refresh, frame.Revision = true, strconv.FormatInt(rev, 10)
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, frame, page.Bench(p))
}

// firstSteps looks at how far an empty journal has come; one with candles on
// the bench needs no looking at.
func (s *Server) firstSteps(ctx context.Context, busy bool) (page.FirstSteps, error) {
	if busy {
		return page.FirstSteps{Burn: true}, nil
	}
	sh, err := s.shelf(ctx)
	if err != nil {
		return page.FirstSteps{}, err
	}
	pours, _, err := s.store.Pours(ctx, 0, 1)
	if err != nil {
		return page.FirstSteps{}, err
	}
	candles, _, err := s.store.Candles(ctx, journal.CandleFilter{Limit: 1})
	if err != nil {
		return page.FirstSteps{}, err
	}
	planned, err := s.planned(ctx)
	if err != nil {
		return page.FirstSteps{}, err
	}
	return page.FirstSteps{Plan: planned,
		Wax: len(sh.Waxes) > 0, Ladder: len(sh.Wicks) > 0, Vessel: len(sh.Vessels) > 0,
		Pour: len(pours) > 0, Candle: len(candles) > 0,
		Burn: len(candles) > 0 && candles[0].Life.Burns > 0,
	}, nil
}

// planned reports whether a round or a pour sheet was ever made.
func (s *Server) planned(ctx context.Context) (bool, error) {
	rounds, err := s.store.Rounds(ctx)
	if err != nil || len(rounds) > 0 {
		return len(rounds) > 0, err
	}
	sheets, err := s.store.PourSheets(ctx)
	return len(sheets) > 0, err
}
