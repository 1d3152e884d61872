package server

import (
	"net/http"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// burnOf loads the burn that the address names, with its candle.
func (s *Server) burnOf(r *http.Request) (journal.Burn, journal.CandleLog, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.Burn{}, journal.CandleLog{}, err
	}
	b, err := s.store.Burn(r.Context(), id)
	if err != nil {
		return b, journal.CandleLog{}, err
	}
	l, err := s.store.CandleLog(r.Context(), b.Candle)
	return b, l, err
}

// editBurn shows the form that corrects a burn.
func (s *Server) editBurn(w http.ResponseWriter, r *http.Request, v visit) error {
	b, l, err := s.burnOf(r)
	if err != nil {
		return err
	}
	title := page.BurnTitle(b, l.Candle)
	f := page.EditBurnForm(s.editing(v, page.BurnValues(b, v.view), b.Version), b, "/candles/"+idText(l.Candle.ID))
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, title, "candles"), page.FormOf(title, correctLede, f))
}

// saveBurn corrects a burn.
func (s *Server) saveBurn(w http.ResponseWriter, r *http.Request, v visit) error {
	old, l, err := s.burnOf(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	b := form.ReadBurn(p).Burn()
	b.Meta, b.Candle, b.Sitting, b.Number = old.Meta, old.Candle, old.Sitting, old.Number
	b.Version = postedVersion(values)
	title, back := page.BurnTitle(old, l.Candle), "/candles/"+idText(l.Candle.ID)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The correction is saved; the history keeps what was there before.",
		doubts: func() ([]journal.Doubt, error) {
			facts, err := s.store.BurnFacts(r.Context(), b)
			return doubtsOfBurn(b, l.Candle.Wicks, facts), err
		},
		save:    func(tx *sqlite.Tx) (string, error) { x := b; return back, tx.SaveBurn(&x) },
		version: func() (int, error) { return old.Version, nil },
		back: func(in page.Input) (string, string, templ.Component, error) {
			return title, "candles", page.FormOf(title, correctLede, page.EditBurnForm(in, old, back)), nil
		},
	})
}

// doubtsOfBurn asks about a burn that keeps the rules; one that does not is
// refused inside the transaction, with its reasons.
func doubtsOfBurn(b journal.Burn, wicks int, facts journal.BurnFacts) []journal.Doubt {
	if b.Validate(facts) != nil {
		return nil
	}
	ds := journal.DoubtsOfBurn(b, wicks, facts)
	for i := range ds {
		ds[i].Field = form.FieldOf(ds[i].Field)
	}
	return ds
}

// checkOf loads the check that the address names, with its candle.
func (s *Server) checkOf(r *http.Request) (journal.Check, journal.CandleLog, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.Check{}, journal.CandleLog{}, err
	}
	c, err := s.store.Check(r.Context(), id)
	if err != nil {
		return c, journal.CandleLog{}, err
	}
	b, err := s.store.Burn(r.Context(), c.Burn)
	if err != nil {
		return c, journal.CandleLog{}, err
	}
	l, err := s.store.CandleLog(r.Context(), b.Candle)
	return c, l, err
}

// editCheck shows the form that corrects a check.
func (s *Server) editCheck(w http.ResponseWriter, r *http.Request, v visit) error {
	c, l, err := s.checkOf(r)
	if err != nil {
		return err
	}
	title := page.CheckTitle(c, l)
	values, lede := page.CheckValues(c, v.view), correctLede
	offered := page.WithOffer(values, r.URL.Query())
	f := page.EditCheckForm(s.editing(v, values, c.Version), "/checks/"+idText(c.ID)+"/edit", l)
	if offered { // an older draft must not push the offer aside
		f.Draft, lede = r.URL.RequestURI(), page.OfferLede
	}
	photos, err := s.photoPart(r, journal.NounCheck, c.ID)
	if err != nil {
		return err
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, title, "candles"), page.WithPhotos(page.FormOf(title, lede, f), photos))
}

// saveCheck corrects a check.
func (s *Server) saveCheck(w http.ResponseWriter, r *http.Request) error {
	c, l, err := s.checkOf(r)
	if err != nil {
		return err
	}
	return s.submitCheck(w, r, c, l, "/checks/"+idText(c.ID)+"/edit")
}

// addCheck shows the form of a check that was missed, for a burn that may be
// over.
func (s *Server) addCheck(w http.ResponseWriter, r *http.Request, v visit) error {
	b, l, err := s.burnOf(r)
	if err != nil {
		return err
	}
	c := journal.Check{Burn: b.ID, At: b.LitAt}
	title := page.CheckTitle(c, l)
	f := page.EditCheckForm(s.blank(v, page.CheckValues(c, v.view)), "/burns/"+idText(b.ID)+"/checks/new", l)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, title, "candles"), page.FormOf(title, page.AddedCheckLede(b, v.view), f))
}

// saveAddedCheck saves a check that was missed.
func (s *Server) saveAddedCheck(w http.ResponseWriter, r *http.Request) error {
	b, l, err := s.burnOf(r)
	if err != nil {
		return err
	}
	return s.submitCheck(w, r, journal.Check{Burn: b.ID, At: b.LitAt}, l, "/burns/"+idText(b.ID)+"/checks/new")
}

// submitCheck saves a check with its date and time; old has no ID when it is
// added.
func (s *Server) submitCheck(w http.ResponseWriter, r *http.Request, old journal.Check, l journal.CandleLog, action string) error {
	v, err := s.visit(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	c := form.ReadCheck(p).Check()
	c.Meta, c.Burn = old.Meta, old.Burn
	title, back := page.CheckTitle(old, l), "/candles/"+idText(l.Candle.ID)
	sub := submission{visit: v, parser: p, values: values, said: "The check is saved; the history keeps what was there before."}
	if old.ID != 0 {
		c.Version = postedVersion(values)
		sub.version = func() (int, error) { return old.Version, nil }
	}
	sub.doubts = func() ([]journal.Doubt, error) { return s.doubtsOfCheck(r, c) }
	sub.save = func(tx *sqlite.Tx) (string, error) {
		x := c
		err := tx.SaveCheck(&x)
		return s.afterCheck(v, x, l, back), err
	}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		return title, "candles", page.FormOf(title, "", page.EditCheckForm(in, action, l)), nil
	}
	return s.submit(w, r, sub)
}

// doubtsOfCheck asks about a check that passes the rules.
func (s *Server) doubtsOfCheck(r *http.Request, c journal.Check) ([]journal.Doubt, error) {
	facts, err := s.store.CheckFacts(r.Context(), c)
	if err != nil || c.Validate(facts) != nil {
		return nil, err
	}
	return journal.DoubtsOfCheck(c, facts), nil
}

// afterCheck is where a saved check leads: to what must be done now while the
// candle burns, else to the candle.
func (s *Server) afterCheck(v visit, c journal.Check, l journal.CandleLog, back string) string {
	if open := l.OpenBurn(); open == nil || open.Burn.ID != c.Burn {
		return back
	}
	for _, f := range safety.OfCheck(c, l.Made, safety.NewLimits(v.set.Limits), v.set.Units) {
		if f.Now {
			return "/checks/" + idText(c.ID) + "/danger"
		}
	}
	return back
}
