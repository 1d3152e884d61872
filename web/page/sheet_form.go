package page

import (
	"net/url"
	"strconv"
	"strings"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// SheetFormPage is the form of a pour sheet, with the sums of what was typed.
type SheetFormPage struct {
	Title, Lede string
	Missing     *MissingPage // instead of the form, when the shelf lacks something
	Form        ui.Form
	Mix, Tools  ui.Group
	Rows        []SheetFormRow
	Note        ui.Field
	Work        *SheetWork // what was worked out; nil before
}

// SheetFormRow is one thing to fill.
type SheetFormRow struct {
	Number                           string
	What, Count, Wick, Wicks, Filled ui.Field
	Places                           *ui.Hidden
	PlacesText                       string
}

// PourSheetValues writes a sheet into the boxes of its form.
func PourSheetValues(s journal.PourSheet, u quantity.Units) url.Values {
	f := newFiller(u)
	f.id("wax", s.Wax)
	if s.Fragrance != nil {
		f.id("fragrance", *s.Fragrance)
	}
	if s.Round != nil {
		f.id("round", *s.Round)
	}
	f.percent("load", s.Load)
	f.text("load_basis", string(s.LoadBasis))
	f.percent("spare", s.Body.Spare)
	f.mass("waste", s.Body.Waste)
	f.mass("step", &s.Body.Step)
	f.mass("melter", s.Body.Melter)
	f.temperature("pour_at", s.Body.PourAt)
	f.flag("top_up", s.Body.TopUp)
	f.text("note", s.Note)
	for i, l := range s.Body.Lines {
		sheetLineValues(f, form.SheetRow(i), l)
	}
	return f.Values
}

func sheetLineValues(f filler, row string, l journal.SheetLine) {
	if l.Vessel != nil {
		f.text(row+"what", "v"+idText(*l.Vessel))
	}
	if l.Mould != nil {
		f.text(row+"what", "m"+idText(*l.Mould))
	}
	if l.Wick != nil {
		f.id(row+"wick", *l.Wick)
		f.text(row+"wicks", strconv.Itoa(l.Wicks))
	}
	f.text(row+"count", strconv.Itoa(l.Count))
	f.mass(row+"test_fill", l.TestFill)
	if len(l.Places) > 0 {
		f.text(row+"places", strings.Trim(joinInts(l.Places), " "))
	}
}

func joinInts(ns []int) string {
	s := ""
	for _, n := range ns {
		s += strconv.Itoa(n) + " "
	}
	return s
}

// NewSheetValues are the boxes of a new sheet: scale and melter are the
// studio's, the wax the only one there is or the last poured.
func NewSheetValues(k Known, set journal.Settings, last *journal.Pour) url.Values {
	s := journal.PourSheet{Body: journal.SheetBody{Step: set.ScaleStep, Melter: set.Melter}}
	values := PourSheetValues(s, set.Units)
	values.Del("wax")
	current := present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, 0)
	if len(current) == 1 {
		values.Set("wax", idText(current[0].ID))
	}
	if w, ok := k.waxes[lastWax(last)]; ok && !w.IsGone() {
		values.Set("wax", idText(w.ID))
	}
	return values
}

// spareRows is how many empty rows stand below those that are filled in.
const spareRows = 2

// NewSheetForm builds the form. rows is how many rows are filled in, more how
// many empty ones were asked for; old is nil for a new sheet.
func NewSheetForm(in Input, rows, more int, old *journal.PourSheet, work *SheetWork, k Known, v View) SheetFormPage {
	p := SheetFormPage{Title: "A pour sheet", Work: work,
		Lede: "Say what you want to fill, and the sheet says what to melt: wax and oil to the step of your scale, melt by melt."}
	action, cancel := "/pours/sheets/new", "/pours/sheets"
	if old != nil {
		cancel = "/pours/sheets/" + idText(old.ID)
		action, p.Title, p.Lede = cancel+"/edit", "Correct "+SheetName(*old), "What was there before is kept in the history."
	}
	if p.Missing = sheetLacks(k); p.Missing != nil {
		return p
	}
	chosen := chosenIn(in)
	p.Mix, p.Tools = sheetMixGroup(in, k, chosen), sheetToolGroup(in)
	p.Note = in.Area("note", "Note")
	for i := range max(rows, min(rows+max(spareRows, more), journal.MostLines)) {
		p.Rows = append(p.Rows, sheetFormRow(in.Row(form.SheetRow(i)), i, k))
	}
	p.Form = ui.Form{Action: action, Draft: action, Cancel: cancel, Submit: "Save the sheet"}
	if round := in.Value("round"); round != "" {
		p.Form.Hidden = append(p.Form.Hidden, ui.Hidden{Name: "round", Value: round})
		p.Form.Draft += "?round=" + round + "&places=" + in.Values.Get(form.SheetRow(0)+"places")
	}
	p.Form.Groups = sheetFormLabels(p)
	p.Form = in.Form(p.Form)
	p.Form.Groups = nil
	return p
}

