package page

import (
	"net/url"
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// CheckValues writes a check into the boxes of its form.
func CheckValues(c journal.Check, v View) url.Values {
	f := newFiller(v.Units)
	f.text("at_date", v.DateBox(c.At))
	f.text("at_time", v.TimeBox(c.At))
	f.length("width_a", c.WidthA)
	f.length("width_b", c.WidthB)
	f.flag("full", c.Full)
	f.length("depth", c.Depth)
	f.length("flame", c.Flame)
	f.text("mushroom", string(c.Mushroom))
	f.text("soot", string(c.Soot))
	f.text("wall_wax", string(c.WallWax))
	f.temperature("vessel_temp", c.VesselTemp)
	f.count("hot_throw", c.HotThrow)
	for _, o := range c.Odd {
		f.Add("odd", string(o))
	}
	f.flag("left_out", c.LeftOut)
	f.text("note", c.Note)
	return f.Values
}

// last is the latest reading of each kind within a burn, in grey beside the
// fields.
type last struct{ a, b, full, depth, flame, temp, throw, mushroom, soot, wall string }

// lastOf gathers the latest readings before a moment, in the person's units.
func lastOf(checks []journal.Check, before time.Time, u quantity.Units) last {
	var l last
	for _, c := range checks {
		if c.IsGone() || !c.At.Before(before) {
			continue
		}
		keepLength(&l.a, c.WidthA, u)
		keepLength(&l.b, c.WidthB, u)
		if l.full = ""; c.Full {
			l.full, l.a, l.b = "full", "full", "full"
		}
		keepLength(&l.depth, c.Depth, u)
		keepLength(&l.flame, c.Flame, u)
		if c.VesselTemp != nil {
			l.temp = u.ShowTemperature(*c.VesselTemp).Number
		}
		if c.HotThrow != nil {
			l.throw = strconv.Itoa(*c.HotThrow)
		}
		keepWord(&l.mushroom, c.Mushroom)
		keepWord(&l.soot, c.Soot)
		keepWord(&l.wall, c.WallWax)
	}
	return l
}

func keepLength(to *string, x *quantity.Millimetres, u quantity.Units) {
	if x != nil {
		*to = u.ShowLength(*x).Number
	}
}

func keepWord(to *string, g journal.Grade) {
	if g != "" {
		*to = string(g)
	}
}

// wordOptions are the words of a scale with "not noted" first.
func wordOptions(scale []journal.GradeWord) []ui.Option {
	out := []ui.Option{{Value: "", Text: "not noted"}}
	for _, w := range scale {
		out = append(out, ui.Option{Value: string(w.Grade), Text: string(w.Grade), Meaning: w.Meaning})
	}
	return out
}

// throwOptions are the words of the throw scale, the number first.
func throwOptions() []ui.Option {
	out := []ui.Option{{Value: "", Text: "not noted"}}
	for _, w := range journal.ThrowScale {
		out = append(out, ui.Option{Value: string(w.Grade), Text: string(w.Grade) + " " + w.Meaning})
	}
	return out
}

// Words is a choice among ordered words, each with its meaning.
func (in Input) Words(name, label string, options []ui.Option, tweaks ...tweak) ui.Field {
	f := in.field(ui.WordsField, name, label, tweaks)
	f.Options = chosen(options, f.Value)
	return f
}

// OddTicks are the odd events, several of which may be ticked.
func (in Input) OddTicks(tweaks ...tweak) ui.Field {
	f := in.field(ui.TicksField, "odd", "Odd events", tweaks)
	for _, o := range journal.Odds {
		f.Options = append(f.Options, ui.Option{Value: string(o.Odd), Text: capital(string(o.Odd)), Meaning: o.Meaning, Selected: in.Has("odd", string(o.Odd))})
	}
	return f
}

// widthLabels name the two widths for a vessel's shape.
func widthLabels(x journal.Vessel) (a, b string) {
	if x.Shape == journal.Round {
		return "Pool width", "Across, at right angles"
	}
	return "Pool along the length", "Pool across"
}

// was says what the reading before was, "" when there was none.
func was(text string) tweak {
	if text == "" {
		return previous("")
	}
	return previous("before: " + text)
}

// checkGroups are the fields of one check. A check that is corrected has its
// date too and can be left out of the standings.
func checkGroups(in Input, x journal.Vessel, l last, correcting bool) []ui.Group {
	a, b := widthLabels(x)
	pool := ui.Group{Fields: []ui.Field{
		in.Quantity("length", "width_a", a, focus, was(l.a)),
		in.Quantity("length", "width_b", b, was(l.b)),
		in.Tick("full", "Touches the wall all round", hint("melted wax meets the vessel everywhere: full")),
		in.Quantity("length", "depth", "Pool depth", was(l.depth)),
		in.Quantity("length", "flame", "Flame height", was(l.flame)),
		in.Tick("clean", "All clean", hint("no mushrooming, no soot, bare wall: fills in what you leave open below")),
	}}
	look := ui.Group{Legend: "What it looks like", Fields: []ui.Field{
		in.Words("mushroom", "Mushrooming", wordOptions(journal.MushroomScale), was(l.mushroom)),
		in.Words("soot", "Soot", wordOptions(journal.SootScale), was(l.soot)),
		in.Words("wall_wax", "Wax on the wall", wordOptions(journal.WallWaxScale), was(l.wall)),
	}}
	rest := ui.Group{Legend: "The rest", Fields: []ui.Field{
		in.Quantity("temperature", "vessel_temp", "Vessel, outside", was(l.temp)),
		in.Select("hot_throw", "Hot throw", throwOptions(), was(l.throw)),
		in.OddTicks(wide), in.Area("note", "Note"),
	}}
	when := ui.Group{Fields: []ui.Field{in.Time("at_time", "Time of the check", hint("empty means now"))}}
	if correcting {
		when.Fields = []ui.Field{in.Date("at_date", "Date"), in.Time("at_time", "Time"),
			in.Tick("left_out", "Leave out of the standings", hint("it stays on the candle's page, marked"))}
	}
	return []ui.Group{pool, look, rest, when}
}

// CheckPage is the form of one check, big enough for a thumb.
type CheckPage struct {
	Code, Lede, Caution string
	Danger              *ui.Danger
	Form                ui.Form
}

// NewCheckPage builds the form of a new check of a lit candle.
func NewCheckPage(in Input, l journal.CandleLog, caution string, danger *ui.Danger, v View) CheckPage {
	b := l.OpenBurn()
	code := l.Candle.Code()
	at := "/candles/" + idText(l.Candle.ID) + "/check"
	return CheckPage{
		Code: code, Caution: caution, Danger: danger,
		Lede: l.WickName() + " in " + l.Vessel.Name + ", " + wallText(l.Vessel, v) + " inside. Burn " + strconv.Itoa(b.Burn.Number) +
			", lit at " + v.Clock(b.Burn.LitAt) + ", " + b.Burn.Lasted(v.Now).Clock() + " ago.",
		Form: in.Form(ui.Form{
			Action: at, Draft: at + "/" + idText(b.Burn.ID), Cancel: "/", Submit: "Save the check", Stamp: true,
			Groups: checkGroups(in, l.Vessel, lastOf(b.Checks, v.Now, v.Units), false),
		}),
	}
}

// wallText is the vessel's inside as a pool is measured against it.
func wallText(x journal.Vessel, v View) string {
	if x.InnerLength == nil {
		return v.length(x.InnerWidth).String()
	}
	return v.length(*x.InnerLength).Number + " × " + v.length(x.InnerWidth).String()
}

// EditCheckForm is the form of a check with its date: one that is corrected,
// or one that was missed and is added.
func EditCheckForm(in Input, action string, l journal.CandleLog) ui.Form {
	return in.Form(ui.Form{Action: action, Draft: action, Cancel: "/candles/" + idText(l.Candle.ID), Submit: "Save the check",
		Groups: checkGroups(in, l.Vessel, last{}, true)})
}

// BurnTitle names the page that corrects a burn.
func BurnTitle(b journal.Burn, c journal.Candle) string {
	return "Correct burn " + strconv.Itoa(b.Number) + " of " + c.Code()
}

// CheckTitle names the page of a check that is corrected or added.
func CheckTitle(c journal.Check, l journal.CandleLog) string {
	if c.ID == 0 {
		return "A missed check of " + l.Candle.Code()
	}
	return "Correct a check of " + l.Candle.Code()
}

// AddedCheckLede says between which moments a missed check can lie.
func AddedCheckLede(b journal.Burn, v View) string {
	s := "Burn " + strconv.Itoa(b.Number) + " was lit " + v.Moment(b.LitAt)
	if b.OutAt != nil {
		return s + " and out " + v.Moment(*b.OutAt) + "."
	}
	return s + " and still burns."
}
