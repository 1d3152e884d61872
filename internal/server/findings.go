package server

import (
	"net/http"

	"github.com/go-chi/chi/v5"

	"rimward/internal/safety"
	"rimward/web/chart"
	"rimward/web/page"
)

// findingRoutes are the addresses of what was found in the record.
func (s *Server) findingRoutes(r chi.Router) {
	r.Get("/candles/{id}/findings", s.visited(s.showFindings))
	r.Get("/candles/{id}/findings.csv", s.visited(s.sendFindings))
	r.Get("/standings/pairing/findings.csv", s.visited(s.sendPairingFindings))
	r.Get("/standings/moved", s.visited(s.showMoved))
	r.Get("/standings/moved/charts/{file}", s.visited(s.movedChart))
}

// showFindings lists everything outside the limits in one candle's record.
func (s *Server) showFindings(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.candleLog(r)
	if err != nil {
		return err
	}
	p := page.NewFindingsPage(l, safety.NewLimits(v.set.Limits), page.FindingsLevel(r.URL.Query()), v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Findings, candle "+p.Code, "candles"), page.Findings(p))
}

// sendFindings sends the same list as a table for spreadsheets.
func (s *Server) sendFindings(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.candleLog(r)
	if err != nil {
		return err
	}
	fs := safety.Everything(l, safety.NewLimits(v.set.Limits), v.view.Units)
	return s.sendTable(w, r, "findings-"+l.Candle.Code(), page.FindingsTable(fs, v.view))
}

// sendPairingFindings sends the list of a pairing.
func (s *Server) sendPairingFindings(w http.ResponseWriter, r *http.Request, v visit) error {
	e, err := s.pairingEvidence(r.Context(), page.ReadPairingChoice(r.URL.Query()), v)
	if err != nil {
		return err
	}
	fs := safety.EverythingOf(e.logs, safety.NewLimits(v.set.Limits), v.view.Units)
	return s.sendTable(w, r, "findings-pairing", page.FindingsTable(fs, v.view))
}

// sendTable sends rows under their head as comma-separated values, as charts
// send theirs.
func (s *Server) sendTable(w http.ResponseWriter, r *http.Request, name string, rows [][]string) error {
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="`+name+`.csv"`)
	if err := chart.CSV(w, chart.Table{Head: rows[0], Rows: rows[1:]}); err != nil {
		s.log.Info("table not delivered", "path", r.URL.Path, "err", err)
	}
	return nil
}
