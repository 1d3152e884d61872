package page

import (
	"net/url"
	"slices"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// SettingsPage lets a studio choose how it wants to see things.
type SettingsPage struct {
	Form    ui.Form
	Offer   *ui.Action // the machine's own time zone, where none was chosen yet
	OfferTo string     // what is said of it
	History []ui.ChangeLine
}

// NewSettingsPage builds the page. machine is the name of the machine's own
// time zone, "" when it is unknown or when the studio has chosen already.
func NewSettingsPage(in Input, machine string, history []journal.Change, v View) SettingsPage {
	p := SettingsPage{Form: settingsForm(in), History: settingsHistory(history, v)}
	if machine != "" && machine != in.Value("time_zone") {
		p.OfferTo = "Times are shown in " + in.Value("time_zone") + ". This machine keeps " + machine + "."
		p.Offer = &ui.Action{Text: "Put " + machine + " into the form", Href: "/settings?" + url.Values{"zone": {machine}}.Encode() + "#f-time_zone"}
	}
	return p
}

// SettingsValues writes the settings into the boxes of their form.
func SettingsValues(s journal.Settings) url.Values {
	out := url.Values{
		"length": {string(s.Units.Length)}, "mass": {string(s.Units.Mass)},
		"temperature": {string(s.Units.Temperature)}, "volume": {string(s.Units.Volume)},
		"ruler": {rulerValue(s.Ruler)}, "time_zone": {s.TimeZone}, "scheme": {string(s.Scheme)},
	}
	makingBoxes(out, s)
	return out
}

// rulers are the steps that rulers are divided into, as the form sends them.
var rulers = []struct {
	value, text string
	step        quantity.Millimetres
}{
	{"1 mm", "1 mm", 1},
	{"0.5 mm", "half a mm", 0.5},
	{"1/16 in", "1/16 in", 25.4 / 16},
	{"1/32 in", "1/32 in", 25.4 / 32},
}

// rulerValue is the step as the form sends it.
func rulerValue(step quantity.Millimetres) string {
	for _, r := range rulers {
		if d := step - r.step; d < 1e-6 && d > -1e-6 {
			return r.value
		}
	}
	return quantity.Metric.EditLength(step) + " mm"
}

func rulerOptions(now string) []ui.Option {
	var out []ui.Option
	for _, r := range rulers {
		out = append(out, ui.Option{Value: r.value, Text: r.text})
	}
	return withOption(out, now)
}

// withOption adds the value that is recorded where the list lacks it.
func withOption(options []ui.Option, now string) []ui.Option {
	known := slices.ContainsFunc(options, func(o ui.Option) bool { return o.Value == now })
	if now == "" || known {
		return options
	}
	return append(options, ui.Option{Value: now, Text: now})
}

// schemes are the dresses that pages can wear.
var schemes = []ui.Option{
	{Value: "auto", Text: "automatic"}, {Value: "day", Text: "paper, by day"}, {Value: "night", Text: "charcoal, by night"},
}

func schemeText(s journal.Scheme) string {
	for _, o := range schemes {
		if o.Value == string(s) {
			return o.Text
		}
	}
	return string(s)
}

// settingsForm is the form of everything but the limits.
func settingsForm(in Input) ui.Form {
	in.Problems = besideOtherZone(in)
	return in.Form(ui.Form{Action: "/settings", Submit: "Save the settings", Groups: []ui.Group{
		{Legend: "Units", Lede: "How quantities are shown, and what a bare number means. Any unit can be typed anywhere: 2 7/8 in, 150F, 8 fl oz.", Fields: []ui.Field{
			in.Select("length", "Lengths", []ui.Option{{Value: "mm", Text: "millimetres"}, {Value: "in", Text: "inches, in sixteenths"}}),
			in.Select("mass", "Masses", []ui.Option{{Value: "g", Text: "grams"}, {Value: "oz", Text: "ounces"}}),
			in.Select("temperature", "Temperatures", []ui.Option{{Value: "C", Text: "degrees Celsius"}, {Value: "F", Text: "degrees Fahrenheit"}}),
			in.Select("volume", "Volumes", []ui.Option{{Value: "mL", Text: "millilitres"}, {Value: "floz", Text: "US fluid ounces"}}),
		}},
		{Legend: "Ruler", Fields: []ui.Field{
			in.Select("ruler", "Smallest step of your ruler", rulerOptions(in.Value("ruler")), hint("a pool within half a step of the wall counts as full, and the standings take every width as rounded to a step")),
		}},
		makingGroup(in),
		{Legend: "Clock", Fields: []ui.Field{
			zoneField(in),
			in.Text("time_zone_other", "A zone that is not in the list", hint("by its IANA name, such as Asia/Tbilisi; empty keeps the choice from the list")),
		}},
		{Legend: "Look", Fields: []ui.Field{
			in.Select("scheme", "Colours", schemes, hint("automatic follows the machine")),
		}},
	}})
}

// besideOtherZone moves what is wrong with the zone to the box it was typed in.
func besideOtherZone(in Input) form.Problems {
	if in.Value("time_zone_other") == "" {
		return in.Problems
	}
	ps := slices.Clone(in.Problems)
	for i := range ps {
		if ps[i].Field == "time_zone" {
			ps[i].Field = "time_zone_other"
		}
	}
	return ps
}

// zoneField is the choice among the zones most studios live in.
func zoneField(in Input) ui.Field {
	now := in.Value("time_zone")
	var groups []ui.OptionGroup
	first := []ui.Option{{Value: "UTC", Text: "UTC"}}
	listed := now == "UTC" || now == ""
	for _, g := range zones {
		var os []ui.Option
		for _, z := range g.names {
			os = append(os, ui.Option{Value: z, Text: zoneText(z)})
			listed = listed || z == now
		}
		groups = append(groups, ui.OptionGroup{Label: g.part, Options: os})
	}
	if !listed && in.Value("time_zone_other") == "" {
		first = append(first, ui.Option{Value: now, Text: zoneText(now)})
	}
	return in.SelectGrouped("time_zone", "Time zone", first, groups, hint("journal times are kept in UTC; this is how they are shown and typed"))
}

// settingsHistory writes what was changed, newest first.
func settingsHistory(changes []journal.Change, v View) []ui.ChangeLine {
	return changeLines(changes, v, factsOf(func(s journal.Settings) []ui.Fact { return settingsFacts(s, v) }))
}
