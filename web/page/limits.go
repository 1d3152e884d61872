package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// LimitLine is one limit as a table shows it.
type LimitLine struct{ Name, Value, Unit, Source, Status string }

// LimitsPage is the form of the limits.
type LimitsPage struct {
	Form    ui.Form
	Rows    []LimitRow
	History []ui.ChangeLine
}

// LimitRow is one limit in the form.
type LimitRow struct {
	Name, Default, Unit, Source, Status string
	Changed                             bool
	Field                               ui.Field
}

// limitShown writes a limit's number in the person's units.
func limitShown(kind safety.Kind, value float64, v View) quantity.Shown {
	switch kind {
	case safety.Length:
		return v.length(quantity.Millimetres(value))
	case safety.Temperature:
		return v.temperature(quantity.Celsius(value))
	case safety.Hours:
		return quantity.Shown{Number: quantity.Hours(value).Clock()}
	case safety.Seconds:
		return quantity.Seconds(value).Shown()
	}
	return quantity.GramsPerHour(value).Shown()
}

// statusText says how far a limit's source can be trusted; "" where the source
// says so itself.
func statusText(l safety.Limit) string {
	if l.Status == l.Source {
		return ""
	}
	return l.Status
}

// limitLines lists the limits that hold in this studio.
func limitLines(lim safety.Limits, v View) []LimitLine {
	var out []LimitLine
	for _, l := range safety.Table() {
		value, _ := lim.Value(l.Key)
		s := limitShown(l.Kind, value, v)
		line := LimitLine{Name: l.Name, Value: s.Number, Unit: s.Unit, Source: l.Source, Status: statusText(l)}
		if lim.Changed(l.Key) {
			d := limitShown(l.Kind, l.Default, v)
			line.Source, line.Status = "set in this studio", "default "+d.String()
		}
		out = append(out, line)
	}
	return out
}

// LimitsValues writes the changed limits into the boxes of their form.
func LimitsValues(s journal.Settings, v View) url.Values {
	f := newFiller(v.Units)
	for _, l := range safety.Table() {
		value, changed := s.Limits[l.Key]
		if !changed {
			continue
		}
		switch l.Kind {
		case safety.Length:
			f.Set(l.Key, v.Units.EditLength(quantity.Millimetres(value)))
		case safety.Temperature:
			f.Set(l.Key, v.Units.EditTemperature(quantity.Celsius(value)))
		case safety.Hours:
			f.Set(l.Key, quantity.EditHours(quantity.Hours(value)))
		default:
			f.Set(l.Key, quantity.EditNumber(value))
		}
	}
	return f.Values
}

// NewLimitsPage builds the form of the limits.
func NewLimitsPage(in Input, lim safety.Limits, history []journal.Change, v View) LimitsPage {
	p := LimitsPage{History: settingsHistory(history, v)}
	g := ui.Group{}
	for _, l := range safety.Table() {
		s := limitShown(l.Kind, l.Default, v)
		f := in.Quantity(string(l.Kind), l.Key, l.Name)
		if l.Kind == safety.Rate {
			f = in.Count(l.Key, l.Name)
			f.Unit = "g/h"
		}
		p.Rows = append(p.Rows, LimitRow{Name: l.Name, Default: s.Number, Unit: s.Unit, Source: l.Source, Status: statusText(l), Changed: lim.Changed(l.Key), Field: f})
		g.Fields = append(g.Fields, f)
	}
	p.Form = in.Form(ui.Form{Action: "/settings/limits", Draft: "/settings/limits", Submit: "Save the limits", Groups: []ui.Group{g}})
	p.Form.Groups = nil
	return p
}

// farOff is how many times larger or smaller than its default a limit may be
// before it is asked about: inches typed as millimetres are 25 times off.
const farOff = 5

// LimitDoubts asks about limits that are far from their defaults.
func LimitDoubts(limits map[string]float64, v View) []journal.Doubt {
	var out []journal.Doubt
	for _, l := range safety.Table() {
		x, set := limits[l.Key]
		if !set || (x <= l.Default*farOff && x >= l.Default/farOff) {
			continue
		}
		is, was := limitShown(l.Kind, x, v), limitShown(l.Kind, l.Default, v)
		out = append(out, journal.Doubt{Key: l.Key + "=" + quantity.EditNumber(x), Field: l.Key,
			Text: is.String() + " is far from the default of " + was.String() + ". Is the unit right?"})
	}
	return out
}

// settingsFacts lists a studio's choices, for their history.
func settingsFacts(s journal.Settings, v View) []ui.Fact {
	var l factList
	l.text("Lengths in", s.Units.Length.Word())
	l.text("Masses in", s.Units.Mass.Word())
	l.text("Temperatures in", s.Units.Temperature.Word())
	l.text("Volumes in", s.Units.Volume.Word())
	l.text("Smallest step of the ruler", rulerValue(s.Ruler))
	l.text("Time zone", s.TimeZone)
	l.text("Colours", schemeText(s.Scheme))
	makingFacts(&l, s, v)
	beliefFacts(&l, s)
	for _, x := range safety.Table() {
		if value, changed := s.Limits[x.Key]; changed {
			l.shown(x.Name, limitShown(x.Kind, value, v))
		}
	}
	return l
}
