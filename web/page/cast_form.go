package page

import (
	"net/url"
	"strconv"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/web/ui"
)

// CastValues writes a cast into the boxes of its form.
func CastValues(c journal.Cast, v View) url.Values {
	f := newFiller(v.Units)
	f.id("mould", c.Mould)
	f.text("pieces", strconv.Itoa(c.Pieces))
	f.text("state", form.PiecesIn)
	if c.Out != nil {
		f.text("state", form.PiecesOut)
		f.text("out_date", v.DateBox(*c.Out))
		f.text("out_time", v.TimeBox(*c.Out))
	}
	f.count("clean", c.Clean)
	f.count("chipped", c.Chipped)
	f.count("broken", c.Broken)
	f.text("captured", string(c.Captured))
	f.text("surface", string(c.Surface))
	f.text("firmness", string(c.Firmness))
	f.text("note", c.Note)
	return f.Values
}

// NewCastValues are the boxes of a cast that is written down just after its
// pour: the mould is the one asked for, or the only one there is, every cavity
// is filled once, and the pieces are still in.
func NewCastValues(moulds []journal.Mould, asked journal.ID, v View) url.Values {
	f := newFiller(v.Units)
	current := present(moulds, func(m journal.Mould) journal.Meta { return m.Meta }, 0)
	for _, m := range current {
		if m.ID == asked || len(current) == 1 {
			f.id("mould", m.ID)
			f.text("pieces", strconv.Itoa(m.Cavities))
		}
	}
	f.text("fillings", "1")
	f.text("state", form.PiecesIn)
	return f.Values
}

// CastFormPage is the form of a cast.
type CastFormPage struct {
	Title, Lede string
	Missing     *MissingPage // instead of the form, when the shelf lacks a mould
	Form        ui.Form
}

// NewCastForm builds the form of a cast of a pour; old is nil for a new one.
func NewCastForm(in Input, p journal.Pour, moulds []journal.Mould, old *journal.Cast) CastFormPage {
	out := CastFormPage{Title: "A cast of " + pourName(p), Lede: "What one mould gives from this pour. The pieces are asked for again when they have been in for a day."}
	action, cancel, chosen := "/pours/"+idText(p.ID)+"/casts/new", "/pours/"+idText(p.ID), journal.ID(0)
	if old != nil {
		cancel, chosen = "/casts/"+idText(old.ID), old.Mould
		action, out.Title, out.Lede = cancel+"/edit", "Correct a cast of "+pourName(p), "What was there before is kept in the history."
	}
	list := present(moulds, func(m journal.Mould) journal.Meta { return m.Meta }, chosen)
	if len(list) == 0 {
		out.Missing = missing("A cast needs a mould, and there is none on the shelf.", []ui.Action{{Text: "Add a mould", Href: "/shelf/moulds/new", Main: true}})
		return out
	}
	out.Form = in.Form(ui.Form{Action: action, Draft: action, Cancel: cancel, Submit: "Save the cast", Groups: castGroups(in, list, old == nil)})
	return out
}

func castGroups(in Input, moulds []journal.Mould, fresh bool) []ui.Group {
	what := ui.Group{Fields: []ui.Field{
		in.Select("mould", "Mould", namedOptions("choose", moulds, func(m journal.Mould) (journal.ID, string) {
			return m.ID, m.Name + ", " + figured(m.Cavities, "cavity", "cavities")
		}), required, focus),
	}}
	if fresh {
		what.Fields = append(what.Fields, in.Count("fillings", "Fillings", hint("how often the whole mould was filled")),
			in.Count("pieces", "Pieces", hint("empty: cavities × fillings")))
	} else {
		what.Fields = append(what.Fields, in.Count("pieces", "Pieces"))
	}
	state := []ui.Option{{Value: form.PiecesIn, Text: "still in the mould"}, {Value: form.PiecesOut, Text: "out of it"}}
	return []ui.Group{what,
		{Legend: "Where they are", Fields: append([]ui.Field{in.Words("state", "The pieces are", state)}, outFields(in)...)},
		{Legend: "How they came", Lede: "Once they are out. Counts that are left empty are nothing, where the others make up all pieces.", Fields: countFields(in)},
		{Legend: "What they look like", Fields: lookFields(in)},
	}
}

func outFields(in Input) []ui.Field {
	return []ui.Field{
		in.Date("out_date", "Out on", hint("empty: the latest such time")),
		in.Time("out_time", "Time", hint("empty: now, if they are out")),
	}
}

