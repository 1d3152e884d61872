package server

import (
	"context"
	"net/http"
	"net/url"
	"strconv"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// roundRoutes are the addresses of rounds.
func (s *Server) roundRoutes(r chi.Router) {
	r.Get("/rounds", s.visited(s.showRounds))
	r.Get("/rounds/new", s.visited(s.newRound))
	r.Post("/rounds/new", s.visited(s.saveNewRound))
	r.Get("/rounds/{id}", s.visited(s.showRound))
	r.Get("/rounds/{id}/edit", s.visited(s.editRound))
	r.Post("/rounds/{id}/edit", s.visited(s.saveRound))
	r.Get("/rounds/{id}/days", s.visited(s.editRoundDays))
	r.Post("/rounds/{id}/days", s.visited(s.saveRoundDays))
	r.Get("/rounds/{id}/calendar.ics", s.visited(s.sendRoundCalendar))
	r.Post("/rounds/{id}/sheet", s.visited(s.makeRoundSheet))
	r.Post("/rounds/{id}/close", s.visited(s.closeRound))
	r.Post("/rounds/{id}/reopen", s.visited(s.reopenRound))
}

// showRounds lists the rounds.
func (s *Server) showRounds(w http.ResponseWriter, r *http.Request, v visit) error {
	list, err := s.store.Rounds(r.Context())
	if err != nil {
		return err
	}
	var lines []page.RoundLine
	for _, x := range list {
		candles, err := s.store.RoundCandles(r.Context(), x.ID)
		if err != nil {
			return err
		}
		lines = append(lines, page.RoundLine{Round: x, Progress: plan.Progress(x, candles, nil, v.view.Now)})
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Rounds", "rounds"), page.Rounds(page.NewRoundsPage(lines, k, v.view)))
}

// mostSeeds is how many draws there are to choose from: few enough to be typed.
const mostSeeds = 900000

// newRound shows the form of a round; ?ask= fills it with a ready question.
func (s *Server) newRound(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	values, asked, err := s.roundStart(r, v, k)
	if err != nil {
		return err
	}
	p := page.NewRoundForm(s.blank(v, values), k, asked)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "rounds"), page.RoundForm(p))
}

// roundStart fills the boxes of a new round, as an earlier one where the
// address names it, and tells which ready question was asked.
func (s *Server) roundStart(r *http.Request, v visit, k page.Known) (values url.Values, asked string, err error) {
	seed := 100000 + s.draw(mostSeeds)
	if like := r.URL.Query().Get("like"); like != "" {
		id, err := strconv.ParseInt(like, 10, 64)
		if err != nil {
			return nil, "", errNoPage
		}
		x, err := s.store.Round(r.Context(), journal.ID(id))
		return page.AgainValues(x, seed, v.set, v.view), "", err
	}
	start := page.ReadRoundStart(r.URL.Query())
	start.Seed = seed
	start.Like, err = s.lastMade(r.Context())
	return page.NewRoundValues(start, k, v.set, v.view), start.Ask, err
}

// lastMade is the candle that was written down last; nil before the first.
func (s *Server) lastMade(ctx context.Context) (*journal.Made, error) {
	lines, _, err := s.store.Candles(ctx, journal.CandleFilter{Limit: 1})
	if err != nil || len(lines) == 0 {
		return nil, err
	}
	l, err := s.store.CandleLog(ctx, lines[0].Candle.ID)
	return &l.Made, err
}

// saveNewRound works the plan out and shows it or, when asked to, keeps it.
func (s *Server) saveNewRound(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x, spec := s.readRound(p, values, k, v)
	if values.Get("act") == "keep" {
		return s.keepRound(w, r, v, p, values, x, k)
	}
	return s.previewRound(w, r, v, p, values, x, spec, k)
}

// readRound reads a round and draws its places; what keeps it from being drawn
// stands beside the fields.
func (s *Server) readRound(p *form.Parser, values url.Values, k page.Known, v visit) (journal.TestRound, plan.Spec) {
	in := form.ReadRound(p)
	x := in.Round()
	if values.Get("load_basis") == "" {
		x.Factors.LoadBasis = k.BasisOf(x.Wax)
	}
	if in.Seed == nil && p.Text("seed") == "" {
		x.Seed = int64(100000 + s.draw(mostSeeds))
		values.Set("seed", idText(journal.ID(x.Seed)))
	}
	x.Drawn.PerMelt = page.MeltFills(x, in.PerMelt, k, v.set)
	spec := page.RoundSpec(x, k)
	if p.Problems().Any() {
		return x, spec
	}
	places, problems := plan.Draw(spec)
	for _, y := range problems {
		p.Problem(page.RoundField(y.Field), y.Says)
	}
	x.Places = places
	if x.Question == "" {
		x.Question = page.RoundQuestion(x, k, v.set.Units)
	}
	return x, spec
}

