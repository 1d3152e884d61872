package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/web/ui"
)

// StandingsPage puts pairings in order of how close they come to a full pool.
type StandingsPage struct {
	Filters []ui.Field
	Groups  []StandingsGroup
	Empty   string
	Acts    []ui.Action
	Instead []ui.Item // settings that were burned, where the chosen one was not
}

// StandingsGroup is the standings in one vessel.
type StandingsGroup struct {
	Title, Lede, Hour   string
	Unit                string // of lengths, for the heads of columns
	Warnings            []ui.Warning
	Ranked, Below, Thin []StandingsRow
}

// NewStandingsPage builds the page from the table and the logs that it was
// worked out from.
func NewStandingsPage(t standings.Table, logs []journal.CandleLog, c StandingsChoice, tried []journal.Tried, sh Shelves, v View) StandingsPage {
	var p StandingsPage
	if len(tried) > 0 {
		p.Filters = standingsFilters(c, tried, sh)
	}
	read := readingsOf(logs)
	for _, g := range t.Groups {
		p.Groups = append(p.Groups, standingsGroup(g, read, v))
	}
	switch {
	case len(tried) == 0:
		p.Empty = "Nothing was burned yet. Standings begin with the first burn that has a check: light a candle and look at its pool every hour."
		p.Acts = []ui.Action{{Text: "Light a candle", Href: "/light", Main: true}, {Text: "What is on the shelf", Href: "/shelf"}}
	case len(t.Groups) == 0:
		p.Empty = "No burn fits this choice. What was burned:"
		p.Instead = triedItems(c, tried, sh)
	}
	return p
}

// standingsGroup parts the pairings of a vessel into those in order, those
// below the line and those without enough.
func standingsGroup(g standings.Group, read burnReadings, v View) StandingsGroup {
	out := StandingsGroup{Title: g.Vessel.Name, Hour: tight(g.Target.Clock()), Unit: v.Units.Length.Word(), Lede: groupLede(g, v)}
	for _, w := range g.Warnings {
		out.Warnings = append(out.Warnings, ui.Warning{Text: w, More: "Choose one above to keep them apart."})
	}
	for _, x := range g.Pairings {
		row := standingsRow(x, read, v)
		switch {
		case x.BelowLine():
			row.Rank = "–"
			out.Below = append(out.Below, row)
		case x.Enough():
			// The places that are read down the page have no gaps, also where
			// a pairing below the line would have stood between.
			row.Rank = strconv.Itoa(len(out.Ranked) + 1)
			out.Ranked = append(out.Ranked, row)
		default:
			out.Thin = append(out.Thin, row)
		}
	}
	return out
}

// groupLede says what is compared: the wall, the hour, the wax, how much.
func groupLede(g standings.Group, v View) string {
	made := ""
	if len(g.Settings) == 1 {
		made = settingText(g.Settings[0])
	}
	return joinBy(" · ", wallText(g.Vessel, v)+" inside", "full pool wanted by "+tight(g.Target.Clock()), made,
		figured(g.Candles, "candle", "candles")+", "+figured(g.Burns, "burn", "burns"))
}

// settingText is a wax with its fragrance and load.
func settingText(s standings.Setting) string {
	switch {
	case s.Fragrance == nil:
		return s.Wax.Name + ", no fragrance"
	case s.Load == nil:
		return s.Wax.Name + " with " + s.Fragrance.Name + ", load not noted"
	}
	return s.Wax.Name + " with " + s.Fragrance.Name + ", " + loadShown(*s.Load, journal.OfWax).String()
}

// tight keeps the parts of a span of time on one line.
func tight(s string) string {
	out := []rune(s)
	for i, r := range out {
		if r == ' ' {
			out[i] = '\u00a0'
		}
	}
	return string(out)
}

// fullPool says between which hours the pools became full, and in how many
// burns where that was not all of them.
func fullPool(f standings.FullHours) (text, more string) {
	clock := func(h quantity.Hours) string { return tight(h.Clock()) }
	all := f.Seen + f.NotSeen
	switch {
	case all == 0:
		return "not known", ""
	case f.Seen == 0:
		return "not within " + clock(f.Within), ""
	case f.From <= 0:
		text = "by " + clock(f.To)
	default:
		text = "between " + clock(f.From) + " and " + clock(f.To)
	}
	if f.NotSeen > 0 {
		more = "in " + strconv.Itoa(f.Seen) + " of " + figured(all, "burn", "burns")
	}
	return text, more
}
