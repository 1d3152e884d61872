package server

import (
	"cmp"
	"math"
	"net/http"
	"slices"
	"strings"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/internal/standings"
	"rimward/web/page"
)

// showSettings shows the studio's choices.
func (s *Server) showSettings(w http.ResponseWriter, r *http.Request, v visit) error {
	h, err := s.store.History(r.Context(), journal.NounSettings, 1)
	if err != nil {
		return err
	}
	values, machine := page.SettingsValues(v.set), ""
	if v.set.Version == 0 {
		machine = s.machineZone()
	}
	if zone := r.URL.Query().Get("zone"); loadable(zone) {
		values.Set("time_zone", zone)
	}
	p := page.NewSettingsPage(s.editing(v, values, v.set.Version), machine, h, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Settings", "settings"), page.Settings(p))
}

// saveSettings saves the studio's choices.
func (s *Server) saveSettings(w http.ResponseWriter, r *http.Request, v visit) error {
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	if other := strings.TrimSpace(values.Get("time_zone_other")); other != "" {
		values.Set("time_zone", other)
	}
	next := v.set
	form.ReadSettings(p).Apply(&next)
	form.ReadMaking(p).Apply(&next)
	next.Version = postedVersion(values)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The settings are saved.",
		save:    func(tx *sqlite.Tx) (string, error) { x := next; return "/settings", tx.SaveSettings(&x) },
		version: func() (int, error) { return v.set.Version, nil },
		back: func(in page.Input) (string, string, templ.Component, error) {
			h, err := s.store.History(r.Context(), journal.NounSettings, 1)
			return "Settings", "settings", page.Settings(page.NewSettingsPage(in, "", h, v.view)), err
		},
	})
}

// showLimits shows the limits that this journal warns at.
func (s *Server) showLimits(w http.ResponseWriter, r *http.Request, v visit) error {
	h, err := s.store.History(r.Context(), journal.NounSettings, 1)
	if err != nil {
		return err
	}
	p := page.NewLimitsPage(s.editing(v, page.LimitsValues(v.set, v.view), v.set.Version), safety.NewLimits(v.set.Limits), h, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Limits", "settings"), page.Limits(p))
}

// saveLimits saves the limits; an empty box goes back to the default.
func (s *Server) saveLimits(w http.ResponseWriter, r *http.Request, v visit) error {
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	next := v.set
	next.Limits, next.Version = readLimits(p), postedVersion(values)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The limits are saved.",
		doubts:  func() ([]journal.Doubt, error) { return page.LimitDoubts(next.Limits, v.view), nil },
		save:    func(tx *sqlite.Tx) (string, error) { x := next; return "/settings/limits", tx.SaveSettings(&x) },
		version: func() (int, error) { return v.set.Version, nil },
		back: func(in page.Input) (string, string, templ.Component, error) {
			h, err := s.store.History(r.Context(), journal.NounSettings, 1)
			return "Limits", "settings", page.Limits(page.NewLimitsPage(in, safety.NewLimits(v.set.Limits), h, v.view)), err
		},
	})
}

// readLimits reads the boxes that were filled in. What equals the default is
// the default, so that the journal follows where that is bettered.
func readLimits(p *form.Parser) map[string]float64 {
	out := map[string]float64{}
	for _, l := range safety.Table() {
		n := p.Number(string(l.Kind), l.Key)
		if n == nil || math.Abs(*n-l.Default) < 1e-9 {
			continue
		}
		if *n <= 0 {
			p.Problem(l.Key, "A limit must be above nothing.")
		}
		out[l.Key] = *n
	}
	return out
}

// showBeliefs shows what is believed before the first burn.
func (s *Server) showBeliefs(w http.ResponseWriter, r *http.Request, v visit) error {
	h, err := s.store.History(r.Context(), journal.NounSettings, 1)
	if err != nil {
		return err
	}
	p := page.NewBeliefsPage(s.editing(v, page.BeliefsValues(v.set), v.set.Version), v.set, h, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Standings", "settings"), page.Beliefs(p))
}

// saveBeliefs saves what is believed before the first burn; an empty box goes
// back to the default, and the button for it empties all.
func (s *Server) saveBeliefs(w http.ResponseWriter, r *http.Request, v visit) error {
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	next := v.set
	next.Beliefs, next.Apart, next.Version = readBeliefs(p), journal.Apart(p.Text("apart")), postedVersion(values)
	if !slices.Contains(journal.Aparts, next.Apart) {
		p.Problem("apart", "Choose one from the list.")
	}
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "What is believed before the first burn is saved. The standings are worked out anew.",
		save:    func(tx *sqlite.Tx) (string, error) { x := next; return "/settings/beliefs", tx.SaveSettings(&x) },
		version: func() (int, error) { return v.set.Version, nil },
		back: func(in page.Input) (string, string, templ.Component, error) {
			h, err := s.store.History(r.Context(), journal.NounSettings, 1)
			return "Standings", "settings", page.Beliefs(page.NewBeliefsPage(in, v.set, h, v.view)), err
		},
	})
}

// readBeliefs reads the boxes that were filled in. What equals the default is
// the default, so that the journal follows where that is bettered.
func readBeliefs(p *form.Parser) map[string][]float64 {
	var out map[string][]float64
	for _, b := range standings.Beliefs() {
		text := strings.TrimSpace(p.Text(b.Key))
		if text == "" || p.Text("reset") != "" {
			continue
		}
		v, ok := form.Weights(text)
		for i := range v {
			if i%2 == 0 {
				v[i] *= b.Scale()
			}
		}
		if problem := b.Problem(v); !ok || problem != "" {
			p.Problem(b.Key, cmp.Or(problem, "This cannot be read."))
			continue
		}
		if b.IsDefault(v) {
			continue
		}
		if out == nil {
			out = map[string][]float64{}
		}
		out[b.Key] = v
	}
	return out
}
