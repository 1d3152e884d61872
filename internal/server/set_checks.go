package server

import (
	"net/http"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/settle"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// setCheckOf loads the set check that the address names, with its candle.
func (s *Server) setCheckOf(r *http.Request) (journal.SetCheck, journal.CandleLog, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.SetCheck{}, journal.CandleLog{}, err
	}
	return s.setCheck(r, id)
}

func (s *Server) setCheck(r *http.Request, id journal.ID) (journal.SetCheck, journal.CandleLog, error) {
	x, err := s.store.SetCheck(r.Context(), id)
	if err != nil {
		return x, journal.CandleLog{}, err
	}
	l, err := s.store.CandleLog(r.Context(), x.Candle)
	return x, l, err
}

// setCheckSubject is a set check as photos show it.
func (s *Server) setCheckSubject(r *http.Request, id journal.ID) (page.PhotoSubject, error) {
	x, l, err := s.setCheck(r, id)
	return page.SetCheckSubject(x, l), err
}

// withdrawableSetCheck is a set check that may be taken out of the count.
func (s *Server) withdrawableSetCheck(r *http.Request, id journal.ID) (page.Withdrawable, error) {
	x, l, err := s.setCheck(r, id)
	return page.WithdrawableSetCheck(x, l.Candle), err
}

// showSetCheck shows one set check with its photos and its history.
func (s *Server) showSetCheck(w http.ResponseWriter, r *http.Request, v visit) error {
	x, l, err := s.setCheckOf(r)
	if err != nil {
		return err
	}
	h, err := s.store.History(r.Context(), journal.NounSetCheck, x.ID)
	if err != nil {
		return err
	}
	list, err := s.store.PhotosOf(r.Context(), journal.NounSetCheck, x.ID)
	if err != nil {
		return err
	}
	p := page.NewSetCheckPage(x, l, h, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "candles"), page.SetCheckWhole(p, page.NewPhotoPart(page.SetCheckSubject(x, l), list)))
}

// editSetCheck shows the form that corrects a set check.
func (s *Server) editSetCheck(w http.ResponseWriter, r *http.Request, v visit) error {
	x, l, err := s.setCheckOf(r)
	if err != nil {
		return err
	}
	title := "Correct the set check of " + l.Candle.Code()
	f := page.SetCheckForm(s.editing(v, page.SetCheckValues(x, v.view), x.Version), x)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, title, "candles"), page.FormOf(title, correctLede, f))
}

// saveSetCheck corrects a set check.
func (s *Server) saveSetCheck(w http.ResponseWriter, r *http.Request, v visit) error {
	old, l, err := s.setCheckOf(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x := form.ReadSetCheck(p, l.Vessel.WallSeen())
	if at := p.Moment("at_date", "at_time"); at != nil {
		x.At = *at
	} else {
		p.Require("at_time", "Say when it was looked at.")
	}
	x.Meta, x.Candle = old.Meta, old.Candle
	x.Version = postedVersion(values)
	title, back := "Correct the set check of "+l.Candle.Code(), "/set-checks/"+idText(old.ID)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The correction is saved; the history keeps what was there before.",
		version: func() (int, error) { return old.Version, nil },
		save:    func(tx *sqlite.Tx) (string, error) { y := x; return back, tx.SaveSetCheck(&y) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			return title, "candles", page.FormOf(title, correctLede, page.SetCheckForm(in, old)), nil
		},
	})
}

// showSettled shows how candles set, wax by wax.
func (s *Server) showSettled(w http.ResponseWriter, r *http.Request, v visit) error {
	only := queryID(r, "wax")
	logs, err := s.store.SettingLogs(r.Context(), only)
	if err != nil {
		return err
	}
	p := page.NewSettledPage(settle.ByWax(logs, v.view.Now), only, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "How candles set", "pours"), page.Settled(p))
}

// pourSetting is the part of a pour's page about how its candles set.
func (s *Server) pourSetting(r *http.Request, p journal.Pour, v visit) (*page.SettingPart, error) {
	logs, err := s.store.PourLogs(r.Context(), p.ID)
	return page.NewPourSetting(logs, v.view), err
}
