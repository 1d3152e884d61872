package page

import (
	"strconv"

	advice "rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/pour"
	"rimward/internal/quantity"
)

// SheetAsk is what a pour sheet is worked out from, with what the shelf knows
// of its wax, fragrance, vessels, moulds and wicks.
func SheetAsk(s journal.PourSheet, k Known) pour.Ask {
	a := pour.Ask{Wax: askWax(k.waxes[s.Wax]), Oil: askOil(s, k), Step: s.Body.Step, Melter: s.Body.Melter, TopUp: s.Body.TopUp}
	if s.Body.Spare != nil {
		a.Spare = *s.Body.Spare
	}
	if s.Body.Waste != nil {
		a.Waste = *s.Body.Waste
	}
	for _, l := range s.Body.Lines {
		a.Fillings = append(a.Fillings, askFilling(l, k))
	}
	a.Things = sheetThings(s.Body.Lines, k)
	return a
}

func askWax(w journal.Wax) pour.Wax {
	return pour.Wax{Name: w.Name, Liquid: w.LiquidDensity, Solid: w.SolidDensity, Shrinkage: w.Shrinkage, Price: w.Price}
}

// askOil is nil without a fragrance or a load.
func askOil(s journal.PourSheet, k Known) *pour.Oil {
	if s.Fragrance == nil || s.Load == nil {
		return nil
	}
	f := k.fragrances[*s.Fragrance]
	most := advice.Most(k.waxes[s.Wax], f, journal.OfWax).Guide.High
	return &pour.Oil{Name: f.Name, Load: *s.Load, Basis: pour.Basis(s.LoadBasis), Density: f.Density, Most: most, Price: f.Price}
}

func askFilling(l journal.SheetLine, k Known) pour.Filling {
	f := pour.Filling{Name: k.lineName(l), Count: l.Count, Cavities: 1, TestFill: l.TestFill}
	if l.Vessel != nil {
		f.Volume = k.vessels[*l.Vessel].Capacity()
	}
	if m, ok := k.mould(l.Mould); ok {
		f.Cavities, f.Volume = m.Cavities, m.Capacity()
	}
	return f
}

func (k Known) mould(id *journal.ID) (journal.Mould, bool) {
	for _, m := range k.shelf.Moulds {
		if id != nil && m.ID == *id {
			return m, true
		}
	}
	return journal.Mould{}, false
}

// lineName is the vessel or the mould of a line.
func (k Known) lineName(l journal.SheetLine) string {
	if l.Vessel != nil {
		return k.vesselName(*l.Vessel)
	}
	if m, ok := k.mould(l.Mould); ok {
		return m.Name
	}
	return "an unknown mould"
}

// lineText is what a line fills and with which wick: Pebble tumbler, Larkspur 6.
func (k Known) lineText(l journal.SheetLine) string {
	if l.Wick == nil {
		return k.lineName(l)
	}
	return k.lineName(l) + ", " + wickCount(l.Wicks) + k.WickName(*l.Wick)
}

// sheetThings are the vessels and wicks that a sheet uses up, each kind once.
func sheetThings(lines []journal.SheetLine, k Known) []pour.Priced {
	var out []pour.Priced
	for _, t := range thingsTaken(lines) {
		p := pour.Priced{Name: k.vesselName(t.id), Count: t.count, Price: k.vessels[t.id].Price}
		if t.wick {
			p.Name, p.Price = k.WickName(t.id), k.wicks[t.id].Price
		}
		out = append(out, p)
	}
	return out
}

// taken is how many of a vessel or of a wick a sheet uses.
type taken struct {
	wick  bool
	id    journal.ID
	count int
}

func thingsTaken(lines []journal.SheetLine) []taken {
	var out []taken
	add := func(wick bool, id journal.ID, n int) {
		for i := range out {
			if out[i].wick == wick && out[i].id == id {
				out[i].count += n
				return
			}
		}
		out = append(out, taken{wick, id, n})
	}
	for _, l := range lines {
		if l.Vessel != nil {
			add(false, *l.Vessel, l.Count)
		}
	}
	for _, l := range lines {
		if l.Wick != nil {
			add(true, *l.Wick, l.Count*l.Wicks)
		}
	}
	return out
}

// weighedMass shows a mass as the sheet's scale shows it.
func (v View) weighedMass(x, step quantity.Grams) quantity.Shown {
	return v.Units.ShowWeighed(x, step)
}

// SheetName is a sheet as it is spoken of: sheet 3.
func SheetName(s journal.PourSheet) string { return "sheet " + strconv.FormatInt(int64(s.ID), 10) }

// sheetMix is wax, fragrance and load: Meadow blend with Fig and smoke, 8 % of
// wax.
func sheetMix(s journal.PourSheet, k Known) string {
	text := k.waxName(s.Wax)
	if s.Fragrance == nil || s.Load == nil || *s.Load == 0 {
		return text + ", no fragrance"
	}
	return text + " with " + k.fragranceName(s.Fragrance) + ", " + loadShown(*s.Load, s.LoadBasis).String()
}
