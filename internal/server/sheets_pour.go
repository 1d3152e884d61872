package server

import (
	"net/http"
	"slices"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// ticksSent are the ticks that a form set, and those that it took away.
type ticksSent struct{ on, off []journal.SheetTick }

// readTicks reads the steps that were sent: the one that the script names, or
// all of the page. A tick that the page did not show when it was opened is not
// taken away.
func readTicks(p *form.Parser, x sheetView) ticksSent {
	keys := page.SheetKeys(x.sheet, x.known)
	if only := p.Text("only"); only != "" {
		keys = slices.DeleteFunc(keys, func(k string) bool { return k != only })
		on, off := page.SheetTicks(p, keys)
		return ticksSent{on, off}
	}
	on, off := page.SheetTicks(p, keys)
	was := p.Strings("was")
	return ticksSent{on, slices.DeleteFunc(off, func(t journal.SheetTick) bool { return !slices.Contains(was, t.Key) })}
}

func (t ticksSent) put(body journal.SheetBody) journal.SheetBody {
	for _, x := range t.off {
		body = body.Tick(x, true)
	}
	for _, x := range t.on {
		body = body.Tick(x, false)
	}
	return body
}

// tickSheet keeps what was ticked and what scale and thermometer said.
func (s *Server) tickSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, p, err := s.sheetPosted(r, v)
	if err != nil {
		return err
	}
	ticks := readTicks(p, x)
	save := func(tx *sqlite.Tx) (string, error) {
		now, err := tx.PourSheet(x.sheet.ID)
		if err != nil {
			return "", err
		}
		now.Body = ticks.put(now.Body)
		return "/pours/sheets/" + idText(now.ID), tx.SavePourSheet(&now)
	}
	if r.PostForm.Has("only") {
		return s.tickOne(w, r, p, save)
	}
	return s.submit(w, r, submission{visit: v, parser: p, values: r.PostForm, said: "The ticks are kept.", save: save, back: x.back})
}

// tickOne answers the script: nothing, or in one sentence what is wrong.
func (s *Server) tickOne(w http.ResponseWriter, r *http.Request, p *form.Parser, save func(*sqlite.Tx) (string, error)) error {
	if !p.Problems().Any() {
		err := s.store.Write(lasting(r), func(tx *sqlite.Tx) error { _, err := save(tx); return err })
		if err = p.Merge(err); err != nil {
			return err
		}
	}
	if ps := p.Problems(); ps.Any() {
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		w.WriteHeader(http.StatusUnprocessableEntity)
		_, err := w.Write([]byte(ps[0].Text))
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

func (s *Server) sheetPosted(r *http.Request, v visit) (sheetView, *form.Parser, error) {
	x, err := s.pourSheetOf(r, v)
	if err != nil {
		return x, nil, err
	}
	p, _, err := s.posted(r, v)
	return x, p, err
}

// back is the page of the sheet around what was just sent.
func (x sheetView) back(in page.Input) (string, string, templ.Component, error) {
	p := x.page(in)
	return p.Kicker, "pours", page.Sheet(p), nil
}

// pourSheet makes a pour of a sheet: the pour, its candles, and its casts, all
// of it or nothing, and only once.
func (s *Server) pourSheet(w http.ResponseWriter, r *http.Request, v visit) error {
	x, p, err := s.sheetPosted(r, v)
	if err != nil {
		return err
	}
	ticks := readTicks(p, x)
	if err := s.placesFree(r, p, x); err != nil {
		return err
	}
	return s.submit(w, r, submission{
		visit: v, parser: p, values: r.PostForm, said: page.SheetPouredSaid(x.sheet), back: x.back,
		save: func(tx *sqlite.Tx) (string, error) {
			now, err := tx.PourSheet(x.sheet.ID)
			if err != nil {
				return "", err
			}
			if seen := r.PostForm.Get("seen"); seen != "" && seen != page.SheetSeen(now) {
				return "", journal.Invalid("", page.SheetMoved)
			}
			now.Body = ticks.put(now.Body)
			planned, ok := page.SheetMelts(now, x.known)
			if !ok {
				return "", journal.Invalid("", "This sheet cannot be worked out yet.")
			}
			return pourOf(tx, now, planned, x.known)
		},
	})
}

// pourOf writes the pour of a sheet with all that it filled.
func pourOf(tx *sqlite.Tx, sheet journal.PourSheet, planned []journal.SheetMasses, k page.Known) (string, error) {
	made := sheet.AsPour(tx.Now(), planned)
	made.Note = page.SheetPourNote(sheet, len(planned))
	if err := tx.SavePour(&made); err != nil {
		return "", err
	}
	for _, c := range sheet.Candles(made.ID) {
		if err := tx.SaveCandle(&c); err != nil {
			return "", err
		}
	}
	for _, c := range sheet.Casts(made.ID, k.Cavities) {
		if err := tx.SaveCast(&c); err != nil {
			return "", err
		}
	}
	sheet.Pour = &made.ID
	return "/pours/" + idText(made.ID), tx.SavePourSheet(&sheet)
}

// placesFree says so when a candle of the sheet's places in a round is poured
// already; the journal itself refuses a second one.
func (s *Server) placesFree(r *http.Request, p *form.Parser, x sheetView) error {
	if x.sheet.Round == nil || x.made != nil {
		return nil
	}
	poured, err := s.placesPoured(r.Context(), *x.sheet.Round)
	for _, l := range x.sheet.Body.Lines {
		for _, place := range l.Places {
			if slices.Contains(poured, place) {
				p.Problem("", page.PlacePoured(place))
			}
		}
	}
	return err
}
