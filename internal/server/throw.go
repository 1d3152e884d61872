package server

import (
	"cmp"
	"context"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"github.com/a-h/templ"
	"github.com/go-chi/chi/v5"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/throw"
	"rimward/web/page"
)

// throwRoutes are the addresses of smellings.
func (s *Server) throwRoutes(r chi.Router) {
	r.Get("/throw", s.visited(s.showSmellings))
	r.Get("/throw/new", s.visited(s.newSmelling))
	r.Post("/throw/new", s.visited(s.saveNewSmelling))
	r.Get("/throw/{id}", s.visited(s.showSmelling))
	r.Post("/throw/{id}/scores", s.visited(s.saveScores))
	r.Get("/throw/{id}/edit", s.visited(s.editSmelling))
	r.Post("/throw/{id}/edit", s.visited(s.saveSmelling))
	r.Get("/throw/{id}/uncover", s.visited(s.askUncover))
	r.Post("/throw/{id}/uncover", s.visited(s.uncover))
	r.Get("/throw/{id}/labels", s.visited(s.showLabels))
}

// How long the lists are.
const (
	smellingsShown = 40
	smellable      = 40 // candles beside those that are lit
)

// showSmellings lists the smellings, the latest first.
func (s *Server) showSmellings(w http.ResponseWriter, r *http.Request, v visit) error {
	before := queryID(r, "before")
	lines, more, err := s.store.Smellings(r.Context(), before, smellingsShown)
	if err != nil {
		return err
	}
	p := page.NewSmellingsPage(lines, more, before, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Throw", "candles"), page.Smellings(p))
}

// candidates are the candles that could be smelled: those that are lit, the
// one that the address asks for, and those that wait for the next match.
func (s *Server) candidates(r *http.Request, v visit) ([]page.CupCandidate, error) {
	logs, err := s.store.LitLogs(r.Context())
	if err != nil {
		return nil, err
	}
	var out []page.CupCandidate
	seen := map[journal.ID]bool{}
	add := func(c journal.CandleLine, lit *quantity.Minutes) {
		if !seen[c.Candle.ID] {
			seen[c.Candle.ID] = true
			out = append(out, page.CupCandidate{Line: c, Lit: lit})
		}
	}
	for _, l := range logs {
		m := quantity.Minutes(l.OpenBurn().Burn.Lasted(v.view.Now) * 60)
		add(lineOf(l), &m)
	}
	if id := queryID(r, "candle"); id != 0 && !seen[id] {
		l, err := s.store.CandleLog(r.Context(), id)
		if err != nil {
			return nil, err
		}
		add(lineOf(l), nil)
	}
	waiting, err := s.store.Waiting(r.Context(), smellable)
	for _, c := range waiting {
		add(c, nil)
	}
	return out, err
}

// lineOf is a candle as a list shows it.
func lineOf(l journal.CandleLog) journal.CandleLine {
	return journal.CandleLine{Candle: l.Candle, WaxName: l.Wax.Name, VesselName: l.Vessel.Name, WickName: l.WickName(), Life: l.Life()}
}

// newSmelling shows the form that begins a smelling; ?candle= ticks one.
func (s *Server) newSmelling(w http.ResponseWriter, r *http.Request, v visit) error {
	cands, err := s.candidates(r, v)
	if err != nil {
		return err
	}
	in := s.blank(v, page.NewSmellingValues(cands, queryID(r, "candle"), v.view))
	p := page.NewSmellingForm(in, cands, r.URL.RequestURI(), v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "New smelling", "candles"), page.SmellingForm(p))
}

// chosenCup is a candle that was ticked.
type chosenCup struct {
	parser *form.Parser
	cup    journal.Cup
}

// saveNewSmelling begins a smelling: it and its cups are written, or nothing.
func (s *Server) saveNewSmelling(w http.ResponseWriter, r *http.Request, v visit) error {
	cands, err := s.candidates(r, v)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x := form.ReadSmelling(p).Smelling()
	chosen := chosenCups(p, cands, x.Kind)
	switch ticked := ticks(values); {
	case ticked == 0:
		p.Problem("", "Tick the candles that are smelled, one at least.")
	case ticked > len(chosen):
		p.Problem("", "A candle that was ticked cannot be smelled any more. Look at the list again.")
	}
	codes := throw.Codes(min(len(chosen), journal.MostCups), s.draw)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The smelling has begun. Hand the sheet to the first nose.",
		doubts: func() ([]journal.Doubt, error) { return s.doubtsOfSmelling(r.Context(), x, chosen) },
		save:   func(tx *sqlite.Tx) (string, error) { return beginSmelling(tx, x, chosen, codes) },
		back: func(in page.Input) (string, string, templ.Component, error) {
			return "New smelling", "candles", page.SmellingForm(page.NewSmellingForm(in, cands, r.URL.RequestURI(), v.view)), nil
		},
	})
}

