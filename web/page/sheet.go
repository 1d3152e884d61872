package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/pour"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// SheetPage is a pour sheet as it is used at the stove.
type SheetPage struct {
	Kicker, Title, Lede string
	Gone, Poured        string
	PouredHref          string
	Round, RoundHref    string // the question that it is poured for
	Acts                []ui.Action
	Form                ui.Form
	Action              string // where a single tick is kept
	Work                SheetWork
	Melts               []SheetMelt
	Cautions            []string
	Pour                string // the words of the button; "" when it cannot be poured
	PourAction          string
	PourNote            string
	Note                string
	History             []ui.ChangeLine
}

// SheetMelt is what to do for one melt, in order.
type SheetMelt struct {
	Title string // "" when there is but one
	Steps []SheetStepRow
}

// SheetStepRow is one thing to do.
type SheetStepRow struct {
	Key, Number, What, Of string
	Figure, Unit          string // the big figure; a range for temperatures
	More                  []string
	Done                  ui.Field
	Said                  ui.Field
	SaidText              string // what was noted, where it can no longer be changed
	Off                   string // that the scale said something else
	IsDone                bool
}

// NewSheetPage builds the page of a sheet; in holds its ticks, as kept or as
// they were just sent.
func NewSheetPage(in Input, s journal.PourSheet, made *journal.Pour, k Known, history []journal.Change, v View) SheetPage {
	at := "/pours/sheets/" + idText(s.ID)
	p := SheetPage{Kicker: "Pour " + SheetName(s), Title: sheetMix(s, k), Lede: sheetLede(s, k), Action: at + "/tick", PourAction: at + "/pour",
		Work: NewSheetWork(s, k, v), Cautions: meltingCautions(), Note: s.Note}
	p.state(s, made, at, v)
	if sums, problems := pour.Work(SheetAsk(s, k)); len(problems) == 0 {
		p.Melts = stepsOf(in, worked{s, sums, k, v}, made == nil || made.IsGone())
	} else {
		p.Pour = ""
	}
	f := ui.Form{Action: at + "/tick", Groups: sheetLabels(p)}
	for _, t := range s.Body.Ticks {
		f.Hidden = append(f.Hidden, ui.Hidden{Name: "was", Value: t.Key})
	}
	f.Hidden = append(f.Hidden, ui.Hidden{Name: "seen", Value: SheetSeen(s)})
	p.Form = in.Form(f)
	p.Form.Groups = nil
	p.History = changeLines(history, v, factsOf(func(x journal.PourSheet) []ui.Fact { return sheetFacts(x, k, v) }))
	return p
}

// ShowRound names the round that the sheet is poured for.
func (p *SheetPage) ShowRound(r journal.TestRound) {
	p.Round, p.RoundHref = r.Question, "/rounds/"+idText(r.ID)
}

// state says whether the sheet can still be poured, and what may be done.
func (p *SheetPage) state(s journal.PourSheet, made *journal.Pour, at string, v View) {
	poured := made != nil && !made.IsGone()
	switch {
	case s.IsGone():
		p.Gone = joinWords("Withdrawn "+v.Day(*s.Gone)+".", s.GoneWhy)
		p.Acts = []ui.Action{{Text: "Bring it back", Href: "/restore/pour_sheet/" + idText(s.ID), Post: true}}
	case poured:
		p.Poured, p.PouredHref = "This sheet was poured "+v.Moment(made.At)+" as "+pourName(*made)+".", "/pours/"+idText(made.ID)
	default:
		p.Acts = []ui.Action{{Text: "Correct", Href: at + "/edit"}, {Text: "Withdraw", Href: "/withdraw/pour_sheet/" + idText(s.ID)}}
		p.Pour = "Make it a pour"
		p.PourNote = "It is written down as poured now, " + pourGives(s) + " Temperatures go along where they were read."
	}
}

// pourGives says what one click writes down.
func pourGives(s journal.PourSheet) string {
	candles, pieces, bare := 0, 0, 0
	for _, l := range s.Body.Lines {
		switch {
		case l.Mould != nil:
			pieces += l.Count
		case l.Wick != nil:
			candles += l.Count
		default:
			bare += l.Count
		}
	}
	text := "with " + counted(candles, "candle", "candles")
	if pieces > 0 {
		text += " and " + counted(pieces, "mould filling", "mould fillings") + " still in the mould"
	}
	text += "."
	if bare > 0 {
		text += " " + counted(bare, "vessel has", "vessels have") + " no wick chosen and become no candle yet."
	}
	return text
}

func sheetLede(s journal.PourSheet, k Known) string {
	text := ""
	for _, l := range s.Body.Lines {
		text = joinBy("; ", text, strconv.Itoa(l.Count)+" × "+k.lineText(l))
	}
	return text + "."
}

// meltingCautions are what to mind while wax melts.
func meltingCautions() []string {
	return []string{
		"Never leave melting wax alone.",
		"Never pour water on burning wax: put a lid on, switch the heat off, do not move it.",
		"Melt in a water bath or a melter with a thermostat, never straight over a flame.",
		"Keep children and animals away; hot wax burns the skin.",
	}
}

// sheetLabels name the boxes for the list of problems.
func sheetLabels(p SheetPage) []ui.Group {
	var g ui.Group
	for _, m := range p.Melts {
		for _, s := range m.Steps {
			g.Fields = append(g.Fields, s.Done, s.Said)
		}
	}
	return []ui.Group{g}
}

// sheetFacts list a sheet for its history.
func sheetFacts(s journal.PourSheet, k Known, v View) []ui.Fact {
	var l factList
	l.text("Mix", sheetMix(s, k))
	for _, x := range s.Body.Lines {
		l.text(k.lineText(x), strconv.Itoa(x.Count))
		maybe(&l, "Test fill of "+k.lineText(x), x.TestFill, v.mass)
	}
	maybe(&l, "Spare", s.Body.Spare, quantity.Fraction.Percent)
	maybe(&l, "Left in the jug", s.Body.Waste, v.mass)
	l.text("Step of the scale", v.Units.EditMass(s.Body.Step)+" "+v.Units.Mass.Word())
	maybe(&l, "Melter", s.Body.Melter, v.mass)
	maybe(&l, "To be poured at", s.Body.PourAt, v.temperature)
	l.text("Poured", onlyYes(s.Pour != nil))
	l.text("Second pour", onlyYes(s.Body.TopUp))
	for _, t := range s.Body.Ticks {
		l.text("Step "+t.Key, saidText(t, worked{s, pour.Sheet{}, k, v}))
	}
	l.text("Note", s.Note)
	return l
}
