package server

import (
	"net/http"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// editRoundDays shows the days of a round to plan them anew.
func (s *Server) editRoundDays(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	p := page.NewRoundDaysPage(s.editing(v, page.RoundDaysValues(x.Days), x.Version), x)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "rounds"), page.RoundDays(p))
}

// saveRoundDays shows what other days would move or, when asked to, keeps
// them.
func (s *Server) saveRoundDays(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	next := x
	next.Days, next.Version = form.ReadRoundDays(p), postedVersion(values)
	if values.Get("act") != "keep" {
		return s.previewRoundDays(w, r, v, p, x, next)
	}
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The days are planned anew.",
		save:    func(tx *sqlite.Tx) (string, error) { y := next; return "/rounds/" + idText(x.ID), tx.SaveRound(&y) },
		version: func() (int, error) { y, err := s.store.Round(r.Context(), x.ID); return y.Version, err },
		back: func(in page.Input) (string, string, templ.Component, error) {
			d := page.NewRoundDaysPage(in, x)
			return d.Title, "rounds", page.RoundDays(d), nil
		},
	})
}

// previewRoundDays shows what other days would move, and saves nothing.
func (s *Server) previewRoundDays(w http.ResponseWriter, r *http.Request, v visit, p *form.Parser, was, next journal.TestRound) error {
	progress, _, err := s.roundProgress(r.Context(), was, v)
	if err != nil {
		return err
	}
	before, err := s.roundInput(r.Context(), was, &progress, v)
	if err != nil {
		return err
	}
	after, err := s.roundInput(r.Context(), next, &progress, v)
	if err != nil {
		return err
	}
	for _, y := range after.Calendar.Problems {
		p.Problem(y.Field, y.Says)
	}
	status := http.StatusOK
	d := page.NewRoundDaysPage(s.returned(v, r.PostForm, p.Problems(), nil), was)
	if p.Problems().Any() {
		status = http.StatusUnprocessableEntity
	} else {
		d.ShowDays(before.Calendar, after.Calendar, &progress, v.view)
	}
	return s.render(w, r, status, s.frame(r, v.set, d.Title, "rounds"), page.RoundDays(d))
}
