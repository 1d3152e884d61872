package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// bases are the two things a load can be a share of.
var bases = []ui.Option{
	{Value: string(journal.OfWax), Text: "of the wax"},
	{Value: string(journal.OfTotal), Text: "of the total (wax and oil)"},
}

// WaxValues writes a wax into the boxes of its form.
func WaxValues(w journal.Wax, u quantity.Units) url.Values {
	f := newFiller(u)
	f.text("name", w.Name)
	f.text("family", string(w.Family))
	f.text("blend_note", w.BlendNote)
	f.text("form", w.Form)
	plainNumberBox(f, "solid_density", w.SolidDensity)
	plainNumberBox(f, "liquid_density", w.LiquidDensity)
	f.temperature("melting_point", w.MeltingPoint)
	for name, r := range map[string]journal.Range[quantity.Celsius]{"heat_to": w.HeatTo, "add_oil_at": w.AddOilAt, "pour_at": w.PourAt} {
		f.temperature(name+"_low", r.Low)
		f.temperature(name+"_high", r.High)
	}
	f.percent("load_low", w.Load.Low)
	f.percent("load_high", w.Load.High)
	f.text("load_basis", string(w.LoadBasis))
	plainNumberBox(f, "cure_days_low", w.CureDays.Low)
	plainNumberBox(f, "cure_days_high", w.CureDays.High)
	f.percent("shrinkage", w.Shrinkage)
	plainNumberBox(f, "heat_of_combustion", w.HeatOfCombustion)
	stockBoxesByMass(f, w.Price, w.Stock)
	f.text("note", w.Note)
	return f.Values
}

// WaxForm is the form of a wax.
func WaxForm(in Input, action, cancel string) ui.Form {
	return in.Form(ui.Form{
		Action: action, Draft: action, Cancel: cancel, Submit: "Save the wax",
		Groups: []ui.Group{
			{Fields: []ui.Field{
				in.Text("name", "Name", required, focus),
				in.Select("family", "Family", plain(journal.WaxFamilies)),
				in.Text("form", "Form", hint("flakes, slab, pellets …")),
				in.Text("blend_note", "What it is blended of", wide),
			}},
			{Legend: "The supplier's guidance", Lede: "As ranges, so that what a pour did can be held against them. Leave empty what is not stated.", Fields: []ui.Field{
				in.Quantity("temperature", "heat_to_low", "Heat to, lowest"), in.Quantity("temperature", "heat_to_high", "Heat to, highest"),
				in.Quantity("temperature", "add_oil_at_low", "Add fragrance at, lowest"), in.Quantity("temperature", "add_oil_at_high", "Add fragrance at, highest"),
				in.Quantity("temperature", "pour_at_low", "Pour at, lowest"), in.Quantity("temperature", "pour_at_high", "Pour at, highest"),
				in.Quantity("days", "cure_days_low", "Cure, shortest"), in.Quantity("days", "cure_days_high", "Cure, longest"),
				in.Quantity("percent", "load_low", "Fragrance load, lowest"), in.Quantity("percent", "load_high", "Fragrance load, highest"),
				in.Select("load_basis", "That load is a share", bases),
			}},
			{Legend: "Numbers for the pour sheet", Fields: []ui.Field{
				in.Quantity("temperature", "melting_point", "Melting point"),
				in.Quantity("density", "solid_density", "Density, solid"),
				in.Quantity("density", "liquid_density", "Density, melted"),
				in.Quantity("percent", "shrinkage", "Shrinkage by volume"),
				in.Quantity("heat", "heat_of_combustion", "Heat of combustion, net"),
			}},
			stockGroupByMass(in),
		},
	})
}

// waxFacts lists what is known of a wax.
func waxFacts(w journal.Wax, v View) []ui.Fact {
	var l factList
	l.text("Name", w.Name)
	l.text("Family", string(w.Family))
	l.text("Blended of", w.BlendNote)
	l.text("Form", w.Form)
	addRange(&l, "Heat to", w.HeatTo, v.temperature)
	addRange(&l, "Add fragrance at", w.AddOilAt, v.temperature)
	addRange(&l, "Pour at", w.PourAt, v.temperature)
	addRange(&l, "Fragrance load", w.Load, func(f quantity.Fraction) quantity.Shown { return loadShown(f, w.LoadBasis) })
	addRange(&l, "Cure", w.CureDays, daysOf)
	maybe(&l, "Melting point", w.MeltingPoint, v.temperature)
	maybe(&l, "Density, solid", w.SolidDensity, quantity.GramsPerMillilitre.Shown)
	maybe(&l, "Density, melted", w.LiquidDensity, quantity.GramsPerMillilitre.Shown)
	maybe(&l, "Shrinkage", w.Shrinkage, quantity.Fraction.Percent)
	maybe(&l, "Heat of combustion", w.HeatOfCombustion, quantity.KilojoulesPerGram.Shown)
	l = append(l, stockFactsByMass(w.Price, w.Stock, v)...)
	l.text("Note", w.Note)
	return l
}
