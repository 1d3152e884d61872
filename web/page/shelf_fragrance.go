package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// FragranceValues writes a fragrance into the boxes of its form.
func FragranceValues(x journal.Fragrance, u quantity.Units) url.Values {
	f := newFiller(u)
	f.text("name", x.Name)
	plainNumberBox(f, "density", x.Density)
	f.temperature("flash_point", x.FlashPoint)
	f.percent("max_load", x.MaxLoad)
	f.text("max_basis", string(x.MaxBasis))
	stockBoxesByMass(f, x.Price, x.Stock)
	f.text("note", x.Note)
	return f.Values
}

// FragranceForm is the form of a fragrance.
func FragranceForm(in Input, action, cancel string) ui.Form {
	return in.Form(ui.Form{
		Action: action, Draft: action, Cancel: cancel, Submit: "Save the fragrance",
		Groups: []ui.Group{{Fields: []ui.Field{
			in.Text("name", "Name", required, focus),
			in.Quantity("temperature", "flash_point", "Flash point", hint("from the safety data sheet")),
			in.Quantity("density", "density", "Density"),
			in.Quantity("percent", "max_load", "Supplier's maximum in candles"),
			in.Select("max_basis", "That maximum is a share", bases),
		}}, stockGroupByMass(in)},
	})
}

// fragranceFacts lists what is known of a fragrance.
func fragranceFacts(x journal.Fragrance, v View) []ui.Fact {
	var l factList
	l.text("Name", x.Name)
	maybe(&l, "Flash point", x.FlashPoint, v.temperature)
	maybe(&l, "Density", x.Density, quantity.GramsPerMillilitre.Shown)
	maybe(&l, "Supplier's maximum", x.MaxLoad, func(f quantity.Fraction) quantity.Shown { return loadShown(f, x.MaxBasis) })
	l = append(l, stockFactsByMass(x.Price, x.Stock, v)...)
	l.text("Note", x.Note)
	return l
}
