package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// StandingsChoice is what the page was asked to show; zero fields do not
// narrow.
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

// ReadStandingsChoice reads the choice from the address. Where the address
// names no vessel it is the one with the most burns, and where it names no wax
// the one that was burned most in that vessel: an empty name asks for all.
func ReadStandingsChoice(q url.Values, tried []journal.Tried) StandingsChoice {
	c := StandingsChoice{Vessel: queryNumber(q, "vessel"), Wax: queryNumber(q, "wax"), Unscented: q.Get("fragrance") == "none"}
	if !c.Unscented {
		c.Fragrance = queryNumber(q, "fragrance")
	}
	for _, t := range tried {
		if t.Load != nil && loadKey(t) == q.Get("load") {
			c.Load, c.Basis = t.Load, t.Basis
		}
	}
	if !q.Has("vessel") {
		c.Vessel = busiest(tried, func(t journal.Tried) journal.ID { return t.Vessel })
	}
	if !q.Has("wax") && c.Vessel != 0 {
		c.Wax = busiest(within(tried, c.Vessel), func(t journal.Tried) journal.ID { return t.Wax })
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

// busiest is the thing with the most burns; 0 when nothing was burned.
func busiest(tried []journal.Tried, of func(journal.Tried) journal.ID) journal.ID {
	burns := map[journal.ID]int{}
	for _, t := range tried {
		burns[of(t)] += t.Burns
	}
	best := journal.ID(0)
	for id, n := range burns {
		if best == 0 || n > burns[best] || (n == burns[best] && id < best) {
			best = id
		}
	}
	return best
}

// within are the settings that were tried in one vessel.
func within(tried []journal.Tried, vessel journal.ID) []journal.Tried {
	var out []journal.Tried
	for _, t := range tried {
		if t.Vessel == vessel {
			out = append(out, t)
		}
	}
	return out
}

// loadKey names a load in the address.
func loadKey(t journal.Tried) string {
	return quantity.EditNumber(*t.Load) + "-" + string(t.Basis)
}

// triedItems lists the settings that were burned in the chosen vessel, or in
// any where it has none, each leading to its standings.
func triedItems(c StandingsChoice, tried []journal.Tried, sh Shelves) []ui.Item {
	list := within(tried, c.Vessel)
	if len(list) == 0 {
		list = tried
	}
	var out []ui.Item
	for _, t := range list {
		q := url.Values{"vessel": {idText(t.Vessel)}, "wax": {idText(t.Wax)}, "fragrance": {"none"}, "load": {""}}
		oil := "no fragrance"
		if t.Fragrance != nil {
			oil = fragranceName(sh, *t.Fragrance)
			q.Set("fragrance", idText(*t.Fragrance))
		}
		if t.Load != nil {
			oil = joinBy(", ", oil, loadShown(quantity.Fraction(*t.Load), t.Basis).String())
			q.Set("load", loadKey(t))
		}
		out = append(out, ui.Item{Text: joinBy(" · ", vesselName(sh, t.Vessel), waxName(sh, t.Wax), oil),
			Href: "/standings?" + q.Encode(), When: figured(t.Burns, "burn", "burns")})
	}
	return out
}
