package server

import (
	"context"
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
	r.Get("/standings/pairing", s.visited(s.showPairing))
	r.Get("/standings/charts/{file}", s.visited(s.standingsChart))
	r.Get("/standings/method", s.visited(s.showMethod))
	r.Get("/side-by-side", s.visited(s.showSides))
	r.Get("/side-by-side/charts/{file}", s.visited(s.sidesChart))
	r.Get("/settings", s.visited(s.showSettings))
	r.Post("/settings", s.visited(s.saveSettings))
	r.Get("/settings/limits", s.visited(s.showLimits))
	r.Post("/settings/limits", s.visited(s.saveLimits))
	r.Get("/settings/beliefs", s.visited(s.showBeliefs))
	r.Post("/settings/beliefs", s.visited(s.saveBeliefs))
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
	choice := page.ReadStandingsChoice(r.URL.Query(), tried, v.set.Apart)
	table, note, err := s.judge(r.Context(), v, choice.Picks)
	if err != nil {
		return err
	}
	p := page.NewStandingsPage(table, choice, tried, sh, note, v.view)
	if err := s.markVerdicts(r.Context(), &p); err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Standings", "standings"), page.Standings(p))
}

// judge works out some series, weighed with the whole journal, and says what
// is to be said of when that was.
func (s *Server) judge(ctx context.Context, v visit, picks func(*standings.Stack) bool) (standings.Table, string, error) {
	table, note, _, err := s.judgeAt(ctx, v, picks)
	return table, note, err
}

// judgeAt is judge with the revision that the answer rests on.
func (s *Server) judgeAt(ctx context.Context, v visit, picks func(*standings.Stack) bool) (standings.Table, string, int64, error) {
	weighed, fresh, err := s.scales.weigh(ctx)
	if err != nil {
		return standings.Table{}, "", 0, err
	}
	var picked []*standings.Stack
	for _, st := range weighed.stacks {
		if picks(st) {
			picked = append(picked, st)
		}
	}
	table, err := weighed.Judge(ctx, picked)
	return table, page.WeighedNote(weighed.at, fresh, weighed.err != nil, v.view), weighed.revision, err
}

// showMethod says how the standings are worked out.
func (s *Server) showMethod(w http.ResponseWriter, r *http.Request, v visit) error {
	weighed, _, err := s.scales.weigh(r.Context())
	if err != nil {
		return err
	}
	p := page.NewMethodPage(v.set, weighed.Shapes(), len(weighed.stacks) > 0)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "How this is worked out", "standings"), page.Method(p))
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