// previewRound shows what the round comes to, and saves nothing.
func (s *Server) previewRound(w http.ResponseWriter, r *http.Request, v visit, p *form.Parser, values url.Values, x journal.TestRound, spec plan.Spec, k page.Known) error {
	status, f := http.StatusUnprocessableEntity, page.NewRoundForm(s.returned(v, values, p.Problems(), nil), k, "")
	if !p.Problems().Any() {
		in, err := s.roundInput(r.Context(), x, nil, v)
		if err != nil {
			return err
		}
		tells, err := s.roundTells(r.Context(), x, spec, v)
		if err != nil {
			return err
		}
		in.Warnings = plan.Warnings(spec)
		status = http.StatusOK
		shown := page.NewRoundPlan(in, k, v.view)
		shown.ShowTells(tells, x, k, v.view)
		f.ShowPlan(shown)
	}
	return s.render(w, r, status, s.frame(r, v.set, f.Title, "rounds"), page.RoundForm(f))
}

// keepRound saves the round as it was drawn.
func (s *Server) keepRound(w http.ResponseWriter, r *http.Request, v visit, p *form.Parser, values url.Values, x journal.TestRound, k page.Known) error {
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The round is kept. Weigh its first melt when you are ready.",
		save: func(tx *sqlite.Tx) (string, error) {
			y := x
			err := tx.SaveRound(&y)
			return "/rounds/" + idText(y.ID), err
		},
		back: func(in page.Input) (string, string, templ.Component, error) {
			f := page.NewRoundForm(in, k, "")
			return f.Title, "rounds", page.RoundForm(f), nil
		},
	})
}

// roundAt loads the round that the address names.
func (s *Server) roundAt(r *http.Request) (journal.TestRound, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.TestRound{}, err
	}
	return s.store.Round(r.Context(), id)
}

// editRound shows the form that words a round anew.
func (s *Server) editRound(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	f := page.EditRoundForm(s.editing(v, page.RoundValues(x), x.Version), x)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Correct the round", "rounds"), page.FormOf("Correct the round", page.EditRoundLede, f))
}

// saveRound words a round anew.
func (s *Server) saveRound(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	next := x
	next.Question, next.Note, next.Version = p.Text("question"), p.Text("note"), postedVersion(values)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The correction is saved; the history keeps what was there before.",
		save:    func(tx *sqlite.Tx) (string, error) { y := next; return "/rounds/" + idText(x.ID), tx.SaveRound(&y) },
		version: func() (int, error) { y, err := s.store.Round(r.Context(), x.ID); return y.Version, err },
		back: func(in page.Input) (string, string, templ.Component, error) {
			return "Correct the round", "rounds", page.FormOf("Correct the round", page.EditRoundLede, page.EditRoundForm(in, x)), nil
		},
	})
}

// closeRound takes a round's question as answered.
func (s *Server) closeRound(w http.ResponseWriter, r *http.Request, v visit) error {
	now := v.view.Now
	return s.markRound(w, r, "The question is taken as answered. It can be opened again.", func(x *journal.TestRound) { x.Closed = &now })
}

// reopenRound opens a round again.
func (s *Server) reopenRound(w http.ResponseWriter, r *http.Request, _ visit) error {
	return s.markRound(w, r, "The round is open again.", func(x *journal.TestRound) { x.Closed = nil })
}

// markRound changes one thing of a round by a button.
func (s *Server) markRound(w http.ResponseWriter, r *http.Request, said string, change func(*journal.TestRound)) error {
	x, err := s.roundAt(r)
	if err != nil {
		return err
	}
	if err := readForm(r); err != nil {
		return err
	}
	change(&x)
	x.Version = postedVersion(r.PostForm)
	if _, _, err = s.store.Once(lasting(r), onceKey(r.PostForm), func(tx *sqlite.Tx) (string, error) { y := x; return "", tx.SaveRound(&y) }); err != nil {
		return err
	}
	s.redirect(w, r, "/rounds/"+idText(x.ID), said)
	return nil
}
