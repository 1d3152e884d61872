package server

import (
	"context"
	"errors"
	"net/http"

	"github.com/go-chi/chi/v5"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/verdict"
	"rimward/web/page"
)

// verdictRoutes are the addresses of verdicts and spec sheets.
func (s *Server) verdictRoutes(r chi.Router) {
	r.Get("/verdicts", s.visited(s.showVerdicts))
	r.Get("/verdicts/new", s.visited(s.newVerdict))
	r.Post("/verdicts/new", s.visited(s.saveNewVerdict))
	r.Get("/verdicts/{id}", s.visited(s.showVerdict))
	r.Get("/verdicts/{id}/edit", s.visited(s.editVerdict))
	r.Post("/verdicts/{id}/edit", s.visited(s.saveVerdict))
	r.Get("/verdicts/{id}/sheet", s.visited(s.showSheet))
	r.Get("/spec", s.visited(s.showSpec))
}

// draft is a verdict on a pairing with its figures of now, without a ruling.
func (s *Server) draft(e pairingEvidence, v visit) journal.Verdict {
	return verdict.Draft(verdict.Evidence{Series: e.series, Pairing: e.pairing, Logs: e.logs, Limits: safety.NewLimits(v.set.Limits), Revision: e.revision, At: v.view.Now}, e.group, v.set.Apart)
}

// draftOf finds the pairing that was asked for, with its figures of now.
func (s *Server) draftOf(ctx context.Context, choice page.PairingChoice, v visit) (journal.Verdict, error) {
	e, err := s.pairingEvidence(ctx, choice, v)
	if err != nil {
		return journal.Verdict{}, err
	}
	return s.draft(e, v), nil
}

// pairingVerdict is the section of a pairing's page.
func (s *Server) pairingVerdict(ctx context.Context, e pairingEvidence, v visit) (page.PairingVerdict, error) {
	draft := s.draft(e, v)
	list, err := s.store.VerdictsOn(ctx, draft.Place())
	if err != nil {
		return page.PairingVerdict{}, err
	}
	hands := verdict.Hands{}
	if x, ok := journal.Standing(list)[draft.Place()]; ok {
		hands = verdict.Hands{Tip: x.TipTest, Base: x.BaseCheck}
	}
	return page.NewPairingVerdict(draft, list, verdict.Missing(draft.Figures, hands), v.view), nil
}

// markVerdicts says in the standings what was decided.
func (s *Server) markVerdicts(ctx context.Context, p *page.StandingsPage) error {
	list, err := s.store.Verdicts(ctx)
	if err == nil {
		p.MarkVerdicts(journal.Standing(list))
	}
	return err
}

// verdictAt loads the verdict that the address names.
func (s *Server) verdictAt(r *http.Request) (journal.Verdict, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.Verdict{}, err
	}
	return s.store.Verdict(r.Context(), id)
}

// counting reports whether a verdict is the one that counts.
func (s *Server) counting(ctx context.Context, x journal.Verdict) (bool, error) {
	list, err := s.store.VerdictsOn(ctx, x.Place())
	return journal.Standing(list)[x.Place()].ID == x.ID, err
}

// showVerdict shows one verdict beside the figures of now.
func (s *Server) showVerdict(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.verdictAt(r)
	if err != nil {
		return err
	}
	now, err := s.figuresNow(r.Context(), x, v)
	if err != nil {
		return err
	}
	counts, err := s.counting(r.Context(), x)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	history, err := s.store.History(r.Context(), journal.NounVerdict, x.ID)
	if err != nil {
		return err
	}
	p := page.NewVerdictPage(x, counts, now, k, history, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "standings"), page.Verdict(p))
}

// figuresNow are the figures of a verdict's pairing now; nil where the
// standings do not have it any more.
func (s *Server) figuresNow(ctx context.Context, x journal.Verdict, v visit) (*journal.VerdictFigures, error) {
	d, err := s.draftOf(ctx, page.ChoiceOf(x.Place()), v)
	if errors.Is(err, journal.ErrNotFound) {
		return nil, nil
	}
	return &d.Figures, err
}

// showVerdicts lists what was decided, and what waits for it.
func (s *Server) showVerdicts(w http.ResponseWriter, r *http.Request, v visit) error {
	list, err := s.store.Verdicts(r.Context())
	if err != nil {
		return err
	}
	standing := journal.Standing(list)
	drafts, note, err := s.drafts(r.Context(), standing, v)
	if err != nil {
		return err
	}
	now := map[journal.Place]journal.VerdictFigures{}
	var waiting []journal.Verdict
	for _, d := range drafts {
		now[d.Place()] = d.Figures
		if _, decided := standing[d.Place()]; !decided && verdict.Measured(d.Figures) {
			waiting = append(waiting, d)
		}
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Verdicts", "standings"), page.Verdicts(page.NewVerdictsPage(list, now, waiting, note, k, v.view)))
}

// drafts are the pairings that a verdict was made of or that could be ready
// for one, with their figures of now.
func (s *Server) drafts(ctx context.Context, standing map[journal.Place]journal.Verdict, v visit) ([]journal.Verdict, string, error) {
	table, note, revision, err := s.judgeAt(ctx, v, func(*standings.Stack) bool { return true })
	if err != nil {
		return nil, "", err
	}
	var found []pairingEvidence
	var ids []journal.ID
	table.Each(func(g standings.Group, x standings.Series, p standings.Pairing) {
		_, decided := standing[verdict.PlaceOf(g, x, p)]
		if decided || verdict.Ready(p) {
			found, ids = append(found, pairingEvidence{group: g, series: x, pairing: p, revision: revision}), append(ids, p.CandleIDs()...)
		}
	})
	logs, err := s.store.LogsOf(ctx, ids)
	var out []journal.Verdict
	for _, e := range found {
		e.logs = verdict.LogsOf(e.pairing, logs)
		out = append(out, s.draft(e, v))
	}
	return out, note, err
}
