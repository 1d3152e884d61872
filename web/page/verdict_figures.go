package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// FigureRow is one figure of a pairing as it was and as it is now.
type FigureRow struct {
	Label     string
	Then, Now Said
	Mark      string // whether it has moved, in a word
	Matters   bool
}

// Said is a figure in words with a smaller line below.
type Said struct{ Text, More string }

// figureLabels name the figures.
var figureLabels = map[verdict.Figure]string{
	verdict.Counts: "Candles and burns", verdict.Ended: "Burned to the end", verdict.Width: "Width with no wall, average", verdict.Next: "Width with no wall, next candle",
	verdict.Full: "Full pool after", verdict.OnTarget: "Chance on target", verdict.Place: "Place", verdict.Faults: "Faults seen, in burns",
	verdict.Hard: "Hard findings", verdict.Rate: "Burn rate", verdict.Label: "Burn time for a label", verdict.AfterSmoke: "After-smoke",
}

// figureWriters write each figure.
var figureWriters = map[verdict.Figure]func(journal.VerdictFigures, View) Said{
	verdict.Counts:     func(f journal.VerdictFigures, _ View) Said { return countsSaid(f) },
	verdict.Ended:      func(f journal.VerdictFigures, _ View) Said { return Said{Text: figured(f.Ended, "candle", "candles")} },
	verdict.Width:      func(f journal.VerdictFigures, v View) Said { return widthSaid(f, f.Width, v) },
	verdict.Next:       func(f journal.VerdictFigures, v View) Said { return widthSaid(f, f.Next, v) },
	verdict.Full:       func(f journal.VerdictFigures, _ View) Said { return fullSaid(f) },
	verdict.OnTarget:   func(f journal.VerdictFigures, _ View) Said { return onTargetSaid(f) },
	verdict.Place:      func(f journal.VerdictFigures, _ View) Said { return placeSaid(f) },
	verdict.Faults:     func(f journal.VerdictFigures, _ View) Said { return faultsSaid(f) },
	verdict.Hard:       func(f journal.VerdictFigures, _ View) Said { return Said{Text: countOrNone(len(f.Hard))} },
	verdict.Rate:       func(f journal.VerdictFigures, _ View) Said { return rateSaid(f.Rate) },
	verdict.Label:      func(f journal.VerdictFigures, _ View) Said { return labelSaid(f) },
	verdict.AfterSmoke: func(f journal.VerdictFigures, _ View) Said { return smokeSaid(f.AfterSmoke) },
}

// figureSaid writes one figure.
func figureSaid(which verdict.Figure, f journal.VerdictFigures, v View) Said {
	return figureWriters[which](f, v)
}

func countOrNone(n int) string {
	if n == 0 {
		return "none"
	}
	return strconv.Itoa(n)
}

// notKnown is said where the burns do not tell.
const notKnown = "not known"

func countsSaid(f journal.VerdictFigures) Said {
	s := Said{Text: figured(f.Telling, "candle", "candles") + ", " + figured(f.Burns, "burn", "burns")}
	if f.AllBurns > f.Burns {
		s.More = "of " + figured(f.AllBurns, "burn", "burns") + " looked at"
	}
	return s
}

func widthSaid(f journal.VerdictFigures, w journal.WidthSpan, v View) Said {
	switch {
	case !f.Enough:
		return Said{Text: notKnown}
	case f.AtLeast:
		return Said{"at least " + tight(v.length(w.P10).String()), "no reading was short of the wall"}
	}
	low, high := v.column(float64(w.P10)), v.column(float64(w.P90))
	return Said{tight(v.length(w.P50).String()), "eight in ten " + tight(spanText(low, high)+" "+v.Units.Length.Word())}
}

func fullSaid(f journal.VerdictFigures) Said {
	if !f.Enough {
		return Said{Text: notKnown}
	}
	longest := max(journal.LongestBurn, f.Target)
	at := func(h *quantity.Hours) string {
		switch {
		case h == nil:
			return mayNever
		case *h > longest:
			return "over " + tight(longest.Clock())
		}
		return tight(h.Clock())
	}
	switch {
	case f.AtLeast && f.Full.P90 != nil:
		return Said{Text: "by " + at(f.Full.P90)}
	case f.Full.P10 == nil:
		return Said{mayNever, "chance of never: " + chanceText(f.Never)}
	}
	return Said{at(f.Full.P50), "eight in ten " + spanText(at(f.Full.P10), at(f.Full.P90))}
}

func onTargetSaid(f journal.VerdictFigures) Said {
	if !f.Enough {
		return Said{Text: notKnown}
	}
	return Said{chanceText(f.OnTarget), "full by " + tight(f.Target.Clock()) + ", not before half of it"}
}

