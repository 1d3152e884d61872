package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// MostAlike is how many candles one form adds at once.
const MostAlike = 12

// FilledName is the name of the box for the mass of the n-th candle added at
// once, counted from 1.
func FilledName(n int) string { return "filled_" + strconv.Itoa(n) }

// CandleValues writes a candle into the boxes of its form.
func CandleValues(c journal.Candle, u quantity.Units) url.Values {
	f := newFiller(u)
	f.id("vessel", c.Vessel)
	f.id("wick", c.Wick)
	f.text("wicks", strconv.Itoa(c.Wicks))
	f.mass("filled", c.Filled)
	f.text("note", c.Note)
	return f.Values
}

// NewCandleValues are the boxes of candles that are added to a pour: vessel
// and wick are those of the candle before, or the only ones there are.
func NewCandleValues(k Known, earlier []journal.CandleLine) url.Values {
	f := newFiller(quantity.Metric)
	f.text("wicks", "1")
	vessels := present(k.shelf.Vessels, func(x journal.Vessel) journal.Meta { return x.Meta }, 0)
	if len(vessels) == 1 {
		f.id("vessel", vessels[0].ID)
	}
	if len(earlier) > 0 {
		c := earlier[len(earlier)-1].Candle
		if !k.vessels[c.Vessel].IsGone() {
			f.id("vessel", c.Vessel)
		}
		f.text("wicks", strconv.Itoa(c.Wicks))
	}
	return f.Values
}

// CandleFormPage is the form of one candle or of several alike.
type CandleFormPage struct {
	Title, Lede string
	Missing     *MissingPage // instead of the form, when the shelf lacks something
	Form        ui.Form
}

// NewCandlesForm builds the form that adds candles to a pour; earlier are the
// candles it has already by letter, withdrawn ones too.
func NewCandlesForm(in Input, p journal.Pour, earlier []journal.CandleLine, k Known) CandleFormPage {
	at := "/pours/" + idText(p.ID)
	out := CandleFormPage{Title: "Candles of " + pourName(p),
		Lede: "One candle, or several that are alike: the same vessel and the same wick. Write each code on the base of its candle."}
	if out.Missing = shelfLacks(k, journal.Candle{}); out.Missing != nil {
		return out
	}
	masses := ui.Group{Legend: "Wax filled into each", Lede: "As weighed, wax and oil together. Leave open what was not weighed."}
	for i, code := range NextCodes(p, earlier, MostAlike) {
		masses.Fields = append(masses.Fields, in.Quantity("mass", FilledName(i+1), code))
	}
	out.Form = in.Form(ui.Form{Action: at + "/candles/new", Draft: at + "/candles/new", Cancel: at, Submit: "Save the candle",
		Groups: []ui.Group{
			{Fields: append(candleFields(in, k, journal.Candle{}),
				in.Count("count", "How many alike", hint("empty: one, or as many as have a mass below")))},
			masses,
			{Fields: []ui.Field{in.Area("note", "Note", hint("goes to each of them"))}},
		}})
	return out
}

// NewCandleForm builds the form that corrects one candle.
func NewCandleForm(in Input, c journal.Candle, k Known) CandleFormPage {
	at := "/candles/" + idText(c.ID)
	out := CandleFormPage{Title: "Correct " + c.Code(), Lede: "What was there before is kept in the history."}
	out.Form = in.Form(ui.Form{Action: at + "/edit", Draft: at + "/edit", Cancel: at, Submit: "Save the candle",
		Groups: []ui.Group{{Fields: append(candleFields(in, k, c),
			in.Quantity("mass", "filled", "Filled", hint("wax and oil together")), in.Area("note", "Note"))}}})
	return out
}

// candleFields are what both forms ask of a candle.
func candleFields(in Input, k Known, old journal.Candle) []ui.Field {
	vessels := present(k.shelf.Vessels, func(x journal.Vessel) journal.Meta { return x.Meta }, old.Vessel)
	return []ui.Field{
		in.Select("vessel", "Vessel", namedOptions("choose", vessels, func(x journal.Vessel) (journal.ID, string) { return x.ID, x.Name }), required),
		in.SelectGrouped("wick", "Wick", []ui.Option{{Value: "", Text: "choose"}}, k.wickGroups(old.Wick), required),
		in.Count("wicks", "How many wicks", hint("in one candle")),
	}
}

// wickGroups are the wicks under the names of their ladders, weakest first,
// without those that were retired, save the one already chosen.
func (k Known) wickGroups(chosen journal.ID) []ui.OptionGroup {
	var out []ui.OptionGroup
	for _, l := range k.shelf.Ladders {
		g := ui.OptionGroup{Label: l.Name}
		for _, w := range k.shelf.Wicks {
			if w.Ladder == l.ID && (w.ID == chosen || !w.IsGone() && !l.IsGone()) {
				g.Options = append(g.Options, ui.Option{Value: idText(w.ID), Text: k.WickName(w.ID)})
			}
		}
		if len(g.Options) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// shelfLacks says what a candle needs that the shelf does not have; nil when
// nothing is missing.
func shelfLacks(k Known, c journal.Candle) *MissingPage {
	vessel := len(present(k.shelf.Vessels, func(x journal.Vessel) journal.Meta { return x.Meta }, c.Vessel)) == 0
	wick := len(k.wickGroups(c.Wick)) == 0
	addVessel := ui.Action{Text: "Measure a vessel", Href: "/shelf/vessels/new", Main: true}
	addWick := ui.Action{Text: "Write down a ladder of wicks", Href: "/shelf/ladders/new", Main: true}
	switch {
	case vessel && wick:
		return missing("A candle needs a vessel and a wick, and the shelf has neither.", []ui.Action{addVessel, addWick})
	case vessel:
		return missing("A candle needs a vessel, and there is none on the shelf.", []ui.Action{addVessel})
	case wick:
		return missing("A candle needs a wick, and there is none on the shelf.", []ui.Action{addWick})
	}
	return nil
}

// CandlesSaid is said when candles were added: their codes, to be written on
// their bases.
func CandlesSaid(codes []string) string {
	if len(codes) == 1 {
		return codes[0] + " is written down. Write the code on its base."
	}
	return listed(codes) + " are written down. Write the codes on their bases."
}

// AgainSaid is said when the same was poured again: what it is and what to
// weigh.
func AgainSaid(c, like journal.Candle, k Known, v View) string {
	s := c.Code() + " is written down: " + wickCount(c.Wicks) + k.WickName(c.Wick) + " in " + k.vesselName(c.Vessel) + ". Write the code on its base and weigh the wax that you fill in"
	if like.Filled != nil {
		s += "; " + like.Code() + " took " + v.mass(*like.Filled).String()
	}
	return s + "."
}
