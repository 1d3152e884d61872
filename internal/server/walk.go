package server

import (
	"net/http"
	"net/url"
	"time"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/page"
)

// showWalk shows one row for each lit candle.
func (s *Server) showWalk(w http.ResponseWriter, r *http.Request, v visit) error {
	lit, err := s.store.LitLogs(r.Context())
	if err != nil {
		return err
	}
	p := page.NewWalkPage(s.blank(v, nil), lit, nil, s.token, cautionOf(v), v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Walk the bench", "bench"), page.Walk(p))
}

// saveWalk saves every row that was filled in and is right, each by itself;
// the rest come back as they were typed, with the reason beside the field.
func (s *Server) saveWalk(w http.ResponseWriter, r *http.Request, v visit) error {
	lit, err := s.store.LitLogs(r.Context())
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	at, stamped := s.stamp(p, values)
	rows, err := s.takeRows(r, v, p, lit, values, at)
	if err != nil {
		return err
	}
	if len(rows) == 0 && !p.Problems().Any() {
		p.Problem("", "Nothing was typed yet. Fill in the row of each candle you looked at.")
	}
	if p.Problems().Any() || anyDoubt(rows) {
		return s.walkBack(w, r, v, p, lit, rows, stamped, at)
	}
	return s.walkDone(w, r, rows, values)
}

// takeRows reads and saves the rows that were filled in.
func (s *Server) takeRows(r *http.Request, v visit, p *form.Parser, lit []journal.CandleLog, values url.Values, at time.Time) ([]*sighting, error) {
	var rows []*sighting
	if p.Problems().Any() { // the time of the walk itself
		return nil, nil
	}
	for _, l := range lit {
		prefix := page.RowPrefix(l.OpenBurn().Burn.ID)
		if rowBlank(values, prefix) {
			continue
		}
		g := &sighting{log: l, parser: p.With(prefix), prefix: prefix, token: rowKey(values, prefix)}
		if err := s.take(r, v, g, at, values["asked"]); err != nil {
			return rows, err
		}
		rows = append(rows, g)
	}
	return rows, nil
}

// rowBlank reports whether nothing was typed or ticked in a row.
func rowBlank(values url.Values, prefix string) bool {
	for name, vs := range values {
		if len(name) > len(prefix) && name[:len(prefix)] == prefix && name != prefix+"token" {
			for _, v := range vs {
				if v != "" {
					return false
				}
			}
		}
	}
	return true
}

// rowKey is the key of one row's saving: its own token and content, and the
// time of the walk.
func rowKey(values url.Values, prefix string) string {
	row := url.Values{"token": {values.Get(prefix + "token")}, "at_time": values["at_time"]}
	for name, vs := range values {
		if len(name) > len(prefix) && name[:len(prefix)] == prefix && name != prefix+"token" {
			row[name] = vs
		}
	}
	return onceKey(row)
}

func anyDoubt(rows []*sighting) bool {
	for _, g := range rows {
		if len(g.doubts) > 0 {
			return true
		}
	}
	return false
}

// walkDone goes on after every row was saved: to what must be done now, or to
// the bench.
func (s *Server) walkDone(w http.ResponseWriter, r *http.Request, rows []*sighting, values url.Values) error {
	var codes []string
	for _, g := range rows {
		codes = append(codes, g.log.Candle.Code())
	}
	to := "/"
	for _, g := range rows {
		if len(g.danger) > 0 {
			to = g.ref
			break
		}
	}
	s.redirect(w, r, to, page.WalkSaved(codes), values.Get("token"))
	return nil
}

// walkBack sends the walk back: saved rows say so, wrong rows stay as typed,
// and a danger is answered on top of everything.
func (s *Server) walkBack(w http.ResponseWriter, r *http.Request, v visit, p *form.Parser, lit []journal.CandleLog, rows []*sighting, values url.Values, at time.Time) error {
	done, codes := map[journal.ID]time.Time{}, []string(nil)
	var doubts []journal.Doubt
	var danger []safety.Finding
	var where string
	for _, g := range rows {
		doubts = append(doubts, g.doubts...)
		if len(g.danger) > 0 {
			danger, where = append(danger, g.danger...), joinCodes(where, g.log.Candle.Code())
		}
		if g.ref != "" {
			done[g.log.OpenBurn().Burn.ID] = at
			codes = append(codes, g.log.Candle.Code())
		}
	}
	in := s.returned(v, values, p.Problems(), doubts)
	walk := page.NewWalkPage(in, lit, done, s.token, cautionOf(v), v.view)
	walk.Danger, walk.Saved = page.NewDanger(danger, where, ""), page.WalkSaved(codes)
	return s.render(w, r, http.StatusUnprocessableEntity, s.frame(r, v.set, "Walk the bench", "bench"), page.Walk(walk))
}

func joinCodes(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}
