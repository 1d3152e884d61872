package page

import (
	"net/url"
	"strconv"
	"time"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// RoundFormPage plans a round: the form, and the plan that it comes to once it
// was worked out.
type RoundFormPage struct {
	Title, Lede string
	Missing     *MissingPage
	Ready       []ReadyQuestion
	Form        ui.Form
	Question    ui.Field
	Stuff       []ui.Field // wax, fragrance and what its load is a share of
	Vessels     ui.Field
	Rungs       RungsField
	Levels      []ui.Field
	Many        []ui.Field
	Days        []ui.Field
	Note        ui.Field
	Plan        *RoundPlan
	Keep        bool // it can be kept as it stands
}

// ReadyQuestion is a question that fills the form.
type ReadyQuestion struct {
	Text, Href string
	Current    bool
}

// RungsField is the rungs of all ladders, each of which can be ticked.
type RungsField struct {
	Field   ui.Field
	Ladders []ui.OptionGroup
}

// The ready questions, as the address names them.
const (
	AskRung   = "rung"
	AskLoad   = "load"
	AskPourAt = "temperature"
	AskVessel = "vessel"
)

// NewRoundForm builds the form. asked is the ready question that it began
// with.
func NewRoundForm(in Input, k Known, asked string) RoundFormPage {
	p := RoundFormPage{Title: "Plan a round", Lede: "A round is a set of candles that answers one question. Ask one thing at a time: whatever else is the same cannot mislead."}
	if p.Missing = roundLacks(k); p.Missing != nil {
		return p
	}
	p.Ready = readyQuestions(asked)
	p.Question = in.Text("question", "The question", wide, hint("empty: worded from what you choose below"))
	p.Stuff = roundStuff(in, k)
	p.Vessels = in.ticks("vessels", "Vessels", roundVessels(k))
	p.Rungs = RungsField{Field: in.field(ui.TicksField, "rungs", "Rungs", nil), Ladders: rungGroups(in, k)}
	p.Levels = []ui.Field{
		in.Text("wicks", "Wicks in one candle", hint("one number, or 1; 2 to compare two")),
		in.Text("loads", "Fragrance load, %", hint("one number, or 8; 10 to compare two")),
		in.Text("pour_ats", "Poured at, "+in.Units.Temperature.Word(), hint("empty: as the wax’s guidance says")),
	}
	p.Many = []ui.Field{
		in.Count("copies", "Candles of each", hint("two or three tell a lucky candle from a good one")),
		in.Count("per_melt", "Candles from one melt", hint("empty: as many as the melter holds, if the settings say")),
		in.Count("seed", "Number of the draw", hint("the same number draws the same order again")),
		in.Tick("own_melts", "Each copy from its own melt", hint("tells a load or a temperature from the luck of one melt")),
		in.Tick("square", "Latin square", hint("every cell once at each place and on each evening; needs as many places as cells")),
	}
	p.Days = roundDayFields(in)
	p.Note = in.Area("note", "Note")
	labels := ui.Group{Fields: append(append(append([]ui.Field{p.Question, p.Vessels, p.Rungs.Field}, p.Stuff...), p.Levels...), append(p.Many, p.Days...)...)}
	p.Form = in.Form(ui.Form{Action: "/rounds/new", Draft: "/rounds/new", Cancel: "/rounds", Groups: []ui.Group{labels}})
	return p
}

// ShowPlan puts the plan before the form.
func (p *RoundFormPage) ShowPlan(plan RoundPlan) {
	p.Plan, p.Keep = &plan, len(plan.Problems) == 0
}

func readyQuestions(asked string) []ReadyQuestion {
	var out []ReadyQuestion
	for _, q := range []struct{ ask, text string }{
		{AskRung, "Which rung of a ladder?"}, {AskLoad, "Which load?"}, {AskPourAt, "Which pour temperature?"}, {AskVessel, "Which vessel?"}, {"", "Something else"},
	} {
		href := "/rounds/new"
		if q.ask != "" {
			href += "?ask=" + q.ask
		}
		out = append(out, ReadyQuestion{q.text, href, asked == q.ask})
	}
	return out
}

// roundLacks says what the shelf must hold first; nil when nothing is missing.
func roundLacks(k Known) *MissingPage {
	if len(present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, 0)) == 0 {
		return missing("A round needs a wax, a vessel and the wicks of a ladder. There is no wax on the shelf yet.", []ui.Action{{Text: "Add a wax", Href: "/shelf/waxes/new", Main: true}})
	}
	return shelfLacks(k, journal.Candle{})
}

