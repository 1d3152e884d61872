package server

import (
	"context"
	"net/http"
	"net/url"

	"github.com/a-h/templ"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// coveredLog finds a smelling that must be blind and covered for the address to
// mean anything.
func (s *Server) coveredLog(r *http.Request) (journal.SmellingLog, error) {
	l, err := s.smellingLog(r)
	if err == nil && (!l.Smelling.Covered() || l.Smelling.IsGone()) {
		err = journal.ErrNotFound
	}
	return l, err
}

// askUncover asks before the codes are resolved.
func (s *Server) askUncover(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.coveredLog(r)
	if err != nil {
		return err
	}
	title, lede, f := page.UncoverForm(s.editing(v, url.Values{}, l.Smelling.Version), l)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, title, "candles"), page.FormOf(title, lede, f))
}

// uncover resolves the codes of a blind smelling.
func (s *Server) uncover(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.smellingLog(r)
	if err != nil {
		return err
	}
	if l.Smelling.Uncovered != nil {
		s.redirect(w, r, "/throw/"+idText(l.Smelling.ID), "The codes were uncovered already.")
		return nil
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x, now := l.Smelling, s.now()
	x.Version, x.Uncovered = postedVersion(values), &now
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The codes are uncovered.",
		save:    func(tx *sqlite.Tx) (string, error) { y := x; return "/throw/" + idText(y.ID), tx.SaveSmelling(&y) },
		version: func() (int, error) { return l.Smelling.Version, nil },
		back: func(in page.Input) (string, string, templ.Component, error) {
			title, lede, f := page.UncoverForm(in, l)
			return title, "candles", page.FormOf(title, lede, f), nil
		},
	})
}

// showLabels says which candle gets which code, to whoever sets them out.
func (s *Server) showLabels(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.coveredLog(r)
	if err != nil {
		return err
	}
	p := page.NewLabelsPage(l, r.URL.Query().Get("show") != "")
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "candles"), page.Labels(p))
}

// withdrawableSmelled finds a smelling or a part of one that can be withdrawn.
// A cup of a covered smelling cannot: its number follows its candle.
func (s *Server) withdrawableSmelled(ctx context.Context, noun journal.Noun, id journal.ID) (page.Withdrawable, error) {
	switch noun {
	case journal.NounSmelling:
		x, err := s.store.Smelling(ctx, id)
		return page.WithdrawableSmelling(x), err
	case journal.NounCup:
		c, err := s.store.Cup(ctx, id)
		if err != nil {
			return page.Withdrawable{}, err
		}
		x, err := s.store.Smelling(ctx, c.Smelling)
		if err == nil && x.Covered() {
			err = journal.ErrNotFound
		}
		return page.WithdrawableCup(c), err
	}
	x, err := s.store.Score(ctx, id)
	if err != nil {
		return page.Withdrawable{}, err
	}
	c, err := s.store.Cup(ctx, x.Cup)
	return page.WithdrawableScore(x, c), err
}
