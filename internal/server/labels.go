package server

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/go-chi/chi/v5"

	"rimward/internal/journal"
	"rimward/web/page"
)

// labelRoutes are the addresses of sheets of labels.
func (s *Server) labelRoutes(r chi.Router) {
	r.Get("/labels", s.visited(s.showAnyLabels))
	r.Get("/pours/{id}/labels", s.visited(s.showPourLabels))
	r.Get("/rounds/{id}/labels", s.visited(s.showRoundLabels))
	r.Get("/throw/{id}/codes", s.visited(s.showCodes))
}

const (
	// labelsOffered is how many candles can be ticked for a sheet of any candles.
	labelsOffered = 60
	// mostLabels is how many there can be with those that the address names.
	mostLabels = 400
)

// showAnyLabels prints labels of any candles: the newest, and those that the
// address names.
func (s *Server) showAnyLabels(w http.ResponseWriter, r *http.Request, v visit) error {
	lines, _, err := s.store.Candles(r.Context(), journal.CandleFilter{Limit: labelsOffered})
	if err != nil {
		return err
	}
	for _, id := range page.ReadLabelChoice(r.URL.Query()).Candles() {
		if len(lines) == mostLabels || slices.ContainsFunc(lines, func(l journal.CandleLine) bool { return l.Candle.ID == id }) {
			continue
		}
		l, err := s.store.CandleLog(r.Context(), id)
		if err != nil {
			return err
		}
		lines = append(lines, lineOf(l))
	}
	return s.sendLabels(w, r, v, page.AnyLabels(lines, v.view), "candles")
}

// showPourLabels prints the labels of a pour's candles.
func (s *Server) showPourLabels(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pour(r)
	if err != nil {
		return err
	}
	lines, err := s.store.PourCandles(r.Context(), x.ID)
	if err != nil {
		return err
	}
	return s.sendLabels(w, r, v, page.PourLabels(x, lines, v.view), "pours")
}

// showRoundLabels prints the labels of a round's places.
func (s *Server) showRoundLabels(w http.ResponseWriter, r *http.Request, v visit) error {
	id, err := pathID(r, "id")
	if err != nil {
		return err
	}
	x, err := s.store.Round(r.Context(), id)
	if err != nil {
		return err
	}
	p, _, err := s.roundProgress(r.Context(), x, v)
	if err != nil {
		return err
	}
	sh, err := s.shelf(r.Context())
	if err != nil {
		return err
	}
	return s.sendLabels(w, r, v, page.RoundLabels(x, p, sh, v.view), "rounds")
}

// showCodes prints the codes of a covered smelling, and nothing that tells
// which candles they stand for.
func (s *Server) showCodes(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.coveredLog(r)
	if err != nil {
		return err
	}
	return s.sendLabels(w, r, v, page.CoveredLabels(l), "candles")
}

// sendLabels lays out what was chosen; what cannot be used comes back whole.
func (s *Server) sendLabels(w http.ResponseWriter, r *http.Request, v visit, o page.LabelOffer, section string) error {
	o.Address, o.Demo = addressOf(r), s.demo
	p, ok := page.NewLabelSheet(o, page.ReadLabelChoice(r.URL.Query()))
	status := http.StatusOK
	if !ok {
		status = http.StatusUnprocessableEntity
	}
	return s.render(w, r, status, s.frame(r, v.set, p.Title, section), page.LabelSheet(p))
}

// addressOf is where the browser asked for the page. A browser that came by
// TLS through another server says so in its origin of the page before.
func addressOf(r *http.Request) string {
	scheme := "http"
	if u, err := url.Parse(r.Referer()); r.TLS != nil || err == nil && u.Scheme == "https" && strings.EqualFold(u.Host, r.Host) {
		scheme = "https"
	}
	return scheme + "://" + r.Host
}
