package page

import (
	"rimward/internal/plan"
	"rimward/web/ui"
)

// takeOutItem writes pieces that are due, or soon due, to come out of their
// mould.
func takeOutItem(it plan.Item, v View) ui.Item {
	i := ui.Item{Text: "Take " + castName(*it.Cast) + " out of the mould", Href: "/casts/" + idText(it.Cast.Cast.ID) + "/out", When: insideWhen(*it.Cast, v), More: it.Cast.Mould.Name}
	if it.At.After(v.Now) {
		i.Text, i.Href, i.When = capital(castName(*it.Cast)), "/casts/"+idText(it.Cast.Cast.ID), v.Day(it.At)
		i.More = "a day in " + it.Cast.Mould.Name + ": take them out"
	}
	return i
}
