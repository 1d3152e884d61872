package server

import (
	"context"
	"net/http"
	"net/url"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/internal/verdict"
	"rimward/web/page"
)

// newVerdict shows the form of a verdict on the pairing that the address names.
func (s *Server) newVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	draft, err := s.draftOf(r.Context(), page.ReadPairingChoice(r.URL.Query()), v)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	list, err := s.store.Verdicts(r.Context())
	if err != nil {
		return err
	}
	p := page.NewVerdictForm(s.blank(v, firstVerdictValues(list)), draft, k, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "standings"), page.VerdictForm(p))
}

// firstVerdictValues offer whoever decided last.
func firstVerdictValues(list []journal.Verdict) url.Values {
	if len(list) == 0 {
		return nil
	}
	return url.Values{"decided_by": {list[0].By}}
}

// saveNewVerdict saves a verdict with the figures of now.
func (s *Server) saveNewVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	draft, err := s.draftOf(r.Context(), page.ReadPairingChoice(values), v)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	x := form.ReadVerdict(p).Onto(draft)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The verdict is saved, with the figures of today.",
		doubts: func() ([]journal.Doubt, error) { return doubtsOfVerdict(x), nil },
		save: func(tx *sqlite.Tx) (string, error) {
			y := x
			err := tx.SaveVerdict(&y)
			return "/verdicts/" + idText(y.ID), err
		},
		back: func(in page.Input) (string, string, templ.Component, error) {
			f := page.NewVerdictForm(in, draft, k, v.view)
			return f.Title, "standings", page.VerdictForm(f), nil
		},
	})
}

// doubtsOfVerdict asks about a verdict that keeps the rules; one that does not
// is refused inside the transaction, with its reasons.
func doubtsOfVerdict(x journal.Verdict) []journal.Doubt {
	if x.Validate(journal.VerdictFacts{Now: x.At, Poured: true}) != nil {
		return nil
	}
	return verdict.Doubts(x)
}

// editVerdict shows the form that corrects a verdict.
func (s *Server) editVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.verdictAt(r)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	p := page.NewVerdictEdit(s.editing(v, page.VerdictValues(x, v.view), x.Version), x, k, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "standings"), page.VerdictForm(p))
}

// saveVerdict corrects a verdict.
func (s *Server) saveVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	old, err := s.verdictAt(r)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x := form.ReadVerdict(p).Onto(old)
	x.Ruling, x.Version = old.Ruling, postedVersion(values)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The correction is saved; the history keeps what was there before.",
		doubts:  func() ([]journal.Doubt, error) { return doubtsOfVerdict(x), nil },
		version: func() (int, error) { return old.Version, nil },
		save:    func(tx *sqlite.Tx) (string, error) { y := x; return "/verdicts/" + idText(y.ID), tx.SaveVerdict(&y) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			f := page.NewVerdictEdit(in, old, k, v.view)
			return f.Title, "standings", page.VerdictForm(f), nil
		},
	})
}

// withdrawableVerdict names a verdict that is to be withdrawn or brought back.
func (s *Server) withdrawableVerdict(ctx context.Context, id journal.ID) (page.Withdrawable, error) {
	x, err := s.store.Verdict(ctx, id)
	if err != nil {
		return page.Withdrawable{}, err
	}
	k, err := s.known(ctx)
	return page.WithdrawableVerdict(x, k), err
}

// showSheet shows the spec sheet of a verdict, from its frozen figures.
func (s *Server) showSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.verdictAt(r)
	if err != nil {
		return err
	}
	counts, err := s.counting(r.Context(), x)
	if err != nil {
		return err
	}
	return s.sendSheet(w, r, x, counts, v)
}

// showSpec shows the spec sheet of a pairing: that of the verdict that counts,
// where there is one, else a draft with the figures of now.
func (s *Server) showSpec(w http.ResponseWriter, r *http.Request, v visit) error {
	draft, err := s.draftOf(r.Context(), page.ReadPairingChoice(r.URL.Query()), v)
	if err != nil {
		return err
	}
	list, err := s.store.VerdictsOn(r.Context(), draft.Place())
	if err != nil {
		return err
	}
	if x, ok := journal.Standing(list)[draft.Place()]; ok {
		return s.sendSheet(w, r, x, true, v)
	}
	return s.sendSheet(w, r, draft, false, v)
}

func (s *Server) sendSheet(w http.ResponseWriter, r *http.Request, x journal.Verdict, counts bool, v visit) error {
	logs, err := s.store.LogsOf(r.Context(), x.Figures.Candles)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	now, err := s.figuresNow(r.Context(), x, v)
	if err != nil {
		return err
	}
	p := page.NewSpecPage(page.SpecSource{Verdict: x, Counts: counts, Logs: logs, Known: k, Limits: safety.NewLimits(v.set.Limits), Now: now}, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Spec sheet: "+p.Title, "standings"), page.Spec(p))
}
