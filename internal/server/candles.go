package server

import (
	"context"
	"net/http"

	"github.com/go-chi/chi/v5"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/page"
)

// candleRoutes are the addresses of pours and candles.
func (s *Server) candleRoutes(r chi.Router) {
	r.Get("/pours", s.visited(s.showPours))
	r.Get("/pours/new", s.visited(s.newPour))
	r.Post("/pours/new", s.handle(s.saveNewPour))
	r.Get("/pours/{id}", s.visited(s.showPour))
	r.Get("/pours/{id}/edit", s.visited(s.editPour))
	r.Post("/pours/{id}/edit", s.handle(s.savePour))
	r.Get("/pours/{id}/candles/new", s.handle(s.newCandles))
	r.Post("/pours/{id}/candles/new", s.handle(s.saveNewCandles))
	r.Get("/candles", s.visited(s.showCandles))
	r.Get("/candles/{id}", s.visited(s.showCandle))
	r.Get("/candles/{id}/charts/{file}", s.visited(s.candleChart))
	r.Get("/candles/{id}/edit", s.visited(s.editCandle))
	r.Post("/candles/{id}/edit", s.visited(s.saveCandle))
	r.Post("/candles/{id}/again", s.visited(s.pourAgain))
}

// How long the lists are before they lead on.
const (
	candlesShown = 50
	poursShown   = 40
)

// known loads everything on the shelf, to be found by ID.
func (s *Server) known(ctx context.Context) (page.Known, error) {
	sh, err := s.shelf(ctx)
	return page.NewKnown(sh), err
}

// showCandles lists the candles, newest first.
func (s *Server) showCandles(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	q := page.ReadCandlesQuery(r.URL.Query())
	lines, more, err := s.store.Candles(r.Context(), q.Filter(candlesShown))
	if err != nil {
		return err
	}
	p := page.NewCandlesPage(lines, more, q, k, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Candles", "candles"), page.Candles(p))
}

// showCandle shows one candle with its burns, readings and charts.
func (s *Server) showCandle(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.candleLog(r)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	h, err := s.store.CandleHistory(r.Context(), l.Candle.ID)
	if err != nil {
		return err
	}
	p := page.NewCandlePage(l, safety.NewLimits(v.set.Limits), k, h, s.token(), v.view)
	photos, err := s.store.CandlePhotos(r.Context(), l.Candle.ID)
	if err != nil {
		return err
	}
	p.ShowPhotos(photos, l)
	if err := s.showCandleRound(r.Context(), &p, l.Candle); err != nil {
		return err
	}
	if p.Throw, err = s.throwPart(r.Context(), []journal.CandleLog{l}, l.Candle.ID, v); err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Candle "+p.Code, "candles"), page.Candle(p))
}

// candle finds the candle that the address names.
func (s *Server) candle(r *http.Request) (journal.Candle, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.Candle{}, err
	}
	return s.store.Candle(r.Context(), id)
}
