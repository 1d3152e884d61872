package page

import (
	"time"

	"rimward/internal/journal"
	"rimward/web/chart"
	"rimward/web/ui"
)

// WalkPage is the hourly chore: one row for each lit candle, one save.
type WalkPage struct {
	Lede, Caution string
	Units         WalkUnits
	When          ui.Field
	Rows          []WalkRow
	Form          ui.Form // its action, hidden values and lists; no groups
	Danger        *ui.Danger
	Saved         string // which rows were saved when others came back
	Empty         bool
}

// WalkUnits are the units that stand in the heads of the columns.
type WalkUnits struct{ Length, Temperature string }

// WalkRow is one lit candle on the walk.
type WalkRow struct {
	Disc                              chart.Disc
	Code, Href, Wick, Lit             string
	Token                             ui.Hidden
	A, B, Full, Depth, Flame, Clean   ui.Field
	Mushroom, Soot, Wall, Temp, Throw ui.Field
	Odd, Note                         ui.Field
	Done                              string // it was saved just now: no fields any more
}

// RowPrefix starts the names of a lit burn's fields on a page with rows.
func RowPrefix(burn journal.ID) string { return "b" + idText(burn) + "." }

// NewWalkPage builds the walk. done holds the moments of the checks that were
// just saved, by burn.
func NewWalkPage(in Input, lit []journal.CandleLog, done map[journal.ID]time.Time, token func() string, caution string, v View) WalkPage {
	p := WalkPage{Caution: caution, Empty: len(lit) == 0,
		Units: WalkUnits{in.Units.Length.Word(), in.Units.Temperature.Word()}}
	p.When = in.Time("at_time", "Time of this walk", hint("empty means now"))
	for i, l := range lit {
		row := walkRow(in.Row(RowPrefix(l.OpenBurn().Burn.ID)), l, v)
		row.Token = rowToken(in, l.OpenBurn().Burn.ID, token)
		row.A.Autofocus = i == 0 && !in.Retried
		if at, ok := done[l.OpenBurn().Burn.ID]; ok {
			row.Done = "saved for " + v.Clock(at)
		}
		p.Rows = append(p.Rows, row)
	}
	p.Lede = walkLede(lit, v)
	p.Form = in.Form(ui.Form{Action: "/walk", Draft: "/walk", Cancel: "/", Submit: walkSubmit(len(lit)), Groups: walkLabels(p)})
	p.Form.Groups = nil
	return p
}

// rowToken keeps the token that a row was posted with, or gives it a new one.
func rowToken(in Input, burn journal.ID, token func() string) ui.Hidden {
	name := RowPrefix(burn) + "token"
	if old := in.Values.Get(name); old != "" {
		return ui.Hidden{Name: name, Value: old}
	}
	return ui.Hidden{Name: name, Value: token()}
}

func walkRow(in Input, l journal.CandleLog, v View) WalkRow {
	b := l.OpenBurn()
	code := l.Candle.Code()
	z := lastOf(b.Checks, v.Now, in.Units)
	say := func(what string) tweak { return unlabelled(what + " of " + code) }
	grade := func(name, what string, scale []journal.GradeWord, was string) ui.Field {
		return in.Select(name, "", walkWords(scale), say(what), previous(was))
	}
	return WalkRow{
		Disc: litDisc(l, v), Code: code, Href: "/candles/" + idText(l.Candle.ID), Wick: wicksText(l.Made), Lit: b.Burn.Lasted(v.Now).Clock(),
		A:        in.Quantity("length", "width_a", "", say("Width"), previous(z.a)),
		B:        in.Quantity("length", "width_b", "", say("Width across"), previous(z.b)),
		Full:     in.Tick("full", "", say("Wall all round")),
		Depth:    in.Quantity("length", "depth", "", say("Depth"), previous(z.depth)),
		Flame:    in.Quantity("length", "flame", "", say("Flame"), previous(z.flame)),
		Clean:    in.Tick("clean", "", say("All clean")),
		Mushroom: grade("mushroom", "Mushrooming", journal.MushroomScale, z.mushroom),
		Soot:     grade("soot", "Soot", journal.SootScale, z.soot),
		Wall:     grade("wall_wax", "Wall wax", journal.WallWaxScale, z.wall),
		Temp:     in.Quantity("temperature", "vessel_temp", "", say("Vessel temperature"), previous(z.temp)),
		Throw:    in.Select("hot_throw", "", walkWords(journal.ThrowScale), say("Hot throw"), previous(z.throw)),
		Odd:      in.Select("odd", "", oddOptions(), say("Odd event")),
		Note:     in.Text("note", "", say("Note")),
	}
}

// walkWords are the words of a scale without their meanings, to save width.
func walkWords(scale []journal.GradeWord) []ui.Option {
	out := []ui.Option{{Value: "", Text: "–"}}
	for _, w := range scale {
		out = append(out, ui.Option{Value: string(w.Grade), Text: string(w.Grade)})
	}
	return out
}

func oddOptions() []ui.Option {
	out := []ui.Option{{Value: "", Text: "–"}}
	for _, o := range journal.Odds {
		out = append(out, ui.Option{Value: string(o.Odd), Text: string(o.Odd)})
	}
	return out
}

// walkLabels names the fields of all rows, so that problems can say whose they
// are.
func walkLabels(p WalkPage) []ui.Group {
	g := ui.Group{Fields: []ui.Field{p.When}}
	for _, r := range p.Rows {
		g.Fields = append(g.Fields, r.A, r.B, r.Full, r.Depth, r.Flame, r.Mushroom, r.Soot, r.Wall, r.Temp, r.Throw, r.Odd, r.Note)
	}
	return []ui.Group{g}
}

func walkSubmit(n int) string {
	if n == 1 {
		return "Save the check"
	}
	return "Save " + counted(n, "check", "checks")
}

func walkLede(lit []journal.CandleLog, v View) string {
	if len(lit) == 0 {
		return "Nothing is lit."
	}
	return capital(counted(len(lit), "candle", "candles")) + " lit. Tab moves along a candle, Enter goes to the next; a row left empty is not saved. “full” in a width means the wall all round."
}

// wicksText is the wick with its count where it is more than one.
func wicksText(m journal.Made) string {
	return wickCount(m.Candle.Wicks) + m.WickName()
}

// ScaleWords explains the words of the grades, for the foot of the walk.
type ScaleWords struct {
	Name  string
	Words []journal.GradeWord
}

// Scales lists the scales that a check is graded on.
func Scales() []ScaleWords {
	return []ScaleWords{
		{"Mushrooming", journal.MushroomScale}, {"Soot", journal.SootScale},
		{"Wax on the wall", journal.WallWaxScale}, {"Hot throw", journal.ThrowScale},
	}
}
