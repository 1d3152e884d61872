package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/web/chart"
	"rimward/web/ui"
)

// StandingsPage puts pairings in order of how close they come to a full pool.
type StandingsPage struct {
	Filters []ui.Field
	Groups  []StandingsGroup
	Empty   string
}

// StandingsGroup is the standings in one vessel.
type StandingsGroup struct {
	Title, Lede, Hour   string
	Warnings            []ui.Warning
	Ranked, Below, Thin []StandingsRow
}

// StandingsRow is one pairing.
type StandingsRow struct {
	Rank, Name, Count string
	Disc              chart.Disc
	Share             string
	Width, Left       quantity.Shown
	Full, Range       string
	Candles, Burns    string
	Faults            string
	Warnings          []ui.Warning
	NotYet            string
	Rows              []StandingsCandle
}

// StandingsCandle is what one candle adds to its pairing.
type StandingsCandle struct {
	Code, Href, Mean string
	Burns            []string
}

// StandingsChoice is what the page was asked to show.
type StandingsChoice struct {
	Vessel, Wax, Fragrance journal.ID
	Unscented              bool
	Load                   *float64
	Basis                  journal.Basis
}

// Filter is the choice as the store takes it.
func (c StandingsChoice) Filter() journal.LogFilter {
	return journal.LogFilter{Vessel: c.Vessel, Wax: c.Wax, Fragrance: c.Fragrance, Unscented: c.Unscented, Load: c.Load, Basis: c.Basis}
}

// ReadStandingsChoice reads the choice from the address. Without a vessel it
// is the one with the most burns.
func ReadStandingsChoice(q url.Values, tried []journal.Tried) StandingsChoice {
	c := StandingsChoice{Vessel: queryNumber(q, "vessel"), Wax: queryNumber(q, "wax")}
	if q.Get("fragrance") == "none" {
		c.Unscented = true
	} else {
		c.Fragrance = queryNumber(q, "fragrance")
	}
	for _, t := range tried {
		if t.Load != nil && loadKey(t) == q.Get("load") {
			c.Load, c.Basis = t.Load, t.Basis
		}
	}
	if _, asked := q["vessel"]; !asked {
		c.Vessel = busiest(tried)
	}
	return c
}

func queryNumber(q url.Values, name string) journal.ID {
	n, err := strconv.ParseInt(q.Get(name), 10, 64)
	if err != nil || n < 1 {
		return 0
	}
	return journal.ID(n)
}

// busiest is the vessel with the most burns; 0 when nothing was burned.
func busiest(tried []journal.Tried) journal.ID {
	burns := map[journal.ID]int{}
	best := journal.ID(0)
	for _, t := range tried {
		burns[t.Vessel] += t.Burns
		if n := burns[t.Vessel]; n > burns[best] || (n == burns[best] && t.Vessel < best) {
			best = t.Vessel
		}
	}
	return best
}

// loadKey names a load in the address.
func loadKey(t journal.Tried) string {
	return quantity.EditNumber(*t.Load) + "-" + string(t.Basis)
}

// NewStandingsPage builds the page.
func NewStandingsPage(t standings.Table, c StandingsChoice, tried []journal.Tried, sh Shelves, v View) StandingsPage {
	p := StandingsPage{Filters: standingsFilters(c, tried, sh)}
	for _, g := range t.Groups {
		p.Groups = append(p.Groups, standingsGroup(g, v))
	}
	if len(tried) == 0 {
		p.Empty = "Nothing was burned yet. Standings begin with the first burn that has a check: light a candle, and look at it every hour."
	} else if len(t.Groups) == 0 {
		p.Empty = "No burn fits this choice."
	}
	return p
}

func standingsGroup(g standings.Group, v View) StandingsGroup {
	out := StandingsGroup{Title: g.Vessel.Name, Hour: g.Target.Clock(),
		Lede: wallText(g.Vessel, v) + " inside; target hour " + g.Target.Clock() + "; " + figured(g.Candles, "candle", "candles") + ", " + figured(g.Burns, "burn", "burns") + "."}
	for _, w := range g.Warnings {
		out.Warnings = append(out.Warnings, ui.Warning{Text: capital(w) + "."})
	}
	for _, x := range g.Pairings {
		row := standingsRow(x, v)
		switch {
		case x.BelowLine():
			out.Below = append(out.Below, row)
		case x.Enough():
			out.Ranked = append(out.Ranked, row)
		default:
			out.Thin = append(out.Thin, row)
		}
	}
	return out
}

