package server

import (
	"net/http"
	"net/url"
	"strconv"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// showPours lists the pours, newest first.
func (s *Server) showPours(w http.ResponseWriter, r *http.Request, v visit) error {
	before, err := strconv.Atoi(r.URL.Query().Get("before"))
	if err != nil || before < 0 {
		before = 0
	}
	lines, more, err := s.store.Pours(r.Context(), before, poursShown)
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Pours", "pours"), page.Pours(page.NewPoursPage(lines, more, before, v.view)))
}

// pour finds the pour that the address names.
func (s *Server) pour(r *http.Request) (journal.Pour, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.Pour{}, err
	}
	return s.store.Pour(r.Context(), id)
}

// showPour shows one pour with its candles.
func (s *Server) showPour(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pour(r)
	if err != nil {
		return err
	}
	lines, err := s.store.PourCandles(r.Context(), x.ID)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	h, err := s.store.History(r.Context(), journal.NounPour, x.ID)
	if err != nil {
		return err
	}
	photos, err := s.store.PhotosOf(r.Context(), journal.NounPour, x.ID)
	if err != nil {
		return err
	}
	p := page.NewPourPage(x, lines, k, h, s.token(), v.view)
	p.ShowPhotos(photos, x)
	if p.Casts, err = s.castPart(r.Context(), x, v); err != nil {
		return err
	}
	if p.Setting, err = s.pourSetting(r, x, v); err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.Pour(p))
}

// newPour shows the form of a pour, dated now.
func (s *Server) newPour(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	lines, _, err := s.store.Pours(r.Context(), 0, 1)
	if err != nil {
		return err
	}
	var last *journal.Pour
	if len(lines) > 0 {
		last = &lines[0].Pour
	}
	p := page.NewPourForm(s.blank(v, page.NewPourValues(k, last, v.view)), nil, k, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.PourForm(p))
}

// saveNewPour writes a pour down; its page asks for the candles next.
func (s *Server) saveNewPour(w http.ResponseWriter, r *http.Request) error {
	return s.submitPour(w, r, nil)
}

// editPour shows the form around what is recorded.
func (s *Server) editPour(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pour(r)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	p := page.NewPourForm(s.editing(v, page.PourValues(x, v.view), x.Version), &x, k, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.PourForm(p))
}

// savePour corrects a pour.
func (s *Server) savePour(w http.ResponseWriter, r *http.Request) error {
	x, err := s.pour(r)
	if err != nil {
		return err
	}
	return s.submitPour(w, r, &x)
}

// submitPour puts a posted pour on its way; old is nil for a new one.
func (s *Server) submitPour(w http.ResponseWriter, r *http.Request, old *journal.Pour) error {
	v, err := s.visit(r)
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
	x := readPour(p, values, k)
	sub := submission{visit: v, parser: p, values: values, doubts: func() ([]journal.Doubt, error) { return journal.DoubtsOfPour(x), nil },
		said: "The pour is saved. Now add the candles that it filled."}
	if old != nil {
		sub.said = "The pour is saved."
		sub.version = func() (int, error) { return old.Version, nil }
		x.Meta, x.Number = old.Meta, old.Number
		x.Version = postedVersion(values)
	}
	sub.save = func(tx *sqlite.Tx) (string, error) {
		y := x
		err := tx.SavePour(&y)
		return "/pours/" + idText(y.ID), err
	}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		f := page.NewPourForm(in, old, k, v.view)
		return f.Title, "pours", page.PourForm(f), nil
	}
	return s.submit(w, r, sub)
}

// readPour reads a pour; a load whose basis was not chosen is counted as the
// wax's guidance counts.
func readPour(p *form.Parser, values url.Values, k page.Known) journal.Pour {
	x := form.ReadPour(p).Pour()
	if values.Get("load_basis") == "" {
		x.LoadBasis = k.BasisOf(x.Wax)
	}
	return x
}
