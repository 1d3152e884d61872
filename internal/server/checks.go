package server

import (
	"net/http"
	"net/url"
	"time"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// sighting is one candle being looked at: its log, the part of the posted form
// that speaks of it, and what came of saving it.
type sighting struct {
	log    journal.CandleLog
	parser *form.Parser // with the row's prefix
	prefix string
	check  journal.Check
	token  string
	doubts []journal.Doubt
	danger []safety.Finding // act at once
	ref    string           // where the check is shown, once it is saved
	again  bool
}

// read turns the posted part into a check; at is when the candle was looked at.
func (g *sighting) read(v visit, at time.Time) {
	g.check = form.ReadCheck(g.parser).Check()
	g.check.Burn, g.check.At = g.log.OpenBurn().Burn.ID, at
	lim := safety.NewLimits(v.set.Limits)
	g.danger = page.Gravest(safety.OfCheck(g.check, g.log.Made, lim, v.set.Units))
}

// ask finds what is unlikely about the check. Danger is never asked about.
func (g *sighting) ask(s *Server, r *http.Request, asked []string) error {
	if len(g.danger) > 0 {
		return nil
	}
	facts, err := s.store.CheckFacts(r.Context(), g.check)
	if err != nil {
		return err
	}
	if g.check.Validate(facts) != nil {
		return nil // refused inside the transaction, with its reasons
	}
	for _, d := range journal.DoubtsOfCheck(g.check, facts) {
		d.Key, d.Field = g.prefix+d.Key, g.prefix+d.Field
		g.doubts = append(g.doubts, d)
	}
	g.doubts = unanswered(g.doubts, asked)
	return nil
}

// save writes the check once.
func (g *sighting) save(s *Server, r *http.Request) error {
	var err error
	g.ref, g.again, err = s.store.Once(lasting(r), g.token, func(tx *sqlite.Tx) (string, error) {
		c := g.check
		if err := tx.SaveCheck(&c); err != nil {
			return "", err
		}
		return "/checks/" + idText(c.ID) + "/danger", nil
	})
	if err != nil {
		g.ref = ""
	}
	return g.parser.Merge(err)
}

// take passes one sighting through reading, asking and saving. What comes of
// it stands in the sighting and in its parser's problems.
func (s *Server) take(r *http.Request, v visit, g *sighting, at time.Time, asked []string) error {
	before := len(g.parser.Problems())
	g.read(v, at)
	if len(g.parser.Problems()) > before {
		return nil
	}
	if err := g.ask(s, r, asked); err != nil || len(g.doubts) > 0 {
		return err
	}
	return g.save(s, r)
}

// litLog loads a candle that must be lit for the address to mean anything.
func (s *Server) litLog(r *http.Request) (journal.CandleLog, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.CandleLog{}, err
	}
	l, err := s.store.CandleLog(r.Context(), id)
	if err != nil {
		return l, err
	}
	if l.OpenBurn() == nil {
		return l, journal.Invalid("", "Candle "+l.Candle.Code()+" is not lit. A check that was missed can be added from its page, to the burn it belongs to.")
	}
	return l, nil
}

// cautionOf is the line above every form of checks.
func cautionOf(v visit) string {
	return page.DangerLine(safety.NewLimits(v.set.Limits), v.view)
}

// newCheck shows the form of one check.
func (s *Server) newCheck(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.litLog(r)
	if err != nil {
		return err
	}
	p := page.NewCheckPage(s.blank(v, nil), l, cautionOf(v), nil, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Check "+p.Code, "bench"), page.CheckOne(p))
}

// saveNewCheck saves one check. A danger is answered before anything else.
func (s *Server) saveNewCheck(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.litLog(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	at, stamped := s.stamp(p, values)
	g := &sighting{log: l, parser: p, token: onceKey(values)}
	if err := s.take(r, v, g, at, values["asked"]); err != nil {
		return err
	}
	if g.ref == "" {
		return s.checkBack(w, r, v, g, stamped)
	}
	if len(g.danger) > 0 {
		s.redirect(w, r, g.ref, "", values.Get("token"))
		return nil
	}
	s.redirect(w, r, "/", savedText(l.Candle.Code(), g.again), values.Get("token"))
	return nil
}

func savedText(code string, again bool) string {
	if again {
		return "That check of " + code + " was saved already."
	}
	return "Check of " + code + " saved."
}

// checkBack sends the form of one check back, with the danger on top.
func (s *Server) checkBack(w http.ResponseWriter, r *http.Request, v visit, g *sighting, values url.Values) error {
	sub := submission{visit: v, parser: g.parser, values: values}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		p := page.NewCheckPage(in, g.log, cautionOf(v), page.NewDanger(g.danger, g.log.Candle.Code(), ""), v.view)
		return "Check " + p.Code, "bench", page.CheckOne(p), nil
	}
	return s.sendBack(w, r, sub, g.doubts, http.StatusUnprocessableEntity)
}

// stamp finds when the candles were looked at: the typed time of day, or now.
// The values it returns carry that time, so that a form which comes back later
// still means the same moment.
func (s *Server) stamp(p *form.Parser, values url.Values) (time.Time, url.Values) {
	return s.stampAs(p, values, "at_time")
}

// stampAs does the same for a time of day under any name.
func (s *Server) stampAs(p *form.Parser, values url.Values, name string) (time.Time, url.Values) {
	now := s.now().Truncate(time.Minute) // what a box can hold
	if at := p.ClockBefore(name, now); at != nil {
		return *at, values
	}
	if values.Get(name) != "" {
		return now, values // unreadable: the parser has the problem
	}
	kept := url.Values{}
	for k, vs := range values {
		kept[k] = vs
	}
	kept.Set(name, p.ClockText(now))
	return now, kept
}

// showDanger says what to do now about a check that was saved.
func (s *Server) showDanger(w http.ResponseWriter, r *http.Request, v visit) error {
	id, err := pathID(r, "id")
	if err != nil {
		return err
	}
	c, err := s.store.Check(r.Context(), id)
	if err != nil {
		return err
	}
	b, err := s.store.Burn(r.Context(), c.Burn)
	if err != nil {
		return err
	}
	l, err := s.store.CandleLog(r.Context(), b.Candle)
	if err != nil {
		return err
	}
	fs := safety.OfCheck(c, l.Made, safety.NewLimits(v.set.Limits), v.set.Units)
	p := page.NewDangerPage(fs, c, b, l, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Act now", "bench"), page.DangerOne(p))
}