func standingsRow(x standings.Pairing, v View) StandingsRow {
	r := StandingsRow{Rank: strconv.Itoa(x.Rank), Name: x.Name(), Count: capital(counted(x.Wicks, "wick", "wicks")),
		Candles: strconv.Itoa(x.Candles), Burns: strconv.Itoa(x.Burns), Full: fullHoursText(x.Full), NotYet: x.NotYet}
	if x.BelowLine() {
		r.Rank = "–"
	}
	spec := chart.DiscSpec{Shape: string(x.Vessel.Shape), Length: float64(x.Vessel.Length()), Width: float64(x.Vessel.InnerWidth), Wicks: x.Wicks, Decorative: true, Unlit: !x.Enough()}
	if x.Enough() {
		spec.PoolA, spec.PoolB = spec.Length**x.Ratio, spec.Width**x.Ratio
		r.Share = quantity.Fraction(*x.Ratio).Percent().Number
		r.Width, r.Left = v.length(*x.Width), v.length(*x.Left)
		r.Range = quantity.Fraction(*x.Min).Percent().Number + "–" + quantity.Fraction(*x.Max).Percent().Number
	}
	r.Disc = chart.NewDisc(spec)
	var faults []string
	for _, f := range x.Faults {
		faults = append(faults, f.Name+" in "+strconv.Itoa(f.Burns)+" of "+strconv.Itoa(f.Of))
	}
	if r.Faults = joinBy("; ", faults...); r.Faults == "" {
		r.Faults = "none seen"
	}
	r.Warnings = warnings(x.Hard)
	for _, w := range x.Warnings {
		r.Warnings = append(r.Warnings, ui.Warning{Text: capital(w) + "."})
	}
	for _, c := range x.Rows {
		r.Rows = append(r.Rows, standingsCandle(c, v))
	}
	return r
}

// fullHoursText says between which hours the pools became full.
func fullHoursText(f standings.FullHours) string {
	switch {
	case f.Seen == 0 && f.NotSeen == 0:
		return "not known"
	case f.Seen == 0:
		return "not within " + f.Within.Clock()
	case f.NotSeen > 0:
		return "between " + f.From.Clock() + " and " + f.To.Clock() + " in " + strconv.Itoa(f.Seen) + " of " + strconv.Itoa(f.Seen+f.NotSeen) + " burns"
	}
	return "between " + f.From.Clock() + " and " + f.To.Clock()
}

func standingsCandle(c standings.CandleRow, v View) StandingsCandle {
	out := StandingsCandle{Code: c.Candle.Code(), Href: "/candles/" + idText(c.Candle.ID), Mean: "nothing that tells"}
	if c.Mean != nil {
		out.Mean = "mean " + quantity.Fraction(*c.Mean).Percent().String() + " of the width"
	}
	for _, b := range c.Burns {
		s := "burn " + strconv.Itoa(b.Number) + ", " + v.Day(b.LitAt) + ": "
		if b.Used {
			s += quantity.Fraction(b.Ratio).Percent().String() + ", " + string(b.How)
		} else {
			s += "left out, " + b.Why
		}
		for _, o := range b.LeftOut {
			s += "; the check of " + v.Clock(o.At) + " is left out, " + o.Why
		}
		out.Burns = append(out.Burns, s)
	}
	return out
}

// standingsFilters are the selects that choose what is compared; only what was
// burned is offered.
func standingsFilters(c StandingsChoice, tried []journal.Tried, sh Shelves) []ui.Field {
	vessels, waxes, oils, loads := names{}, names{}, names{}, names{}
	for _, t := range tried {
		vessels.add(idText(t.Vessel), nameOf(sh.Vessels, t.Vessel, func(x journal.Vessel) (journal.ID, string) { return x.ID, x.Name }))
		waxes.add(idText(t.Wax), nameOf(sh.Waxes, t.Wax, func(x journal.Wax) (journal.ID, string) { return x.ID, x.Name }))
		if t.Fragrance == nil {
			oils.add("none", "unscented")
		} else {
			oils.add(idText(*t.Fragrance), nameOf(sh.Fragrances, *t.Fragrance, func(x journal.Fragrance) (journal.ID, string) { return x.ID, x.Name }))
		}
		if t.Load != nil {
			loads.add(loadKey(t), loadShown(quantity.Fraction(*t.Load), t.Basis).String())
		}
	}
	oil, load := chosenID(c.Fragrance), ""
	if c.Unscented {
		oil = "none"
	}
	if c.Load != nil {
		load = loadKey(journal.Tried{Load: c.Load, Basis: c.Basis})
	}
	return []ui.Field{
		vessels.field("vessel", "Vessel", "all vessels", chosenID(c.Vessel)), waxes.field("wax", "Wax", "all waxes", chosenID(c.Wax)),
		oils.field("fragrance", "Fragrance", "all fragrances", oil), loads.field("load", "Load", "all loads", load),
	}
}

func chosenID(id journal.ID) string {
	if id == 0 {
		return ""
	}
	return idText(id)
}

// names gathers options, each once.
type names struct{ options []ui.Option }

func (n *names) add(value, text string) {
	for _, o := range n.options {
		if o.Value == value {
			return
		}
	}
	n.options = append(n.options, ui.Option{Value: value, Text: text})
}

func (n names) field(name, label, all, now string) ui.Field {
	return ui.Field{Kind: ui.SelectField, Name: name, Label: label, Options: chosen(append([]ui.Option{{Text: all}}, n.options...), now)}
}

func nameOf[T any](list []T, id journal.ID, of func(T) (journal.ID, string)) string {
	for _, x := range list {
		if i, name := of(x); i == id {
			return name
		}
	}
	return "?"
}
