package page

import (
	"math"
	"strconv"

	"rimward/internal/compare"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
)

// sidesFigures are what the columns came to, each but the first beside the
// first.
func sidesFigures(facts []compare.Fact, sides []compare.Side, v View) []SidesGroup {
	g := SidesGroup{Title: "What they came to", Rows: amounts(facts, sides, v)}
	var spans spansShown
	for _, m := range compare.Measures(sides) {
		w := measureWords(m.Name, hourText(sides), v)
		row := SidesRow{Label: w.label}
		for i, f := range m.Figures {
			row.Cells = append(row.Cells, figureCell(f, sides[i], w))
			spans.count(f.From)
		}
		g.Rows = append(g.Rows, row)
	}
	g.Note = figuresNote(sides, spans)
	return ifRows(g)
}

// figuresNote says what differences are from, and what they may be taken for.
func figuresNote(sides []compare.Side, spans spansShown) string {
	if len(sides) < compare.Fewest {
		return ""
	}
	out := "Differences are from the first column, " + sides[0].Name + "."
	out = joinWords(out, spans.words())
	candles := 0
	for _, s := range sides {
		if !s.Whole {
			candles++
		}
	}
	if candles > 1 {
		out += " A burn’s width is that of the curve fitted to it, which leans a little on its pairing. Burns of one candle share the candle: what is told of two candles need not hold for their pairings."
	}
	if candles < len(sides) {
		out += " A pairing’s figures are means over its candles."
	}
	return out
}

// spansShown counts the spans of differences by what they come from.
type spansShown struct{ read, believed int }

func (s *spansShown) count(d compare.Difference) {
	switch {
	case d.Verdict != compare.Told && d.Verdict != compare.Open:
	case d.Believed:
		s.believed++
	default:
		s.read++
	}
}

// words say what the spans hold.
func (s spansShown) words() string {
	out := ""
	if s.read > 0 {
		out = "Each span holds the true difference 19 times in 20"
		if s.believed > 0 {
			out = "Each span but those of the widths holds the true difference 19 times in 20"
		}
		switch {
		case s.read >= 30:
			out += "; of " + strconv.Itoa(s.read) + " spans, one to three can be expected to miss it"
		case s.read >= 10:
			out += "; of " + strconv.Itoa(s.read) + " spans, one can well be expected to miss it"
		}
		out += "."
	}
	if s.believed > 0 {
		out = joinWords(out, "A span of pairings’ widths is where the standings place the difference, 95 chances in 100. It rests on these readings and on what the standings expect of a ladder before any are in, so with few candles it says as much of that as of them.")
	}
	return out
}

// measuring is how one measure is put into words.
type measuring struct {
	label, more, less string
	show              func(float64) quantity.Shown // a value
	by                func(float64) quantity.Shown // a difference, without its sign
	bound             string                       // what burns that only bound it did
	bounded           string                       // why nothing can be told of them
}

// lookedFull is said of a width where some burns only bound it.
const lookedFull = "can’t tell by how much: some burns were full at every look"

// measureWords are the words of a measure.
func measureWords(n compare.MeasureName, hour string, v View) measuring {
	length := func(x float64) quantity.Shown {
		return quantity.Shown{Number: v.column(x), Unit: v.Units.Length.Word()}
	}
	switch n {
	case compare.Width:
		return measuring{"Width at " + hour + " with no wall", "wider", "narrower", length, length, "full at every look", lookedFull}
	case compare.Reach:
		percent := func(x float64) quantity.Shown { return quantity.Fraction(x).Percent() }
		return measuring{"Reach at " + hour + ", of the wall", "wider", "narrower", percent, func(x float64) quantity.Shown { return points(quantity.Fraction(x)) }, "full at every look", lookedFull}
	case compare.Full:
		clock := func(x float64) quantity.Shown { return quantity.Shown{Number: tight(quantity.Hours(x).Clock())} }
		return measuring{"Full pool after", "later", "sooner", clock, clock, "never full", "can’t tell by how much: some burns were never full, or full at the first look"}
	case compare.Rate:
		rate := func(x float64) quantity.Shown { return quantity.GramsPerHour(x).Shown() }
		return measuring{"Burn rate", "more", "less", rate, rate, "", ""}
	case compare.Depth:
		return measuring{"Pool depth at " + hour, "deeper", "shallower", length, length, "", ""}
	case compare.Flame:
		return measuring{"Flame at " + hour, "taller", "shorter", length, length, "", ""}
	}
	return measuring{"Vessel, outside, at " + hour, "hotter", "cooler",
		func(x float64) quantity.Shown { return v.temperature(quantity.Celsius(x)) },
		func(x float64) quantity.Shown { return v.Units.ShowTemperatureDifference(quantity.Celsius(x)) }, "", ""}
}

