package page

import (
	"net/url"
	"strconv"
	"strings"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// StandingsPage puts pairings in order of how close they come to a full pool.
type StandingsPage struct {
	Filters []ui.Field
	Note    string // when it was worked out, where that is behind the record
	Doubt   string // of the curve that everything rests on
	Key     string // what rings and small numbers mean
	Groups  []StandingsGroup
	Empty   string
	Acts    []ui.Action
	Moved   string    // where it is asked what moved the pool
	Instead []ui.Item // settings that were burned, where the chosen one was not
}

// StandingsGroup is what was burned in one vessel in one setting.
type StandingsGroup struct {
	Title, Lede string
	Series      []StandingsSeries
	Across      string // the chances over all ladders
}

// StandingsSeries is one ladder in order.
type StandingsSeries struct {
	Title, Count string
	Hour, Unit   string // for the heads of columns
	Warnings     []ui.Warning
	Ranked       []StandingsRow
	Below, Thin  []StandingsRow
	Guesses      []StandingsGuess
	Next         string
	Settled      bool
	Charts       []ChartFigure
	Verdict      ui.Item // where a verdict on the closest is written or shown; empty when it is not settled
}

// StandingsGuess is what the neighbours say of a rung that was not burned.
type StandingsGuess struct{ Name, Text, Doubt string }

// NewStandingsPage builds the page from the table. tried is what was burned,
// and note what is to be said of when it was worked out.
func NewStandingsPage(t standings.Table, c StandingsChoice, tried []journal.Tried, sh Shelves, note string, v View) StandingsPage {
	p := StandingsPage{Note: note, Moved: movedHref(c.Wax)}
	if doubt := standings.ShapeDoubt(t.Shapes); doubt != "" && len(t.Groups) > 0 {
		p.Doubt = "How pools open in this studio is only roughly known. " + doubt
	}
	if len(tried) > 0 {
		p.Filters = standingsFilters(c, tried, sh, v)
	}
	for _, g := range t.Groups {
		p.Groups = append(p.Groups, standingsGroup(g, v))
	}
	if len(t.Groups) > 0 {
		p.Key = "Closeness is 100 for a pool that is sure to be full by the target hour and not before half of it. The average width lies between the dotted rings on a pool, and within the small numbers below it, 8 chances in 10; the small numbers below a time hold eight in ten of the next candle’s burns. A ring outside the wall is a pool that would be wider than the vessel."
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

// WeighedNote says when the standings were worked out, where that is behind
// the record; "" when they are up to date.
func WeighedNote(at time.Time, fresh, failed bool, v View) string {
	switch {
	case fresh:
		return ""
	case failed:
		return "Worked out " + v.Moment(at) + ". What was saved since then could not be worked in; the program’s log says why."
	}
	return "Worked out " + v.Moment(at) + ". What was saved since then is being worked in: open the page again in a moment."
}

func standingsGroup(g standings.Group, v View) StandingsGroup {
	out := StandingsGroup{Title: g.Vessel.Name, Lede: groupLede(g, g.Candles, g.Burns, v), Across: acrossText(g.Across)}
	for _, s := range g.Series {
		out.Series = append(out.Series, standingsSeries(g, s, v))
	}
	return out
}

// groupLede says what is compared, the wall, the hour and the wax, and of how
// many candles and burns.
func groupLede(g standings.Group, candles, burns int, v View) string {
	made := ""
	switch {
	case len(g.Settings) == 1:
		made = settingText(g.Settings[0])
	case len(g.Settings) > 1:
		made = g.Settings[0].Wax.Name
	}
	inside := wallText(g.Vessel, v) + " inside"
	if g.Vessel.Shape != journal.Round {
		inside += ", reckoned as a round one of " + v.length(g.Vessel.Width()).String()
	}
	return joinBy(" · ", inside, "full pool wanted by "+tight(g.Target.Clock()), made,
		figured(candles, "candle", "candles")+", "+figured(burns, "burn", "burns"))
}

// mostAcross is how many pairings are named across ladders.
const mostAcross = 4

// acrossText names the likeliest pairings over all ladders of a group.
func acrossText(cs []standings.Chance) string {
	var parts []string
	for _, c := range cs[:min(len(cs), mostAcross)] {
		parts = append(parts, c.Name+" "+chanceText(c.Chance))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Across these ladders, the chance of being the closest: " + strings.Join(parts, ", ") + "."
}

// standingsSeries parts the pairings of a series into those in order, those
// below the line and those without enough.
func standingsSeries(g standings.Group, s standings.Series, v View) StandingsSeries {
	out := StandingsSeries{Title: s.Ladder.Name, Count: capital(counted(s.Wicks, "wick", "wicks")), Hour: tight(g.Target.Clock()), Unit: v.Units.Length.Word(),
		Next: s.Advice.Text, Settled: s.Advice.Step == standings.Settled}
	if best, ok := s.Best(); ok && out.Settled {
		out.Verdict = ui.Item{Text: "Write the verdict on " + best.Name(), Href: "/verdicts/new?" + PlaceQuery(verdict.PlaceOf(g, s, best))}
	}
	for _, w := range s.Warnings {
		out.Warnings = append(out.Warnings, ui.Warning{Text: w})
	}
	for _, x := range s.Pairings {
		row := standingsRow(x, s.Tested() == 1, pairingHref(g, s, x), v)
		row.Key = sidesKeyOf(g, s, x).Text()
		switch {
		case x.BelowLine():
			row.Rank = "–"
			out.Below = append(out.Below, row)
		case x.Enough():
			row.Rank = strconv.Itoa(x.Rank)
			out.Ranked = append(out.Ranked, row)
		default:
			out.Thin = append(out.Thin, row)
		}
	}
	for _, x := range s.Guesses {
		out.Guesses = append(out.Guesses, standingsGuess(x, v))
	}
	out.Charts = seriesCharts(g, s, v)
	return out
}

// pairingHref is where a pairing's burns are shown.
func pairingHref(g standings.Group, s standings.Series, x standings.Pairing) string {
	q := url.Values{"vessel": {idText(g.Vessel.ID)}, "series": {s.Key}, "wick": {idText(x.Wick.ID)}}
	if len(g.Settings) > 0 {
		q.Set("wax", idText(g.Settings[0].Wax.ID))
	}
	return "/standings/pairing?" + q.Encode()
}

// standingsGuess says what is thought of a rung that was not burned.
func standingsGuess(x standings.Pairing, v View) StandingsGuess {
	width := widthSpan(x.Next, v)
	if x.AtLeast {
		width = "at least " + v.length(quantity.Millimetres(x.Next.P10)).String()
	}
	return StandingsGuess{Name: x.Name(), Doubt: x.Rough(),
		Text: width + " at " + tight(x.Vessel.Target().Clock()) + " with no wall, " + likely(x) + "; closeness about " + closenessText(x) + ", chance on target " + chanceText(x.OnTarget) + "."}
}

// lopsided is how far, in log width, one side of a miss must lie to be named.
const lopsided = 0.02

// likely says to which side a pool is likely to miss.
func likely(x standings.Pairing) string {
	switch {
	case x.Short > 2*x.Soon && x.Short > lopsided:
		return "likely short of the wall"
	case x.Soon > 2*x.Short && x.Soon > lopsided:
		return "likely full too soon"
	}
	return "likely about right"
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