// chosenIn are the wax and the fragrance that stand in the form, which may be
// retired.
func chosenIn(in Input) (c struct{ wax, oil journal.ID }) {
	c.wax, c.oil = journal.ID(atoi(in.Value("wax"))), journal.ID(atoi(in.Value("fragrance")))
	return c
}

func atoi(s string) int64 {
	n, _ := strconv.ParseInt(s, 10, 64)
	return n
}

func sheetLacks(k Known) *MissingPage {
	wax := len(present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, 0)) == 0
	fill := len(sheetThingGroups(k, "")) == 0
	addWax := ui.Action{Text: "Add a wax", Href: "/shelf/waxes/new", Main: true}
	addVessel := ui.Action{Text: "Measure a vessel", Href: "/shelf/vessels/new", Main: !wax}
	switch {
	case wax && fill:
		return missing("A pour sheet needs a wax and something to fill, and the shelf has neither.", []ui.Action{addWax, addVessel})
	case wax:
		return missing("A pour sheet needs a wax, and there is none on the shelf.", []ui.Action{addWax})
	case fill:
		return missing("A pour sheet needs a vessel or a mould, and there is none on the shelf.", []ui.Action{addVessel})
	}
	return nil
}

func sheetMixGroup(in Input, k Known, c struct{ wax, oil journal.ID }) ui.Group {
	waxes := present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, c.wax)
	oils := present(k.shelf.Fragrances, func(f journal.Fragrance) journal.Meta { return f.Meta }, c.oil)
	return ui.Group{Legend: "Wax and fragrance", Fields: []ui.Field{
		in.Select("wax", "Wax", namedOptions("choose", waxes, func(w journal.Wax) (journal.ID, string) { return w.ID, w.Name }), required),
		in.Select("fragrance", "Fragrance", namedOptions("none", oils, func(f journal.Fragrance) (journal.ID, string) { return f.ID, f.Name })),
		in.Quantity("percent", "load", "Fragrance load"),
		in.Select("load_basis", "That load is a share", append([]ui.Option{{Value: "", Text: "as in the guidance"}}, bases...)),
	}}
}

func sheetToolGroup(in Input) ui.Group {
	return ui.Group{Legend: "Spare, scale and melter", Fields: []ui.Field{
		in.Quantity("percent", "spare", "Spare", hint("more than is needed")),
		in.Quantity("mass", "waste", "Left in the jug", hint("of each melt")),
		in.Quantity("mass", "step", "Step of the scale", required),
		in.Quantity("mass", "melter", "The melter holds", hint("empty: everything at once")),
		in.Quantity("temperature", "pour_at", "To be poured at", hint("if you test a temperature")),
		in.Tick("top_up", "Melt the second pour too", hint("what the wax sinks by as it sets")),
	}}
}

// sheetThingGroups are the vessels and moulds to fill.
func sheetThingGroups(k Known, chosen string) []ui.OptionGroup {
	vessels, moulds := ui.OptionGroup{Label: "Vessels"}, ui.OptionGroup{Label: "Moulds"}
	for _, x := range k.shelf.Vessels {
		if value := "v" + idText(x.ID); !x.IsGone() || value == chosen {
			vessels.Options = append(vessels.Options, ui.Option{Value: value, Text: x.Name})
		}
	}
	for _, x := range k.shelf.Moulds {
		if value := "m" + idText(x.ID); !x.IsGone() || value == chosen {
			moulds.Options = append(moulds.Options, ui.Option{Value: value, Text: x.Name + ", " + counted(x.Cavities, "cavity", "cavities")})
		}
	}
	var out []ui.OptionGroup
	for _, g := range []ui.OptionGroup{vessels, moulds} {
		if len(g.Options) > 0 {
			out = append(out, g)
		}
	}
	return out
}

func sheetFormRow(in Input, i int, k Known) SheetFormRow {
	n := strconv.Itoa(i + 1)
	say := func(what string) tweak { return unlabelled(what + ", row " + n) }
	what := in.Value("what")
	r := SheetFormRow{
		Number: n,
		What:   in.SelectGrouped("what", "", []ui.Option{{Value: "", Text: "nothing"}}, sheetThingGroups(k, what), say("What is filled")),
		Count:  in.Count("count", "", say("How many")),
		Wick:   in.SelectGrouped("wick", "", []ui.Option{{Value: "", Text: "none yet"}}, k.wickGroups(journal.ID(atoi(in.Value("wick")))), say("Wick")),
		Wicks:  in.Count("wicks", "", say("Wicks in each")),
		Filled: in.Quantity("mass", "test_fill", "", say("One was filled and took")),
	}
	if places := in.Value("places"); places != "" {
		r.Places = &ui.Hidden{Name: in.Prefix + "places", Value: places}
		r.PlacesText = "of a round: place " + strings.Join(strings.Fields(places), ", ")
	}
	return r
}

func sheetFormLabels(p SheetFormPage) []ui.Group {
	rows := ui.Group{}
	for _, r := range p.Rows {
		rows.Fields = append(rows.Fields, r.What, r.Count, r.Wick, r.Wicks, r.Filled)
	}
	return []ui.Group{p.Mix, rows, p.Tools, {Fields: []ui.Field{p.Note}}}
}
