package server

import (
	"context"
	"net/http"
	"net/url"
	"slices"

	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/web/page"
)

// sheetRoutes are the addresses of pour sheets.
func (s *Server) sheetRoutes(r chi.Router) {
	r.Get("/pours/sheets", s.visited(s.showSheets))
	r.Get("/pours/sheets/new", s.visited(s.newSheet))
	r.Post("/pours/sheets/new", s.visited(s.saveNewSheet))
	r.Get("/pours/sheets/left", s.visited(s.showLeft))
	r.Get("/pours/sheets/{id}", s.visited(s.showPourSheet))
	r.Get("/pours/sheets/{id}/edit", s.visited(s.editSheet))
	r.Post("/pours/sheets/{id}/edit", s.visited(s.saveSheet))
	r.Post("/pours/sheets/{id}/tick", s.visited(s.tickSheet))
	r.Post("/pours/sheets/{id}/pour", s.visited(s.pourSheet))
}

// showSheets lists the pour sheets.
func (s *Server) showSheets(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	list, err := s.store.PourSheets(r.Context())
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Pour sheets", "pours"), page.Sheets(page.NewSheetsPage(list, k, v.view)))
}

// sheetView is what the page of a sheet needs beside its boxes.
type sheetView struct {
	visit
	sheet   journal.PourSheet
	made    *journal.Pour
	round   *journal.TestRound
	known   page.Known
	history []journal.Change
}

// pourSheetOf loads the sheet that the address names.
func (s *Server) pourSheetOf(r *http.Request, v visit) (x sheetView, err error) {
	x.visit = v
	id, err := pathID(r, "id")
	if err != nil {
		return x, err
	}
	if x.sheet, err = s.store.PourSheet(r.Context(), id); err != nil {
		return x, err
	}
	if x.sheet.Pour != nil {
		p, err := s.store.Pour(r.Context(), *x.sheet.Pour)
		if err != nil {
			return x, err
		}
		x.made = &p
	}
	if x.sheet.Round != nil {
		round, err := s.store.Round(r.Context(), *x.sheet.Round)
		if err != nil {
			return x, err
		}
		x.round = &round
	}
	if x.known, err = s.stocked(r.Context()); err != nil {
		return x, err
	}
	x.history, err = s.store.History(r.Context(), journal.NounPourSheet, id)
	return x, err
}

func (x sheetView) page(in page.Input) page.SheetPage {
	p := page.NewSheetPage(in, x.sheet, x.made, x.known, x.history, x.view)
	if x.round != nil {
		p.ShowRound(*x.round)
	}
	return p
}

// showPourSheet shows one sheet, to be ticked off.
func (s *Server) showPourSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, err := s.pourSheetOf(r, v)
	if err != nil {
		return err
	}
	p := x.page(s.blank(v, page.SheetTickValues(x.sheet, v.set.Units)))
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Kicker, "pours"), page.Sheet(p))
}

// showLeft says what can be filled with what is left.
func (s *Server) showLeft(w http.ResponseWriter, r *http.Request, v visit) error {
	k, err := s.stocked(r.Context())
	if err != nil {
		return err
	}
	in := page.Input{Values: page.LeftValues(r.URL.Query()), Units: v.set.Units}
	var left *page.LeftInput
	if r.URL.Query().Has("wax") {
		p := form.NewParser(r.URL.Query(), v.set.Units, v.set.Zone())
		read := page.ReadLeft(p, v.set, k)
		left, in.Problems = &read, p.Problems()
	}
	status := http.StatusOK
	if in.Problems.Any() {
		status = http.StatusUnprocessableEntity
	}
	return s.render(w, r, status, s.frame(r, v.set, "What is left", "pours"), page.Left(page.NewLeftPage(in, left, k, v.view)))
}

// sheetStart are the boxes of a new sheet: those of a melt of a round when the
// address names one.
func (s *Server) sheetStart(r *http.Request, v visit, k page.Known) (url.Values, int, error) {
	if round := queryID(r, "round"); round != 0 {
		return s.meltStart(r, v, round)
	}
	lines, _, err := s.store.Pours(r.Context(), 0, 1)
	if err != nil {
		return nil, 0, err
	}
	var last *journal.Pour
	if len(lines) > 0 {
		last = &lines[0].Pour
	}
	return page.NewSheetValues(k, v.set, last), 0, nil
}

func (s *Server) meltStart(r *http.Request, v visit, id journal.ID) (url.Values, int, error) {
	round, err := s.store.Round(r.Context(), id)
	if err != nil {
		return nil, 0, err
	}
	poured, err := s.placesPoured(r.Context(), id)
	if err != nil {
		return nil, 0, err
	}
	melt := int(queryID(r, "melt"))
	if !slices.Contains(round.Melts(), melt) {
		return nil, 0, journal.ErrNotFound
	}
	sheet := round.MeltSheet(melt, v.set, poured...)
	return page.PourSheetValues(sheet, v.set.Units), len(sheet.Body.Lines), nil
}

// placesPoured are the places of a round that have their candle; one that was
// withdrawn, by itself or with its pour, makes room.
func (s *Server) placesPoured(ctx context.Context, round journal.ID) ([]int, error) {
	lines, err := s.store.RoundCandles(ctx, round)
	var out []int
	for _, l := range lines {
		if !l.Life.Gone {
			out = append(out, l.Candle.RoundPlace)
		}
	}
	return out, err
}
