package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/standings"
	"rimward/web/ui"
)

// BeliefsPage is the form of what the standings believe before the first burn.
type BeliefsPage struct {
	Form    ui.Form
	Apart   ui.Field
	Rows    []BeliefRow
	Changed bool
	History []ui.ChangeLine
}

// BeliefRow is one belief in the form.
type BeliefRow struct {
	Name, Means, Default string
	Changed              bool
	Field                ui.Field
}

// apartWords says how settings can be kept apart.
var apartWords = []ui.Option{
	{Value: string(journal.ByLoad), Text: "by wax, fragrance and load"},
	{Value: string(journal.ByFragrance), Text: "by wax and fragrance, any load"},
	{Value: string(journal.ByWax), Text: "by wax, any fragrance and load"},
}

// BeliefsValues writes what was changed into the boxes of the form.
func BeliefsValues(s journal.Settings) url.Values {
	out := url.Values{"apart": {string(s.Apart)}}
	for _, b := range standings.Beliefs() {
		if v, changed := s.Beliefs[b.Key]; changed {
			out.Set(b.Key, b.Edit(v))
		}
	}
	return out
}

// NewBeliefsPage builds the form.
func NewBeliefsPage(in Input, s journal.Settings, history []journal.Change, v View) BeliefsPage {
	p := BeliefsPage{Changed: len(s.Beliefs) > 0, History: settingsHistory(history, v),
		Apart: in.Select("apart", "Judge wicks apart", apartWords, hint("candles that differ in what is named are never compared; they still share how pools open"))}
	g := ui.Group{Fields: []ui.Field{p.Apart}}
	for _, b := range standings.Beliefs() {
		_, changed := s.Beliefs[b.Key]
		f := in.Text(b.Key, b.Name)
		p.Rows = append(p.Rows, BeliefRow{Name: b.Name, Means: beliefMeans(b), Default: beliefText(b, b.Default), Changed: changed, Field: f})
		g.Fields = append(g.Fields, f)
	}
	p.Form = in.Form(ui.Form{Action: "/settings/beliefs", Draft: "/settings/beliefs", Submit: "Save", Groups: []ui.Group{g}})
	p.Form.Groups = nil
	return p
}

// beliefMeans says what a belief means and what it is typed in.
func beliefMeans(b standings.Belief) string {
	switch {
	case b.List && b.Unit() == "":
		return b.Means + "; weights in brackets"
	case b.List:
		return b.Means + "; in " + b.Unit() + ", weights in brackets"
	case b.Kind == standings.PerHour:
		return b.Means + ", " + b.Unit()
	}
	return b.Means + ", in " + b.Unit()
}

// beliefText writes a belief's numbers; a single one with its unit.
func beliefText(b standings.Belief, v []float64) string {
	if b.List {
		return b.Edit(v)
	}
	return b.Text(v[0])
}

// beliefFacts lists what was changed of them, for the history of the settings.
func beliefFacts(l *factList, s journal.Settings) {
	for _, o := range apartWords {
		if o.Value == string(s.Apart) {
			l.text("Wicks are judged apart", o.Text)
		}
	}
	for _, b := range standings.Beliefs() {
		if v, changed := s.Beliefs[b.Key]; changed {
			l.text("Believed: "+b.Name, beliefText(b, v))
		}
	}
}