func countFields(in Input) []ui.Field {
	return []ui.Field{
		in.Count("clean", "Clean", hint("whole, every edge")), in.Count("chipped", "Chipped", hint("an edge or a corner gone")), in.Count("broken", "Broken", hint("a part torn or snapped off")),
	}
}

func lookFields(in Input) []ui.Field {
	return []ui.Field{
		in.Words("captured", "Detail", gradeOptions(journal.Captures, capturedMeanings)),
		in.Words("surface", "Surface", gradeOptions(journal.Surfaces, surfaceMeanings)),
		in.Words("firmness", "Firmness", gradeOptions(journal.Firmnesses, firmnessMeanings)),
		in.Area("note", "Note"),
	}
}

// TakeOutPage is the chore of taking pieces out of their mould.
type TakeOutPage struct {
	Title, Lede string
	Gone        string      // that the cast or its pour was withdrawn; then there is no form at first
	Back        []ui.Action // what brings them back
	Early       *ui.Warning // they have not been in for a full day
	Form        *ui.Form
}

// TakeOutValues are the boxes of that chore before anything is typed.
func TakeOutValues(c journal.Cast) url.Values {
	return url.Values{"pieces": {strconv.Itoa(c.Pieces)}, "note": {c.Note}}
}

// NewTakeOutPage builds the chore.
func NewTakeOutPage(in Input, l journal.CastLine, v View) TakeOutPage {
	at := "/casts/" + idText(l.Cast.ID)
	p := TakeOutPage{Title: "Take " + castName(l) + " out of the mould",
		Lede: l.Wax.Name + " in " + l.Mould.Name + ", poured " + v.Moment(l.Pour.At) + ", " + spanOf(l.Pour.At, v.Now).Clock() + " ago."}
	if v.Now.Sub(l.Pour.At) < journal.SetsAfter {
		p.Early = &ui.Warning{Text: "A full day is not over before " + v.Moment(l.Pour.At.Add(journal.SetsAfter)) + ".",
			More: "Pieces that come out early chip and dent more easily (common practice, no source)."}
	}
	if p.Gone, p.Back = goneCast(l, v); p.Gone != "" && !in.Retried {
		p.Early = nil
		return p
	}
	f := in.Form(ui.Form{Action: at + "/out", Draft: at + "/out", Cancel: at, Submit: "Save how they came", Groups: []ui.Group{
		{Legend: "How they came", Lede: "Counts that are left empty are nothing, where the others make up all pieces.",
			Fields: append([]ui.Field{in.Count("pieces", "Pieces", hint("that were cast"))}, focused(countFields(in))...)},
		{Legend: "What they look like", Fields: lookFields(in)},
		{Legend: "When", Lede: "Leave both empty if they came out just now.", Fields: []ui.Field{in.Date("out_date", "Out on"), in.Time("out_time", "Time")}},
	}})
	p.Form = &f
	return p
}

// TakeOutAstray is said of pieces that were withdrawn while somebody took them
// out of their mould.
const TakeOutAstray = "This was withdrawn meanwhile. What was typed is not saved; bring it back first to write it down."

// goneCast says that a cast or its pour was withdrawn, with what brings them
// back; nothing for one that counts.
func goneCast(l journal.CastLine, v View) (said string, back []ui.Action) {
	if l.Cast.IsGone() {
		said = joinWords("The cast was withdrawn "+v.Day(*l.Cast.Gone)+".", l.Cast.GoneWhy)
		back = append(back, ui.Action{Text: "Bring the cast back", Href: "/restore/cast/" + idText(l.Cast.ID), Post: true})
	}
	if l.Pour.IsGone() {
		said = joinWords(said, capital(pourName(l.Pour))+" was withdrawn "+v.Day(*l.Pour.Gone)+", and what was cast of it with it.", l.Pour.GoneWhy)
		back = append(back, ui.Action{Text: "Bring " + pourName(l.Pour) + " back", Href: "/restore/pour/" + idText(l.Pour.ID), Post: true})
	}
	if said == "" {
		return "", nil
	}
	back = append(back, ui.Action{Text: "Look at the cast", Href: "/casts/" + idText(l.Cast.ID)})
	return said, back
}

// focused puts the focus into the first of some fields.
func focused(fs []ui.Field) []ui.Field {
	fs[0].Autofocus = true
	return fs
}
