package server

import (
	"net/http"

	"github.com/go-chi/chi/v5"

	"rimward/web/page"
)

// guideRoutes are the addresses of guidance and cure.
func (s *Server) guideRoutes(r chi.Router) {
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
