package server

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

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
	sheet := postedSheet{l, values, scoredAs(l, values.Get("correcting")), postedTurn(values)}
	given := s.readSheet(p, sheet)
	at := "/throw/" + idText(l.Smelling.ID)
	return s.submit(w, r, submission{
		visit: v, parser: p, values: values, said: scoresSaid(given, sheet.correcting),
		save: func(tx *sqlite.Tx) (string, error) { return at, given.write(tx) },
		version: func() (int, error) {
			sheet.log, err = s.smellingLog(r)
			renewed(values, page.SheetValues(sheet.log, sheet.correcting))
			return 0, err
		},
		back: func(in page.Input) (string, string, templ.Component, error) { return sheet.again(in, v.view) },
	})
}

// postedSheet is one sheet as it came in, with the smelling that it is of.
type postedSheet struct {
	log        journal.SmellingLog
	values     url.Values
	correcting string // the nose whose scores are corrected; "" for a new one
	turn       int    // which nose the sheet was made for
}

// again builds the page of the smelling around the sheet.
func (x postedSheet) again(in page.Input, v page.View) (string, string, templ.Component, error) {
	in.Version = ""
	p := page.NewSmellingPage(x.log, nil, nil, v)
	p.ShowSheet(page.NewScoreSheet(in, x.log, x.turn, x.correcting))
	return p.Title, "candles", page.Smelling(p), nil
}

// renewed gives a form of rows that met a conflict the versions that are kept
// now, and the rows that it did not have. What was typed stays.
func renewed(values, now url.Values) {
	for name, v := range now {
		if !values.Has(name) || strings.HasSuffix(name, ".version") {
			values[name] = v
		}
	}
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
func (s *Server) readSheet(p *form.Parser, sheet postedSheet) scoring {
	nose := sheet.correcting
	if nose == "" {
		nose = p.Nose("nose")
	}
	var out scoring
	for i, c := range page.SheetCups(sheet.log, sheet.turn) {
		x := journal.Score{Cup: c.Cup.ID, Nose: nose, Order: new(i + 1), At: s.now()}
		if old := c.Of(nose); old != nil && sheet.correcting != "" {
			x = *old
			x.Version = rowVersion(sheet.values, page.CodePrefix(c.Cup.Code))
		}
		out.row(p.With(page.CodePrefix(c.Cup.Code)), x)
	}
	if len(out.save)+len(out.undo) == 0 && !p.Problems().Any() {
		p.Problem("", "Nothing was scored yet. Choose a number for each candle that was smelled.")
	}
	return out
}

// rowVersion is the version that a row of a form was opened at; 0 when the row
// had none.
func rowVersion(values url.Values, prefix string) int {
	n, _ := strconv.Atoi(values.Get(prefix + "version"))
	return n
}

// row reads one row around x, the score that it is about.
func (g *scoring) row(p *form.Parser, x journal.Score) {
	n := p.Score("score")
	x.Note = p.Text("note")
	switch {
	case n != nil:
		x.Score = *n
		g.save = append(g.save, x)
	case x.ID != 0:
		g.undo = append(g.undo, x)
	case x.Note != "":
		p.Problem("score", "There is a note but no score. Choose one from 0 to 5.")
	}
}

// write saves a sheet whole or not at all.
func (g scoring) write(tx *sqlite.Tx) error {
	for _, x := range g.save {
		if err := tx.SaveScore(&x); err != nil {
			return err
		}
	}
	for _, x := range g.undo {
		if err := tx.TakeBackScore(x, "not smelled after all"); err != nil {
			return err
		}
	}
	return nil
}
