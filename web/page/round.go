package page

import (
	"net/url"
	"strconv"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// RoundPage is one round: its question, what has become of its candles, what
// they say, and the days ahead.
type RoundPage struct {
	Kicker      string // a round, and whether it runs still
	Title, Lede string
	Running     bool // its question is open
	Gone        string
	Closed      string
	Next        *RoundNext // nil where nothing is left to do
	Acts        []ui.Action
	More        []ui.Action
	Plan        RoundPlan
	Progress    RoundProgressPart
	AnswerFirst bool // something was burned: what it says stands before how far it has come
	Answer      RoundAnswerPart
	Sheets      []MeltSheet
	Ics         string
	Replan      string
	Note        string
	Changes     []ui.ChangeLine
}

// MeltSheet is one melt of a round: the sheet that it is weighed by, the pour
// that came of it, or the button that makes a sheet.
type MeltSheet struct {
	Title, What string
	Links       []ui.Action
}

// RoundShown is what the page of a round is built from.
type RoundShown struct {
	RoundInput
	Sheets  []journal.PourSheet
	Pours   map[journal.ID]journal.Pour
	History []journal.Change
	Token   string
}

// NewRoundPage builds the page.
func NewRoundPage(in RoundShown, k Known, v View) RoundPage {
	r, at := in.Round, "/rounds/"+idText(in.Round.ID)
	p := RoundPage{Kicker: "Round", Running: r.Closed == nil && !r.IsGone(), Title: r.Question, Plan: NewRoundPlan(in.RoundInput, k, v), Note: r.Note, Ics: at + "/calendar.ics", Replan: at + "/days"}
	p.Lede = figured(len(r.Places), "candle", "candles") + " of " + k.waxName(r.Wax) + roundOil(r, k) + ", planned " + v.Day(r.Created) + "."
	if r.IsGone() {
		p.Kicker = "Round, withdrawn"
		p.Gone = joinWords("Withdrawn "+v.Day(*r.Gone)+".", r.GoneWhy, "Its candles stay in the journal and count as before.")
	}
	if r.Closed != nil {
		p.Kicker = "Round, answered"
		p.Closed = "Its question was taken as answered " + v.Day(*r.Closed) + "."
	}
	p.showNext(in, v)
	p.Acts, p.More = roundPageActs(in, at)
	if !r.IsGone() {
		p.Sheets = meltSheets(in, at, v)
	}
	p.Changes = changeLines(corrections(in.History), v, factsOf(func(x journal.TestRound) []ui.Fact { return roundFacts(x, k, v) }))
	return p
}

// corrections are a history without its first line, which says nothing that
// the page does not.
func corrections(h []journal.Change) (out []journal.Change) {
	for _, c := range h {
		if c.Kind != journal.Written {
			out = append(out, c)
		}
	}
	return out
}

func roundPageActs(in RoundShown, at string) (acts, more []ui.Action) {
	r, id := in.Round, idText(in.Round.ID)
	version := []ui.Hidden{{Name: "version", Value: strconv.Itoa(r.Version)}, {Name: "token", Value: in.Token}}
	if r.IsGone() {
		return []ui.Action{{Text: "Bring it back", Href: "/restore/round/" + id, Post: true}}, nil
	}
	if keys := poured(in.Progress); len(keys) > 1 {
		acts = append(acts, ui.Action{Text: "Its candles side by side", Href: sidesAddress(keys)})
	}
	acts = append(acts, ui.Action{Text: "Labels", Href: at + "/labels"}, ui.Action{Text: "Plan another like it", Href: "/rounds/new?like=" + id})
	if r.Closed == nil {
		more = append(more, ui.Action{Text: "Close the round", Href: at + "/close", Post: true, Hidden: version})
	} else {
		more = append(more, ui.Action{Text: "Open it again", Href: at + "/reopen", Post: true, Hidden: version})
	}
	return acts, append(more, ui.Action{Text: "Correct", Href: at + "/edit"}, ui.Action{Text: "Withdraw", Href: "/withdraw/round/" + id})
}

// poured are the candles of a round that were burned, as side by side names
// them; as many as it shows.
func poured(p *plan.RoundProgress) (out []SidesKey) {
	for _, x := range p.Places {
		if x.Candle != nil && x.Done > 0 && len(out) < compare.Most {
			out = append(out, SidesKey{Candle: x.Candle.Candle.ID})
		}
	}
	return out
}

// meltSheets say of every melt whether it is weighed or poured.
func meltSheets(in RoundShown, at string, v View) []MeltSheet {
	var out []MeltSheet
	for _, m := range in.Needs.Melts {
		x := MeltSheet{Title: "Melt " + strconv.Itoa(m.Number), What: counted(m.Candles, "candle", "candles")}
		if m.Known {
			x.What += ", " + v.mass(m.Wax).String() + " of wax"
			if m.Oil > 0 {
				x.What += " and " + v.mass(m.Oil).String() + " of oil"
			}
		}
		if m.Fillings > 1 {
			x.What += ", in " + counted(m.Fillings, "filling", "fillings") + " of the melter"
		}
		x.What = joinBy(" · ", x.What, placeSetting(journal.RoundPlace{Load: m.Load, PourAt: m.PourAt}, in.Round.Factors.LoadBasis, v))
		x.Links = meltLinks(m.Number, in, at)
		out = append(out, x)
	}
	return out
}

// meltLinks lead to the pours of a melt and to its sheets, or make one.
func meltLinks(melt int, in RoundShown, at string) (out []ui.Action) {
	open := false
	for _, x := range in.Progress.Places {
		open = open || x.Place.Melt == melt && x.Candle == nil
	}
	seen := map[journal.ID]bool{}
	for _, x := range in.Progress.Places {
		if x.Place.Melt == melt && x.Candle != nil && !seen[x.Candle.Candle.Pour] {
			seen[x.Candle.Candle.Pour] = true
			out = append(out, ui.Action{Text: "Pour " + strconv.Itoa(x.Candle.Candle.PourNumber), Href: "/pours/" + idText(x.Candle.Candle.Pour)})
		}
	}
	sheet := false
	for _, s := range in.Sheets {
		if !s.IsGone() && s.Pour == nil && meltOfSheet(s, in.Round) == melt {
			sheet = true
			out = append(out, ui.Action{Text: "Weigh it", Href: "/pours/sheets/" + idText(s.ID), Main: true})
		}
	}
	if open && !sheet && in.Round.Closed == nil {
		out = append(out, ui.Action{Text: "Make the pour sheet", Href: at + "/sheet", Post: true,
			Hidden: []ui.Hidden{{Name: "melt", Value: strconv.Itoa(melt)}, {Name: "token", Value: in.Token + "-" + strconv.Itoa(melt)}}})
	}
	return out
}

// meltOfSheet is the melt that a sheet of a round is for; 0 where it says none.
func meltOfSheet(s journal.PourSheet, r journal.TestRound) int {
	for _, l := range s.Body.Lines {
		for _, n := range l.Places {
			if p, ok := r.Place(n); ok {
				return p.Melt
			}
		}
	}
	return 0
}

// roundFacts are a round as its history compares it.
func roundFacts(r journal.TestRound, k Known, v View) []ui.Fact {
	var f factList
	f.text("Question", r.Question)
	f.text("Wax", k.waxName(r.Wax))
	f.text("Compares", listed(append(k.vesselNames(r.Factors.Vessels), k.roundWicks(r.Factors.Wicks)...)))
	f.text("Loads", listed(percents(r.Factors.Loads)))
	f.text("Poured at", listed(degrees(r.Factors.PourAts, v.Units)))
	f.text("Candles of each", strconv.Itoa(r.Copies))
	f.text("Draw", strconv.FormatInt(r.Seed, 10))
	f.text("Pour day", r.Days.PourOn)
	f.text("Sittings begin at", r.Days.Start)
	f.text("A sitting lasts", r.Days.Hours.Clock())
	f.text("Sittings in one evening", strconv.Itoa(r.Days.PerEvening))
	f.text("Places on the bench", strconv.Itoa(r.Days.BenchPlaces))
	f.text("Free evenings", weekdaysText(r.Days))
	f.text("Days away", awayText(r.Days.Away))
	f.text("Burns of each", burnsWanted(r.Days))
	if r.Closed != nil {
		f.text("Answered", v.Date(*r.Closed))
	}
	f.text("Note", r.Note)
	return f
}

func burnsWanted(d journal.RoundDays) string {
	if d.Burns == 0 {
		return "until it is spent"
	}
	return strconv.Itoa(d.Burns)
}

func weekdaysText(d journal.RoundDays) string {
	var days []string
	for _, w := range d.Weekdays {
		days = append(days, w.String()[:3])
	}
	return listed(days)
}

// WithdrawableRound is a round.
func WithdrawableRound(r journal.TestRound) Withdrawable {
	return Withdrawable{journal.NounRound, r.ID, "Withdraw this round?",
		"The plan is struck out. Candles that were poured for it stay in the journal and count as before. It can be brought back.",
		"Withdraw it", "The round is withdrawn.", "/rounds/" + idText(r.ID)}
}

// RoundValues writes the question, the days and the note of a round into the
// boxes that correct it.
func RoundValues(r journal.TestRound) url.Values {
	f := newFiller(quantity.Metric)
	for name, vs := range RoundDaysValues(r.Days) {
		f.Values[name] = vs
	}
	f.text("question", r.Question)
	f.text("note", r.Note)
	return f.Values
}

// EditRoundForm corrects the words of a round.
func EditRoundForm(in Input, r journal.TestRound) ui.Form {
	at := "/rounds/" + idText(r.ID)
	return in.Form(ui.Form{Action: at + "/edit", Draft: at + "/edit", Cancel: at, Submit: "Save the correction",
		Groups: []ui.Group{{Fields: []ui.Field{in.Text("question", "The question", wide, required), in.Area("note", "Note")}}}})
}

// RoundDaysPage plans the days of a round anew.
type RoundDaysPage struct {
	Title, Lede string
	Form        ui.Form
	Moved       []string // what this would move; empty until it was worked out
	Plan        *CalendarPart
	Keep        bool
}

// NewRoundDaysPage builds the page.
func NewRoundDaysPage(in Input, r journal.TestRound) RoundDaysPage {
	at := "/rounds/" + idText(r.ID)
	p := RoundDaysPage{Title: "Plan the days anew", Lede: "What has happened stays; the rest is planned from today. Nothing is planned into the past."}
	p.Form = in.Form(ui.Form{Action: at + "/days", Draft: at + "/days", Cancel: at, Groups: []ui.Group{{Fields: roundDayFields(in)}}})
	return p
}

// ShowDays puts the new calendar before the form, with what it moves.
func (p *RoundDaysPage) ShowDays(was, is plan.Calendar, progress *plan.RoundProgress, v View) {
	part := newCalendarPart(is, placeNamer(progress), v)
	p.Plan, p.Keep = &part, len(is.Problems) == 0
	name := placeNamer(progress)
	for _, m := range plan.Moved(was, is) {
		p.Moved = append(p.Moved, moveText(m, is, name, v))
	}
	if p.Keep && len(p.Moved) == 0 {
		p.Moved = []string{"Nothing moves."}
	}
}

// moveText says what moves from which day to which.
func moveText(m plan.Move, c plan.Calendar, name func(int) string, v View) string {
	what := map[plan.EventKind]string{plan.PourEvent: "the pour of ", plan.SetEvent: "the set check of ", plan.ReadyEvent: "the ready day of "}[m.Kind]
	if m.Kind == plan.SittingEvent {
		what = "burn " + strconv.Itoa(m.Burn) + " of "
	}
	text := capital(what + placeNames(m.Places, name))
	switch {
	case m.From == "":
		return text + ": now " + v.planDay(m.To, c)
	case m.To == "":
		return text + ": no longer planned, was " + v.planDay(m.From, c)
	}
	return text + ": from " + v.planDay(m.From, c) + " to " + v.planDay(m.To, c)
}

// ShowParts puts in how far the round has come and what it answers.
func (p *RoundPage) ShowParts(progress RoundProgressPart, answer RoundAnswerPart) {
	p.Progress, p.Answer, p.AnswerFirst = progress, answer, progress.Burned
}

// EditRoundLede says what can be corrected of a round.
const EditRoundLede = "The question and the note can be worded anew at any time. Its days are planned anew on their own page. What it compares is frozen with the first pour: to compare something else, plan another round."

// ShowRound says which place of which round a candle took.
func (p *CandlePage) ShowRound(c journal.Candle, r journal.TestRound) {
	p.Facts = append(p.Facts, ui.Fact{Label: "Round", Text: r.Question, Href: "/rounds/" + idText(r.ID), More: "place " + strconv.Itoa(c.RoundPlace)})
}
