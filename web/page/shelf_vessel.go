package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// VesselValues writes a vessel into the boxes of its form.
func VesselValues(x journal.Vessel, u quantity.Units) url.Values {
	f := newFiller(u)
	f.text("name", x.Name)
	f.text("shape", string(x.Shape))
	f.length("inner_width", &x.InnerWidth)
	f.length("inner_length", x.InnerLength)
	f.length("fill_height", x.FillHeight)
	f.volume("volume", x.Volume)
	f.mass("water_fill", x.WaterFill)
	f.text("material", string(x.Material))
	f.mass("empty_mass", x.EmptyMass)
	f.flag("certificate", x.Certificate)
	f.hours("target_hours", x.TargetHours)
	f.length("flame_limit", x.FlameLimit)
	f.temperature("wall_limit", x.WallLimit)
	stockBoxesByPiece(f, x.Price, x.Stock)
	f.text("note", x.Note)
	return f.Values
}

// VesselForm is the form of a vessel.
func VesselForm(in Input, action, cancel string) ui.Form {
	return in.Form(ui.Form{
		Action: action, Draft: action, Cancel: cancel, Submit: "Save the vessel",
		Groups: []ui.Group{
			{Fields: []ui.Field{
				in.Text("name", "Name", required, focus),
				in.Select("shape", "Shape from above", plain(journal.Shapes)),
				in.Select("material", "Made of", plain(journal.Materials)),
			}},
			{Legend: "The inside, measured at the wax line", Lede: "The pool is judged against these, so measure them with the ruler that you use at the bench.", Fields: []ui.Field{
				in.Quantity("length", "inner_width", "Inner width", required, hint("the diameter, or the shorter way across")),
				in.Quantity("length", "inner_length", "Inner length", hint("the longer way across; empty for round vessels")),
				in.Quantity("length", "fill_height", "Fill height"),
				in.Quantity("volume", "volume", "Volume to the fill line"),
				in.Quantity("mass", "water_fill", "or: water to the fill line", hint("weigh the water, if you have no measure")),
				in.Quantity("mass", "empty_mass", "Empty mass"),
			}},
			{Legend: "Where it differs from the rest", Lede: "Empty means as usual: one hour per inch of width and at most four, and the limits in the settings.", Fields: []ui.Field{
				in.Quantity("hours", "target_hours", "Target hour", hint("when the pool should have met the wall")),
				in.Quantity("length", "flame_limit", "Flame limit"),
				in.Quantity("temperature", "wall_limit", "Limit of the outside wall"),
				in.Tick("certificate", "Candle-glass certificate", hint("the supplier's certificate is at hand")),
			}},
			stockGroupByPiece(in),
		},
	})
}

// vesselFacts lists what is known of a vessel.
func vesselFacts(x journal.Vessel, v View) []ui.Fact {
	var l factList
	l.text("Name", x.Name)
	l.text("Shape", string(x.Shape))
	l.shown("Inner width", v.length(x.InnerWidth))
	maybe(&l, "Inner length", x.InnerLength, v.length)
	maybe(&l, "Fill height", x.FillHeight, v.length)
	maybe(&l, "Volume", x.Volume, v.volume)
	maybe(&l, "Water to the fill line", x.WaterFill, v.mass)
	l.text("Made of", string(x.Material))
	maybe(&l, "Empty mass", x.EmptyMass, v.mass)
	l.text("Target hour", targetText(x))
	maybe(&l, "Its own flame limit", x.FlameLimit, v.length)
	maybe(&l, "Its own wall limit", x.WallLimit, v.temperature)
	l.text("Candle-glass certificate", yesNo(x.Certificate))
	l = append(l, stockFactsByPiece(x.Price, x.Stock, v)...)
	l.text("Note", x.Note)
	return l
}

// targetText says when the pool should have met the wall, and why then.
func targetText(x journal.Vessel) string {
	if x.TargetHours != nil {
		return x.Target().Clock() + " (set by you)"
	}
	return x.Target().Clock() + " (an hour per inch)"
}
