package server

import (
	"net/http"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// countRoutes are the addresses of counting a whole ladder at once.
func (s *Server) countRoutes(r chi.Router) {
	r.Get("/shelf/ladders/{id}/counts", s.handle(s.showCounts))
	r.Post("/shelf/ladders/{id}/counts", s.handle(s.saveCounts))
}

// kept are the rungs that were not retired.
func (g rungs) kept() (out []journal.Wick) {
	for _, w := range g.wicks {
		if !w.IsGone() {
			out = append(out, w)
		}
	}
	return out
}

// version changes with every change of a rung that is kept.
func (g rungs) version() int {
	sum := 0
	for _, w := range g.kept() {
		sum += w.Version
	}
	return sum
}

// showCounts shows what is recorded of all rungs.
func (s *Server) showCounts(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	p := page.NewCountsPage(s.editing(g.visit, page.CountsValues(g.kept()), g.version()), g.ladder, g.kept(), g.view)
	return s.render(w, r, http.StatusOK, s.frame(r, g.set, p.Title, "shelf"), page.Counts(p))
}

// countedRung is one rung as its row says.
type countedRung struct {
	parser *form.Parser
	wick   journal.Wick
}

// saveCounts saves every rung whose row says something else, or none of them.
func (s *Server) saveCounts(w http.ResponseWriter, r *http.Request) error {
	g, err := s.rungsOf(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, g.visit)
	if err != nil {
		return err
	}
	rows := changedRungs(p, g.kept(), values.Get("recounted") != "")
	return s.submit(w, r, submission{
		visit: g.visit, parser: p, values: values, said: "The counts are saved.",
		version: func() (int, error) { now, err := s.rungsOf(r); return now.version(), err },
		save: func(tx *sqlite.Tx) (string, error) {
			if postedVersion(values) != g.version() {
				return "", journal.ErrConflict
			}
			for _, row := range rows {
				x := row.wick
				recounted(&x.Stock, values, tx)
				if err := tx.SaveWick(&x); err != nil {
					return "", rowError{row.parser, err}
				}
			}
			return g.base, nil
		},
		back: func(in page.Input) (string, string, templ.Component, error) {
			f := page.NewCountsPage(in, g.ladder, g.kept(), g.view)
			return f.Title, "shelf", page.Counts(f), nil
		},
	})
}

// changedRungs reads the rows; those that say what is recorded are left alone,
// unless everything was counted again.
func changedRungs(p *form.Parser, wicks []journal.Wick, again bool) (out []countedRung) {
	for _, w := range wicks {
		row := p.With(page.CountsPrefix(w.ID))
		onHand, price := row.Count("on_hand"), row.Price("price")
		if !again && same(onHand, w.OnHand) && same(price, w.Price) {
			continue
		}
		w.OnHand, w.Price = onHand, price
		out = append(out, countedRung{row, w})
	}
	return out
}

// same reports whether two values that may not be there are the same.
func same[T comparable](a, b *T) bool {
	return a == b || (a != nil && b != nil && *a == *b)
}
