package page

import (
	"strconv"

	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/chart"
	"rimward/web/ui"
)

// CuringPage lists what sets, cures and is ready, by wax.
type CuringPage struct {
	Lede  string
	Empty *MissingPage
	Waxes []CuringWax
	Cut   string // where there are more than a page shows
}

// CuringWax is what waits of one wax.
type CuringWax struct {
	Name, Href string
	Cure       string // what its supplier states, or that it states none
	Hint       string // the family's usual range, where none is stated
	HintHref   string // where the cure can be noted
	Rows       []CuringRow
}

// CuringRow is the candles of one pour.
type CuringRow struct {
	When, WhenMore string
	Pour, Href     string
	Codes          []ui.Item
	Stage          string
	Bar            chart.Bar
	Waits          bool   // it is not ready: the bar says how far it is
	Light          string // where it is lit, once it is ready
}

// NewCuringPage builds the page; more is whether others wait that are not
// listed.
func NewCuringPage(waits []guide.WaxWaits, more bool, v View) CuringPage {
	p := CuringPage{Lede: "Candles that were never lit, by wax: what is setting, what is curing, and what is ready for its first burn. Dates go by the shortest cure that the wax’s supplier states."}
	if len(waits) == 0 {
		p.Empty = missing("Nothing waits for its first burn. Record a pour and the candles it filled, and the day they are ready stands here.",
			[]ui.Action{{Text: "Record a pour", Href: "/pours/new", Main: true}})
	}
	for _, w := range waits {
		p.Waxes = append(p.Waxes, curingWax(w, v))
	}
	if more {
		p.Cut = "Only the candles that were poured last are listed here; the rest are among the candles."
	}
	return p
}

func curingWax(w guide.WaxWaits, v View) CuringWax {
	out := CuringWax{Name: w.Wax.Name, Href: "/shelf/waxes/" + idText(w.Wax.ID), Cure: "Its supplier states no cure. Only the day to set is counted (common practice, no source)."}
	if w.Stated {
		out.Cure = "Its supplier states a cure of " + cureText(w.Wax.CureDays) + "."
	} else {
		out.HintHref = out.Href + "/edit#f-cure_days_low"
	}
	if !w.Usual.IsZero() {
		out.Hint = capital(usualText(w.Wax.Family, w.Usual)) + "; no date here is counted from that."
	}
	for _, x := range w.Waits {
		out.Rows = append(out.Rows, curingRow(x, w, v))
	}
	return out
}

// cureText is a cure in a sentence: 7–14 days, 14 days or more.
func cureText(r journal.Range[quantity.Days]) string {
	if r.High == nil && r.Low != nil {
		return r.Low.Shown().String() + " or more"
	}
	return rangeText(r, daysOf).String()
}

func curingRow(x guide.Wait, w guide.WaxWaits, v View) CuringRow {
	r := CuringRow{When: v.Day(x.ReadyAt), Pour: capital(pourName(x.Pour)), Href: "/pours/" + idText(x.Pour.ID), Stage: stageText(x, w, v),
		Bar: chart.NewBar(x.Cured), Waits: x.Stage != journal.Ready}
	if x.LongestAt != nil && x.LongestAt.After(v.Now) {
		r.WhenMore = "longest until " + v.Day(*x.LongestAt)
	}
	for _, c := range x.Candles {
		r.Codes = append(r.Codes, ui.Item{Text: c.Code(), Href: "/candles/" + idText(c.ID)})
	}
	if !r.Waits {
		r.Light = "/light?pour=" + idText(x.Pour.ID)
	}
	return r
}

// stageText says where the candles of a pour stand: curing, day 3 of 7.
func stageText(x guide.Wait, w guide.WaxWaits, v View) string {
	switch x.Stage {
	case journal.Setting:
		return "setting until " + v.Moment(x.SetAt)
	case journal.Curing:
		return "curing, day " + strconv.Itoa(dayOf(x, v)) + " of " + quantity.Days(w.Wax.Cure()).Shown().Number
	}
	if !w.Stated {
		return "set; no cure stated"
	}
	if x.LongestAt != nil && x.LongestAt.After(v.Now) {
		return "ready; the longest cure is not over"
	}
	return "ready"
}

// dayOf is the day of its cure that a pour is in, counted from 1.
func dayOf(x guide.Wait, v View) int { return quantity.Days(v.Now.Sub(x.Pour.At).Hours() / 24).Begun() }
