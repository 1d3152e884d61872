package server

import (
	"net/http"
	"net/url"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// candleLog loads the candle that the address names.
func (s *Server) candleLog(r *http.Request) (journal.CandleLog, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.CandleLog{}, err
	}
	return s.store.CandleLog(r.Context(), id)
}

// showPaper shows the sheet that a burn is copied from paper with.
func (s *Server) showPaper(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.candleLog(r)
	if err != nil {
		return err
	}
	values := url.Values{"ending": {string(journal.Snuffed)}, "lit_date": {v.view.DateBox(v.view.Now)}}
	p := page.NewPaperPage(s.blank(v, values), l, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "A burn from paper", "candles"), page.Paper(p))
}

// paperSheet is a burn with its checks, read from one form.
type paperSheet struct {
	log  journal.CandleLog
	burn journal.Burn
	rows []paperCheck
}

// paperCheck is one row of the sheet.
type paperCheck struct {
	parser *form.Parser
	prefix string
	check  journal.Check
}

// readSheet reads a burn and its checks. A date of going out that was left
// empty is the first such time after lighting.
func readSheet(p *form.Parser, values url.Values, l journal.CandleLog) paperSheet {
	in := form.ReadBurn(p)
	sheet := paperSheet{log: l, burn: in.Burn()}
	sheet.burn.Candle = l.Candle.ID
	if p.Problems().For("lit_time") != "" || sheet.burn.LitAt.IsZero() {
		return sheet
	}
	for i := 1; i <= page.PaperRows; i++ {
		prefix := page.PaperPrefix(i)
		if rowBlank(values, prefix) {
			continue
		}
		row := p.With(prefix)
		c := paperCheck{row, prefix, journal.Check{}}
		row.Require("at_time", "Say when this check was made.")
		at := row.ClockAfter("at_time", sheet.burn.LitAt)
		c.check = form.ReadCheckAt(row, at).Check()
		if at != nil {
			c.check.At = *at
		}
		sheet.rows = append(sheet.rows, c)
	}
	return sheet
}

// doubts asks about the burn and about each check beside those before it.
func (sheet paperSheet) doubts(s *Server, r *http.Request, v visit) ([]journal.Doubt, error) {
	facts, err := s.store.BurnFacts(r.Context(), sheet.burn)
	if err != nil {
		return nil, err
	}
	out := doubtsOfBurn(sheet.burn, sheet.log.Candle.Wicks, facts)
	var before []journal.Check
	for _, row := range sheet.rows {
		f := journal.CheckFacts{Now: v.view.Now, Burn: sheet.burn, Vessel: sheet.log.Vessel, Wicks: sheet.log.Candle.Wicks, Ruler: v.set.Ruler, Others: before}
		if row.check.Validate(f) != nil {
			return nil, nil // refused inside the transaction, with its reasons
		}
		for _, d := range journal.DoubtsOfCheck(row.check, f) {
			d.Key, d.Field = row.prefix+d.Key, row.prefix+d.Field
			out = append(out, d)
		}
		c := row.check
		c.ID = journal.ID(-1 - len(before)) // not yet saved, yet told apart
		before = append(before, c)
	}
	return out, nil
}

// save writes the burn with its checks, or nothing.
func (sheet paperSheet) save(tx *sqlite.Tx) error {
	b := sheet.burn
	if err := tx.SaveBurn(&b); err != nil {
		return err
	}
	for _, row := range sheet.rows {
		c := row.check
		c.Burn = b.ID
		if err := tx.SaveCheck(&c); err != nil {
			return rowError{row.parser, err}
		}
	}
	return nil
}

// savePaper saves a burn copied from paper.
func (s *Server) savePaper(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.candleLog(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	sheet := readSheet(p, values, l)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The burn is copied into the journal.",
		doubts: func() ([]journal.Doubt, error) { return sheet.doubts(s, r, v) },
		save: func(tx *sqlite.Tx) (string, error) {
			return "/candles/" + idText(l.Candle.ID), sheet.save(tx)
		},
		back: func(in page.Input) (string, string, templ.Component, error) {
			return "A burn from paper", "candles", page.Paper(page.NewPaperPage(in, l, v.view)), nil
		},
	})
}
