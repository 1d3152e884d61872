package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// makingBoxes writes what the settings say of making into their boxes.
func makingBoxes(into url.Values, s journal.Settings) {
	f := filler{into, s.Units}
	f.text("currency", s.Currency)
	f.mass("scale_step", &s.ScaleStep)
	f.mass("melter", s.Melter)
	f.count("bench_places", s.BenchPlaces)
}

// makingGroup asks what pour sheets and rounds count with.
func makingGroup(in Input) ui.Group {
	return ui.Group{Legend: "Making", Lede: "What pour sheets and rounds count with.", Fields: []ui.Field{
		in.Quantity("mass", "scale_step", "Smallest step of your scale", hint("masses to weigh out are rounded to it; empty means 1 g")),
		in.Quantity("mass", "melter", "Your melter holds", hint("empty if it is never too small; a bigger batch is split")),
		in.Count("bench_places", "Places on the bench", hint("how many candles you can watch at once; empty if you have not settled it")),
		in.Text("currency", "Currency", hint("as it stands after a price: €, EUR, £")),
	}}
}

// makingFacts lists what the settings say of making.
func makingFacts(l *factList, s journal.Settings, v View) {
	if s.ScaleStep > 0 && s.ScaleStep != journal.DefaultSettings().ScaleStep {
		l.text("Smallest step of the scale", s.Units.EditMass(s.ScaleStep)+" "+s.Units.Mass.Word())
	}
	maybe(l, "The melter holds", s.Melter, v.Units.ShowStock)
	maybe(l, "Places on the bench", s.BenchPlaces, func(n int) quantity.Shown { return quantity.Shown{Number: strconv.Itoa(n)} })
	l.text("Currency", s.Currency)
}
