package server

import (
	"net/http"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// newSheet shows the form of a new sheet.
func (s *Server) newSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	values, rows, err := s.sheetStart(r, v, k)
	if err != nil {
		return err
	}
	p := page.NewSheetForm(s.blank(v, values), rows, 3, nil, nil, k, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.SheetForm(p))
}

// editSheet shows the form around what is recorded.
func (s *Server) editSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pourSheetOf(r, v)
	if err != nil {
		return err
	}
	in := s.editing(v, page.PourSheetValues(x.sheet, v.set.Units), x.sheet.Version)
	p := page.NewSheetForm(in, len(x.sheet.Body.Lines), 0, &x.sheet, nil, x.known, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.SheetForm(p))
}

// saveNewSheet keeps a new sheet, or works it out before that.
func (s *Server) saveNewSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.stocked(r.Context())
	if err != nil {
		return err
	}
	return s.sheetSent(w, r, sheetView{visit: v, known: k}, nil)
}

// saveSheet corrects a sheet.
func (s *Server) saveSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pourSheetOf(r, v)
	if err != nil {
		return err
	}
	return s.sheetSent(w, r, x, &x.sheet)
}

// sheetSent does what the button of the form says: another row, the sums, or
// saving.
func (s *Server) sheetSent(w http.ResponseWriter, r *http.Request, x sheetView, old *journal.PourSheet) error {
	if err := readForm(r); err != nil {
		return err
	}
	do := r.PostForm.Get("do")
	values, rows := form.TidySheetRows(r.PostForm)
	values.Del("do")
	p := form.NewParser(values, x.set.Units, x.set.Zone())
	if do == "row" {
		f := page.NewSheetForm(s.returned(x.visit, values, nil, nil), rows, page.RowsAsked(r.PostForm), old, nil, x.known, x.view)
		return s.render(w, r, http.StatusOK, s.frame(r, x.set, f.Title, "pours"), page.SheetForm(f))
	}
	sheet := readPourSheet(p, rows, x.known, old)
	if do == "work" && !p.Problems().Any() {
		work := page.NewSheetWork(sheet, x.known, x.view)
		f := page.NewSheetForm(s.returned(x.visit, values, nil, nil), rows, 0, old, &work, x.known, x.view)
		return s.render(w, r, http.StatusOK, s.frame(r, x.set, f.Title, "pours"), page.SheetForm(f))
	}
	return s.submit(w, r, s.sheetSubmission(x, p, rows, sheet, old))
}

// readPourSheet reads the form; what the sums refuse stands beside its box, what
// is only missing may be noted later.
func readPourSheet(p *form.Parser, rows int, k page.Known, old *journal.PourSheet) journal.PourSheet {
	sheet := form.ReadSheet(p, rows).Sheet()
	if p.Text("load_basis") == "" {
		sheet.LoadBasis = k.BasisOf(sheet.Wax)
	}
	if old != nil {
		sheet.Meta, sheet.Round, sheet.Pour, sheet.Body.Ticks = old.Meta, old.Round, old.Pour, old.Body.Ticks
	}
	if !p.Problems().Any() {
		p.Merge(sheet.Validate(journal.SheetFacts{})) //nolint:errcheck // only ever a refusal
	}
	if !p.Problems().Any() {
		for _, x := range page.SheetProblems(sheet, k) {
			p.Problem(x.Field, x.Text)
		}
	}
	return sheet
}

func (s *Server) sheetSubmission(x sheetView, p *form.Parser, rows int, sheet journal.PourSheet, old *journal.PourSheet) submission {
	sub := submission{visit: x.visit, parser: p, values: p.Values(), said: "The sheet is saved. Tick it off while you weigh."}
	if old != nil {
		sheet.Version = postedVersion(p.Values())
		sub.said = "The correction is saved; the history keeps what was there before."
		sub.version = func() (int, error) { return old.Version, nil }
	}
	sub.save = func(tx *sqlite.Tx) (string, error) {
		y := sheet
		err := tx.SavePourSheet(&y)
		return "/pours/sheets/" + idText(y.ID), err
	}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		f := page.NewSheetForm(in, rows, 0, old, nil, x.known, x.view)
		return f.Title, "pours", page.SheetForm(f), nil
	}
	return sub
}
