package page

import (
	"net/url"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// CandlesPage lists the candles, newest first.
type CandlesPage struct {
	Lede    string
	Filters []ui.Field
	Clear   bool // a filter is set
	Rows    []CandleRow
	Pager   Pager
	Empty   *MissingPage
	None    string // no candle fits the filters
}

// CandleRow is one candle of the list.
type CandleRow struct {
	Code, Href, Wick, Vessel, Wax, State, Burns string
	Lit, Last                                   string
	Gone, LitNow, Unlit                         bool
	Key                                         string // names it for side by side
}

// CandlesQuery is what the list was asked for, as it stands in the address.
type CandlesQuery struct {
	Vessel, Wax, Wick, Ladder, Before journal.ID
	Withdrawn                         bool
}

// ladderValue marks a choice of a whole ladder among the wicks.
const ladderValue = "ladder-"

// ReadCandlesQuery reads the address of the list. A wick can be chosen by
// itself or, as ladder-3 or with its own name, as a whole ladder; what cannot
// be read does not narrow.
func ReadCandlesQuery(q url.Values) CandlesQuery {
	out := CandlesQuery{Vessel: idFrom(q.Get("vessel")), Wax: idFrom(q.Get("wax")), Wick: idFrom(q.Get("wick")),
		Ladder: idFrom(q.Get("ladder")), Before: idFrom(q.Get("before")), Withdrawn: q.Get("withdrawn") != ""}
	if l, ok := strings.CutPrefix(q.Get("wick"), ladderValue); ok {
		out.Ladder = idFrom(l)
	}
	return out
}

func idFrom(text string) journal.ID {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n < 1 {
		return 0
	}
	return journal.ID(n)
}

// Filter is the store's filter that the query asks for.
func (q CandlesQuery) Filter(limit int) journal.CandleFilter {
	return journal.CandleFilter{Vessel: q.Vessel, Wax: q.Wax, Wick: q.Wick, Ladder: q.Ladder, Before: q.Before, Withdrawn: q.Withdrawn, Limit: limit}
}

// narrowed reports whether the query leaves anything out.
func (q CandlesQuery) narrowed() bool { return q.Vessel+q.Wax+q.Wick+q.Ladder != 0 || q.Withdrawn }

// values are the query without the place in the list.
func (q CandlesQuery) values() url.Values {
	f := newFiller(quantity.Metric)
	f.id("vessel", q.Vessel)
	f.id("wax", q.Wax)
	if q.Ladder != 0 && q.Wick == 0 {
		f.text("wick", ladderValue+idText(q.Ladder))
	}
	f.id("wick", q.Wick)
	f.flag("withdrawn", q.Withdrawn)
	return f.Values
}

// address is the list's own address with the query.
func (q CandlesQuery) address(before journal.ID) string {
	u := q.values()
	if before != 0 {
		u.Set("before", idText(before))
	}
	if len(u) == 0 {
		return "/candles"
	}
	return "/candles?" + u.Encode()
}

// NewCandlesPage builds the list of candles.
func NewCandlesPage(lines []journal.CandleLine, more bool, q CandlesQuery, k Known, v View) CandlesPage {
	p := CandlesPage{Lede: "Test candles, newest first.", Clear: q.narrowed(), Filters: candleFilters(q, k)}
	for _, l := range lines {
		p.Rows = append(p.Rows, candleRow(l, v))
	}
	if q.Before != 0 {
		p.Pager.Newest = q.address(0)
	}
	if more {
		p.Pager.Older = q.address(lines[len(lines)-1].Candle.ID)
	}
	if len(lines) > 0 {
		return p
	}
	if q.narrowed() || q.Before != 0 {
		p.None = "No candle fits."
		return p
	}
	p.Empty = missing("No candle yet. A candle belongs to a pour: record the pour first, then say which vessels it filled.",
		[]ui.Action{{Text: "Record a pour", Href: "/pours/new", Main: true}, {Text: "Pours", Href: "/pours"}})
	return p
}

// candleFilters are the choices that narrow the list: everything on the shelf,
// retired things too, for old candles were made of them.
func candleFilters(q CandlesQuery, k Known) []ui.Field {
	in := Input{Values: q.values()}
	var wicks []ui.OptionGroup
	for _, l := range k.shelf.Ladders {
		g := ui.OptionGroup{Label: l.Name, Options: []ui.Option{{Value: ladderValue + idText(l.ID), Text: "any " + l.Name}}}
		for _, w := range k.shelf.Wicks {
			if w.Ladder == l.ID {
				g.Options = append(g.Options, ui.Option{Value: idText(w.ID), Text: k.WickName(w.ID)})
			}
		}
		wicks = append(wicks, g)
	}
	return []ui.Field{
		in.Select("vessel", "Vessel", namedOptions("any", k.shelf.Vessels, func(x journal.Vessel) (journal.ID, string) { return x.ID, x.Name })),
		in.Select("wax", "Wax", namedOptions("any", k.shelf.Waxes, func(x journal.Wax) (journal.ID, string) { return x.ID, x.Name })),
		in.SelectGrouped("wick", "Wick", []ui.Option{{Value: "", Text: "any"}}, wicks),
		in.Tick("withdrawn", "Withdrawn too"),
	}
}

func candleRow(l journal.CandleLine, v View) CandleRow {
	state := l.Life.StateAt(v.Now)
	r := CandleRow{
		Code: l.Candle.Code(), Href: "/candles/" + idText(l.Candle.ID), Wick: wickCount(l.Candle.Wicks) + l.WickName,
		Vessel: l.VesselName, Wax: l.WaxName, State: stateText(l.Life, v), Burns: strconv.Itoa(l.Life.Burns),
		Key: SidesKey{Candle: l.Candle.ID}.Text(), Gone: state == journal.Withdrew, LitNow: state == journal.LitNow, Unlit: l.LastLit == nil, Lit: "–", Last: "–",
	}
	lit := quantity.Hours(l.LitHours)
	if l.LastLit != nil {
		r.Last = v.Day(*l.LastLit)
		if r.LitNow {
			lit += spanOf(*l.LastLit, v.Now)
		}
	}
	if lit > 0 {
		r.Lit = lit.Clock()
	}
	return r
}
