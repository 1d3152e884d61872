package server

import (
	"net/http"

	"github.com/go-chi/chi/v5"

	"rimward/internal/guide"
	"rimward/web/page"
)

// guideRoutes are the addresses of guidance and cure.
func (s *Server) guideRoutes(r chi.Router) {
	r.Get("/curing", s.visited(s.showCuring))
	r.Get("/pours/guidance", s.visited(s.showGuidance))
}

// showGuidance holds what stands in the form of a pour against the guidance of
// its wax and its fragrance, as a piece of a page.
func (s *Server) showGuidance(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	return s.renderBare(w, r, page.PreviewPart(page.Preview(s.blank(v, r.URL.Query()), k, v.view)))
}

// curingShown is how many candles that were never lit the page lists.
const curingShown = 400

// showCuring lists what sets, cures and is ready, by wax.
func (s *Server) showCuring(w http.ResponseWriter, r *http.Request, v visit) error {
	unlit, err := s.store.Unlit(r.Context(), curingShown+1)
	if err != nil {
		return err
	}
	more := len(unlit) > curingShown
	if more {
		unlit = unlit[:curingShown]
	}
	p := page.NewCuringPage(guide.Waits(unlit, v.view.Now), more, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Setting, curing, ready", "pours"), page.Curing(p))
}
