package server

import (
	"context"
	"net/http"

	"github.com/go-chi/chi/v5"

	"rimward/internal/influence"
	"rimward/internal/journal"
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

// showMoved asks what went with wider and narrower pools across the candles of
// one wax.
func (s *Server) showMoved(w http.ResponseWriter, r *http.Request, v visit) error {
	tried, err := s.store.Tried(r.Context())
	if err != nil {
		return err
	}
	sh, err := s.shelf(r.Context())
	if err != nil {
		return err
	}
	choice := page.ReadMovedChoice(r.URL.Query(), tried)
	answer, note, err := s.whatMoved(r.Context(), v, choice)
	if err != nil {
		return err
	}
	p := page.NewMovedPage(answer, choice, tried, sh, note, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "What moved the pool", "standings"), page.Moved(p))
}

// movedChart sends the chart of what moved the pool as a file.
func (s *Server) movedChart(w http.ResponseWriter, r *http.Request, v visit) error {
	tried, err := s.store.Tried(r.Context())
	if err != nil {
		return err
	}
	answer, _, err := s.whatMoved(r.Context(), v, page.ReadMovedChoice(r.URL.Query(), tried))
	if err != nil {
		return err
	}
	name, kind := chartFile(r)
	if name != "moved" || len(answer.Effects) == 0 {
		return journal.ErrNotFound
	}
	return s.sendChart(w, r, page.MovedChart(answer, v.view), name, kind)
}

// whatMoved weighs the wax's candles with the whole journal and explains them.
func (s *Server) whatMoved(ctx context.Context, v visit, choice page.MovedChoice) (influence.Answer, string, error) {
	if choice.Wax == 0 {
		return influence.Explain(nil), "", nil
	}
	table, note, err := s.judge(ctx, v, choice.Picks)
	if err != nil {
		return influence.Answer{}, "", err
	}
	pours, err := s.pours(ctx)
	return influence.Explain(influence.CandlesOf(table, pours)), note, err
}

// pours loads every pour, by ID.
func (s *Server) pours(ctx context.Context) (map[journal.ID]journal.Pour, error) {
	out := map[journal.ID]journal.Pour{}
	for below, more := 0, true; more; {
		lines, rest, err := s.store.Pours(ctx, below, poursAtOnce)
		if err != nil {
			return nil, err
		}
		for _, l := range lines {
			out[l.Pour.ID], below = l.Pour, l.Pour.Number
		}
		more = rest
	}
	return out, nil
}

// poursAtOnce is how many pours are read at a time.
const poursAtOnce = 500
