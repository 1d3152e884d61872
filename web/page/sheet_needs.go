package page

import (
	"strconv"

	advice "rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// warnings of a sheet: too much oil, and a flash point near where oil goes in.
func (w worked) warnings() []ui.Warning {
	var out []ui.Warning
	if w.sums.Oil == 0 || w.sheet.Fragrance == nil {
		return nil
	}
	wax, oil := w.known.waxes[w.sheet.Wax], w.known.fragrances[*w.sheet.Fragrance]
	if w.sums.Over {
		out = append(out, ui.Warning{Text: overMost("This load", advice.Most(wax, oil, w.sheet.LoadBasis))})
	}
	if f := nearFlash(wax, oil, w.view); f != nil {
		out = append(out, *f)
	}
	return out
}

// overMost says whose limit a load passes.
func overMost(load string, m advice.Maximum) string {
	whose := map[advice.Binding]string{advice.BindsWax: "The wax is said to hold", advice.BindsFragrance: "The fragrance’s supplier allows", advice.BindsBoth: "Wax and fragrance are both stated to take"}[m.Binds]
	return load + " is above the most that may go in. " + whose + " " + loadShown(*m.Guide.High, m.Basis).String() + ". A pool rich in oil catches fire more easily."
}

// nearFlash warns where the guidance has the oil go in near its flash point, or
// where no flash point is known.
func nearFlash(wax journal.Wax, oil journal.Fragrance, v View) *ui.Warning {
	if oil.FlashPoint == nil {
		return &ui.Warning{Text: "No flash point is noted for " + oil.Name + ". Ask its supplier before you add it to hot wax."}
	}
	most := *oil.FlashPoint - advice.FlashMargin
	source := "29 CFR 1910.106 treats an oil within " + v.Units.ShowTemperatureDifference(advice.FlashMargin).String() + " of its flash point as one that catches fire more easily (read in a secondary source)."
	text := "The flash point of " + oil.Name + " is " + v.temperature(*oil.FlashPoint).String() + ": "
	if hottest := hottestAdd(wax); hottest != nil && *hottest > most {
		return &ui.Warning{Text: text + "keep the wax below " + v.temperature(most).String() + " when it goes in. The wax’s guidance goes up to " + v.temperature(*hottest).String() + ". No flame, no spark.", More: source}
	}
	return &ui.Warning{Text: text + "keep the wax below " + v.temperature(most).String() + " when it goes in.", More: source}
}

// hottestAdd is the hottest that a guidance has the oil go in at; that of
// heating where it says nothing of the oil.
func hottestAdd(w journal.Wax) *quantity.Celsius {
	if w.AddOilAt.High != nil {
		return w.AddOilAt.High
	}
	if w.AddOilAt.Low != nil {
		return w.AddOilAt.Low
	}
	return w.HeatTo.High
}

// needs hold what the sheet takes against what is left of the last count.
func (w worked) needs() []SheetNeed {
	wax := w.known.waxes[w.sheet.Wax]
	out := []SheetNeed{w.massNeed(wax.Name, "/shelf/waxes/"+idText(wax.ID), w.sums.Wax, wax.Stock, w.known.taken.Of(journal.NounWax, wax.ID))}
	if w.sums.Oil > 0 && w.sheet.Fragrance != nil {
		f := w.known.fragrances[*w.sheet.Fragrance]
		out = append(out, w.massNeed(f.Name, "/shelf/fragrances/"+idText(f.ID), w.sums.Oil, f.Stock, w.known.taken.Of(journal.NounFragrance, f.ID)))
	}
	for _, t := range thingsTaken(w.sheet.Body.Lines) {
		out = append(out, w.pieceNeed(t))
	}
	return out
}

func (w worked) massNeed(name, href string, need quantity.Grams, s journal.Stock[quantity.Grams], t journal.Taken) SheetNeed {
	n := SheetNeed{What: name, Href: href, Need: w.mass(need).String(), Have: massOnShelf(s, t, w.view)}
	return n.lacking(massLack(need, s, t, w.view), w.sheet)
}

func (w worked) pieceNeed(t taken) SheetNeed {
	n := SheetNeed{What: w.known.vesselName(t.id), Href: "/shelf/vessels/" + idText(t.id), Need: strconv.Itoa(t.count)}
	stock, since := w.known.vessels[t.id].Stock, w.known.taken.Of(journal.NounVessel, t.id)
	if t.wick {
		x := w.known.wicks[t.id]
		n.What, n.Href, stock = w.known.WickName(t.id), "/shelf/ladders/"+idText(x.Ladder)+"/rungs/"+idText(t.id), x.Stock
		since = w.known.taken.Of(journal.NounWick, t.id)
	}
	n.Have = piecesOnShelf(stock, since, w.view)
	return n.lacking(pieceLack(t.count, stock, since), w.sheet)
}

// lacking says what is short; not of a sheet that was poured: it has taken its
// share already.
func (n SheetNeed) lacking(l lack, s journal.PourSheet) SheetNeed {
	if s.Pour == nil {
		n.Short, n.Doubt = l.short, l.doubt
	}
	return n
}

// cost lists what the sheet uses up; nothing where no price is kept at all.
func (w worked) cost() (facts []ui.Fact, note string) {
	c := w.sums.Cost
	if len(c.Missing) == len(c.Parts) {
		return nil, "No price is noted on the shelf, so the cost is not known."
	}
	var l factList
	for _, p := range c.Parts {
		if p.Amount == nil {
			l.text(p.Name, "not known")
			continue
		}
		l.shown(p.Name, quantity.ShowMoney(*p.Amount, w.view.Currency))
	}
	if !c.Whole() {
		return append(l, ui.Fact{Label: "Known so far", Text: quantity.ShowMoney(c.Known, w.view.Currency).String()}), "A price is missing, so the whole is not known."
	}
	l.shown("Together", quantity.ShowMoney(c.Known, w.view.Currency))
	return append(l, ui.Fact{Label: "A piece, on average", Text: quantity.ShowMoney(c.Known/float64(w.sums.Pieces()), w.view.Currency).String()}), ""
}
