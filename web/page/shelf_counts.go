package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// CountsPage asks for price and stock of all rungs of a ladder at once.
type CountsPage struct {
	Title, Lede, Back string
	Form              ui.Form
	Again             ui.Field
	Currency          *ui.Item
	Rows              []CountsRow
}

// CountsRow is one rung.
type CountsRow struct {
	Label, Href, Last string
	OnHand, Price     ui.Field
}

// CountsPrefix is what the names of a rung's boxes begin with.
func CountsPrefix(wick journal.ID) string { return "w" + idText(wick) + "." }

// CountsValues writes what is recorded of the rungs into their boxes.
func CountsValues(wicks []journal.Wick) url.Values {
	out := url.Values{}
	for _, w := range wicks {
		f := newFiller(quantity.Metric)
		stockBoxesByPiece(f, w.Price, w.Stock)
		for name := range f.Values {
			out.Set(CountsPrefix(w.ID)+name, f.Get(name))
		}
	}
	return out
}

// NewCountsPage builds the table; rungs stand as on their ladder, the one that
// melts most on top.
func NewCountsPage(in Input, l journal.Ladder, wicks []journal.Wick, v View) CountsPage {
	base := "/shelf/ladders/" + idText(l.ID)
	p := CountsPage{Title: "Prices and counts of " + l.Name, Back: base, Currency: noCurrency(v),
		Lede: "What is left open is not known. Another number is dated today; the same number keeps its date.",
		Form: in.Form(ui.Form{Action: base + "/counts", Draft: base + "/counts", Cancel: base, Submit: "Save the counts"})}
	p.Again = in.Tick("recounted", "All of them were counted again today")
	for i := len(wicks) - 1; i >= 0; i-- {
		w := wicks[i]
		row := in.Row(CountsPrefix(w.ID))
		what := l.Name + " " + w.Label
		p.Rows = append(p.Rows, CountsRow{w.Label, base + "/rungs/" + idText(w.ID), countedOn(w.CountedAt, v),
			row.Count("on_hand", "", unlabelled(what+", on hand")), row.Text("price", "", unlabelled(what+", price of one"))})
	}
	return p
}