// figureCell is one figure with what it rests on and how far it lies from the
// first.
func figureCell(f compare.Figure, s compare.Side, w measuring) SidesCell {
	if f.Seen == 0 {
		return SidesCell{Text: "–", Soft: true}
	}
	c := SidesCell{Apart: apartText(f.From, s.Whole, w), Told: f.From.Verdict == compare.Told}
	switch {
	case f.N == 0 || math.IsNaN(f.Mean):
		c.Text, c.Small = boundText(f, w), []string{unitsText(f.Seen, false)}
	default:
		x := w.show(f.Mean)
		c.Text, c.Unit, c.Small = x.Number, x.Unit, []string{unitsText(f.N, s.Whole)}
		switch {
		case f.Bounded == f.Seen:
			c.Text = "at least " + c.Text
		case f.Bounded > 0:
			c = partlyBound(c, f, w)
		}
	}
	return c
}

// partlyBound says first how many burns gave no more than a bound: a mean over
// the others alone would speak for all of them.
func partlyBound(c SidesCell, f compare.Figure, w measuring) SidesCell {
	c.Small = append([]string{joinWords(c.Text, c.Unit) + " is the mean over the other burns alone"}, c.Small...)
	c.Text, c.Unit = boundText(f, w)+" in "+strconv.Itoa(f.Bounded)+" of "+figured(f.Seen, "burn", "burns"), ""
	return c
}

// boundText says what the burns did that only bound a figure.
func boundText(f compare.Figure, w measuring) string {
	switch {
	case f.Early == 0:
		return w.bound
	case f.Early == f.Bounded:
		return fullAtFirst
	}
	return w.bound + " or " + fullAtFirst
}

// fullAtFirst is said of a time to a full pool that passed before anybody
// looked.
const fullAtFirst = "full at the first look"

func unitsText(n int, whole bool) string {
	if whole {
		return figured(n, "candle", "candles")
	}
	return figured(n, "burn", "burns")
}

// apartText says how far a figure lies from the first, and what of it can be
// told.
func apartText(d compare.Difference, whole bool, w measuring) string {
	by := w.way(d.By)
	switch d.Verdict {
	case compare.Told:
		low, high := math.Abs(d.Low), math.Abs(d.High)
		return by + ", between " + w.least(min(low, high)) + " and " + tight(w.by(max(low, high)).String())
	case compare.Open:
		return "can’t tell yet: " + by + " (" + w.way(d.Low) + " to " + w.way(d.High) + "). " + wantedText(d, whole)
	case compare.TooFew:
		return "can’t tell yet: " + by + ". Two " + unitsWord(whole) + " of each are the least."
	case compare.NoSpread:
		return by + "; all readings alike, so no span"
	case compare.BoundOnly:
		return w.bounded
	case compare.NotAlike:
		return by + "; no span between a candle and a pairing"
	}
	return ""
}

// least is the lower end of a difference that is told, and so not nothing.
func (w measuring) least(by float64) string {
	if x := w.by(by); x != w.by(0) {
		return tight(x.Number)
	}
	return "just over 0"
}

