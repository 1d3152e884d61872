package page

import (
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// stockBoxesByMass writes what is on hand of a wax or a fragrance, and its
// price, into the boxes of its form.
func stockBoxesByMass(f filler, price *float64, s journal.Stock[quantity.Grams]) {
	if price != nil {
		f.Set("price", f.u.EditPriceByMass(*price))
	}
	f.mass("on_hand", s.OnHand)
}

// stockBoxesByPiece does so for vessels and wicks.
func stockBoxesByPiece(f filler, price *float64, s journal.Stock[int]) {
	plainNumberBox(f, "price", price)
	f.count("on_hand", s.OnHand)
}

// stockLede says what the boxes of a stock are for.
const stockLede = "For counting what a round needs against the shelf, and for what a pour costs. The number stands as you counted it: nothing is taken off it, and what was poured since is told beside it, with what that leaves."

func stockGroupByMass(in Input) ui.Group {
	return stockGroup(in, in.Quantity("price by mass", "price", "Price", hint("in your currency, which the settings name")), in.Quantity("mass", "on_hand", "On hand", hint("such as 4.2 kg or 9 lb 4 oz")))
}

func stockGroupByPiece(in Input) ui.Group {
	return stockGroup(in, in.Text("price", "Price of one", hint("in your currency, which the settings name")), in.Count("on_hand", "On hand", hint("pieces")))
}

// stockGroup asks for the price and the count, with the note that ends every
// form of the shelf.
func stockGroup(in Input, price, onHand ui.Field) ui.Group {
	fields := []ui.Field{price, onHand}
	if in.Version != "" {
		fields = append(fields, in.Tick("recounted", "Counted again today", hint("tick it when the number came out the same; another number is dated by itself")))
	}
	return ui.Group{Legend: "Price and stock", Lede: stockLede, Fields: append(fields, in.Area("note", "Note"))}
}

func stockFactsByMass(price *float64, s journal.Stock[quantity.Grams], v View) []ui.Fact {
	var l factList
	maybe(&l, "Price", price, func(p float64) quantity.Shown { return v.Units.ShowPriceByMass(p, v.Currency) })
	l.unnamed(v)
	if s.OnHand != nil {
		x := v.Units.ShowStock(*s.OnHand)
		l = append(l, ui.Fact{Label: "On hand", Text: x.Number, Unit: x.Unit, More: countedOn(s.CountedAt, v)})
	}
	return l
}

func stockFactsByPiece(price *float64, s journal.Stock[int], v View) []ui.Fact {
	var l factList
	maybe(&l, "Price of one", price, func(p float64) quantity.Shown { return quantity.ShowMoney(p, v.Currency) })
	l.unnamed(v)
	if s.OnHand != nil {
		l = append(l, ui.Fact{Label: "On hand", Text: strconv.Itoa(*s.OnHand), More: countedOn(s.CountedAt, v)})
	}
	return l
}

// countedOn says when a number was counted.
func countedOn(at *time.Time, v View) string {
	if at == nil {
		return ""
	}
	return "counted " + v.Date(*at)
}

// noCurrency leads to where a studio names its currency; nil where it has.
func noCurrency(v View) *ui.Item {
	if v.Currency != "" {
		return nil
	}
	return &ui.Item{Text: "no currency set yet", Href: "/settings#f-currency"}
}

// unnamed says of a price that was just listed that it has no currency.
func (l factList) unnamed(v View) {
	if n := len(l); n > 0 {
		l[n-1].Next = noCurrency(v)
	}
}
