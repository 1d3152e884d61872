package page

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// pourFacts lists what is written down of a pour, each temperature beside the
// wax's guidance.
func pourFacts(p journal.Pour, k Known, v View) []ui.Fact {
	w := k.waxes[p.Wax]
	var l factList
	l.text("Poured", v.Date(p.At)+", "+v.Clock(p.At))
	l = append(l, ui.Fact{Label: "Wax", Text: k.waxName(p.Wax), Href: "/shelf/waxes/" + idText(p.Wax), More: lotText(p.WaxLot)})
	l = append(l, fragranceFact(p, k))
	if p.Load != nil {
		l = append(l, ui.Fact{Label: "Load", Text: loadShown(*p.Load, p.LoadBasis).Number, Unit: basisWord(p.LoadBasis),
			More: joinBy("; ", otherBasis(p), guideOfLoad(p, w))})
	}
	maybe(&l, "Wax weighed in", p.WaxMass, v.mass)
	maybe(&l, "Oil weighed in", p.OilMass, v.mass)
	for _, t := range []struct {
		label string
		value *quantity.Celsius
		guide journal.Range[quantity.Celsius]
	}{{"Heated to", p.HeatedTo, w.HeatTo}, {"Oil added at", p.OilAt, w.AddOilAt}, {"Poured at", p.PouredAt, w.PourAt}} {
		if t.value != nil {
			s := v.temperature(*t.value)
			l = append(l, ui.Fact{Label: t.label, Text: s.Number, Unit: s.Unit, More: guideText(*t.value, t.guide, v)})
		}
	}
	maybe(&l, "Room", p.Room, v.temperature)
	maybe(&l, "Vessels warmed to", p.VesselWarmed, v.temperature)
	l.text("Second pour", onlyYes(p.SecondPour))
	l.text("Heat gun", onlyYes(p.HeatGun))
	l.text("Dye", p.Dye)
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

// guideText holds a temperature against a guidance: guide 60–65 °C: inside.
func guideText(t quantity.Celsius, r journal.Range[quantity.Celsius], v View) string {
	if r.IsZero() {
		return ""
	}
	return "guide " + rangeText(r, v.temperature).String() + ": " + apart(t, r, func(d quantity.Celsius) quantity.Shown {
		return v.Units.ShowTemperatureDifference(d)
	})
}

// guideOfLoad holds the load against the wax's guidance, on the guidance's
// basis.
func guideOfLoad(p journal.Pour, w journal.Wax) string {
	if w.Load.IsZero() || p.Load == nil {
		return ""
	}
	b := w.LoadBasis
	guide := rangeText(w.Load, func(f quantity.Fraction) quantity.Shown { return loadShown(f, b) })
	return "guide " + guide.String() + ": " + apart(*p.LoadOn(b), w.Load, points)
}

// points shows a difference of two shares in percentage points.
func points(f quantity.Fraction) quantity.Shown {
	return quantity.Shown{Number: f.Percent().Number, Unit: "points"}
}

// apart says where a value lies beside a guidance.
func apart[T ~float64](x T, r journal.Range[T], show func(T) quantity.Shown) string {
	switch {
	case r.Low != nil && x < *r.Low-hair:
		return byHowMuch(show(*r.Low-x), "below")
	case r.High != nil && x > *r.High+hair:
		return byHowMuch(show(x-*r.High), "above")
	}
	return "inside"
}

// hair absorbs the noise of converting units, far below any instrument.
const hair = 1e-9

func byHowMuch(d quantity.Shown, side string) string {
	if d.Number == "0" {
		return "just " + side
	}
	return d.String() + " " + side
}

// overMaximum warns of a load above the fragrance supplier's maximum for
// candles; nil when it is not, or when none is stated.
func overMaximum(p journal.Pour, k Known) *ui.Warning {
	if p.Fragrance == nil || p.Load == nil {
		return nil
	}
	f := k.fragrances[*p.Fragrance]
	if f.MaxLoad == nil || *p.LoadOn(f.MaxBasis) <= *f.MaxLoad+hair {
		return nil
	}
	return &ui.Warning{Text: "The load is above what the supplier of " + f.Name + " states for candles: " +
		loadShown(*f.MaxLoad, f.MaxBasis).String() + " at most."}
}

// hotterThanFlash warns of oil that went into wax hotter than its flash
// point; nil when it did not, or when none is stated.
func hotterThanFlash(p journal.Pour, k Known, v View) *ui.Warning {
	if p.Fragrance == nil || p.OilAt == nil {
		return nil
	}
	f := k.fragrances[*p.Fragrance]
	if f.FlashPoint == nil || *p.OilAt < *f.FlashPoint {
		return nil
	}
	return &ui.Warning{Text: "The oil went in at " + v.temperature(*p.OilAt).String() + ", at or above its flash point of " +
		v.temperature(*f.FlashPoint).String() + ". Keep flames and sparks away from such a pour."}
}
