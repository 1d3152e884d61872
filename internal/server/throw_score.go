package server

import (
	"net/http"
	"net/url"
	"strconv"

	"github.com/a-h/templ"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// showSmelling shows one smelling with the sheet of the next nose, or, with
// ?nose=, that of one who has scored.
func (s *Server) showSmelling(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.smellingLog(r)
	if err != nil {
		return err
	}
	nose := scoredAs(l, r.URL.Query().Get("nose"))
	sheet := s.sheetOf(s.blank(v, page.SheetValues(l, nose)), l, nose, page.SheetTurn(l, nose))
	return s.renderSmelling(w, r, v, l, sheet)
}

func (s *Server) renderSmelling(w http.ResponseWriter, r *http.Request, v visit, l journal.SmellingLog, sheet *page.ScoreSheet) error {
	h, err := s.store.SmellingHistory(r.Context(), l.Smelling.ID)
	if err != nil {
		return err
	}
	p := page.NewSmellingPage(l, sheet, h, v.view)
	if r.URL.Query().Has("nose") && sheet != nil {
		p.ShowSheet(*sheet)
	}
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, p.Title, "candles"), page.Smelling(p))
}

// sheetOf is the sheet of a nose; nil where nobody new can score.
func (s *Server) sheetOf(in page.Input, l journal.SmellingLog, nose string, turn int) *page.ScoreSheet {
	if nose == "" && !page.TakesScores(l.Smelling) || l.Smelling.IsGone() {
		return nil
	}
	sheet := page.NewScoreSheet(in, l, turn, nose)
	return &sheet
}

// scoredAs is the name of a nose as it stands in the smelling; "" when it has
// not scored.
func scoredAs(l journal.SmellingLog, name string) string {
	for _, n := range l.Noses() {
		if journal.SameNose(n, name) {
			return n
		}
	}
	return ""
}

// scoring is one sheet on its way into the journal.
type scoring struct {
	save []journal.Score
	undo []journal.Score // that were taken back
}

// saveScores takes the sheet of one nose: a new nose's, or corrections.
func (s *Server) saveScores(w http.ResponseWriter, r *http.Request, v visit) error {
	l, err := s.smellingLog(r)
	if err != nil {
		return err
	}
	p, values, err := s.posted(r, v)
	if err != nil {
		return err
	}
	correcting, turn := scoredAs(l, values.Get("correcting")), postedTurn(values)
	given := s.readSheet(p, values, l, correcting, turn)
	at := "/throw/" + idText(l.Smelling.ID)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: scoresSaid(given, correcting),
		save: func(tx *sqlite.Tx) (string, error) { return at, given.write(tx) },
		version: func() (int, error) {
			l, err = s.smellingLog(r)
			for name, now := range page.SheetValues(l, correcting) {
				if _, sent := values[name]; !sent || isVersion(name) {
					values[name] = now
				}
			}
			return 0, err
		},
		back: func(in page.Input) (string, string, templ.Component, error) {
			in.Version = ""
			p := page.NewSmellingPage(l, nil, nil, v.view)
			p.ShowSheet(page.NewScoreSheet(in, l, turn, correcting))
			return p.Title, "candles", page.Smelling(p), nil
		},
	})
}

func isVersion(name string) bool {
	const end = ".version"
	return len(name) > len(end) && name[len(name)-len(end):] == end
}

// postedTurn is which nose the sheet was made for.
func postedTurn(values url.Values) int {
	n, err := strconv.Atoi(values.Get("turn"))
	if err != nil || n < 0 || n > 10000 {
		return 0
	}
	return n
}

func scoresSaid(g scoring, correcting string) string {
	if correcting != "" {
		return "The correction is saved; the history keeps what was there before."
	}
	if len(g.save) == 0 {
		return ""
	}
	return "Saved for " + g.save[0].Nose + ". The sheet is ready for the next nose."
}

// readSheet reads every row of a sheet: what is new, what was corrected, and
// what was taken back.
func (s *Server) readSheet(p *form.Parser, values url.Values, l journal.SmellingLog, correcting string, turn int) scoring {
	nose := correcting
	if nose == "" {
		nose = p.Nose("nose")
	}
	var out scoring
	for i, c := range page.SheetCups(l, turn) {
		row := p.With(page.CodePrefix(c.Cup.Code))
		x := journal.Score{Cup: c.Cup.ID, Nose: nose, Order: new(i + 1), At: s.now()}
		if old := c.Of(nose); old != nil && correcting != "" {
			x = *old
			x.Version, _ = strconv.Atoi(values.Get(page.CodePrefix(c.Cup.Code) + "version"))
		}
		n := row.Score("score")
		x.Note = row.Text("note")
		switch {
		case n != nil:
			x.Score = *n
			out.save = append(out.save, x)
		case x.ID != 0:
			out.undo = append(out.undo, x)
		case x.Note != "":
			row.Problem("score", "There is a note but no score. Choose one from 0 to 5.")
		}
	}
	if len(out.save)+len(out.undo) == 0 && !p.Problems().Any() {
		p.Problem("", "Nothing was scored yet. Choose a number for each candle that was smelled.")
	}
	return out
}

// write saves a sheet whole or not at all.
func (g scoring) write(tx *sqlite.Tx) error {
	for _, x := range g.save {
		if err := tx.SaveScore(&x); err != nil {
			return err
		}
	}
	for _, x := range g.undo {
		if err := tx.Withdraw(journal.NounScore, x.ID, "not smelled after all"); err != nil {
			return err
		}
	}
	return nil
}
