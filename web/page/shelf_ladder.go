package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// LadderValues writes a ladder into the boxes of its form.
func LadderValues(x journal.Ladder) url.Values {
	f := newFiller(quantity.Metric)
	f.text("name", x.Name)
	f.text("kind", string(x.Kind))
	f.text("core", x.Core)
	f.text("note", x.Note)
	return f.Values
}

// LadderForm is the form of a ladder. A new ladder takes its rungs at once.
func LadderForm(in Input, action, cancel string, fresh bool) ui.Form {
	f := ui.Form{
		Action: action, Draft: action, Cancel: cancel, Submit: "Save the ladder",
		Groups: []ui.Group{{Fields: []ui.Field{
			in.Text("name", "Name of the series", required, focus),
			in.Select("kind", "How its wicks are made", plain(journal.WickKinds)),
			in.Text("core", "Core", hint("cotton, paper, zinc, tin …")),
			in.Area("note", "Note"),
		}}},
	}
	if fresh {
		f.Groups = append(f.Groups, ui.Group{Legend: "Its rungs", Fields: []ui.Field{
			in.Area("rungs", "Labels, one a line, from the wick that melts least to the one that melts most",
				hint("as they stand on the packets; more can be added or put between later")),
		}})
	}
	return in.Form(f)
}

// ladderFacts lists what is known of a ladder.
func ladderFacts(x journal.Ladder) []ui.Fact {
	var l factList
	l.text("Name", x.Name)
	l.text("Made as", string(x.Kind))
	l.text("Core", x.Core)
	l.text("Note", x.Note)
	return l
}

// WickValues writes a wick into the boxes of its form.
func WickValues(x journal.Wick, u quantity.Units) url.Values {
	f := newFiller(u)
	f.text("label", x.Label)
	f.text("rung", strconv.Itoa(x.Rung))
	f.length("width", x.Width)
	f.count("threads", x.Threads)
	stockBoxesByPiece(f, x.Price, x.Stock)
	f.text("note", x.Note)
	return f.Values
}

// WickForm is the form of one rung; others are the rungs it can stand above.
func WickForm(in Input, action, cancel string, others []journal.Wick) ui.Form {
	places := []ui.Option{{Value: "1", Text: "at the bottom"}}
	for _, o := range others {
		places = append(places, ui.Option{Value: strconv.Itoa(o.Rung + 1), Text: "above " + o.Label})
	}
	return in.Form(ui.Form{
		Action: action, Draft: action, Cancel: cancel, Submit: "Save the rung",
		Groups: []ui.Group{{Fields: []ui.Field{
			in.Text("label", "Label", required, focus, hint("as it stands on the packet")),
			in.Select("rung", "Place on the ladder", places),
			in.Quantity("length", "width", "Width or diameter"),
			in.Count("threads", "Threads"),
		}}, stockGroupByPiece(in)},
	})
}

// wickFacts lists what is known of a wick.
func wickFacts(x journal.Wick, v View) []ui.Fact {
	var l factList
	l.text("Label", x.Label)
	l.text("Rung", strconv.Itoa(x.Rung))
	maybe(&l, "Width", x.Width, v.length)
	if x.Threads != nil {
		l.text("Threads", strconv.Itoa(*x.Threads))
	}
	l = append(l, stockFactsByPiece(x.Price, x.Stock, v)...)
	l.text("Note", x.Note)
	return l
}

// LadderPage shows one ladder with its rungs.
type LadderPage struct {
	Thing  ThingPage
	Rungs  []RungRow
	Add    ui.Action
	Counts *ui.Action // nil without rungs
}

// RungRow is one rung of a ladder, with the buttons that move it.
type RungRow struct {
	Rung, Label, Detail, Href string
	Retired                   bool
	Up, Down                  *ui.Action
}

// NewLadderPage builds the page of a ladder. Rungs stand as on a real ladder:
// the one that melts most on top.
func NewLadderPage(x journal.Ladder, wicks []journal.Wick, use journal.Use, history []journal.Change, v View) LadderPage {
	base := "/shelf/ladders/" + idText(x.ID)
	p := LadderPage{Add: ui.Action{Text: "Add a rung", Href: base + "/rungs/new", Main: true}}
	p.Thing = NewThingPage("Ladder of wicks", x.Name, x.Meta, journal.NounLadder, ladderFacts(x), use, v)
	p.Thing.History = changeLines(history, v, factsOf(func(l journal.Ladder) []ui.Fact { return ladderFacts(l) }))
	if len(wicks) > 0 {
		p.Counts = &ui.Action{Text: "Prices and counts", Href: base + "/counts"}
	}
	for i := len(wicks) - 1; i >= 0; i-- {
		p.Rungs = append(p.Rungs, rungRow(wicks[i], base, i < len(wicks)-1, i > 0, v))
	}
	return p
}

func rungRow(w journal.Wick, base string, canRise, canSink bool, v View) RungRow {
	r := RungRow{Rung: strconv.Itoa(w.Rung), Label: w.Label, Href: base + "/rungs/" + idText(w.ID), Retired: w.IsGone()}
	if w.Width != nil {
		r.Detail = v.length(*w.Width).String()
	}
	if w.Threads != nil {
		r.Detail += " " + strconv.Itoa(*w.Threads) + " threads"
	}
	move := func(text string, to int) *ui.Action {
		return &ui.Action{Text: text, Href: r.Href + "/move", Post: true, Hidden: []ui.Hidden{{Name: "rung", Value: strconv.Itoa(to)}}}
	}
	if canRise {
		r.Up = move("Up", w.Rung+1)
	}
	if canSink {
		r.Down = move("Down", w.Rung-1)
	}
	return r
}

// NewWickPage builds the page of one rung.
func NewWickPage(w journal.Wick, l journal.Ladder, use journal.Use, history []journal.Change, v View) ThingPage {
	p := NewThingPage("Rung of "+l.Name, l.Name+" "+w.Label, w.Meta, journal.NounWick, wickFacts(w, v), use, v)
	p.Edit = "/shelf/ladders/" + idText(l.ID) + "/rungs/" + idText(w.ID) + "/edit"
	p.Back = ui.Item{Text: "The whole ladder", Href: "/shelf/ladders/" + idText(l.ID)}
	p.History = changeLines(history, v, factsOf(func(x journal.Wick) []ui.Fact { return wickFacts(x, v) }))
	return p
}
