package page

import (
	"net/url"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/web/ui"
)

// StandingsChoice is what the page was asked to show; zero fields do not
// narrow.
type StandingsChoice struct {
	Vessel, Wax journal.ID
	Setting     string // fragrance and load, as standings names them
	Apart       journal.Apart
}

// Picks reports whether a series is to be shown.
func (c StandingsChoice) Picks(s *standings.Stack) bool {
	return (c.Vessel == 0 || s.Vessel.ID == c.Vessel) && (c.Wax == 0 || s.Wax() == c.Wax) && (c.Setting == "" || s.Setting() == c.Setting)
}

// ReadStandingsChoice reads the choice from the address. Where the address
// names no vessel it is the one with the most burns, where it names no wax the
// one that was burned most in that vessel, and where it names no setting the
// one of that wax that was burned most: an empty name asks for all.
func ReadStandingsChoice(q url.Values, tried []journal.Tried, apart journal.Apart) StandingsChoice {
	c := StandingsChoice{Vessel: queryNumber(q, "vessel"), Wax: queryNumber(q, "wax"), Setting: q.Get("setting"), Apart: apart}
	if !q.Has("vessel") {
		c.Vessel = busiest(tried, func(t journal.Tried) journal.ID { return t.Vessel })
	}
	if !q.Has("wax") && c.Vessel != 0 {
		c.Wax = busiest(c.within(tried), func(t journal.Tried) journal.ID { return t.Wax })
	}
	if !q.Has("setting") && c.Wax != 0 && apart != journal.ByWax {
		c.Setting = busiest(c.within(tried), c.settingOf)
	}
	if apart == journal.ByWax {
		c.Setting = ""
	}
	return c
}

func (c StandingsChoice) settingOf(t journal.Tried) string { return standings.TriedKey(t, c.Apart) }

// within are the settings that were tried in the chosen vessel and wax.
func (c StandingsChoice) within(tried []journal.Tried) []journal.Tried {
	var out []journal.Tried
	for _, t := range tried {
		if (c.Vessel == 0 || t.Vessel == c.Vessel) && (c.Wax == 0 || t.Wax == c.Wax) {
			out = append(out, t)
		}
	}
	return out
}

func queryNumber(q url.Values, name string) journal.ID {
	n, err := strconv.ParseInt(q.Get(name), 10, 64)
	if err != nil || n < 1 {
		return 0
	}
	return journal.ID(n)
}

// busiest is the thing with the most burns, the first listed of those that are
// alike; nothing when nothing was burned.
func busiest[K comparable](tried []journal.Tried, of func(journal.Tried) K) K {
	burns := map[K]int{}
	for _, t := range tried {
		burns[of(t)] += t.Burns
	}
	var best K
	for _, t := range tried {
		if k := of(t); burns[k] > burns[best] {
			best = k
		}
	}
	return best
}

// triedItems lists the settings that were burned in the chosen vessel, or in
// any where it has none, each leading to its standings.
func triedItems(c StandingsChoice, tried []journal.Tried, sh Shelves) []ui.Item {
	list := StandingsChoice{Vessel: c.Vessel}.within(tried)
	if len(list) == 0 {
		list = tried
	}
	var out []ui.Item
	for _, t := range list {
		q := url.Values{"vessel": {idText(t.Vessel)}, "wax": {idText(t.Wax)}, "setting": {c.settingOf(t)}}
		out = append(out, ui.Item{Text: joinBy(" · ", vesselName(sh, t.Vessel), waxName(sh, t.Wax), oilText(t, sh)),
			Href: "/standings?" + q.Encode(), When: figured(t.Burns, "burn", "burns")})
	}
	return out
}

// oilText is a tried fragrance and load in words.
func oilText(t journal.Tried, sh Shelves) string {
	if t.Fragrance == nil {
		return "no fragrance"
	}
	if t.Load == nil {
		return fragranceName(sh, *t.Fragrance) + ", load not noted"
	}
	load := journal.ConvertLoad(quantity.Fraction(*t.Load), t.Basis, journal.OfWax)
	return fragranceName(sh, *t.Fragrance) + ", " + loadShown(load, journal.OfWax).String()
}
