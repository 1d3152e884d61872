package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// SetCheckPage shows one set check of a candle.
type SetCheckPage struct {
	Title, Code, Candle, Lede string
	Gone, Early               string
	Facts                     []ui.Fact
	Acts                      []ui.Action
	Warnings                  []ui.Warning
	History                   []ui.ChangeLine
}

// NewSetCheckPage builds the page of one set check; l is its candle.
func NewSetCheckPage(s journal.SetCheck, l journal.CandleLog, history []journal.Change, v View) SetCheckPage {
	at := "/set-checks/" + idText(s.ID)
	p := SetCheckPage{
		Title: "Set check of " + l.Candle.Code(), Code: l.Candle.Code(), Candle: "/candles/" + idText(l.Candle.ID),
		Lede:  wicksText(l.Made) + " in " + l.Vessel.Name + ", " + l.Wax.Name + ". Looked at " + v.Moment(s.At) + ", " + safety.AfterPour(l.Pour.At, s.At) + ".",
		Facts: setCheckFacts(s, v), Early: earlyLook(s, l.Pour),
		History: changeLines(history, v, factsOf(func(x journal.SetCheck) []ui.Fact { return setCheckFacts(x, v) })),
		Acts:    []ui.Action{{Text: "Correct", Href: at + "/edit"}, {Text: "Withdraw", Href: "/withdraw/" + url.PathEscape(string(journal.NounSetCheck)) + "/" + idText(s.ID)}},
	}
	if s.IsGone() {
		p.Gone = joinWords("Withdrawn "+v.Day(*s.Gone)+".", s.GoneWhy)
		p.Acts[1] = ui.Action{Text: "Bring it back", Href: "/restore/" + url.PathEscape(string(journal.NounSetCheck)) + "/" + idText(s.ID), Post: true}
		return p
	}
	if s.Sweating.Seen() {
		p.Warnings = append(p.Warnings, ui.Warning{Text: sweatText, More: sweatMore})
	}
	return p
}

// What is said wherever a candle sweated before it was lit.
const (
	sweatText = "It sweats: more oil than the wax holds. Wax rich in oil catches fire more easily."
	sweatMore = "Wipe the oil off, keep clear of the flame while you light it, and stay close, with the lid at hand. Use less oil in the next pour (common practice, no source)."
)

// earlyLook says that a set check came before the candle was set; "" when it
// did not.
func earlyLook(s journal.SetCheck, p journal.Pour) string {
	if !s.Early(p.At) {
		return ""
	}
	return "This was before a full 24 h had passed. Candles are looked at after a full day (common practice, no source); look again then."
}

// setCheckFacts lists what a set check saw.
func setCheckFacts(s journal.SetCheck, v View) []ui.Fact {
	var l factList
	l.text("Time", v.Date(s.At)+", "+v.Clock(s.At))
	l.text("Top", string(s.Top))
	maybe(&l, "Depth of the dip", s.Dip, v.length)
	l.text("Sink hole", string(s.SinkHole))
	l.text("Cracks", string(s.Cracks))
	l.text("Frosting", string(s.Frosting))
	l.text("Sweating", string(s.Sweating))
	maybe(&l, "Wall that the wax sticks to", s.Stuck, quantity.Fraction.Percent)
	if s.ColdThrow != nil {
		l.text("Cold throw", throwText(*s.ColdThrow))
	}
	l.text("Note", s.Note)
	return l
}

// SetCheckValues writes a set check into the boxes of its form.
func SetCheckValues(s journal.SetCheck, v View) url.Values {
	f := newFiller(v.Units)
	f.text("at_date", v.DateBox(s.At))
	f.text("at_time", v.TimeBox(s.At))
	f.text("top", string(s.Top))
	f.length("dip", s.Dip)
	f.text("sink_hole", string(s.SinkHole))
	f.text("cracks", string(s.Cracks))
	f.text("frosting", string(s.Frosting))
	f.text("sweating", string(s.Sweating))
	f.percent("stuck", s.Stuck)
	f.count("cold_throw", s.ColdThrow)
	f.text("note", s.Note)
	return f.Values
}

