package page

import (
	"strings"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// ThingPage shows one thing on the shelf.
type ThingPage struct {
	Kicker, Title string
	Gone          string // a sentence when it was retired
	Facts         []ui.Fact
	Edit          string
	Retire        ui.Action
	Back          ui.Item
	Use           string
	UseHref       string
	Moved         string // a wax: where it is asked what moved its pools
	Settled       string // a wax: where it is told how its candles set
	History       []ui.ChangeLine
}

// NewThingPage builds what the pages of all shelf things share.
func NewThingPage(kicker, title string, m journal.Meta, noun journal.Noun, facts []ui.Fact, use journal.Use, v View) ThingPage {
	p := ThingPage{Kicker: kicker, Title: title, Facts: facts, Use: useText(use)}
	p.Edit = "/shelf/" + plural(noun) + "/" + idText(m.ID) + "/edit"
	p.Back = ui.Item{Text: "The whole shelf", Href: "/shelf"}
	p.Retire = ui.Action{Text: "Retire", Href: "/withdraw/" + string(noun) + "/" + idText(m.ID)}
	if m.IsGone() {
		p.Gone = joinWords("Retired "+v.Day(*m.Gone)+".", m.GoneWhy)
		p.Retire = ui.Action{Text: "Bring it back", Href: "/restore/" + string(noun) + "/" + idText(m.ID), Post: true}
	}
	return p
}

// plural is the noun as addresses have it.
func plural(n journal.Noun) string {
	if n == journal.NounWax {
		return "waxes"
	}
	return string(n) + "s"
}

// useText says what was done with a thing so far.
func useText(u journal.Use) string {
	var parts []string
	if u.Pours > 0 {
		parts = append(parts, counted(u.Pours, "pour", "pours"))
	}
	if u.Casts > 0 {
		parts = append(parts, counted(u.Casts, "cast", "casts"))
	}
	if u.Candles > 0 {
		parts = append(parts, counted(u.Candles, "candle", "candles"))
	}
	if u.Burns > 0 {
		parts = append(parts, counted(u.Burns, "burn", "burns"))
	}
	if len(parts) == 0 {
		return "Not used yet."
	}
	return strings.TrimSpace("Used so far in " + listed(parts) + ".")
}

// NewWaxPage builds the page of a wax.
func NewWaxPage(w journal.Wax, use journal.Use, history []journal.Change, v View) ThingPage {
	p := NewThingPage("Wax", w.Name, w.Meta, journal.NounWax, waxFacts(w, v), use, v)
	p.UseHref, p.Moved, p.Settled = "/candles?wax="+idText(w.ID), movedHref(w.ID), settledHref(w.ID)
	p.History = changeLines(history, v, factsOf(func(x journal.Wax) []ui.Fact { return waxFacts(x, v) }))
	return p
}

// NewVesselPage builds the page of a vessel.
func NewVesselPage(x journal.Vessel, use journal.Use, history []journal.Change, v View) ThingPage {
	p := NewThingPage("Vessel", x.Name, x.Meta, journal.NounVessel, vesselFacts(x, v), use, v)
	p.UseHref = "/candles?vessel=" + idText(x.ID)
	p.History = changeLines(history, v, factsOf(func(y journal.Vessel) []ui.Fact { return vesselFacts(y, v) }))
	return p
}

// NewFragrancePage builds the page of a fragrance.
func NewFragrancePage(x journal.Fragrance, use journal.Use, history []journal.Change, v View) ThingPage {
	p := NewThingPage("Fragrance", x.Name, x.Meta, journal.NounFragrance, fragranceFacts(x, v), use, v)
	p.History = changeLines(history, v, factsOf(func(y journal.Fragrance) []ui.Fact { return fragranceFacts(y, v) }))
	return p
}
