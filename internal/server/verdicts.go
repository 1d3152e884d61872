package server

import (
	"errors"
	"net/http"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/internal/verdict"
	"rimward/web/page"
)

// verdictRoutes are the addresses of verdicts.
func (s *Server) verdictRoutes(r chi.Router) {
	r.Get("/verdicts", s.visited(s.showVerdicts))
	r.Get("/verdicts/new", s.visited(s.newVerdict))
	r.Post("/verdicts/new", s.visited(s.saveNewVerdict))
	r.Get("/verdicts/{id}", s.visited(s.showVerdict))
	r.Get("/verdicts/{id}/edit", s.visited(s.editVerdict))
	r.Post("/verdicts/{id}/edit", s.visited(s.saveVerdict))
	r.Get("/verdicts/{id}/sheet", s.visited(s.showSheet))
}

// figures are what a verdict on the pairing would rest on now.
func (e pairingEvidence) figures(v visit) verdict.Figures {
	return verdict.Freeze(verdict.Evidence{Pairing: e.pairing, Ranked: e.series.Ranked(), Logs: e.logs, Limits: safety.NewLimits(v.set.Limits)})
}

// showVerdicts lists every verdict.
func (s *Server) showVerdicts(w http.ResponseWriter, r *http.Request, v visit) error {
	list, err := s.store.Verdicts(r.Context())
	if err != nil {
		return err
	}
	sh, err := s.shelf(r.Context())
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Verdicts", "standings"), page.Verdicts(page.NewVerdictsPage(list, sh, v.view)))
}

// newVerdict shows the form on which a verdict is given.
func (s *Server) newVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	e, err := s.pairingEvidence(r.Context(), page.ReadPairingChoice(r.URL.Query()), v)
	if err != nil {
		return err
	}
	f := s.verdictForm(s.blank(v, nil), e, v)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, f.Title, "standings"), page.GiveVerdict(f))
}

// verdictForm is the form around what was typed.
func (s *Server) verdictForm(in page.Input, e pairingEvidence, v visit) page.VerdictForm {
	by := verdict.ByHand{Tip: in.Value("tip_test") != "", Base: in.Value("base_check") != ""}
	items := verdict.Asked(e.figures(v), by, safety.NewLimits(v.set.Limits), v.set.Units)
	name, setting := page.PairingTitle(e.group, e.pairing)
	return page.NewVerdictForm(in, e.choice, name, setting, items)
}

// saveNewVerdict keeps a verdict with the figures as they are now.
func (s *Server) saveNewVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	e, err := s.pairingEvidence(r.Context(), page.ReadPairingChoice(r.URL.Query()), v)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x, err := e.verdict(form.ReadVerdict(p).Verdict(), v)
	if err != nil {
		return err
	}
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The verdict is kept, with the figures it rests on.",
		save: func(tx *sqlite.Tx) (string, error) {
			next := x
			err := tx.SaveVerdict(&next)
			return "/verdicts/" + idText(next.ID), err
		},
		back: func(in page.Input) (string, string, templ.Component, error) {
			f := s.verdictForm(in, e, v)
			return f.Title, "standings", page.GiveVerdict(f), nil
		},
	})
}

// verdict completes what was typed by what it is about and rests on.
func (e pairingEvidence) verdict(x journal.Verdict, v visit) (journal.Verdict, error) {
	f := e.figures(v)
	x.Vessel, x.Wax, x.Wick, x.Series = e.choice.Vessel, e.wax(), e.choice.Wick, e.choice.Series
	by := verdict.ByHand{Tip: x.TipTest, Base: x.BaseCheck}
	x.Hard, x.Missing = len(f.Hard), len(verdict.Missing(verdict.Asked(f, by, safety.NewLimits(v.set.Limits), v.set.Units)))
	var err error
	x.Figures, err = f.Write()
	return x, err
}

// wax is the wax that the pairing was judged within.
func (e pairingEvidence) wax() journal.ID {
	for _, s := range e.group.Settings {
		return s.Wax.ID
	}
	return e.choice.Wax
}

// verdictOf finds the verdict that the address names.
func (s *Server) verdictOf(r *http.Request) (journal.Verdict, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.Verdict{}, err
	}
	return s.store.Verdict(r.Context(), id)
}

// showVerdict shows one verdict with the figures of then and now.
func (s *Server) showVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.verdictOf(r)
	if err != nil {
		return err
	}
	sh, err := s.shelf(r.Context())
	if err != nil {
		return err
	}
	now, err := s.figuresNow(r, x, v)
	if err != nil {
		return err
	}
	h, err := s.store.History(r.Context(), journal.NounVerdict, x.ID)
	if err != nil {
		return err
	}
	p := page.NewVerdictPage(x, sh, now, h, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "standings"), page.Verdict(p))
}

// figuresNow are the figures of a verdict's pairing as they are now; nil where
// the standings have no such pairing.
func (s *Server) figuresNow(r *http.Request, x journal.Verdict, v visit) (*verdict.Figures, error) {
	e, err := s.pairingEvidence(r.Context(), page.ChoiceOf(x), v)
	if errors.Is(err, journal.ErrNotFound) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	f := e.figures(v)
	return &f, nil
}

// editVerdict shows the form that corrects what was said of a verdict.
func (s *Server) editVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.verdictOf(r)
	if err != nil {
		return err
	}
	f := page.EditVerdictForm(s.editing(v, page.VerdictValues(x), x.Version), x)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, verdictTitle, "standings"), page.FormOf(verdictTitle, verdictLede, f))
}

const (
	verdictTitle = "Correct the verdict"
	verdictLede  = "The ruling and its figures stay: another ruling is a verdict of its own. The history keeps what was there before."
)

// saveVerdict corrects what was said of a verdict.
func (s *Server) saveVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	old, err := s.verdictOf(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x := form.ReadVerdictWords(p).Verdict()
	x.Meta, x.Ruling = old.Meta, old.Ruling
	x.Version = postedVersion(values)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The correction is saved; the history keeps what was there before.",
		save:    func(tx *sqlite.Tx) (string, error) { y := x; return "/verdicts/" + idText(old.ID), tx.SaveVerdict(&y) },
		version: func() (int, error) { now, err := s.store.Verdict(r.Context(), old.ID); return now.Version, err },
		back: func(in page.Input) (string, string, templ.Component, error) {
			return verdictTitle, "standings", page.FormOf(verdictTitle, verdictLede, page.EditVerdictForm(in, old)), nil
		},
	})
}

// withdrawableVerdict names a verdict that can be withdrawn.
func (s *Server) withdrawableVerdict(r *http.Request, id journal.ID) (page.Withdrawable, error) {
	x, err := s.store.Verdict(r.Context(), id)
	if err != nil {
		return page.Withdrawable{}, err
	}
	sh, err := s.shelf(r.Context())
	return page.WithdrawableVerdict(x, page.PairingName(x, sh)), err
}

// showSheet shows the spec sheet of a verdict's pairing.
func (s *Server) showSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.verdictOf(r)
	if err != nil {
		return err
	}
	e, err := s.pairingEvidence(r.Context(), page.ChoiceOf(x), v)
	if err != nil {
		return err
	}
	p := page.NewSpecSheet(x, e.group, e.pairing, e.logs, e.figures(v), safety.NewLimits(v.set.Limits), v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "standings"), page.SpecSheetPage(p))
}