// way is a difference with the word for its side.
func (w measuring) way(by float64) string {
	x := w.by(math.Abs(by))
	switch {
	case by == 0 || x == w.by(0):
		return "no difference"
	case by > 0:
		return tight(x.String()) + " " + w.more
	}
	return tight(x.String()) + " " + w.less
}

func unitsWord(whole bool) string {
	if whole {
		return "candles"
	}
	return "burns"
}

// wantedText says what would be enough.
func wantedText(d compare.Difference, whole bool) string {
	if d.Wanted == 0 {
		return "If real it is small: over " + strconv.Itoa(compare.MostAdvised) + " " + unitsWord(whole) + " of each would be needed."
	}
	return "If real, about " + strconv.Itoa(d.Wanted) + " " + unitsWord(whole) + " of each would tell."
}

// sidesStandings are the standings of the columns' pairings, where any has
// enough.
func sidesStandings(sides []compare.Side, v View) []SidesGroup {
	rows := []SidesRow{{Label: "Place"}, {Label: "Closeness, of 100"}, {Label: "Width, eight in ten"}, {Label: "Full pool, eight in ten"}, {Label: "Chance on target"}, {Label: "Chance of being closest"}}
	any := false
	for _, s := range sides {
		any = any || s.Pairing != nil
		for i, c := range standingCells(s.Pairing, v) {
			rows[i].Cells = append(rows[i].Cells, c)
		}
	}
	if !any {
		return nil
	}
	note := ""
	for _, s := range sides {
		if !s.Whole {
			note = "A candle’s are those of its pairing."
		}
	}
	return []SidesGroup{{Title: "In the standings", Note: note, Rows: rows}}
}

// standingCells are the standings of one pairing.
func standingCells(x *standings.Pairing, v View) []SidesCell {
	out := make([]SidesCell, 6)
	for i := range out {
		out[i] = SidesCell{Text: "–", Soft: true}
	}
	if x == nil {
		out[0].Text = "not burned yet"
		return out
	}
	out[0] = placeCell(*x)
	if !x.Enough() {
		return out
	}
	_, span := widthText(*x, v)
	if x.AtLeast {
		span, _ = widthText(*x, v)
	}
	full, fullSpan := fullPool(*x)
	if fullSpan == "" {
		fullSpan = full
	}
	out[1], out[2], out[3] = SidesCell{Text: closenessText(*x)}, SidesCell{Text: span, Unit: v.Units.Length.Word()}, SidesCell{Text: fullSpan}
	out[4], out[5] = SidesCell{Text: chanceText(x.OnTarget)}, SidesCell{Text: chanceText(x.Closest)}
	return out
}

// placeCell is a pairing's place, or why it has none.
func placeCell(x standings.Pairing) SidesCell {
	switch {
	case x.BelowLine():
		return SidesCell{Text: "below the line", Small: []string{x.Hard[0].Text}}
	case !x.Enough():
		return SidesCell{Text: "not enough yet", Small: []string{x.NotYet}, Soft: true}
	}
	return SidesCell{Text: quantity.Ordinal(x.Rank), Small: nonEmpty(runningText(x, false))}
}

// sidesFaults are the faults of every column in words.
func sidesFaults(sides []compare.Side, lim safety.Limits, v View) SidesGroup {
	row := SidesRow{Label: "Seen in"}
	for _, s := range sides {
		c := SidesCell{}
		for _, f := range safety.FaultsOf(s.Logs, lim, v.Units) {
			c.Lines = append(c.Lines, f.Name+": "+tight(strconv.Itoa(f.Burns)+" of "+figured(f.Of, "burn", "burns")))
		}
		switch {
		case s.Burns() == 0:
			c.Text, c.Soft = "not burned yet", true
		case len(c.Lines) == 0:
			c.Text, c.Soft = "none seen", true
		}
		row.Cells = append(row.Cells, c)
	}
	return SidesGroup{Title: "Faults", Rows: []SidesRow{row}}
}
