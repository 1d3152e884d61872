package server

import (
	"net/http"
	"net/url"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// measuring loads all that the page of a measurement is built from; what is
// marked so far is still to come. Only photos of candles have a vessel.
func (s *Server) measuring(r *http.Request, v visit) (page.Measuring, error) {
	x, of, err := s.photo(r)
	if err != nil {
		return page.Measuring{}, err
	}
	if of.Candle == 0 {
		return page.Measuring{}, journal.ErrNotFound
	}
	l, err := s.store.CandleLog(r.Context(), of.Candle)
	return page.Measuring{Photo: x, Of: of, Vessel: l.Vessel, View: v.view}, err
}

// measurePhoto shows a photo to be marked. A mark that came with the address
// leads on to the address with that mark in its line, which can be reloaded.
func (s *Server) measurePhoto(w http.ResponseWriter, r *http.Request, v visit) error {
	m, err := s.measuring(r, v)
	if err != nil {
		return err
	}
	in, ok := form.ReadMarks(r.URL.Query(), m.Photo)
	if !ok {
		return errBadRequest
	}
	if in.Added {
		http.Redirect(w, r, page.MeasureHref(m.Photo.ID, in), http.StatusSeeOther)
		return nil
	}
	status := http.StatusOK
	if in.Problem != "" {
		status = http.StatusUnprocessableEntity
	}
	m.Input, m.Send = in, s.editing(v, url.Values{}, m.Photo.Version)
	return s.render(w, r, status, s.frame(r, v.set, measureTitle(m), m.Of.Section), page.Measure(page.NewMeasurePage(m)))
}

func measureTitle(m page.Measuring) string { return "Measure " + m.Of.Name }

// keepMarks keeps the marks of a photo, and leads to its check with what they
// say filled in where that is asked for.
func (s *Server) keepMarks(w http.ResponseWriter, r *http.Request, v visit) error {
	m, err := s.measuring(r, v)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	var ok bool
	if m.Input.Marks, ok = form.ReadMarkLines(values, m.Photo); !ok {
		return errBadRequest
	}
	x := m.Photo
	x.Marks, x.Version = m.Input.Marks, postedVersion(values)
	to, said := afterMarks(m, values.Get("then"))
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: said,
		version: func() (int, error) { return m.Photo.Version, nil },
		save:    func(tx *sqlite.Tx) (string, error) { y := x; return to, tx.SavePhoto(&y) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			m.Send = in
			return measureTitle(m), m.Of.Section, page.Measure(page.NewMeasurePage(m)), nil
		},
	})
}

// afterMarks is where marks that were kept lead.
func afterMarks(m page.Measuring, then string) (to, said string) {
	if offer := m.Offer(); then == "check" && m.Of.Of == journal.NounCheck && offer != nil {
		return "/checks/" + idText(m.Of.ID) + "/edit?" + offer.Encode(), "The marks are kept."
	}
	return "/photos/" + idText(m.Photo.ID), "The marks are kept."
}
