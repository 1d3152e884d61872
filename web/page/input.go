package page

import (
	"net/url"
	"slices"
	"strings"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// Input is what stands in a form: what was typed or what is recorded, and what
// is said of it.
type Input struct {
	Values   url.Values
	Problems form.Problems
	Doubts   []journal.Doubt // asked now
	Asked    []string        // keys of doubts that were asked before
	Units    quantity.Units
	Token    string // makes saving it twice the same as once
	Version  string // of the record that is corrected, "" for a new one
	Retried  bool   // it comes back after a rejection
	Prefix   string // of the names of a row's fields
}

// Row is the same input seen from one row, whose names carry the prefix.
func (in Input) Row(prefix string) Input { in.Prefix = prefix; return in }

// Value is the text that stands in a field.
func (in Input) Value(name string) string { return in.Values.Get(in.Prefix + name) }

// Has reports whether a value was chosen among several under one name.
func (in Input) Has(name, value string) bool {
	return slices.Contains(in.Values[in.Prefix+name], value)
}

// tweak changes a field while it is made.
type tweak func(*ui.Field)

func hint(text string) tweak        { return func(f *ui.Field) { f.Hint = text } }
func wide(f *ui.Field)              { f.Wide = true }
func required(f *ui.Field)          { f.Required = true }
func focus(f *ui.Field)             { f.Autofocus = true }
func previous(text string) tweak    { return func(f *ui.Field) { f.Previous = text } }
func unlabelled(label string) tweak { return func(f *ui.Field) { f.AriaLabel, f.Label = label, "" } }

// field makes a field of any kind with what is said of it.
func (in Input) field(kind ui.FieldKind, name, label string, tweaks []tweak) ui.Field {
	f := ui.Field{Kind: kind, Name: in.Prefix + name, Label: label, Value: in.Value(name), Problem: in.Problems.For(in.Prefix + name)}
	for _, d := range in.Doubts {
		if d.Field == in.Prefix+name {
			f.Question = d.Text
		}
	}
	for _, t := range tweaks {
		t(&f)
	}
	return f
}

// Text is a line of text.
func (in Input) Text(name, label string, tweaks ...tweak) ui.Field {
	return in.field(ui.TextField, name, label, tweaks)
}

// Area is a longer text.
func (in Input) Area(name, label string, tweaks ...tweak) ui.Field {
	return in.field(ui.AreaField, name, label, append(tweaks, wide))
}

// Count is a whole number.
func (in Input) Count(name, label string, tweaks ...tweak) ui.Field {
	return in.field(ui.CountField, name, label, tweaks)
}

// Date and Time are the two halves of a moment.
func (in Input) Date(name, label string, tweaks ...tweak) ui.Field {
	return in.field(ui.DateField, name, label, tweaks)
}

// Time is the time of day of a moment.
func (in Input) Time(name, label string, tweaks ...tweak) ui.Field {
	return in.field(ui.TimeField, name, label, tweaks)
}

// Tick is a box to tick.
func (in Input) Tick(name, label string, tweaks ...tweak) ui.Field {
	f := in.field(ui.TickField, name, label, tweaks)
	f.Checked = f.Value != ""
	return f
}

// Quantity is a number with a unit; kind is one of length, mass, temperature,
// volume, room, hours, minutes, seconds, days, percent, density, heat.
func (in Input) Quantity(kind, name, label string, tweaks ...tweak) ui.Field {
	f := in.field(ui.QuantityField, name, label, tweaks)
	f.Quantity, f.Unit = kind, in.unit(kind)
	if in.Retried && f.Problem == "" && !plainNumber(f.Value) {
		f.Understood, _ = form.Understand(kind, f.Value, in.Units)
	}
	return f
}

// plainNumber reports whether a text needs no explaining how it was read.
func plainNumber(s string) bool { return strings.Trim(strings.TrimSpace(s), "0123456789.") == "" }

// unit is the word that stands after the box of a quantity.
func (in Input) unit(kind string) string {
	switch kind {
	case "length":
		return in.Units.Length.Word()
	case "mass":
		return in.Units.Mass.Word()
	case "temperature":
		return in.Units.Temperature.Word()
	case "volume":
		return in.Units.Volume.Word()
	case "room":
		return in.Units.RoomWord()
	case "price by mass":
		return "per " + in.Units.PriceMassWord()
	}
	return map[string]string{"hours": "h", "minutes": "min", "seconds": "s", "days": "days", "percent": "%", "density": "g/mL", "heat": "kJ/g"}[kind]
}

// Select is one choice among a few.
func (in Input) Select(name, label string, options []ui.Option, tweaks ...tweak) ui.Field {
	f := in.field(ui.SelectField, name, label, tweaks)
	f.Options = chosen(options, f.Value)
	return f
}

// SelectGrouped is one choice among many, under headings.
func (in Input) SelectGrouped(name, label string, first []ui.Option, groups []ui.OptionGroup, tweaks ...tweak) ui.Field {
	f := in.field(ui.SelectField, name, label, tweaks)
	f.Groups = append(f.Groups, ui.OptionGroup{Options: chosen(first, f.Value)})
	for _, g := range groups {
		f.Groups = append(f.Groups, ui.OptionGroup{Label: g.Label, Options: chosen(g.Options, f.Value)})
	}
	return f
}

// chosen marks the option that has the value.
func chosen(options []ui.Option, value string) []ui.Option {
	out := slices.Clone(options)
	for i := range out {
		out[i].Selected = out[i].Value == value
	}
	return out
}

// plain makes options whose text is their value.
func plain[T ~string](values []T) []ui.Option {
	out := make([]ui.Option, len(values))
	for i, v := range values {
		out[i] = ui.Option{Value: string(v), Text: string(v)}
	}
	return out
}

// Form closes a form: the values that travel unseen, and the list of what is
// wrong or asked, each with the label of its field.
func (in Input) Form(f ui.Form) ui.Form {
	f.Retried = in.Retried
	f.Hidden = append(f.Hidden, ui.Hidden{Name: "token", Value: in.Token})
	if in.Version != "" {
		f.Hidden = append(f.Hidden, ui.Hidden{Name: "version", Value: in.Version})
	}
	for _, key := range in.askedKeys() {
		f.Hidden = append(f.Hidden, ui.Hidden{Name: "asked", Value: key})
	}
	labels := labelsOf(f.Groups)
	for _, p := range in.Problems {
		f.Wrong = append(f.Wrong, line(labels, p.Field, p.Text))
	}
	for _, d := range in.Doubts {
		f.Asked = append(f.Asked, line(labels, d.Field, d.Text))
	}
	return f
}

// askedKeys are the doubts that need no second asking.
func (in Input) askedKeys() []string {
	keys := slices.Clone(in.Asked)
	for _, d := range in.Doubts {
		if !slices.Contains(keys, d.Key) {
			keys = append(keys, d.Key)
		}
	}
	return keys
}

func labelsOf(groups []ui.Group) map[string]string {
	labels := map[string]string{}
	for _, g := range groups {
		for _, f := range g.Fields {
			labels[f.Name] = f.Label + f.AriaLabel
		}
	}
	return labels
}

// line is one problem or question, leading to its field where there is one.
func line(labels map[string]string, field, text string) ui.Line {
	label, known := labels[field]
	switch {
	case !known:
		return ui.Line{Text: text}
	case label == "":
		return ui.Line{Target: "f-" + field, Text: text}
	}
	return ui.Line{Target: "f-" + field, Text: label + ": " + text}
}
