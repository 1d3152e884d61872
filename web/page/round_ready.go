package page

import (
	"net/url"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// RoundStart is what a new round may begin from.
type RoundStart struct {
	Ask    string        // the ready question; "" for none
	Like   *journal.Made // the candle that was poured last; nil before the first
	Vessel journal.ID    // chosen in the address; 0 for none
	Ladder journal.ID
	Wax    journal.ID
	Seed   int
}

// ReadRoundStart reads what the address asks for.
func ReadRoundStart(q url.Values) RoundStart {
	s := RoundStart{Vessel: idFrom(q.Get("vessel")), Ladder: idFrom(q.Get("ladder")), Wax: idFrom(q.Get("wax"))}
	if a := q.Get("ask"); slices.Contains([]string{AskRung, AskLoad, AskPourAt, AskVessel}, a) {
		s.Ask = a
	}
	return s
}

// NewRoundValues fills the boxes of a new round: wax, vessel, ladder and load
// are those of the candle before, or the only ones there are.
func NewRoundValues(st RoundStart, k Known, set journal.Settings, v View) url.Values {
	f := newFiller(v.Units)
	for name, vs := range RoundDaysValues(usualDays(set, v)) {
		f.Values[name] = vs
	}
	f.text("wicks", "1")
	f.text("copies", "2")
	f.text("seed", strconv.Itoa(st.Seed))
	wax := st.stuff(f, k)
	vessel, wick := st.thing(f, k)
	switch st.Ask {
	case AskRung:
		f.rungs(k, wick, len(k.rungsOf(wick)))
	case AskLoad:
		f.rungs(k, wick, 1)
		f.loads(wax, k)
	case AskPourAt:
		f.rungs(k, wick, 1)
		f.pourAts(wax)
	case AskVessel:
		f.rungs(k, wick, 1)
		f.Del("vessels")
		for _, x := range present(k.shelf.Vessels, func(x journal.Vessel) journal.Meta { return x.Meta }, vessel) {
			f.Add("vessels", idText(x.ID))
		}
	}
	return f.Values
}

// stuff fills in wax, fragrance and load.
func (st RoundStart) stuff(f filler, k Known) journal.Wax {
	var wax journal.Wax
	if ws := present(k.shelf.Waxes, func(w journal.Wax) journal.Meta { return w.Meta }, 0); len(ws) == 1 {
		wax = ws[0]
	}
	if m := st.Like; m != nil && !m.Wax.IsGone() {
		wax = m.Wax
		if m.Fragrance != nil && !m.Fragrance.IsGone() {
			f.id("fragrance", m.Fragrance.ID)
			if m.Pour.Load != nil {
				f.text("loads", quantity.EditPercent(*m.Pour.Load))
				f.text("load_basis", string(m.Pour.LoadBasis))
			}
		}
	}
	if w, ok := k.waxes[st.Wax]; ok {
		wax = w
	}
	f.id("wax", wax.ID)
	return wax
}

// thing fills in the vessel and finds the wick to begin with: the one of the
// candle before, or the lowest there is.
func (st RoundStart) thing(f filler, k Known) (vessel, wick journal.ID) {
	vessels := present(k.shelf.Vessels, func(x journal.Vessel) journal.Meta { return x.Meta }, 0)
	if len(vessels) > 0 {
		vessel = vessels[0].ID
	}
	if m := st.Like; m != nil {
		wick = m.Wick.ID
		if !m.Vessel.IsGone() {
			vessel = m.Vessel.ID
		}
		f.text("wicks", strconv.Itoa(m.Candle.Wicks))
	}
	if _, ok := k.vessels[st.Vessel]; ok {
		vessel = st.Vessel
	}
	f.id("vessels", vessel)
	if w, ok := k.wicks[wick]; !ok || w.IsGone() || st.Ladder != 0 && w.Ladder != st.Ladder {
		wick = 0
		for _, w := range k.shelf.Wicks {
			if !w.IsGone() && !k.ladders[w.Ladder].IsGone() && (st.Ladder == 0 || st.Ladder == w.Ladder) {
				wick = w.ID
				break
			}
		}
	}
	return vessel, wick
}

// rungsOf are the rungs of a wick's ladder that can still be bought.
func (k Known) rungsOf(wick journal.ID) []journal.Wick {
	var out []journal.Wick
	for _, w := range k.shelf.Wicks {
		if w.Ladder == k.wicks[wick].Ladder && !w.IsGone() {
			out = append(out, w)
		}
	}
	return out
}

// mostRungs is how many rungs a ready question ticks (our choice).
const mostRungs = 4

// rungs ticks some rungs around a wick.
func (f filler) rungs(k Known, wick journal.ID, n int) {
	all := k.rungsOf(wick)
	n = min(n, mostRungs, len(all))
	at := slices.IndexFunc(all, func(w journal.Wick) bool { return w.ID == wick })
	from := min(max(0, at-n/2), len(all)-n)
	f.Del("rungs")
	for _, w := range all[from : from+n] {
		f.Add("rungs", idText(w.ID))
	}
}

// loads are the two to compare: the middle of the guidance and its upper end,
// or eight and ten per cent.
func (f filler) loads(wax journal.Wax, k Known) {
	low, high := quantity.Fraction(0.08), quantity.Fraction(0.1)
	if g := wax.Load; g.Low != nil && g.High != nil && *g.Low < *g.High {
		low, high = (*g.Low+*g.High)/2, *g.High
		f.text("load_basis", string(k.BasisOf(wax.ID)))
	}
	f.text("loads", quantity.EditPercent(low)+"; "+quantity.EditPercent(high))
	if oils := present(k.shelf.Fragrances, func(x journal.Fragrance) journal.Meta { return x.Meta }, 0); f.Get("fragrance") == "" && len(oils) > 0 {
		f.id("fragrance", oils[0].ID)
	}
}

// pourAts are the two to compare: the ends of the guidance, where it has two.
func (f filler) pourAts(wax journal.Wax) {
	if g := wax.PourAt; g.Low != nil && g.High != nil && *g.Low < *g.High {
		f.text("pour_ats", f.u.EditTemperatures(*g.Low, *g.High))
	}
}

// RoundQuestion words the question of a round from what its candles differ in.
func RoundQuestion(r journal.TestRound, k Known, u quantity.Units) string {
	f := r.Factors
	where, wicks, at := listed(k.vesselNames(f.Vessels)), listed(k.roundWicks(f.Wicks)), levelsAsked(f, u)
	switch {
	case len(f.Wicks) > 1:
		return cut("Which of " + wicks + " in " + where + " with " + k.waxName(r.Wax) + at + "?")
	case at != "":
		return cut("Which does better in " + where + " with " + wicks + ": " + strings.TrimPrefix(strings.TrimPrefix(at, ", at "), ", ") + "?")
	}
	return cut("How does " + wicks + " do in " + where + " with " + k.waxName(r.Wax) + "?")
}

// levelsAsked names the loads and pour temperatures of which there are several.
func levelsAsked(f journal.RoundFactors, u quantity.Units) string {
	at := ""
	if len(f.Loads) > 1 {
		at += ", at " + orList(percents(f.Loads))
	}
	if len(f.PourAts) > 1 {
		at += ", poured at " + orList(degrees(f.PourAts, u))
	}
	return at
}

// cut keeps a question within what the journal takes.
func cut(s string) string {
	if r := []rune(s); len(r) > 200 {
		return string(r[:198]) + " …"
	}
	return s
}

func (k Known) vesselNames(ids []journal.ID) (out []string) {
	for _, id := range ids {
		out = append(out, k.vesselName(id))
	}
	return out
}

// roundWicks names wicks, the series once where all are of one.
func (k Known) roundWicks(ws []journal.RoundWick) (out []string) {
	ladder := journal.ID(0)
	for i, w := range ws {
		name := k.WickName(w.Wick)
		if x := k.wicks[w.Wick]; i > 0 && x.Ladder == ladder && w.Wicks == ws[i-1].Wicks {
			name = x.Label
		}
		ladder = k.wicks[w.Wick].Ladder
		out = append(out, wickCount(w.Wicks)+name)
	}
	return out
}

func percents(fs []quantity.Fraction) (out []string) {
	for _, f := range fs {
		out = append(out, f.Percent().String())
	}
	return out
}

func degrees(ts []quantity.Celsius, u quantity.Units) (out []string) {
	for _, t := range ts {
		out = append(out, u.ShowTemperature(t).String())
	}
	return out
}

// orList joins names as a question does: a, b or c.
func orList(names []string) string {
	if n := len(names); n > 1 {
		return joinBy(", ", names[:n-1]...) + " or " + names[n-1]
	}
	return listed(names)
}

// roundActs are what the list of rounds offers first.
func roundActs() []ui.Action {
	return []ui.Action{{Text: "Plan a round", Href: "/rounds/new", Main: true}}
}
