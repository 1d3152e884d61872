package page

import (
	"net/url"
	"strconv"

	"rimward/internal/cast"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// detailMeanings says what the details of a mould are.
var detailMeanings = map[journal.Detail]string{
	journal.Plain: "smooth sides", journal.Relief: "raised or sunk ornament that faces one way", journal.Undercut: "parts that the mould has to be peeled away from",
}

// MouldValues writes a mould into the boxes of its form.
func MouldValues(x journal.Mould, u quantity.Units) url.Values {
	f := newFiller(u)
	f.text("name", x.Name)
	f.text("cavities", strconv.Itoa(x.Cavities))
	f.volume("cavity_volume", x.CavityVolume)
	f.mass("water_fill", x.WaterFill)
	f.text("detail", string(x.Detail))
	f.text("material", x.Material)
	f.text("note", x.Note)
	return f.Values
}

// MouldForm is the form of a mould.
func MouldForm(in Input, action, cancel string) ui.Form {
	var details []ui.Option
	for _, d := range journal.Details {
		details = append(details, ui.Option{Value: string(d), Text: string(d), Meaning: detailMeanings[d]})
	}
	return in.Form(ui.Form{
		Action: action, Draft: action, Cancel: cancel, Submit: "Save the mould",
		Groups: []ui.Group{{Fields: []ui.Field{
			in.Text("name", "Name", required, focus),
			in.Count("cavities", "Cavities", required, hint("pieces that one filling gives")),
			in.Text("material", "Made of", hint("silicone, polycarbonate, metal …")),
			in.Words("detail", "Detail", details, wide),
			in.Quantity("volume", "cavity_volume", "Volume of one cavity"),
			in.Quantity("mass", "water_fill", "or: water that fills one", hint("weigh the water, if you have no measure")),
			in.Area("note", "Note"),
		}}},
	})
}

// mouldFacts lists what is known of a mould.
func mouldFacts(x journal.Mould, v View) []ui.Fact {
	var l factList
	l.text("Name", x.Name)
	l.text("Cavities", strconv.Itoa(x.Cavities))
	l = append(l, ui.Fact{Label: "Detail", Text: string(x.Detail), More: detailMeanings[x.Detail]})
	maybe(&l, "Volume of one cavity", x.CavityVolume, v.volume)
	maybe(&l, "Water that fills one", x.WaterFill, v.mass)
	l.text("Made of", x.Material)
	l.text("Note", x.Note)
	return l
}

// MouldPage shows one mould and what it has done so far.
type MouldPage struct {
	Thing ThingPage
	Share ShareLine
	Casts []ui.Item
	Empty string
}

// NewMouldPage builds the page of a mould; lines are its casts that count,
// newest first.
func NewMouldPage(x journal.Mould, lines []journal.CastLine, use journal.Use, history []journal.Change, v View) MouldPage {
	p := MouldPage{Thing: NewThingPage("Mould", x.Name, x.Meta, journal.NounMould, mouldFacts(x, v), use, v)}
	p.Thing.History = changeLines(history, v, factsOf(func(y journal.Mould) []ui.Fact { return mouldFacts(y, v) }))
	p.Casts = castItems(lines, func(l journal.CastLine) string { return capital(pourName(l.Pour)) + ", " + l.Wax.Name }, v)
	if len(lines) == 0 {
		p.Empty = "No cast yet. A cast is recorded from the page of the pour that filled the mould."
		return p
	}
	p.Share = shareLine(cast.ShareOf(cast.TallyOf(lines)))
	return p
}

// MouldSection is the moulds' part of the shelf.
func MouldSection(moulds []journal.Mould, v View) ShelfSection {
	s := ShelfSection{Title: "Moulds", Empty: "No mould yet. Candles in vessels need none.", Add: ui.Action{Text: "Add a mould", Href: "/shelf/moulds/new"}}
	for _, x := range moulds {
		more := string(x.Detail)
		if c := x.Capacity(); c != nil {
			more = joinBy(" · ", more, v.volume(*c).String()+" each")
		}
		s.put(x.Meta, ui.Item{Text: x.Name, Href: "/shelf/moulds/" + idText(x.ID), When: figured(x.Cavities, "cavity", "cavities"), More: joinBy(" · ", more, x.Material)})
	}
	if len(moulds) > 0 {
		s.More = ui.Item{Text: "How moulds let go, wax by wax", Href: "/casts"}
	}
	return s
}