// ticks counts the rows that were ticked, whether they are offered or not.
func ticks(values url.Values) int {
	n := 0
	for name := range values {
		if strings.HasSuffix(name, ".pick") && values.Get(name) != "" {
			n++
		}
	}
	return n
}

// chosenCups reads the rows that were ticked. A cold throw has no minutes.
func chosenCups(p *form.Parser, cands []page.CupCandidate, kind journal.ThrowKind) []chosenCup {
	var out []chosenCup
	for _, c := range cands {
		row := p.With(page.CupPrefix(c.Line.Candle.ID))
		if !row.Flag("pick") {
			continue
		}
		cup := journal.Cup{Candle: c.Line.Candle.ID}
		if kind == journal.HotThrow {
			cup.Minutes = row.Minutes("minutes")
		}
		out = append(out, chosenCup{row, cup})
	}
	slices.SortFunc(out, func(a, b chosenCup) int { return cmp.Compare(a.cup.Candle, b.cup.Candle) })
	if len(out) > journal.MostCups {
		p.Problem("", "At most 12 candles in one smelling. A nose tires long before.")
	}
	return out
}

func (s *Server) doubtsOfSmelling(ctx context.Context, x journal.Smelling, chosen []chosenCup) ([]journal.Doubt, error) {
	var logs []journal.CandleLog
	for _, c := range chosen {
		l, err := s.store.CandleLog(ctx, c.cup.Candle)
		if err != nil {
			return nil, err
		}
		logs = append(logs, l)
	}
	return journal.DoubtsOfSmelling(x, logs), nil
}

// beginSmelling writes a smelling with a cup for each candle.
func beginSmelling(tx *sqlite.Tx, x journal.Smelling, chosen []chosenCup, codes []string) (string, error) {
	if err := tx.SaveSmelling(&x); err != nil {
		return "", err
	}
	for i, c := range chosen {
		cup := c.cup
		cup.Smelling, cup.Code = x.ID, codes[i]
		if err := tx.SaveCup(&cup); err != nil {
			return "", rowError{c.parser, err}
		}
	}
	return "/throw/" + idText(x.ID), nil
}

// smellingLog finds the smelling that the address names.
func (s *Server) smellingLog(r *http.Request) (journal.SmellingLog, error) {
	id, err := pathID(r, "id")
	if err != nil {
		return journal.SmellingLog{}, err
	}
	return s.store.SmellingLog(r.Context(), id)
}

// editSmelling shows the form that corrects what was noted beside the scores.
func (s *Server) editSmelling(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.smellingLog(r)
	if err != nil {
		return err
	}
	f := page.EditSmellingForm(s.editing(v, page.SmellingValues(l, v.view), l.Smelling.Version), l)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "Correct the smelling", "candles"), page.FormOf("Correct the smelling", correctLede, f))
}

// saveSmelling corrects what was noted beside the scores.
func (s *Server) saveSmelling(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.smellingLog(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	x := form.ReadSmellingChange(p).Correct(l.Smelling)
	x.Version = postedVersion(values)
	cups := correctedCups(p, values, l)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: "The correction is saved; the history keeps what was there before.",
		save: func(tx *sqlite.Tx) (string, error) { return "/throw/" + idText(x.ID), correctSmelling(tx, x, cups) },
		version: func() (int, error) {
			l, err = s.smellingLog(r)
			renewed(values, page.SmellingValues(l, v.view))
			return l.Smelling.Version, err
		},
		back: func(in page.Input) (string, string, templ.Component, error) {
			return "Correct the smelling", "candles", page.FormOf("Correct the smelling", correctLede, page.EditSmellingForm(in, l)), nil
		},
	})
}

// correctedCups reads how long each candle of a hot throw was lit, each with
// the version that its row was opened at.
func correctedCups(p *form.Parser, values url.Values, l journal.SmellingLog) []chosenCup {
	var out []chosenCup
	for _, c := range l.Cups {
		if l.Smelling.Kind == journal.HotThrow && !c.Cup.IsGone() {
			row, cup := p.With(page.CupPrefix(c.Cup.Candle)), c.Cup
			cup.Minutes, cup.Version = row.Minutes("minutes"), rowVersion(values, page.CupPrefix(c.Cup.Candle))
			out = append(out, chosenCup{row, cup})
		}
	}
	return out
}

// correctSmelling writes a corrected smelling with its cups, or nothing.
func correctSmelling(tx *sqlite.Tx, x journal.Smelling, cups []chosenCup) error {
	if err := tx.SaveSmelling(&x); err != nil {
		return err
	}
	for _, c := range cups {
		cup := c.cup
		if err := tx.SaveCup(&cup); err != nil {
			return rowError{c.parser, err}
		}
	}
	return nil
}
