package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// PourValues writes a pour into the boxes of its form.
func PourValues(p journal.Pour, v View) url.Values {
	f := newFiller(v.Units)
	f.text("at_date", v.DateBox(p.At))
	f.text("at_time", v.TimeBox(p.At))
	f.id("wax", p.Wax)
	f.text("wax_lot", p.WaxLot)
	if p.Fragrance != nil {
		f.id("fragrance", *p.Fragrance)
	}
	f.text("fragrance_lot", p.FragranceLot)
	f.percent("load", p.Load)
	f.text("load_basis", string(p.LoadBasis))
	f.mass("wax_mass", p.WaxMass)
	f.mass("oil_mass", p.OilMass)
	f.temperature("heated_to", p.HeatedTo)
	f.temperature("oil_at", p.OilAt)
	f.temperature("poured_at", p.PouredAt)
	f.temperature("room", p.Room)
	f.temperature("vessel_warmed", p.VesselWarmed)
	f.flag("second_pour", p.SecondPour)
	f.flag("heat_gun", p.HeatGun)
	f.text("dye", p.Dye)
	f.text("note", p.Note)
	return f.Values
}

// NewPourValues are the boxes of a pour that is written down just after it:
// the time is now, and the wax is the only one there is, or the last poured.
func NewPourValues(k Known, last *journal.Pour, v View) url.Values {
	f := newFiller(v.Units)
	f.text("at_date", v.DateBox(v.Now))
	f.text("at_time", v.TimeBox(v.Now))
	current := present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, 0)
	if len(current) == 1 {
		f.id("wax", current[0].ID)
	}
	if w, ok := k.waxes[lastWax(last)]; ok && !w.IsGone() {
		f.id("wax", w.ID)
		f.text("wax_lot", last.WaxLot)
	}
	return f.Values
}

func lastWax(last *journal.Pour) journal.ID {
	if last == nil {
		return 0
	}
	return last.Wax
}

// PourFormPage is the form of a pour, with every wax's guidance to look at.
type PourFormPage struct {
	Title, Lede string
	Missing     *MissingPage // instead of the form, when the shelf lacks a wax
	Form        ui.Form
	Guides      []GuideRow
	Preview     *GuidancePart // of the wax that is chosen
}

// GuideRow is the guidance of one wax.
type GuideRow struct{ Wax, Heat, Oil, Pour, Load, Cure string }

// NewPourForm builds the form of a pour; old is nil for a new one.
func NewPourForm(in Input, old *journal.Pour, k Known, v View) PourFormPage {
	p := PourFormPage{Title: "A new pour", Lede: "One melted batch. The candles that it filled are added next."}
	action, cancel, wax := "/pours/new", "/pours", journal.ID(0)
	var oil journal.ID
	if old != nil {
		cancel = "/pours/" + idText(old.ID)
		action, wax = cancel+"/edit", old.Wax
		p.Title, p.Lede = "Correct "+pourName(*old), "What was there before is kept in the history."
		if old.Fragrance != nil {
			oil = *old.Fragrance
		}
	}
	waxes := present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, wax)
	if len(waxes) == 0 {
		p.Missing = missing("A pour needs a wax, and there is none on the shelf.", []ui.Action{
			{Text: "Add a wax", Href: "/shelf/waxes/new", Main: true}})
		return p
	}
	oils := present(k.shelf.Fragrances, func(f journal.Fragrance) journal.Meta { return f.Meta }, oil)
	p.Form = in.Form(ui.Form{Action: action, Draft: action, Cancel: cancel, Submit: "Save the pour", Groups: pourGroups(in, waxes, oils)})
	p.Preview = Preview(in, k, v)
	for _, w := range waxes {
		p.Guides = append(p.Guides, guideRow(w, v))
	}
	return p
}

func pourGroups(in Input, waxes []journal.Wax, oils []journal.Fragrance) []ui.Group {
	return []ui.Group{
		{Fields: []ui.Field{
			in.Date("at_date", "Poured on"), in.Time("at_time", "Time", required),
		}},
		{Legend: "Wax and fragrance", Fields: []ui.Field{
			in.Select("wax", "Wax", namedOptions("choose", waxes, func(w journal.Wax) (journal.ID, string) { return w.ID, w.Name }), required),
			in.Text("wax_lot", "Lot of the wax"),
			in.Select("fragrance", "Fragrance", namedOptions("none", oils, func(f journal.Fragrance) (journal.ID, string) { return f.ID, f.Name })),
			in.Text("fragrance_lot", "Lot of the fragrance"),
			in.Quantity("percent", "load", "Fragrance load"),
			in.Select("load_basis", "That load is a share", append([]ui.Option{{Value: "", Text: "as in the guidance"}}, bases...)),
			in.Quantity("mass", "wax_mass", "Wax weighed in"),
			in.Quantity("mass", "oil_mass", "Oil weighed in"),
		}},
		{Legend: "Temperatures", Lede: "As read on the thermometer, to be held against what the suppliers advise.", Fields: []ui.Field{
			in.Quantity("temperature", "heated_to", "Heated to"),
			in.Quantity("temperature", "oil_at", "Oil added at"),
			in.Quantity("temperature", "poured_at", "Poured at"),
			in.Quantity("temperature", "room", "Room"),
			in.Quantity("temperature", "vessel_warmed", "Vessels warmed to", hint("empty if they were not")),
		}},
		{Legend: "And else", Fields: []ui.Field{
			in.Tick("second_pour", "Second pour", hint("topped up after the first had set")),
			in.Tick("heat_gun", "Heat gun", hint("the tops were melted smooth")),
			in.Text("dye", "Dye"),
			in.Area("note", "Note"),
		}},
	}
}

func guideRow(w journal.Wax, v View) GuideRow {
	load := func(f quantity.Fraction) quantity.Shown { return loadShown(f, w.LoadBasis) }
	return GuideRow{
		Wax: w.Name, Heat: rangeText(w.HeatTo, v.temperature).String(), Oil: rangeText(w.AddOilAt, v.temperature).String(),
		Pour: rangeText(w.PourAt, v.temperature).String(), Load: rangeText(w.Load, load).String(), Cure: rangeText(w.CureDays, daysOf).String(),
	}
}

// present keeps the things that were not retired, and the one already chosen.
func present[T any](list []T, meta func(T) journal.Meta, chosen journal.ID) []T {
	var out []T
	for _, x := range list {
		if m := meta(x); !m.IsGone() || m.ID == chosen {
			out = append(out, x)
		}
	}
	return out
}

// namedOptions are the things to choose from, after an empty first choice.
func namedOptions[T any](first string, list []T, name func(T) (journal.ID, string)) []ui.Option {
	out := []ui.Option{{Value: "", Text: first}}
	for _, x := range list {
		id, text := name(x)
		out = append(out, ui.Option{Value: idText(id), Text: text})
	}
	return out
}

// MissingPage says what the shelf must hold before a form makes sense.
type MissingPage struct {
	Text string
	Acts []ui.Action
}

func missing(text string, acts []ui.Action) *MissingPage { return &MissingPage{text, acts} }
