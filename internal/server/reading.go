package server

import (
	"net/http"
	"time"

	"github.com/go-chi/chi/v5"

	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/web/page"
)

// readingRoutes are the addresses that read the record: standings, settings
// and what the program says of itself.
func (s *Server) readingRoutes(r chi.Router) {
	r.Get("/standings", s.visited(s.showStandings))
	r.Get("/standings/method", s.visited(s.showMethod))
	r.Get("/settings", s.visited(s.showSettings))
	r.Post("/settings", s.visited(s.saveSettings))
	r.Get("/settings/limits", s.visited(s.showLimits))
	r.Post("/settings/limits", s.visited(s.saveLimits))
	r.Get("/about", s.visited(s.showAbout))
	r.Get("/cautions", s.visited(s.showCautions))
}

// showStandings puts the pairings of one vessel, or of all, in order.
func (s *Server) showStandings(w http.ResponseWriter, r *http.Request, v visit) error {
	tried, err := s.store.Tried(r.Context())
	if err != nil {
		return err
	}
	sh, err := s.shelf(r.Context())
	if err != nil {
		return err
	}
	choice := page.ReadStandingsChoice(r.URL.Query(), tried)
	logs, err := s.store.Logs(r.Context(), choice.Filter())
	if err != nil {
		return err
	}
	table := standings.Work(logs, standings.Options{Ruler: v.set.Ruler, Limits: safety.NewLimits(v.set.Limits), Units: v.set.Units})
	p := page.NewStandingsPage(table, logs, choice, tried, sh, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Standings", "standings"), page.Standings(p))
}

// showMethod says how the standings are worked out.
func (s *Server) showMethod(w http.ResponseWriter, r *http.Request, v visit) error {
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "How this is worked out", "standings"), page.Method(page.NewMethodPage(v.view)))
}

// showAbout says what the program is and is made with.
func (s *Server) showAbout(w http.ResponseWriter, r *http.Request, v visit) error {
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "About", ""), page.About(page.NewAboutPage(s.version)))
}

// showCautions gathers what to mind beside an open flame.
func (s *Server) showCautions(w http.ResponseWriter, r *http.Request, v visit) error {
	p := page.NewCautionsPage(safety.NewLimits(v.set.Limits), v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Cautions", ""), page.Cautions(p))
}

// machineZone is the machine's own time zone, "" when it has no name that can
// be looked up.
func (s *Server) machineZone() string {
	if name := s.now().Location().String(); loadable(name) {
		return name
	}
	return ""
}

// loadable reports whether a time zone can be looked up by its name.
func loadable(zone string) bool {
	if zone == "" || zone == "Local" {
		return false
	}
	_, err := time.LoadLocation(zone)
	return err == nil
}
