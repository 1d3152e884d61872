package page

import (
	"rimward/internal/journal"
	"rimward/web/ui"
)

// CastPart is the moulded pieces of a pour, on its page.
type CastPart struct {
	Items []ui.Item
	Add   *ui.Action // nil where none can be recorded
}

// NewCastPart builds that part; lines are the casts of the pour, withdrawn
// ones too.
func NewCastPart(p journal.Pour, lines []journal.CastLine, v View) CastPart {
	out := CastPart{Items: castItems(lines, func(l journal.CastLine) string { return l.Mould.Name }, v)}
	if !p.IsGone() {
		out.Add = &ui.Action{Text: "Record a cast", Href: "/pours/" + idText(p.ID) + "/casts/new"}
	}
	return out
}

// CastPage shows one cast.
type CastPage struct {
	Title, Lede, Gone string
	Acts              []ui.Action
	Facts             []ui.Fact
	History           []ui.ChangeLine
	Photos            PhotoPart
}

// NewCastPage builds the page of a cast.
func NewCastPage(l journal.CastLine, photos []journal.Photo, history []journal.Change, k Known, v View) CastPage {
	at := "/casts/" + idText(l.Cast.ID)
	p := CastPage{Title: capital(castName(l)), Lede: l.Wax.Name + " in " + l.Mould.Name + ", " + cameText(l.Cast) + ".", Facts: castPageFacts(l, v)}
	correct := ui.Action{Text: "Correct", Href: at + "/edit"}
	switch {
	case l.Cast.IsGone():
		p.Gone = joinWords("Withdrawn "+v.Day(*l.Cast.Gone)+".", l.Cast.GoneWhy)
		p.Acts = []ui.Action{correct, {Text: "Bring it back", Href: "/restore/cast/" + idText(l.Cast.ID), Post: true}}
	case l.Cast.Out == nil:
		p.Acts = []ui.Action{{Text: "Take them out", Href: at + "/out", Main: true}, correct, {Text: "Withdraw", Href: "/withdraw/cast/" + idText(l.Cast.ID)}}
	default:
		p.Acts = []ui.Action{correct, {Text: "Withdraw", Href: "/withdraw/cast/" + idText(l.Cast.ID)}}
	}
	if l.Pour.IsGone() {
		p.Gone = joinWords(p.Gone, capital(pourName(l.Pour))+" was withdrawn, so that this cast does not count.")
	}
	p.Photos = NewPhotoPart(CastSubject(l), photos)
	p.History = changeLines(history, v, factsOf(func(c journal.Cast) []ui.Fact { return castFacts(c, k, v) }))
	return p
}

// castPageFacts lists what is known of a cast, with what follows from its
// pour.
func castPageFacts(l journal.CastLine, v View) []ui.Fact {
	c := l.Cast
	facts := factList{
		{Label: "Pour", Text: capital(pourName(l.Pour)), Href: "/pours/" + idText(l.Pour.ID), More: v.Moment(l.Pour.At)},
		{Label: "Mould", Text: l.Mould.Name, Href: "/shelf/moulds/" + idText(l.Mould.ID), More: string(l.Mould.Detail) + ", " + figured(l.Mould.Cavities, "cavity", "cavities")},
		{Label: "Pieces", Text: figured(c.Pieces, "piece", "pieces")},
	}
	if h, out := c.HoursIn(l.Pour.At); out {
		f := ui.Fact{Label: "In the mould", Text: h.Clock(), More: "out " + v.Moment(*c.Out)}
		if c.Out.Sub(l.Pour.At) < journal.SetsAfter {
			f.More += ", before a full day was over"
		}
		facts = append(facts, f)
	} else {
		facts = append(facts, ui.Fact{Label: "In the mould", Text: "for " + spanOf(l.Pour.At, v.Now).Clock(), More: "a full day after the pour: " + v.Moment(l.Pour.At.Add(journal.SetsAfter))})
	}
	return append(facts, cameFacts(c)...)
}

// cameFacts lists how the pieces came out.
func cameFacts(c journal.Cast) []ui.Fact {
	var l factList
	for _, n := range []struct {
		label string
		n     *int
	}{{"Clean", c.Clean}, {"Chipped", c.Chipped}, {"Broken", c.Broken}} {
		if n.n != nil {
			l.text(n.label, figured(*n.n, "piece", "pieces"))
		}
	}
	l.text("Detail", graded(c.Captured, capturedMeanings))
	l.text("Surface", graded(c.Surface, surfaceMeanings))
	l.text("Firmness", graded(c.Firmness, firmnessMeanings))
	l.text("Note", c.Note)
	return l
}

func graded[T ~string](g T, meanings map[T]string) string {
	return joinBy(": ", string(g), meanings[g])
}

// castFacts lists what can be corrected about a cast.
func castFacts(c journal.Cast, k Known, v View) []ui.Fact {
	var l factList
	l.text("Mould", k.mouldName(c.Mould))
	l.text("Pieces", figured(c.Pieces, "piece", "pieces"))
	if c.Out != nil {
		l.text("Out of the mould", v.Moment(*c.Out))
	}
	return append(l, cameFacts(c)...)
}

func (k Known) mouldName(id journal.ID) string {
	for _, m := range k.shelf.Moulds {
		if m.ID == id {
			return m.Name
		}
	}
	return "an unknown mould"
}

// CastSubject is a cast that photos are attached to.
func CastSubject(l journal.CastLine) PhotoSubject {
	return PhotoSubject{Of: journal.NounCast, ID: l.Cast.ID, Name: castName(l), Back: "/casts/" + idText(l.Cast.ID), Section: "pours", Gone: !l.Counts()}
}

// WithdrawableCast is a cast.
func WithdrawableCast(l journal.CastLine) Withdrawable {
	return Withdrawable{journal.NounCast, l.Cast.ID, "Withdraw " + castName(l) + "?",
		"The cast stays on record but counts no more in how moulds let go. It can be brought back.",
		"Withdraw it", "The cast is withdrawn.", "/casts/" + idText(l.Cast.ID)}
}
