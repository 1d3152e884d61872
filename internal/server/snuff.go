package server

import (
	"net/http"
	"net/url"
	"time"

	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// burnRoutes are the addresses of burns: lighting, putting out, weighing,
// copying from paper, correcting.
func (s *Server) burnRoutes(r chi.Router) {
	r.Get("/light", s.visited(s.showLight))
	r.Post("/light", s.visited(s.saveLight))
	r.Get("/snuff", s.visited(s.showSnuff))
	r.Post("/snuff", s.visited(s.saveSnuff))
	r.Get("/burns/{id}/snuff", s.visited(s.showSnuff))
	r.Post("/burns/{id}/snuff", s.visited(s.saveSnuff))
	r.Get("/weigh", s.visited(s.showWeigh))
	r.Post("/weigh", s.visited(s.saveWeigh))
	r.Get("/candles/{id}/paper", s.visited(s.showPaper))
	r.Post("/candles/{id}/paper", s.visited(s.savePaper))
	r.Get("/burns/{id}/edit", s.visited(s.editBurn))
	r.Post("/burns/{id}/edit", s.visited(s.saveBurn))
	r.Get("/burns/{id}/checks/new", s.visited(s.addCheck))
	r.Post("/burns/{id}/checks/new", s.handle(s.saveAddedCheck))
	r.Get("/checks/{id}/edit", s.visited(s.editCheck))
	r.Post("/checks/{id}/edit", s.handle(s.saveCheck))
}

// toSnuff are the lit candles that the address means: one burn, or all.
func (s *Server) toSnuff(r *http.Request) (lit []journal.CandleLog, action string, err error) {
	all, err := s.store.LitLogs(r.Context())
	if err != nil || chi.URLParam(r, "id") == "" {
		return all, "/snuff", err
	}
	id, err := pathID(r, "id")
	if err != nil {
		return nil, "", err
	}
	for _, l := range all {
		if l.OpenBurn().Burn.ID == id {
			return []journal.CandleLog{l}, "/burns/" + idText(id) + "/snuff", nil
		}
	}
	return nil, "", journal.Invalid("", "That burn is over already. It can be corrected from the candle's page.")
}

// showSnuff shows the rows of candles to put out, ticked.
func (s *Server) showSnuff(w http.ResponseWriter, r *http.Request, v visit) error {
	lit, action, err := s.toSnuff(r)
	if err != nil {
		return err
	}
	values := url.Values{}
	for _, l := range lit {
		prefix := page.RowPrefix(l.OpenBurn().Burn.ID)
		values.Set(prefix+"pick", "1")
		values.Set(prefix+"ending", r.URL.Query().Get("ending"))
	}
	p := page.NewSnuffPage(s.blank(v, values), lit, action, s.token, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "bench"), page.Snuff(p))
}

// quenching is one burn that is ended or weighed by a row.
type quenching struct {
	parser *form.Parser
	prefix string
	token  string
	code   string
	wicks  int
	burn   journal.Burn
	doubts []journal.Doubt
	saved  bool
}

// saveSnuff ends every ticked burn, each by itself; rows that are wrong come
// back.
func (s *Server) saveSnuff(w http.ResponseWriter, r *http.Request, v visit) error {
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	lit, action, err := s.toSnuff(r)
	if err != nil {
		return s.snuffedAlready(w, r, values, err)
	}
	at, stamped := s.stampAs(p, values, "out_time")
	rows, err := s.snuffRows(r, p, lit, values, at)
	if err != nil {
		return err
	}
	if len(rows) == 0 && !p.Problems().Any() {
		p.Problem("", "Tick the candles that are out.")
	}
	return s.rowsDone(w, r, v, p, rows, stamped, values, func(in page.Input) (page.SnuffPage, error) {
		left, err := s.store.LitLogs(r.Context())
		return page.NewSnuffPage(in, keepRows(left, rows, lit), action, s.token, v.view), err
	})
}

// snuffedAlready answers a second click on a burn that the first click ended.
func (s *Server) snuffedAlready(w http.ResponseWriter, r *http.Request, values url.Values, err error) error {
	id, perr := pathID(r, "id")
	if perr != nil {
		return err
	}
	b, berr := s.store.Burn(r.Context(), id)
	if berr != nil || b.Lit() {
		return err
	}
	s.redirect(w, r, "/candles/"+idText(b.Candle), "That burn is over already.", values.Get("token"))
	return nil
}

// keepRows drops the rows that were saved from the page that comes back.
func keepRows(left []journal.CandleLog, rows []*quenching, lit []journal.CandleLog) []journal.CandleLog {
	meant := map[journal.ID]bool{}
	for _, l := range lit {
		meant[l.Candle.ID] = true
	}
	var out []journal.CandleLog
	for _, l := range left {
		if meant[l.Candle.ID] {
			out = append(out, l)
		}
	}
	return out
}