func roundStuff(in Input, k Known) []ui.Field {
	waxes := present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, idFrom(in.Value("wax")))
	oils := present(k.shelf.Fragrances, func(f journal.Fragrance) journal.Meta { return f.Meta }, idFrom(in.Value("fragrance")))
	return []ui.Field{
		in.Select("wax", "Wax", namedOptions("choose", waxes, func(w journal.Wax) (journal.ID, string) { return w.ID, w.Name }), required),
		in.Select("fragrance", "Fragrance", namedOptions("none", oils, func(f journal.Fragrance) (journal.ID, string) { return f.ID, f.Name })),
		in.Select("load_basis", "Loads are a share", append([]ui.Option{{Value: "", Text: "as in the guidance"}}, bases...)),
	}
}

// ticks are several of a few things.
func (in Input) ticks(name, label string, options []ui.Option, tweaks ...tweak) ui.Field {
	f := in.field(ui.TicksField, name, label, tweaks)
	f.Options = in.ticked(name, options)
	return f
}

// ticked marks the options that were ticked.
func (in Input) ticked(name string, options []ui.Option) []ui.Option {
	for i := range options {
		options[i].Selected = in.Has(name, options[i].Value)
	}
	return options
}

func roundVessels(k Known) []ui.Option {
	var out []ui.Option
	for _, x := range present(k.shelf.Vessels, func(x journal.Vessel) journal.Meta { return x.Meta }, 0) {
		out = append(out, ui.Option{Value: idText(x.ID), Text: x.Name})
	}
	return out
}

// rungGroups are the rungs under the names of their ladders.
func rungGroups(in Input, k Known) []ui.OptionGroup {
	var out []ui.OptionGroup
	for _, g := range k.wickGroups(0) {
		for i, o := range g.Options {
			g.Options[i].Text = k.wicks[idFrom(o.Value)].Label
		}
		g.Options = in.ticked("rungs", g.Options)
		out = append(out, g)
	}
	return out
}

// weekdayOptions are the evenings of a week, Monday first.
func weekdayOptions() []ui.Option {
	var out []ui.Option
	for i := range 7 {
		d := time.Weekday((i + 1) % 7)
		out = append(out, ui.Option{Value: strconv.Itoa(int(d)), Text: d.String()[:3]})
	}
	return out
}

// roundDayFields are what the calendar is worked out from.
func roundDayFields(in Input) []ui.Field {
	return []ui.Field{
		in.Date("pour_on", "Pour day"),
		in.Time("start", "Sittings begin at"),
		in.Quantity("hours", "hours", "A sitting lasts"),
		in.Count("per_evening", "Sittings in one evening", hint("two need an hour’s rest between them")),
		in.Count("bench_places", "Places on the bench", hint("candles that can be lit together")),
		in.Count("burns", "Burns of each candle", hint("empty: until it is spent")),
		in.ticks("weekdays", "Free evenings", weekdayOptions(), wide),
		in.Text("away", "Days away", wide, hint("such as 2026-05-04, or 2026-05-04 to 2026-05-11")),
	}
}

// RoundDaysValues writes the days of a round into their boxes.
func RoundDaysValues(d journal.RoundDays) url.Values {
	f := newFiller(quantity.Metric)
	f.text("pour_on", d.PourOn)
	f.text("start", d.Start)
	f.hours("hours", &d.Hours)
	f.count("per_evening", &d.PerEvening)
	f.count("bench_places", &d.BenchPlaces)
	if d.Burns > 0 {
		f.count("burns", &d.Burns)
	}
	for _, w := range d.Weekdays {
		f.Add("weekdays", strconv.Itoa(int(w)))
	}
	f.text("away", awayText(d.Away))
	return f.Values
}

// awayText writes days away with runs drawn together.
func awayText(days []string) string {
	var parts []string
	for i := 0; i < len(days); {
		j := i
		for j+1 < len(days) && follows(days[j], days[j+1]) {
			j++
		}
		if part := days[i]; j > i {
			parts = append(parts, part+" to "+days[j])
		} else {
			parts = append(parts, part)
		}
		i = j + 1
	}
	return joinBy(", ", parts...)
}

const isoDay = "2006-01-02"

// follows reports whether a date is the day after another.
func follows(a, b string) bool {
	x, err := time.Parse(isoDay, a)
	y, err2 := time.Parse(isoDay, b)
	return err == nil && err2 == nil && y.Equal(x.AddDate(0, 0, 1))
}

// usualDays are those of a round that nobody has thought about: tomorrow, and
// any evening.
func usualDays(set journal.Settings, v View) journal.RoundDays {
	d := journal.RoundDays{PourOn: v.DateBox(v.Now.AddDate(0, 0, 1)), Start: form.UsualStart, Hours: form.UsualSitting, PerEvening: 1,
		BenchPlaces: form.UsualBench, Burns: 4}
	if set.BenchPlaces != nil {
		d.BenchPlaces = *set.BenchPlaces
	}
	for i := range 7 {
		d.Weekdays = append(d.Weekdays, time.Weekday(i))
	}
	return d
}
