package server

import (
	"errors"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// settingRoutes are the addresses of how candles set.
func (s *Server) settingRoutes(r chi.Router) {
	r.Get("/pours/{id}/tops", s.visited(s.showTops))
	r.Post("/pours/{id}/tops", s.visited(s.saveTops))
	r.Get("/set-checks/{id}", s.visited(s.showSetCheck))
	r.Get("/set-checks/{id}/edit", s.visited(s.editSetCheck))
	r.Post("/set-checks/{id}/edit", s.visited(s.saveSetCheck))
	r.Get("/settled", s.visited(s.showSettled))
}

// tops is the candles of one pour being looked at.
type tops struct {
	visit
	pour journal.Pour
	logs []journal.CandleLog
	only journal.ID // the one candle that was asked for; 0 for all
}

func (s *Server) topsOf(r *http.Request, v visit) (tops, error) {
	p, err := s.pour(r)
	if err != nil {
		return tops{}, err
	}
	t := tops{visit: v, pour: p, only: queryID(r, "candle")}
	if p.IsGone() {
		return t, nil
	}
	t.logs, err = s.store.PourLogs(r.Context(), p.ID)
	if t.only != 0 {
		t.logs = slices.DeleteFunc(t.logs, func(l journal.CandleLog) bool { return l.Candle.ID != t.only })
	}
	return t, err
}

// showTops shows one row for each candle of the pour.
func (s *Server) showTops(w http.ResponseWriter, r *http.Request, v visit) error {
	t, err := s.topsOf(r, v)
	if err != nil {
		return err
	}
	p := page.NewTopsPage(s.blank(v, nil), t.pour, t.logs, nil, t.only, s.token, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "pours"), page.Tops(p))
}

// topsRow is one candle's row on its way into the journal.
type topsRow struct {
	log   journal.CandleLog
	check journal.SetCheck
	saved bool
}

// saveTops saves every row that was filled in and is right, each by itself; the
// rest come back as they were typed, with the reason beside the field.
func (s *Server) saveTops(w http.ResponseWriter, r *http.Request, v visit) error {
	t, err := s.topsOf(r, v)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	now := s.now().Truncate(time.Minute)
	at := p.LookedAt("at_date", "at_time", now)
	rows, err := s.takeTops(r, t, p, values, at)
	if err != nil {
		return err
	}
	if err := s.topsAstray(r, t, p, values); err != nil {
		return err
	}
	if len(rows) == 0 && !p.Problems().Any() {
		p.Problem("", "Nothing was typed yet. Fill in the row of each candle you looked at, or tick that all are as they should be.")
	}
	if p.Problems().Any() {
		return s.topsBack(w, r, t, p, rows, pinned(p, values, at))
	}
	s.redirect(w, r, "/pours/"+idText(t.pour.ID)+"#setting", saidOf(rows), values.Get("token"))
	return nil
}

// topsAstray says of which candles something was typed that were withdrawn
// since the page was opened: they have no row any more.
func (s *Server) topsAstray(r *http.Request, t tops, p *form.Parser, values url.Values) error {
	lines, err := s.store.PourCandles(r.Context(), t.pour.ID)
	for _, l := range lines {
		if l.Life.Gone && !rowBlank(values, page.TopsPrefix(l.Candle.ID)) {
			p.Problem("", page.TopsAstray(l.Candle.Code()))
		}
	}
	return err
}

// takeTops reads and saves the rows that were filled in.
func (s *Server) takeTops(r *http.Request, t tops, p *form.Parser, values url.Values, at time.Time) ([]*topsRow, error) {
	if p.Problems().Any() { // the time of the look itself
		return nil, nil
	}
	var rows []*topsRow
	for _, l := range t.logs {
		prefix := page.TopsPrefix(l.Candle.ID)
		swept := values.Get("all_fine") != "" && l.Life().Burns == 0 && !l.Life().SetLooked()
		if rowBlank(values, prefix) && !swept {
			continue
		}
		row := &topsRow{log: l}
		rows = append(rows, row)
		if err := s.takeTop(r, row, p, swept, topsKey(values, prefix), at); err != nil {
			return rows, err
		}
	}
	return rows, nil
}

// takeTop reads and saves one row. What is wrong stands in the parser.
func (s *Server) takeTop(r *http.Request, row *topsRow, whole *form.Parser, swept bool, key string, at time.Time) error {
	seen, p := row.log.Vessel.WallSeen(), whole.With(page.TopsPrefix(row.log.Candle.ID))
	c := form.ReadSetCheck(p, seen)
	if len(p.Row()) > 0 {
		return nil
	}
	if swept {
		c = c.AsItShouldBe(seen)
	}
	c.Candle, c.At = row.log.Candle.ID, at
	_, _, err := s.store.Once(lasting(r), key, func(tx *sqlite.Tx) (string, error) {
		x := c
		err := tx.SaveSetCheck(&x)
		return "/set-checks/" + idText(x.ID), err
	})
	row.check, row.saved = c, err == nil
	return mergeTop(err, row.log.Candle.Code(), whole, p)
}

// mergeTop notes what the rules refuse: beside the field of the row, or, where
// the moment that all rows share does not fit this candle, on top with its code.
func mergeTop(err error, code string, whole, p *form.Parser) error {
	var invalid *journal.InvalidError
	if !errors.As(err, &invalid) {
		return err
	}
	for _, x := range invalid.Problems {
		if x.Field == "at" {
			whole.Problem("", code+": "+x.Text)
			continue
		}
		p.Problem(x.Field, x.Text)
	}
	return nil
}

// topsKey is the key of one row's saving: its own token and content, and what
// was said of all rows.
func topsKey(values url.Values, prefix string) string {
	row := url.Values{"token": {values.Get(prefix + "token")}, "at_date": values["at_date"], "at_time": values["at_time"], "all_fine": values["all_fine"]}
	for name, vs := range values {
		if strings.HasPrefix(name, prefix) && name != prefix+"token" {
			row[name] = vs
		}
	}
	return onceKey(row)
}

// pinned is the posted form with the time that an empty one meant, so that rows
// which come back later still mean the same moment.
func pinned(p *form.Parser, values url.Values, at time.Time) url.Values {
	if values.Get("at_time") != "" || values.Get("at_date") != "" {
		return values
	}
	kept := maps.Clone(values)
	kept.Set("at_time", p.ClockText(at))
	return kept
}

// saidOf says which rows were saved.
func saidOf(rows []*topsRow) string {
	var codes, sweating []string
	for _, row := range rows {
		if row.saved {
			codes = append(codes, row.log.Candle.Code())
		}
		if row.saved && row.check.Sweating.Seen() {
			sweating = append(sweating, row.log.Candle.Code())
		}
	}
	return page.TopsSaved(codes, sweating)
}

// topsBack sends the rows back: saved ones say so, wrong ones stay as typed.
func (s *Server) topsBack(w http.ResponseWriter, r *http.Request, t tops, p *form.Parser, rows []*topsRow, values url.Values) error {
	done := map[journal.ID]string{}
	for _, row := range rows {
		if row.saved {
			done[row.log.Candle.ID] = "saved"
		}
	}
	in := s.returned(t.visit, values, p.Problems(), nil)
	back := page.NewTopsPage(in, t.pour, t.logs, done, t.only, s.token, t.view)
	back.Saved = saidOf(rows)
	return s.render(w, r, http.StatusUnprocessableEntity, s.frame(r, t.set, back.Title, "pours"), page.Tops(back))
}
