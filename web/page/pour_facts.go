package page

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// pourFacts lists what is written down of a pour.
func pourFacts(p journal.Pour, k Known, v View) []ui.Fact {
	var l factList
	l.text("Poured", v.Date(p.At)+", "+v.Clock(p.At))
	l = append(l, ui.Fact{Label: "Wax", Text: k.waxName(p.Wax), Href: "/shelf/waxes/" + idText(p.Wax), More: lotText(p.WaxLot)})
	l = append(l, fragranceFact(p, k))
	if p.Load != nil {
		l = append(l, ui.Fact{Label: "Load", Text: loadShown(*p.Load, p.LoadBasis).Number, Unit: basisWord(p.LoadBasis),
			More: otherBasis(p)})
	}
	maybe(&l, "Wax weighed in", p.WaxMass, v.mass)
	maybe(&l, "Oil weighed in", p.OilMass, v.mass)
	maybe(&l, "Heated to", p.HeatedTo, v.temperature)
	maybe(&l, "Oil added at", p.OilAt, v.temperature)
	maybe(&l, "Poured at", p.PouredAt, v.temperature)
	maybe(&l, "Room", p.Room, v.temperature)
	maybe(&l, "Vessels warmed to", p.VesselWarmed, v.temperature)
	l.text("Second pour", onlyYes(p.SecondPour))
	l.text("Heat gun", onlyYes(p.HeatGun))
	l.text("Dye", p.Dye)
	if p.Sheet != nil {
		l = append(l, ui.Fact{Label: "Weighed by", Text: "pour sheet " + idText(*p.Sheet), Href: "/pours/sheets/" + idText(*p.Sheet)})
	}
	l.text("Note", p.Note)
	return l
}

func fragranceFact(p journal.Pour, k Known) ui.Fact {
	if p.Fragrance == nil {
		return ui.Fact{Label: "Fragrance", Text: "none"}
	}
	return ui.Fact{Label: "Fragrance", Text: k.fragranceName(p.Fragrance),
		Href: "/shelf/fragrances/" + idText(*p.Fragrance), More: lotText(p.FragranceLot)}
}

func lotText(lot string) string {
	if lot == "" {
		return ""
	}
	return "lot " + lot
}

func onlyYes(b bool) string {
	if b {
		return "yes"
	}
	return ""
}

// otherBasis is the load on the basis that it was not recorded on.
func otherBasis(p journal.Pour) string {
	b := journal.OfTotal
	if p.LoadBasis == journal.OfTotal {
		b = journal.OfWax
	}
	return loadShown(*p.LoadOn(b), b).String()
}

// bothBases writes a load as recorded and, in brackets, on the other basis;
// "" when there is none.
func bothBases(p journal.Pour) string {
	if p.Load == nil {
		return ""
	}
	return loadShown(*p.Load, p.LoadBasis).String() + " (" + otherBasis(p) + ")"
}

// points shows a difference of two shares in percentage points.
func points(f quantity.Fraction) quantity.Shown {
	s := quantity.Shown{Number: f.Percent().Number, Unit: "points"}
	if s.Number == "1" {
		s.Unit = "point"
	}
	return s
}
