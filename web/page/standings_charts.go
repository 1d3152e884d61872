package page

import (
	"math"
	"net/url"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
	"rimward/web/chart"
)

// StandingsChart is one chart of a series or of a pairing by name, for a file;
// false when there is none of that name, or nothing to draw.
func StandingsChart(name string, t standings.Table, c PairingChoice, v View) (chart.Chart, bool) {
	for _, g := range t.Groups {
		for _, s := range g.Series {
			if x := seriesChart(name, g, s, c.Wick, v); x != nil {
				return *x, true
			}
		}
	}
	return chart.Chart{}, false
}

// seriesChart is one chart of a series, or of one of its wicks.
func seriesChart(name string, g standings.Group, s standings.Series, wick journal.ID, v View) *chart.Chart {
	switch name {
	case "ladder":
		return ladderChart(g, s, v)
	case "full":
		return fullTimes(g, s, v)
	}
	for _, x := range s.Pairings {
		switch {
		case x.Wick.ID != wick:
		case name == "pairing" && x.Enough():
			c := pairingGrowth(x, v).chart()
			return &c
		case name == "burns":
			return pairingWindows(x, v)
		}
	}
	return nil
}

// seriesFiles are the ways to take a chart of a series away; with a wick, of
// one of its pairings.
func seriesFiles(name string, g standings.Group, s standings.Series, wick journal.ID) []chart.File {
	q := url.Values{"vessel": {idText(g.Vessel.ID)}, "series": {s.Key}}
	if len(g.Settings) > 0 {
		q.Set("wax", idText(g.Settings[0].Wax.ID))
	}
	if wick != 0 {
		q.Set("wick", idText(wick))
	}
	return chartFiles("/standings/charts/"+name, "?"+q.Encode())
}

// chartID names a chart of a series among all on the page.
func chartID(name string, g standings.Group, s standings.Series) string {
	id := name + "-" + idText(g.Vessel.ID) + "-" + s.Key
	if len(g.Settings) > 0 {
		id += "-" + idText(g.Settings[0].Wax.ID)
	}
	return id
}

// seriesCharts are the charts under a series; none before a burn speaks.
func seriesCharts(g standings.Group, s standings.Series, v View) []ChartFigure {
	var out []ChartFigure
	for _, c := range []struct {
		name, heading string
		chart         *chart.Chart
	}{
		{"ladder", "Along the ladder", ladderChart(g, s, v)},
		{"full", "Time to a full pool", fullTimes(g, s, v)},
	} {
		if c.chart != nil {
			c.chart.Files = seriesFiles(c.name, g, s, 0)
			out = append(out, ChartFigure{Heading: c.heading, Plain: true, Chart: c.chart})
		}
	}
	return out
}

// onLadder are the pairings that have a width, and the guesses, by rung.
func onLadder(s standings.Series) []standings.Pairing {
	var out []standings.Pairing
	for _, x := range s.Pairings {
		if x.Enough() {
			out = append(out, x)
		}
	}
	if len(out) == 0 {
		return nil
	}
	out = append(out, s.Guesses...)
	slices.SortStableFunc(out, func(a, b standings.Pairing) int { return a.Wick.Rung - b.Wick.Rung })
	return out
}

// ladderChart is the width at the target hour along a ladder; nil before any
// burn speaks.
func ladderChart(g standings.Group, s standings.Series, v View) *chart.Chart {
	on, unit := onLadder(s), v.Units.Length
	if len(on) == 0 {
		return nil
	}
	hour := g.Target.Clock()
	spec := chart.RungSpec{ID: chartID("ladder", g, s), Title: "Width of the pool at " + hour + " along " + s.Ladder.Name + ", " + g.Vessel.Name, Unit: unit.Word(),
		Desc: "The width that each wick’s pool would have at " + hour + " if no wall stopped it, weakest wick first.",
		Wall: unit.Of(g.Vessel.Width()), WallLabel: "wall " + v.length(g.Vessel.Width()).String(), BandLabel: "on target",
		Value: v.lengthTick, Steps: v.lengthSteps(), Caption: ladderCaption(s, hour),
		Table: chart.Table{Name: "The ladder as a table", Head: []string{"Wick", "Burned", "Candles", "Burns", "One in ten below, " + unit.Word(), "Half below, " + unit.Word(), "One in ten above, " + unit.Word()}}}
	for _, x := range on {
		spec.Rungs, spec.Table.Rows = append(spec.Rungs, ladderRung(x, v)), append(spec.Table.Rows, ladderRow(x, v))
	}
	return drawn(chart.NewRungs(spec))
}

// ladderCaption says what the marks are and what they rest on.
func ladderCaption(s standings.Series, hour string) string {
	said := "Filled: a wick that was burned, as in the table; its average lies within the line, 8 chances in 10."
	if len(s.Guesses) > 0 {
		said += " Open: one that was not, guessed from its neighbours; its next candle lies within the line, 8 chances in 10."
	}
	below := ""
	if slices.ContainsFunc(s.Pairings, func(x standings.Pairing) bool { return x.Enough() && x.BelowLine() }) {
		below = "Crossed: below the line."
	}
	return joinWords(said, below, "Shaded: full by "+tight(hour)+" and not before half of it. From "+figured(s.Candles, "candle", "candles")+", "+figured(s.Burns, "burn", "burns")+".")
}

// ladderPoints is the width that a rung is drawn with.
func ladderPoints(x standings.Pairing) tree.Points {
	if x.Enough() {
		return x.Width
	}
	return x.Next
}

