package page

import (
	"fmt"
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/throw"
	"rimward/web/ui"
)

// ScoreSheet is what one nose fills in.
type ScoreSheet struct {
	Title, Lede string
	Nose        *ui.Field // nil where the scores of a known nose are corrected
	Cups        []CupRow
	Form        ui.Form
}

// CupRow is one cup to score, in the order of this nose.
type CupRow struct {
	Place, Code, What string
	Name, ID          string // of the choice
	Hidden            []ui.Hidden
	Options           []ui.Option
	Unscored          ui.Option
	Note              ui.Field
	Problem           string
	Rest              *Rest // before this cup
}

// Rest is a pause that the sheet asks for.
type Rest struct {
	Text    string
	Minutes string // of the timer
}

// How often a nose rests, and for how long (common practice, no source).
const (
	cupsBeforeRest = 3
	restMinutes    = 3
)

// CodePrefix starts the names of a cup's fields on the score sheet. It carries
// the code and not the cup's number: numbers follow the candles.
func CodePrefix(code string) string { return "k" + code + "." }

// SheetTurn is which nose the sheet is for, counted from 0: the order of the
// cups follows from it.
func SheetTurn(l journal.SmellingLog, nose string) int {
	noses := l.Noses()
	for i, n := range noses {
		if journal.SameNose(n, nose) {
			return i
		}
	}
	return len(noses)
}

// SheetCups are the cups that count, in the order in which a nose smells them.
func SheetCups(l journal.SmellingLog, turn int) []journal.CupLog {
	var cups, out []journal.CupLog
	for _, c := range l.Cups {
		if !c.Cup.IsGone() {
			cups = append(cups, c)
		}
	}
	for _, i := range throw.Order(len(cups), turn) {
		out = append(out, cups[i])
	}
	return out
}

// SheetValues fills the sheet with what a nose has scored.
func SheetValues(l journal.SmellingLog, nose string) url.Values {
	u := url.Values{}
	for _, c := range l.Cups {
		if s := c.Of(nose); s != nil {
			u.Set(CodePrefix(c.Cup.Code)+"score", strconv.Itoa(s.Score))
			u.Set(CodePrefix(c.Cup.Code)+"note", s.Note)
			u.Set(CodePrefix(c.Cup.Code)+"version", strconv.Itoa(s.Version))
		}
	}
	return u
}

// NewScoreSheet builds the sheet of one nose; correcting names the nose whose
// scores are corrected, "" for a new one.
func NewScoreSheet(in Input, l journal.SmellingLog, turn int, correcting string) ScoreSheet {
	at := "/throw/" + idText(l.Smelling.ID)
	p := ScoreSheet{Title: "Score sheet", Lede: adviceFor(l)}
	f := ui.Form{Action: at + "/scores", Draft: at + "/scores", Submit: "Save this nose", Hidden: []ui.Hidden{{Name: "turn", Value: strconv.Itoa(turn)}}}
	var g ui.Group
	if correcting == "" {
		nose := in.Text("nose", "Whose nose", hint("a name or initials"))
		p.Nose, g.Fields = &nose, append(g.Fields, nose)
	} else {
		p.Title, p.Lede = "The scores of "+correcting, correctingLede(l.Smelling, correcting)
		f.Draft, f.Submit, f.Cancel = "", "Save the correction", at
		f.Hidden = append(f.Hidden, ui.Hidden{Name: "correcting", Value: correcting})
	}
	for i, c := range SheetCups(l, turn) {
		row := cupRow(in.Row(CodePrefix(c.Cup.Code)), l.Smelling, c, i)
		if correcting != "" {
			row.Rest = nil
		}
		p.Cups = append(p.Cups, row)
		g.Fields = append(g.Fields, ui.Field{Name: row.Name, Label: row.Code}, row.Note)
	}
	f.Groups = []ui.Group{g}
	p.Form = in.Form(f)
	p.Form.Groups = nil
	return p
}

// correctingLede says how scores are corrected, and who should not see them.
func correctingLede(s journal.Smelling, nose string) string {
	if s.Covered() {
		return "For " + nose + " alone: whoever has not scored yet should not look at these scores first, for they would lead the nose. Change what was a slip; “Not smelled” takes a score back. The history keeps what was there before and shows it once the codes are uncovered."
	}
	return "Change what was a slip; the history keeps what was there before. “Not smelled” takes a score back."
}

// adviceFor says how to smell.
func adviceFor(l journal.SmellingLog) string {
	s := "Judge on entering: the first breath counts, for a nose grows used to a smell within minutes. Keep your face, hair and sleeves away from the flame. Do not talk about it until all have scored."
	if l.Smelling.Kind == journal.ColdThrow {
		s = "Lift the lid, judge by the first breath, and put the lid back. Do not talk about it until all have scored."
	}
	return s + " (Common practice, no source.) The order below is this nose’s own."
}

func cupRow(in Input, s journal.Smelling, c journal.CupLog, place int) CupRow {
	r := CupRow{Place: fmt.Sprintf("%d", place+1), Code: c.Cup.Code, Name: in.Prefix + "score", ID: "f-" + in.Prefix + "score", Problem: in.Problems.For(in.Prefix + "score")}
	if !s.Blind || s.Uncovered != nil {
		r.Code, r.What = c.Made.Candle.Code(), c.Made.Vessel.Name+" · "+wicksText(c.Made)
		if c.Made.Withdrawn() {
			r.What += " · withdrawn since"
		}
	}
	value := in.Value("score")
	for _, w := range journal.ThrowScale {
		r.Options = append(r.Options, ui.Option{Value: string(w.Grade), Text: string(w.Grade), Meaning: w.Meaning, Selected: value == string(w.Grade)})
	}
	r.Unscored = ui.Option{Value: "", Text: "not smelled", Selected: value == ""}
	r.Note = in.Text("note", "", unlabelled("Note on "+r.Code))
	if v := in.Value("version"); v != "" {
		r.Hidden = append(r.Hidden, ui.Hidden{Name: in.Prefix + "version", Value: v})
	}
	if place > 0 && place%cupsBeforeRest == 0 {
		r.Rest = &Rest{Text: "Step out and rest your nose for a few minutes before the next one (common practice, no source).", Minutes: strconv.Itoa(restMinutes)}
	}
	return r
}