func (s *Server) snuffRows(r *http.Request, p *form.Parser, lit []journal.CandleLog, values url.Values, at time.Time) ([]*quenching, error) {
	var rows []*quenching
	if p.Problems().Any() {
		return nil, nil
	}
	for _, l := range lit {
		b := l.OpenBurn().Burn
		q := &quenching{parser: p.With(page.RowPrefix(b.ID)), prefix: page.RowPrefix(b.ID), code: l.Candle.Code(), wicks: l.Candle.Wicks, burn: b}
		if !q.parser.Flag("pick") {
			continue
		}
		out := at
		if !out.After(b.LitAt) && b.LitAt.Sub(out) < time.Minute {
			out = s.now() // put out within the minute of lighting
		}
		q.burn.OutAt = &out
		q.burn.MassAfter, q.burn.AfterSmoke = q.parser.Mass("mass_after"), q.parser.Seconds("after_smoke")
		q.burn.Ending = journal.Ending(q.parser.Choice("ending", "", "snuffed", "went out", "put out for safety", "spent"))
		if q.burn.Ending == "" {
			q.burn.Ending = journal.Snuffed
		}
		if note := q.parser.Text("note"); note != "" {
			q.burn.Note = joinNotes(q.burn.Note, note)
		}
		q.token = rowKey(values, q.prefix)
		if err := s.quench(r, q, values["asked"]); err != nil {
			return rows, err
		}
		rows = append(rows, q)
	}
	return rows, nil
}

func joinNotes(a, b string) string {
	if a == "" {
		return b
	}
	return a + "\n" + b
}

// quench asks about one row, then saves it.
func (s *Server) quench(r *http.Request, q *quenching, asked []string) error {
	if q.parser.Row().Any() {
		return nil
	}
	facts, err := s.store.BurnFacts(r.Context(), q.burn)
	if err != nil {
		return err
	}
	for _, d := range doubtsOfBurn(q.burn, q.wicks, facts) {
		d.Key, d.Field = q.prefix+d.Key, q.prefix+d.Field
		q.doubts = append(q.doubts, d)
	}
	if q.doubts = unanswered(q.doubts, asked); len(q.doubts) > 0 {
		return nil
	}
	_, _, err = s.store.Once(lasting(r), q.token, func(tx *sqlite.Tx) (string, error) {
		b := q.burn
		return "/", tx.SaveBurn(&b)
	})
	q.saved = err == nil
	return q.parser.Merge(err)
}

// rowsDone ends a form of rows: on to the bench, or back with what is wrong.
func (s *Server) rowsDone(w http.ResponseWriter, r *http.Request, v visit, p *form.Parser, rows []*quenching, stamped, values url.Values, back func(page.Input) (page.SnuffPage, error)) error {
	var codes []string
	var doubts []journal.Doubt
	for _, q := range rows {
		doubts = append(doubts, q.doubts...)
		if q.saved {
			codes = append(codes, q.code)
		}
	}
	if !p.Problems().Any() && len(doubts) == 0 {
		s.redirect(w, r, "/", page.RowsSaved(codes), values.Get("token"))
		return nil
	}
	snuff, err := back(s.returned(v, stamped, p.Problems(), doubts))
	if err != nil {
		return err
	}
	snuff.Saved = page.RowsSaved(codes)
	return s.render(w, r, http.StatusUnprocessableEntity, s.frame(r, v.set, snuff.Title, "bench"), page.Snuff(snuff))
}

// showWeigh lists the burns whose candles were not weighed since.
func (s *Server) showWeigh(w http.ResponseWriter, r *http.Request, v visit) error {
	cold, err := s.store.Cold(r.Context(), coldShown)
	if err != nil {
		return err
	}
	p := page.NewWeighPage(s.blank(v, nil), cold, s.token, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "bench"), page.Snuff(p))
}

// saveWeigh saves the masses that were typed, each by itself.
func (s *Server) saveWeigh(w http.ResponseWriter, r *http.Request, v visit) error {
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	cold, err := s.store.Cold(r.Context(), coldShown)
	if err != nil {
		return err
	}
	var rows []*quenching
	for _, c := range cold {
		prefix := page.RowPrefix(c.Burn.ID)
		if values.Get(prefix+"mass_after") == "" {
			continue
		}
		q := &quenching{parser: p.With(prefix), prefix: prefix, code: c.Candle.Code(), wicks: c.Candle.Wicks, burn: c.Burn, token: rowKey(values, prefix)}
		q.burn.MassAfter = q.parser.Mass("mass_after")
		if err := s.quench(r, q, values["asked"]); err != nil {
			return err
		}
		rows = append(rows, q)
	}
	if len(rows) == 0 && !p.Problems().Any() && len(cold) > 0 {
		p.Problem("", "No mass was typed yet.")
	}
	return s.rowsDone(w, r, v, p, rows, values, values, func(in page.Input) (page.SnuffPage, error) {
		left, err := s.store.Cold(r.Context(), coldShown)
		return page.NewWeighPage(in, left, s.token, v.view), err
	})
}
