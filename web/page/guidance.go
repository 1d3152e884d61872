package page

import (
	"strings"

	"rimward/internal/form"
	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// GuidancePart holds what was done against what the suppliers advise.
type GuidancePart struct {
	Lede     string       // how it stands as a whole
	Apart    []string     // what lies outside, in words
	Warnings []ui.Warning // what of it asks for care, with what to do
	Rows     []GuidanceRow
	Summary  string // of the table, where it is folded away
}

// GuidanceRow is one thing that a supplier may speak of.
type GuidanceRow struct {
	What, Advised, Done string
	Stands              string // where it lies: inside, 3 °C above
	More                string // a smaller line: which limit binds
	Apart, Soft         bool   // outside; or nothing to compare
}

// newGuidance builds the rows that every pour has.
func newGuidance(p journal.Pour, w journal.Wax, f *journal.Fragrance, v View) GuidancePart {
	g := guide.Of(p, w, f)
	var out GuidancePart
	out.temperature("Heat to", "heated", g.Heated, v)
	if g.Scented {
		out.temperature("Add fragrance at", "fragrance added", g.OilAdded, v)
	}
	out.temperature("Pour at", "poured", g.Poured, v)
	if g.Scented {
		out.load(g.Load)
		out.most(g.Most)
		out.flash(g.Flash, v)
	}
	return out
}

// close says how it stands as a whole, once every row is there.
func (g *GuidancePart) close(p journal.Pour) {
	known := 0
	for _, r := range g.Rows {
		if !r.Soft {
			known++
		}
	}
	switch {
	case known == 0:
		g.Lede = "Nothing to compare yet: it takes the supplier’s figures, on the shelf, and the pour’s."
	case len(g.Apart) == 0:
		g.Lede = "Everything that can be compared lies inside what the suppliers advise."
	case len(g.Warnings) > 0:
		g.Lede = capital(counted(len(g.Apart), "thing lies", "things lie")) + " outside what the suppliers advise."
	default:
		g.Lede = capital(counted(len(g.Apart), "thing lies", "things lie")) + " outside what the suppliers advise: " + listed(g.Apart) + "."
	}
	g.Lede += " " + methodText(p)
	g.Summary = "All that the suppliers advise, beside what was done"
}

// methodText says how the candles were topped and finished.
func methodText(p journal.Pour) string {
	s := "A single pour"
	if p.SecondPour {
		s = "Topped up with a second pour"
	}
	if p.HeatGun {
		return s + ", finished with a heat gun."
	}
	return s + ", without a heat gun."
}

func (g *GuidancePart) temperature(what, did string, c guide.Compared[quantity.Celsius], v View) {
	r := GuidanceRow{What: what, Advised: advised(rangeText(c.Guide, v.temperature), c.Side), Done: doneText(c.Value, v.temperature)}
	g.add(r, did, standsText(c.Place, v.Units.ShowTemperatureDifference), c.Side)
}

func (g *GuidancePart) load(l guide.Load) {
	show := func(f quantity.Fraction) quantity.Shown { return loadShown(f, l.Basis) }
	r := GuidanceRow{What: "Fragrance load", Advised: advised(rangeText(l.Guide, show), l.Side), Done: doneText(l.Value, show)}
	if l.Weighed {
		r.More = "as weighed in; no load was written"
	}
	g.add(r, "load", standsText(l.Place, points), l.Side)
}

// most adds the effective maximum, and says whose it is.
func (g *GuidancePart) most(m guide.Maximum) {
	show := func(f quantity.Fraction) quantity.Shown { return loadShown(f, m.Basis) }
	r := GuidanceRow{What: "Most fragrance", Advised: advised(rangeText(m.Guide, show), m.Side), Done: doneText(m.Value, show), More: bindsText(m, show)}
	did := "more oil than " + map[guide.Binding]string{guide.BindsWax: "the wax is said to take", guide.BindsFragrance: "the fragrance’s supplier allows",
		guide.BindsBoth: "wax and fragrance allow"}[m.Binds]
	did += ", by " + points(m.By).String()
	if m.Binds == guide.BindsWax {
		did = "" // the row of the load says so
	}
	g.addApart(r, did, standsText(m.Place, points), m.Side)
}

// bindsText says which of the two limits is the lower one.
func bindsText(m guide.Maximum, show func(quantity.Fraction) quantity.Shown) string {
	switch m.Binds {
	case guide.BindsWax:
		if m.Oil == nil {
			return "the wax’s; the fragrance’s supplier states none"
		}
		return "the wax’s binds; the fragrance’s is " + show(*m.Oil).String()
	case guide.BindsFragrance:
		if m.Wax == nil {
			return "the fragrance’s; the wax’s supplier states none"
		}
		return "the fragrance’s binds; the wax’s is " + show(*m.Wax).String()
	case guide.BindsBoth:
		return "the wax’s and the fragrance’s are the same"
	}
	return ""
}

// flash adds the flash point: warned of from a margin below it.
func (g *GuidancePart) flash(f guide.Flash, v View) {
	r := GuidanceRow{What: "Flash point of the fragrance", Advised: advised(quantity.Shown{}, f.Side), Done: doneText(f.Value, v.temperature)}
	if f.Point != nil {
		r.Advised = v.temperature(*f.Point).String()
		r.More = "the oil is handled with more care from " + v.temperature(*f.Guide.High).String() + " on, " + v.Units.ShowTemperatureDifference(guide.FlashMargin).String() + " below it"
	}
	stands, did := standsText(f.Place, v.Units.ShowTemperatureDifference), ""
	switch {
	case f.Reached():
		stands = "at the flash point or above"
		did = "fragrance added " + stands
	case f.Near():
		stands = v.Units.ShowTemperatureDifference(*f.Point-*f.Value).String() + " below it: near"
		did = "fragrance added " + v.Units.ShowTemperatureDifference(*f.Point-*f.Value).String() + " below its flash point"
	case f.Side == guide.Inside:
		stands = v.Units.ShowTemperatureDifference(*f.Point-*f.Value).String() + " below it"
	}
	g.addApart(r, did, stands, f.Side)
}

// add puts a row on the list; what was done is named with where it stands.
func (g *GuidancePart) add(r GuidanceRow, did, stands string, side guide.Side) {
	g.addApart(r, did+" "+stands, stands, side)
}

func (g *GuidancePart) addApart(r GuidanceRow, words, stands string, side guide.Side) {
	r.Stands, r.Apart = stands, side == guide.Below || side == guide.Above
	r.Soft = side == guide.NotStated || side == guide.NotRecorded
	if r.Apart && words != "" {
		g.Apart = append(g.Apart, words)
	}
	g.Rows = append(g.Rows, r)
}

// notStated stands for a guidance that no supplier gave.
const notStated = "not stated by the supplier"

// advised is a guidance as a row shows it.
func advised(s quantity.Shown, side guide.Side) string {
	if side == guide.NotStated {
		return notStated
	}
	return s.String()
}

// notRecorded stands for a practice that was not written down.
const notRecorded = "not recorded"

func doneText[T any](x *T, show func(T) quantity.Shown) string {
	if x == nil {
		return notRecorded
	}
	return show(*x).String()
}

// standsText says where a value lies: inside, 3 °C above; "" where there is
// nothing to compare.
func standsText[T ~float64](p guide.Place[T], show func(T) quantity.Shown) string {
	switch p.Side {
	case guide.Inside:
		return "inside"
	case guide.Below, guide.Above:
		return byHowMuch(show(p.By), string(p.Side))
	}
	return ""
}

func byHowMuch(d quantity.Shown, side string) string {
	if d.Number == "0" {
		return "just " + side
	}
	return d.String() + " " + side
}

// guidanceOfPour holds one pour against what its suppliers advise.
func guidanceOfPour(p journal.Pour, k Known, v View) GuidancePart {
	g := newGuidance(p, k.waxes[p.Wax], k.fragrance(p.Fragrance), v)
	g.Warnings = pourWarnings(p, k, v)
	g.close(p)
	return g
}

// guidanceOfCandle does the same for a candle, with its cure.
func guidanceOfCandle(l journal.CandleLog, v View) GuidancePart {
	g := newGuidance(l.Pour, l.Wax, l.Fragrance, v)
	g.cure(l)
	g.close(l.Pour)
	return g
}

// cure adds how long the candle waited for its first burn. Longer than stated
// is no fault.
func (g *GuidancePart) cure(l journal.CandleLog) {
	c := guide.Cure(l)
	r := GuidanceRow{What: "Cure before the first burn", Advised: advised(rangeText(c.Guide, daysOf), c.Side), Done: doneText(c.Value, daysOf)}
	if c.Value == nil {
		r.Done = "not lit yet"
	}
	if c.Side == guide.Above {
		r.Stands = c.By.Shown().String() + " longer"
		g.Rows = append(g.Rows, r)
		return
	}
	short := standsText(c.Place, func(d quantity.Days) quantity.Shown { return d.Shown() })
	if c.Side == guide.Below {
		short = c.By.Shown().String() + " short"
	}
	g.addApart(r, "cured "+short, short, c.Side)
}

// fragrance finds a fragrance by an ID that may be missing.
func (k Known) fragrance(id *journal.ID) *journal.Fragrance {
	if id == nil {
		return nil
	}
	f, ok := k.fragrances[*id]
	if !ok {
		return nil
	}
	return &f
}

// Preview holds a pour that is being typed against what its suppliers advise;
// nil while no wax is chosen. What cannot be read counts as not recorded.
func Preview(in Input, k Known, v View) *GuidancePart {
	p := form.NewParser(in.Values, in.Units, v.Zone)
	x := form.ReadPour(p).Pour()
	w, ok := k.waxes[x.Wax]
	if !ok {
		return nil
	}
	if in.Values.Get("load_basis") == "" {
		x.LoadBasis = k.BasisOf(x.Wax)
	}
	g := newGuidance(x, w, k.fragrance(x.Fragrance), v)
	g.previewCure(w)
	for i := range g.Rows {
		if g.Rows[i].Done == notRecorded {
			g.Rows[i].Done = "not yet"
		}
	}
	return &g
}

// previewCure adds when the candles will be ready.
func (g *GuidancePart) previewCure(w journal.Wax) {
	r := GuidanceRow{What: "Cure", Advised: notStated, Done: notRecorded, Soft: true}
	if !w.CureDays.IsZero() {
		r.Advised = rangeText(w.CureDays, daysOf).String()
	} else if usual := guide.UsualCure(w.Family); !usual.IsZero() {
		r.More = usualText(w.Family, usual)
	}
	g.Rows = append(g.Rows, r)
}

// usualText is a hint where a supplier states no cure.
func usualText(f journal.WaxFamily, r journal.Range[quantity.Days]) string {
	return string(f) + " usually cures for " + rangeText(r, daysOf).String() + " (common practice, no source)"
}

// pourWarnings are the findings of a pour that ask for care; what is merely
// worth knowing stands in the table.
func pourWarnings(p journal.Pour, k Known, v View) []ui.Warning {
	made := journal.Made{Pour: p, Wax: k.waxes[p.Wax], Fragrance: k.fragrance(p.Fragrance)}
	var out []ui.Warning
	for _, f := range safety.OfLevel(safety.OfMaking(made, v.Units), safety.Caution) {
		out = append(out, ui.Warning{Text: f.Text, More: strings.Join(f.Do, " ")})
	}
	return out
}
