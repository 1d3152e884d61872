package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// BurnValues writes a burn into the boxes of its form.
func BurnValues(b journal.Burn, v View) url.Values {
	f := newFiller(v.Units)
	f.text("lit_date", v.DateBox(b.LitAt))
	f.text("lit_time", v.TimeBox(b.LitAt))
	f.length("trim", b.Trim)
	f.mass("mass_before", b.MassBefore)
	f.temperature("room", b.Room)
	f.text("draught", string(b.Draught))
	f.text("place", b.Place)
	if b.OutAt != nil {
		f.text("out_date", v.DateBox(*b.OutAt))
		f.text("out_time", v.TimeBox(*b.OutAt))
	}
	f.mass("mass_after", b.MassAfter)
	plainNumberBox(f, "after_smoke", b.AfterSmoke)
	f.text("ending", string(b.Ending))
	f.text("note", b.Note)
	return f.Values
}

// burnGroups are the fields of a burn from match to snuff.
func burnGroups(in Input) []ui.Group {
	return []ui.Group{
		{Legend: "Lit", Fields: []ui.Field{
			in.Date("lit_date", "Date"), in.Time("lit_time", "Time", required),
			in.Quantity("length", "trim", "Wick trimmed to"),
			in.Quantity("mass", "mass_before", "Mass before"),
			in.Quantity("temperature", "room", "Room"),
			in.Select("draught", "Draught", draughts),
			in.Text("place", "Place on the bench"),
		}},
		{Legend: "Out", Fields: []ui.Field{
			in.Date("out_date", "Date"), in.Time("out_time", "Time"),
			in.Select("ending", "How it ended", append([]ui.Option{{Value: "", Text: "still lit"}}, endings()...)),
			in.Quantity("mass", "mass_after", "Mass after", hint("when solid")),
			in.Quantity("seconds", "after_smoke", "After-smoke"),
			in.Area("note", "Note"),
		}},
	}
}

// EditBurnForm is the form that corrects a burn.
func EditBurnForm(in Input, b journal.Burn, back string) ui.Form {
	at := "/burns/" + idText(b.ID) + "/edit"
	return in.Form(ui.Form{Action: at, Draft: at, Cancel: back, Submit: "Save the correction", Groups: burnGroups(in)})
}

// PaperRows is how many checks a paper sheet has room for; an empty row is
// left out.
const PaperRows = 8

// PaperPrefix starts the names of a check's fields on a paper sheet.
func PaperPrefix(row int) string { return "k" + strconv.Itoa(row) + "." }

// PaperPage copies one burn from a paper sheet: the burn and its checks in one
// form.
type PaperPage struct {
	Code, Lede string
	Groups     []ui.Group
	Units      WalkUnits
	Rows       []PaperRow
	Form       ui.Form
}

// PaperRow is one check on the sheet.
type PaperRow struct {
	Name                                    string
	At, A, B, Full, Depth, Flame            ui.Field
	Mushroom, Soot, Wall, Temp, Throw, Note ui.Field
	Odd                                     ui.Field
}

// NewPaperPage builds the sheet for a candle.
func NewPaperPage(in Input, l journal.CandleLog, v View) PaperPage {
	at := "/candles/" + idText(l.Candle.ID) + "/paper"
	p := PaperPage{Code: l.Candle.Code(), Groups: burnGroups(in), Units: WalkUnits{in.Units.Length.Word(), in.Units.Temperature.Word()},
		Lede: l.WickName() + " in " + l.Vessel.Name + ", " + wallText(l.Vessel, v) + " inside. A date left empty is the day of lighting. Times of checks can be clock times (20:30) or time since lighting (1 h 30)."}
	for i := 1; i <= PaperRows; i++ {
		p.Rows = append(p.Rows, paperRow(in.Row(PaperPrefix(i)), i))
	}
	labels := append([]ui.Group{}, p.Groups...)
	for _, r := range p.Rows {
		labels = append(labels, ui.Group{Fields: []ui.Field{r.At, r.A, r.B, r.Full, r.Depth, r.Flame, r.Mushroom, r.Soot, r.Wall, r.Temp, r.Throw, r.Odd, r.Note}})
	}
	p.Form = in.Form(ui.Form{Action: at, Draft: at, Cancel: "/candles/" + idText(l.Candle.ID), Submit: "Save the burn", Groups: labels})
	p.Form.Groups = nil
	return p
}

func paperRow(in Input, n int) PaperRow {
	name := "Check " + strconv.Itoa(n)
	say := func(what string) tweak { return unlabelled(name + ", " + what) }
	grade := func(field, what string, scale []journal.GradeWord) ui.Field {
		return in.Select(field, "", walkWords(scale), say(what))
	}
	return PaperRow{
		Name: name,
		At:   in.Text("at_time", "", say("time")),
		A:    in.Quantity("length", "width_a", "", say("width")), B: in.Quantity("length", "width_b", "", say("width across")),
		Full: in.Tick("full", "", say("wall all round")), Depth: in.Quantity("length", "depth", "", say("depth")),
		Flame:    in.Quantity("length", "flame", "", say("flame")),
		Mushroom: grade("mushroom", "mushrooming", journal.MushroomScale), Soot: grade("soot", "soot", journal.SootScale),
		Wall: grade("wall_wax", "wall wax", journal.WallWaxScale),
		Temp: in.Quantity("temperature", "vessel_temp", "", say("vessel temperature")), Throw: grade("hot_throw", "hot throw", journal.ThrowScale),
		Odd: in.Select("odd", "", oddOptions(), say("odd event")), Note: in.Text("note", "", say("note")),
	}
}
