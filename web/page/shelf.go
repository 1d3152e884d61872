package page

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// ShelfPage lists the materials.
type ShelfPage struct {
	Sections []ShelfSection
	First    string // what to do first, in an empty journal
}

// ShelfSection is one kind of material.
type ShelfSection struct {
	Title, Empty string
	Add          ui.Action
	Items        []ui.Item
	Retired      []ui.Item
	More         ui.Item // where the kind leads on to; no text for nowhere
}

// NewShelfPage builds the shelf.
func NewShelfPage(waxes []journal.Wax, ladders []journal.Ladder, wicks []journal.Wick, vessels []journal.Vessel, fragrances []journal.Fragrance, v View) ShelfPage {
	p := ShelfPage{Sections: []ShelfSection{
		waxSection(waxes, v), ladderSection(ladders, wicks), vesselSection(vessels, v), fragranceSection(fragrances, v),
	}}
	if len(waxes) == 0 || len(ladders) == 0 || len(vessels) == 0 {
		p.First = "A pour needs a wax; a candle needs a vessel and a wick. Put one of each here first."
	}
	return p
}

// put files an item among the current or the retired.
func (s *ShelfSection) put(m journal.Meta, i ui.Item) {
	if m.IsGone() {
		s.Retired = append(s.Retired, i)
		return
	}
	s.Items = append(s.Items, i)
}

func waxSection(waxes []journal.Wax, v View) ShelfSection {
	s := ShelfSection{Title: "Waxes", Empty: "No wax yet. Take the supplier's sheet and copy its ranges.", Add: ui.Action{Text: "Add a wax", Href: "/shelf/waxes/new"}}
	for _, w := range waxes {
		more := ""
		if !w.PourAt.IsZero() {
			more = joinWords("pour at", rangeText(w.PourAt, v.temperature).String())
		}
		if !w.Load.IsZero() {
			more = joinBy(" · ", more, "load "+rangeText(w.Load, func(f quantity.Fraction) quantity.Shown { return loadShown(f, w.LoadBasis) }).String())
		}
		if !w.CureDays.IsZero() {
			more = joinBy(" · ", more, "cure "+rangeText(w.CureDays, daysOf).String())
		}
		s.put(w.Meta, ui.Item{Text: w.Name, Href: "/shelf/waxes/" + idText(w.ID), When: string(w.Family), More: more})
	}
	return s
}

func ladderSection(ladders []journal.Ladder, wicks []journal.Wick) ShelfSection {
	s := ShelfSection{Title: "Ladders of wicks", Empty: "No wicks yet. A ladder is one series in order of how much it melts.", Add: ui.Action{Text: "Add a ladder", Href: "/shelf/ladders/new"}}
	labels := map[journal.ID][]string{}
	for _, w := range wicks {
		if !w.IsGone() {
			labels[w.Ladder] = append(labels[w.Ladder], w.Label)
		}
	}
	for _, l := range ladders {
		s.put(l.Meta, ui.Item{Text: l.Name, Href: "/shelf/ladders/" + idText(l.ID), When: string(l.Kind), More: rungsText(labels[l.ID])})
	}
	return s
}

func rungsText(labels []string) string {
	if len(labels) == 0 {
		return "no rung yet"
	}
	return "rungs " + joinBy(" · ", labels...)
}

func vesselSection(vessels []journal.Vessel, v View) ShelfSection {
	s := ShelfSection{Title: "Vessels", Empty: "No vessel yet. Measure its inside at the wax line.", Add: ui.Action{Text: "Add a vessel", Href: "/shelf/vessels/new"}}
	for _, x := range vessels {
		size := v.length(x.InnerWidth).String()
		if x.InnerLength != nil {
			size = v.length(*x.InnerLength).Number + " × " + size
		}
		s.put(x.Meta, ui.Item{Text: x.Name, Href: "/shelf/vessels/" + idText(x.ID), When: size,
			More: joinBy(" · ", string(x.Shape), string(x.Material), "full pool by "+x.Target().Clock())})
	}
	return s
}

func fragranceSection(fragrances []journal.Fragrance, v View) ShelfSection {
	s := ShelfSection{Title: "Fragrances", Empty: "No fragrance yet. Unscented candles need none.", Add: ui.Action{Text: "Add a fragrance", Href: "/shelf/fragrances/new"}}
	for _, x := range fragrances {
		more, when := "", ""
		if x.FlashPoint != nil {
			more = "flash point " + v.temperature(*x.FlashPoint).String()
		}
		if x.MaxLoad != nil {
			when = "up to " + loadShown(*x.MaxLoad, x.MaxBasis).String()
		}
		s.put(x.Meta, ui.Item{Text: x.Name, Href: "/shelf/fragrances/" + idText(x.ID), When: when, More: more})
	}
	return s
}

// Shelves is everything on the shelf, retired things too.
type Shelves struct {
	Waxes      []journal.Wax
	Ladders    []journal.Ladder
	Wicks      []journal.Wick
	Vessels    []journal.Vessel
	Fragrances []journal.Fragrance
	Moulds     []journal.Mould
}