func ladderRung(x standings.Pairing, v View) chart.Rung {
	p, of := ladderPoints(x), func(mm float64) float64 { return v.Units.Length.Of(quantity.Millimetres(mm)) }
	r := chart.Rung{Label: wickLabel(x), Low: of(p.P10), Mid: of(p.P50), High: of(p.P90), AtLeast: x.AtLeast, Guess: !x.Enough(), Below: x.BelowLine(), Soon: of(soonFrom(x))}
	if x.Enough() {
		r.Shown = v.column(p.P50)
	}
	if x.AtLeast {
		r.Shown = "≥ " + v.column(p.P10)
	}
	return r
}

// wickLabel is the wick's place on the axis of its ladder.
func wickLabel(x standings.Pairing) string {
	if x.Wick.Label == "" {
		return x.Ladder.Name
	}
	return x.Wick.Label
}

// soonFrom is the width at the target hour from which a pool that opens at
// this pairing's usual pace was full by half the hour, in mm; 0 when the pace
// is not known.
func soonFrom(x standings.Pairing) float64 {
	target := x.Vessel.Target()
	band := x.Band([]quantity.Hours{target / 2, target})
	if !(band[0].P50 > 0) {
		return 0
	}
	return float64(x.Vessel.Width()) * band[1].P50 / band[0].P50
}

func ladderRow(x standings.Pairing, v View) []string {
	p := ladderPoints(x)
	burned := "yes"
	if !x.Enough() {
		burned = "no, a guess"
	}
	row := []string{x.Name(), burned, figuredPlain(x.Candles), figuredPlain(x.Burns), v.column(p.P10), v.column(p.P50), v.column(p.P90)}
	if x.AtLeast {
		row[5], row[6] = "", "not known"
	}
	return row
}

// figuredPlain writes a count alone.
func figuredPlain(n int) string { return quantity.Number(float64(n), 0) }

// fullTimes is the time to a full pool of each pairing of a series.
func fullTimes(g standings.Group, s standings.Series, v View) *chart.Chart {
	spec := chart.SpanSpec{ID: chartID("full", g, s), Title: "Time to a full pool, " + s.Ladder.Name + ", " + g.Vessel.Name,
		Desc:   "For each pairing, the hours within which eight in ten of the next candle’s burns would be full, with the middle.",
		Target: float64(g.Target), TargetLabel: "target " + g.Target.Clock(), HalfLabel: "half of it", MaxHour: float64(max(journal.LongestBurn, g.Target)),
		Caption: "Eight in ten of the next candle’s burns are full within the bar, half of them by the mark; an arrow has no known end. From " + figured(s.Candles, "candle", "candles") + ", " + figured(s.Burns, "burn", "burns") + ".",
		Table:   chart.Table{Name: "The times as a table", Head: []string{"Pairing", "One in ten before, h", "Half before, h", "Nine in ten before, h"}}}
	for _, x := range s.Pairings {
		if x.Enough() {
			spec.Rows, spec.Table.Rows = append(spec.Rows, fullRow(x)), append(spec.Table.Rows, []string{x.Name(), hourCell(x, x.Full.P10), hourCell(x, x.Full.P50), hourCell(x, x.Full.P90)})
		}
	}
	if len(spec.Rows) == 0 {
		return nil
	}
	return drawn(chart.NewSpans(spec))
}

// fullRow is one pairing's time to a full pool; what lies beyond the longest
// burn has no end on the chart.
func fullRow(x standings.Pairing) chart.SpanRow {
	r := chart.SpanRow{Label: x.Name(), Short: wickLabel(x), From: x.Full.P10, To: x.Full.P90}
	r.Note, _ = fullPool(x)
	longest := float64(longestSaid(x))
	if r.From > longest {
		r.From = longest
	}
	if r.To > longest {
		r.To = math.Inf(1)
	}
	if x.AtLeast && !math.IsInf(x.Full.P90, 1) {
		r.From = 0
	} else if x.Full.P50 <= longest {
		r.Mid = x.Full.P50
	}
	return r
}

// hourCell writes hours into a table as far as they are told.
func hourCell(x standings.Pairing, h float64) string {
	switch {
	case math.IsInf(h, 1):
		return mayNever
	case quantity.Hours(h) > longestSaid(x):
		return "over " + longestSaid(x).Column()
	}
	return quantity.Hours(h).Column()
}

// pairingWindows is when the pool of each burn of a pairing became full.
func pairingWindows(x standings.Pairing, v View) *chart.Chart {
	s := spanSpec(x.Vessel, "When the pools of "+x.Name()+" were full")
	s.ID = "windows-" + idText(x.Vessel.ID) + "-" + idText(x.Wick.ID)
	for _, c := range x.Rows {
		for _, b := range c.Burns {
			if b.Used() {
				name := c.Name + " " + figuredPlain(b.Number)
				addWindow(&s, name, name, b.Full)
			}
		}
	}
	return windows(s)
}

// manyBurns is from how many burns on the chart with a line for each is folded
// away.
const manyBurns = 12

// pairingCharts are the charts of an opened pairing: those that stand open, and
// those that can be opened.
func pairingCharts(g standings.Group, s standings.Series, x standings.Pairing, growth *GrowthPair, v View) (open, more []ChartFigure) {
	if growth != nil {
		c := growth.chart()
		c.Files = seriesFiles("pairing", g, s, x.Wick.ID)
		open = append(open, ChartFigure{Heading: "Width against time", Plain: true, Chart: &c})
	}
	c := pairingWindows(x, v)
	if c == nil {
		return open, nil
	}
	c.Files = seriesFiles("burns", g, s, x.Wick.ID)
	f := ChartFigure{Heading: "When each pool was full", Plain: true, Chart: c}
	if x.AllBurns > manyBurns {
		return open, []ChartFigure{f}
	}
	return append(open, f), nil
}
