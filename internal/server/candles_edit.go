package server

import (
	"net/http"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// filling is what the form of a pour's new candles needs.
type filling struct {
	visit
	pour    journal.Pour
	earlier []journal.CandleLine
	known   page.Known
}

func (s *Server) fillingOf(r *http.Request) (filling, error) {
	v, err := s.visit(r)
	if err != nil {
		return filling{}, err
	}
	p, err := s.pour(r)
	if err != nil {
		return filling{}, err
	}
	earlier, err := s.store.PourCandles(r.Context(), p.ID)
	if err != nil {
		return filling{}, err
	}
	k, err := s.known(r.Context())
	return filling{v, p, earlier, k}, err
}

// newCandles shows the form that adds candles to a pour.
func (s *Server) newCandles(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fillingOf(r)
	if err != nil {
		return err
	}
	p := page.NewCandlesForm(s.blank(f.visit, page.NewCandleValues(f.known, f.earlier)), f.pour, f.earlier, f.known)
	return s.render(w, r, http.StatusOK, s.frame(r, f.set, p.Title, "pours"), page.CandleForm(p))
}

// saveNewCandles adds one or several candles alike, all or none.
func (s *Server) saveNewCandles(w http.ResponseWriter, r *http.Request) error {
	f, err := s.fillingOf(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, f.visit)
	if err != nil {
		return err
	}
	candles := readCandles(p, f.pour)
	sub := submission{visit: f.visit, parser: p, values: values, said: page.CandlesSaid(page.NextCodes(f.pour, f.earlier, len(candles)))}
	sub.save = func(tx *sqlite.Tx) (string, error) {
		for _, c := range candles {
			if err := tx.SaveCandle(&c); err != nil {
				return "", err
			}
		}
		return "/pours/" + idText(f.pour.ID), nil
	}
	sub.back = func(in page.Input) (string, string, templ.Component, error) {
		form := page.NewCandlesForm(in, f.pour, f.earlier, f.known)
		return form.Title, "pours", page.CandleForm(form), nil
	}
	return s.submit(w, r, sub)
}

// readCandles reads candles that are alike but for their mass: as many as were
// counted, or as have a mass, at least one.
func readCandles(p *form.Parser, pour journal.Pour) []journal.Candle {
	like := form.ReadCandle(p).Candle()
	like.Pour, like.PourNumber = pour.ID, pour.Number
	var masses []*quantity.Grams
	for i := range page.MostAlike {
		masses = append(masses, p.Mass(page.FilledName(i+1)))
	}
	weighed := len(masses)
	for weighed > 0 && masses[weighed-1] == nil {
		weighed--
	}
	n := max(weighed, 1)
	if count := p.Count("count"); count != nil {
		n = *count
		if n < 1 || n > page.MostAlike {
			p.Problem("count", "Between 1 and 12 at once.")
		} else if n < weighed {
			p.Problem("count", "More masses are typed below than candles counted here.")
		}
	}
	var out []journal.Candle
	for i := range min(max(n, 1), page.MostAlike) {
		c := like
		c.Filled = masses[i]
		if c.Filled != nil && (*c.Filled < 1 || *c.Filled > 20000) {
			p.Problem(page.FilledName(i+1), "Between 1 g and 20 kg.")
		}
		out = append(out, c)
	}
	return out
}

// editCandle shows the form around what is recorded.
func (s *Server) editCandle(w http.ResponseWriter, r *http.Request, v visit) error {
	c, err := s.candle(r)
	if err != nil {
		return err
	}
	k, err := s.known(r.Context())
	if err != nil {
		return err
	}
	p := page.NewCandleForm(s.editing(v, page.CandleValues(c, v.set.Units), c.Version), c, k)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "candles"), page.CandleForm(p))
}

// saveCandle corrects a candle.
func (s *Server) saveCandle(w http.ResponseWriter, r *http.Request, v visit) error {
	old, err := s.candle(r)
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
	c := form.ReadCandle(p).Candle()
	c.Meta, c.Pour, c.PourNumber, c.Letter = old.Meta, old.Pour, old.PourNumber, old.Letter
	c.Round, c.RoundPlace = old.Round, old.RoundPlace
	c.Version = postedVersion(values)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The correction is saved; the history keeps what was there before.",
		version: func() (int, error) { return old.Version, nil },
		save:    func(tx *sqlite.Tx) (string, error) { x := c; return "/candles/" + idText(c.ID), tx.SaveCandle(&x) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			f := page.NewCandleForm(in, old, k)
			return f.Title, "candles", page.CandleForm(f), nil
		},
	})
}

// pourAgain writes down another candle of the same pour, with the wick that
// the button names.
func (s *Server) pourAgain(w http.ResponseWriter, r *http.Request, v visit) error {
	like, err := s.candle(r)
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
	wick := p.ID("wick")
	if wick == nil {
		return journal.Invalid("wick", "Choose the wick.")
	}
	c := journal.Candle{Pour: like.Pour, PourNumber: like.PourNumber, Vessel: like.Vessel, Wick: *wick, Wicks: like.Wicks}
	ref, again, err := s.store.Once(lasting(r), onceKey(values), func(tx *sqlite.Tx) (string, error) {
		err := tx.SaveCandle(&c)
		return "/candles/" + idText(c.ID), err
	})
	if err != nil {
		return err
	}
	said := page.AgainSaid(c, like, k, v.view)
	if again {
		said = "That was saved already."
	}
	s.redirect(w, r, ref, said, values.Get("token"))
	return nil
}