// SetCheckForm is the form that corrects a set check.
func SetCheckForm(in Input, s journal.SetCheck) ui.Form {
	at := "/set-checks/" + idText(s.ID)
	return in.Form(ui.Form{Action: at + "/edit", Draft: at + "/edit", Cancel: at, Submit: "Save the set check", Groups: []ui.Group{
		{Fields: []ui.Field{in.Date("at_date", "Date"), in.Time("at_time", "Time")}},
		{Legend: "The top and the wall", Fields: []ui.Field{
			in.Words("top", "Top", amountOptions(topWords)), in.Words("sink_hole", "Sink hole", amountOptions(sinkWords)), in.Words("cracks", "Cracks", amountOptions(crackWords)),
			in.Words("frosting", "Frosting", amountOptions(frostWords)), in.Words("sweating", "Sweating", amountOptions(sweatWords)),
			in.Quantity("length", "dip", "Depth of the dip", hint("only where the top is a dip")),
			in.Quantity("percent", "stuck", "Wall that the wax sticks to", hint("100 % where no wet spot shows")),
			in.Select("cold_throw", "Cold throw", throwOptions()),
		}},
		{Fields: []ui.Field{in.Area("note", "Note")}},
	}})
}

// amountOptions are the words of a scale with "not looked at" first.
func amountOptions(words []journal.GradeWord) []ui.Option {
	out := wordOptions(words)
	out[0].Text = "not looked at"
	return out
}

// The words of a set check with what they look like.
var (
	topWords = []journal.GradeWord{
		{Grade: journal.Grade(journal.TopSmooth), Meaning: "level, or nearly so"},
		{Grade: journal.Grade(journal.TopDip), Meaning: "sunken around the wick; measure how deep"},
		{Grade: journal.Grade(journal.TopRough), Meaning: "uneven, pitted or grainy"},
	}
	sinkWords  = amountWords("the wax is whole", "a pinhole, or a hollow beside the wick", "a hole that opens into a cavity")
	crackWords = amountWords("an unbroken top", "hairlines", "open cracks")
	frostWords = amountWords("clear and even", "a bloom here and there", "white crystals over much of it")
	sweatWords = amountWords("dry to a fingertip", "a film, or a few beads of oil", "beads or a puddle of oil")
)

func amountWords(none, slight, heavy string) []journal.GradeWord {
	return []journal.GradeWord{
		{Grade: journal.Grade(journal.AmountNone), Meaning: none}, {Grade: journal.Grade(journal.AmountSlight), Meaning: slight}, {Grade: journal.Grade(journal.AmountHeavy), Meaning: heavy},
	}
}

// SetScales lists the words of a set check, for the foot of its form.
func SetScales() []ScaleWords {
	return []ScaleWords{{"Top", topWords}, {"Sink hole", sinkWords}, {"Cracks", crackWords}, {"Frosting", frostWords}, {"Sweating", sweatWords}, {"Cold throw", journal.ThrowScale}}
}

// SetCheckSubject is a set check as a thing that photos show.
func SetCheckSubject(s journal.SetCheck, l journal.CandleLog) PhotoSubject {
	x := CandleSubject(l.Candle)
	x.Of, x.ID, x.Gone = journal.NounSetCheck, s.ID, l.Withdrawn() || s.IsGone()
	x.Name, x.Back = "the set check of "+l.Candle.Code(), "/set-checks/"+idText(s.ID)
	return x
}

// WithdrawableSetCheck is a set check of a candle.
func WithdrawableSetCheck(s journal.SetCheck, c journal.Candle) Withdrawable {
	return Withdrawable{journal.NounSetCheck, s.ID, "Withdraw this set check of " + c.Code() + "?",
		"It stays on record but counts no more. It can be brought back.",
		"Withdraw it", "The set check is withdrawn.", "/set-checks/" + idText(s.ID)}
}