func placeSaid(f journal.VerdictFigures) Said {
	if f.Rank == 0 {
		return Said{Text: "none"}
	}
	return Said{quantity.Ordinal(f.Rank) + " of " + strconv.Itoa(f.Ranked), "closeness " + quantity.Closeness(f.Closeness).String() + " of 100"}
}

func faultsSaid(f journal.VerdictFigures) Said {
	var parts []string
	for _, x := range f.Faults {
		parts = append(parts, x.Name+" "+tight(strconv.Itoa(x.Burns)+" of "+strconv.Itoa(x.Of)))
	}
	if len(parts) == 0 {
		return Said{Text: "none seen"}
	}
	return Said{Text: joinBy("; ", parts...)}
}

// fewestForSpan is how many candles an interval of their mean rests on before it
// is worth printing: two give one that says nothing.
const fewestForSpan = 3

func rateSaid(r *journal.RateSpan) Said {
	if r == nil {
		return Said{notKnown, "no burn was weighed before and after"}
	}
	s := Said{Text: tight(r.Mean.Shown().String())}
	span := ""
	if r.Low != nil && r.High != nil && r.Candles >= fewestForSpan {
		span = intervalWords() + spanOfShown(r.Low.Shown(), r.High.Shown())
	}
	s.More = joinBy("; ", span, figured(r.Candles, "candle", "candles")+", "+figured(r.Burns, "weighed burn", "weighed burns"))
	return s
}

func labelSaid(f journal.VerdictFigures) Said {
	rests := counted(f.Ended, "candle", "candles") + " burned to the end"
	switch {
	case f.Label == nil || f.Label.Candles < life.LabelNeeds:
		return Said{"not enough yet", rests}
	case f.Label.Bound == nil:
		return Said{"none can be given", rests + ", and they lasted too differently"}
	}
	return Said{"at most " + tight(f.Label.Bound.WholeDown().String()), rests + "; " + tight(f.Label.Mean.Decimal().String()) + " on average"}
}

// labelDoubts are what was to be doubted of the bound, in sentences.
func labelDoubts(f journal.VerdictFigures) []string {
	if f.Label == nil {
		return nil
	}
	return f.Label.Doubts
}

func smokeSaid(s *journal.SmokeFigures) Said {
	if s == nil {
		return Said{Text: "not timed"}
	}
	return Said{tight(s.Mean.Shown().String()) + " on average", figured(s.Burns, "burn", "burns") + ", limit " + tight(s.Limit.Shown().String())}
}

// figureRows sets frozen figures beside those of now; now is nil where there
// are none.
func figureRows(frozen journal.VerdictFigures, now *journal.VerdictFigures, v View) []FigureRow {
	with := frozen
	if now != nil {
		with = *now
	}
	var out []FigureRow
	for _, l := range verdict.Drift(frozen, with) {
		r := FigureRow{Label: figureLabels[l.Figure], Then: figureSaid(l.Figure, frozen, v)}
		if now != nil {
			r.Now, r.Mark, r.Matters = figureSaid(l.Figure, *now, v), movedWord(l), l.Matters
		}
		out = append(out, r)
	}
	return out
}

func movedWord(l verdict.Line) string {
	switch {
	case l.Matters:
		return "moved, and it matters"
	case l.Moved:
		return "moved a little"
	}
	return "same"
}

// checkItems are what is wanted before accepting, done or not.
func checkItems(items []verdict.Item) []CheckItem {
	var out []CheckItem
	for _, i := range items {
		c := CheckItem{Name: capital(i.Name), Has: capital(i.Has), Source: capital(i.Source), Done: i.Done, State: "missing"}
		switch {
		case i.Done:
			c.State = "done"
		case i.Optional:
			c.State = "not needed"
		case i.Bars:
			c.State, c.Bars = "stands against it", true
		}
		out = append(out, c)
	}
	return out
}

// CheckItem is one line of the list of what is wanted before accepting.
type CheckItem struct {
	Name, Has, Source, State string
	Done, Bars               bool
}

// driftSaid says in sentences what has moved since a verdict.
func driftSaid(frozen journal.VerdictFigures, now *journal.VerdictFigures) (says []string, matters bool) {
	if now == nil {
		return []string{"There are no figures of now to hold it against: its candles are not in the standings any more, or the studio keeps settings apart in another way."}, true
	}
	lines := verdict.Drift(frozen, *now)
	switch why := verdict.Matters(lines); {
	case len(why) > 0:
		return why, true
	case verdict.Moved(lines):
		return []string{"Figures have moved a little since; nothing that matters."}, false
	}
	return []string{"Nothing has moved since."}, false
}

// frozenFacts are figures on their own, for a list of facts.
func frozenFacts(f journal.VerdictFigures, v View) []ui.Fact {
	var out []ui.Fact
	for _, r := range figureRows(f, nil, v) {
		out = append(out, ui.Fact{Label: r.Label, Text: r.Then.Text, More: r.Then.More})
	}
	return out
}
