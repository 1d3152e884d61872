package page

import (
	"net/url"
	"slices"
	"strconv"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// SmellingFormPage begins a smelling.
type SmellingFormPage struct {
	Lede   string
	Common []ui.Field
	Rows   []CupChoice
	Form   ui.Form
	Empty  *MissingPage
}

// CupChoice is one candle that could be smelled.
type CupChoice struct {
	Pick              ui.Field
	Code, What, State string
	Minutes           *ui.Field // nil where it is not lit
	Problem           string
}

// CupCandidate is a candle that could be smelled, and how long it is lit now;
// nil when it is not.
type CupCandidate struct {
	Line journal.CandleLine
	Lit  *quantity.Minutes
}

// CupPrefix starts the names of a candle's fields where a smelling begins.
func CupPrefix(id journal.ID) string { return "c" + idText(id) + "." }

// NewSmellingValues fills the form of a smelling that begins now: hot where a
// candle that is asked for, or any if none is, is lit.
func NewSmellingValues(cands []CupCandidate, asked journal.ID, v View) url.Values {
	f := newFiller(v.Units)
	f.text("at_date", v.DateBox(v.Now))
	f.text("at_time", v.TimeBox(v.Now))
	kind := journal.ColdThrow
	for _, c := range cands {
		if c.Lit == nil {
			continue
		}
		f.text(CupPrefix(c.Line.Candle.ID)+"minutes", c.Lit.Shown().Number)
		if asked == 0 || asked == c.Line.Candle.ID {
			kind = journal.HotThrow
		}
	}
	f.text("kind", string(kind))
	f.text("how", form.HeldOpen)
	if asked != 0 {
		f.flag(CupPrefix(asked)+"pick", true)
	}
	return f.Values
}

var (
	kindWords = []ui.Option{
		{Value: string(journal.HotThrow), Text: "hot throw", Meaning: "the candles burn"},
		{Value: string(journal.ColdThrow), Text: "cold throw", Meaning: "the candles are unlit"},
	}
	howWords = []ui.Option{
		{Value: form.HeldOpen, Text: "open", Meaning: "noses see which candle they smell"},
		{Value: form.HeldBlind, Text: "blind", Meaning: "noses see a three-digit code until you uncover them"},
	}
)

// NewSmellingForm builds the page; action carries what the address asked for.
func NewSmellingForm(in Input, cands []CupCandidate, action string, v View) SmellingFormPage {
	p := SmellingFormPage{Lede: "Noses score candles from 0 to 5. Four or five candles are plenty for one go."}
	if len(cands) == 0 {
		p.Empty = missing("There is no candle to smell. Record a pour and say which candles it filled.", []ui.Action{{Text: "Record a pour", Href: "/pours/new", Main: true}})
		return p
	}
	p.Common = []ui.Field{
		in.Words("kind", "What is smelled", kindWords), in.Words("how", "How", howWords),
		in.Quantity("room", "room", "Room", hint("its volume, or three sides as 4 x 3 x 2.5 m")),
		in.Date("at_date", "Day"), in.Time("at_time", "Time"), in.Text("note", "Note"),
	}
	for _, c := range smellFirst(cands, in) {
		p.Rows = append(p.Rows, cupChoice(in.Row(CupPrefix(c.Line.Candle.ID)), c, v))
	}
	g := ui.Group{Fields: p.Common}
	for _, r := range p.Rows {
		if r.Minutes != nil {
			g.Fields = append(g.Fields, *r.Minutes)
		}
	}
	p.Form = in.Form(ui.Form{Action: action, Draft: "/throw/new", Cancel: "/throw", Submit: "Begin", Groups: []ui.Group{g}})
	p.Form.Groups = nil
	return p
}

// smellFirst puts what is ticked first, then what is lit; otherwise the order
// stays.
func smellFirst(cands []CupCandidate, in Input) []CupCandidate {
	place := func(c CupCandidate) int {
		switch {
		case in.Values.Get(CupPrefix(c.Line.Candle.ID)+"pick") != "":
			return 0
		case c.Lit != nil:
			return 1
		}
		return 2
	}
	out := slices.Clone(cands)
	slices.SortStableFunc(out, func(a, b CupCandidate) int { return place(a) - place(b) })
	return out
}

func cupChoice(in Input, c CupCandidate, v View) CupChoice {
	l, code := c.Line, c.Line.Candle.Code()
	r := CupChoice{
		Pick: in.Tick("pick", "", unlabelled("Smell "+code)), Code: code, State: stateText(l.Life, v),
		What: l.VesselName + " · " + wickCount(l.Candle.Wicks) + l.WickName + " · " + l.WaxName, Problem: in.Problems.For(in.Prefix + "candle"),
	}
	if c.Lit != nil {
		m := in.Quantity("minutes", "minutes", "", unlabelled("Minutes lit of "+code))
		r.Minutes = &m
	}
	return r
}

// SmellingValues writes a smelling into the boxes that correct it.
func SmellingValues(l journal.SmellingLog, v View) url.Values {
	f := newFiller(v.Units)
	s := l.Smelling
	f.text("at_date", v.DateBox(s.At))
	f.text("at_time", v.TimeBox(s.At))
	if s.Room != nil {
		f.text("room", v.Units.EditRoom(*s.Room))
	}
	f.text("note", s.Note)
	for _, c := range l.Cups {
		plainNumberBox(f, CupPrefix(c.Cup.Candle)+"minutes", c.Cup.Minutes)
		f.text(CupPrefix(c.Cup.Candle)+"version", strconv.Itoa(c.Cup.Version))
	}
	return f.Values
}

// EditSmellingForm corrects what was noted beside the scores. It names candles
// and no codes, in the candles' own order.
func EditSmellingForm(in Input, l journal.SmellingLog) ui.Form {
	at := "/throw/" + idText(l.Smelling.ID)
	groups := []ui.Group{{Fields: []ui.Field{
		in.Date("at_date", "Day"), in.Time("at_time", "Time"),
		in.Quantity("room", "room", "Room", hint("its volume, or three sides as 4 x 3 x 2.5 m")), in.Area("note", "Note"),
	}}}
	var versions []ui.Hidden
	if l.Smelling.Kind == journal.HotThrow {
		lit := ui.Group{Legend: "Lit before it was smelled"}
		for _, c := range slices.SortedFunc(slices.Values(SheetCups(l, 0)), byCandleCode) {
			row := in.Row(CupPrefix(c.Cup.Candle))
			lit.Fields = append(lit.Fields, row.Quantity("minutes", "minutes", c.Made.Candle.Code()))
			versions = append(versions, ui.Hidden{Name: row.Prefix + "version", Value: row.Value("version")})
		}
		groups = append(groups, lit)
	}
	return in.Form(ui.Form{Action: at + "/edit", Draft: at + "/edit", Cancel: at, Submit: "Save the correction", Groups: groups, Hidden: versions})
}
