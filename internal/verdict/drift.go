package verdict

import (
	"math"
	"slices"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
)

// Figure names one line of the figures.
type Figure string

// The lines, in the order in which they are shown.
const (
	Counts     Figure = "counts"
	Ended      Figure = "ended"
	Width      Figure = "width"
	Next       Figure = "next"
	Full       Figure = "full"
	OnTarget   Figure = "on target"
	Place      Figure = "place"
	Faults     Figure = "faults"
	Hard       Figure = "hard"
	Rate       Figure = "rate"
	Label      Figure = "label"
	AfterSmoke Figure = "after-smoke"
)

// Line says whether one figure has moved since it was frozen.
type Line struct {
	Figure  Figure
	Moved   bool
	Matters bool
	Why     string // why it matters; "" when it does not
}

// How much a figure must change before it is called moved: what a page would
// show otherwise (app defaults).
const (
	movedWidth  quantity.Millimetres  = 0.5
	movedHours  quantity.Hours        = 0.1
	movedChance                       = 0.02
	movedRate   quantity.GramsPerHour = 0.1
	movedSmoke  quantity.Seconds      = 1
)

// Drift compares frozen figures with those of now, line by line. A change
// matters when the figure now lies outside the interval it had, when a hard
// finding is new or gone, when a fault is new or seen clearly more or less
// often, or when other candles are behind it.
func Drift(frozen, now journal.VerdictFigures) []Line {
	return []Line{
		counts(frozen, now),
		{Figure: Ended, Moved: frozen.Ended != now.Ended},
		width(Width, frozen, now, frozen.Width, now.Width),
		width(Next, frozen, now, frozen.Next, now.Next),
		full(frozen, now),
		onTargetLine(frozen, now),
		place(frozen, now),
		hard(frozen, now),
		faults(frozen, now),
		rate(frozen.Rate, now.Rate),
		labelLine(frozen.Label, now.Label),
		smokeLine(frozen.AfterSmoke, now.AfterSmoke),
	}
}

// Moved reports whether any line has moved.
func Moved(lines []Line) bool {
	return slices.ContainsFunc(lines, func(l Line) bool { return l.Moved })
}

// Matters lists why what has moved matters; nothing when it does not.
func Matters(lines []Line) []string {
	var out []string
	for _, l := range lines {
		if l.Matters {
			out = append(out, l.Why)
		}
	}
	return out
}

// matters is a line that has moved, and matters when it says why.
func matters(f Figure, moved bool, why string) Line {
	return Line{Figure: f, Moved: moved || why != "", Matters: why != "", Why: why}
}

func counts(frozen, now journal.VerdictFigures) Line {
	added, lost := without(now.Candles, frozen.Candles), without(frozen.Candles, now.Candles)
	why := ""
	switch {
	case added > 0 && lost > 0:
		why = "It rests on other candles now: " + count(added, "is new", "are new") + ", " + count(lost, "counts no more", "count no more") + "."
	case added > 0:
		why = count(added, "more candle was burned", "more candles were burned") + " since."
	case lost > 0:
		why = count(lost, "candle counts", "candles count") + " no more."
	}
	return matters(Counts, frozen.AllBurns != now.AllBurns || frozen.Burns != now.Burns || frozen.Telling != now.Telling, why)
}

// without counts what one list holds that the other does not, each as often as
// it is there.
func without[T comparable](list, other []T) int {
	left, n := map[T]int{}, 0
	for _, x := range other {
		left[x]++
	}
	for _, x := range list {
		if left[x]--; left[x] < 0 {
			n++
		}
	}
	return n
}

// width compares two widths by their middle. Where no reading was short of the
// wall only the lower end is known: it matters where the two cannot both be.
func width(f Figure, frozen, now journal.VerdictFigures, was, is journal.WidthSpan) Line {
	if !frozen.Enough || !now.Enough {
		return Line{Figure: f, Moved: frozen.Enough != now.Enough}
	}
	if frozen.AtLeast || now.AtLeast {
		moved := frozen.AtLeast != now.AtLeast || apart(was.P10, is.P10, movedWidth)
		wider := now.AtLeast && !frozen.AtLeast && is.P10 > was.P90
		narrower := frozen.AtLeast && !now.AtLeast && is.P90 < was.P10
		return matters(f, moved, whyWidth(f, wider || narrower))
	}
	moved := apart(was.P50, is.P50, movedWidth) || apart(was.P10, is.P10, movedWidth) || apart(was.P90, is.P90, movedWidth)
	return matters(f, moved, whyWidth(f, is.P50 < was.P10 || is.P50 > was.P90))
}

func whyWidth(f Figure, outside bool) string {
	switch {
	case !outside:
		return ""
	case f == Width:
		return "The average width lies outside the interval it had."
	}
	return "The next candle’s width lies outside the interval it had."
}

func full(frozen, now journal.VerdictFigures) Line {
	was, is := frozen.Full, now.Full
	if !frozen.Enough || !now.Enough {
		return Line{Figure: Full, Moved: frozen.Enough != now.Enough}
	}
	moved := apartHours(was.P10, is.P10) || apartHours(was.P50, is.P50) || apartHours(was.P90, is.P90)
	why := ""
	if later(is.P50, was.P90) || later(was.P10, is.P50) {
		why = "The time to a full pool lies outside the interval it had."
	}
	return matters(Full, moved, why)
}

// later reports whether one time lies after another; nil never comes.
func later(a, b *quantity.Hours) bool {
	switch {
	case b == nil:
		return false
	case a == nil:
		return true
	}
	return *a > *b
}

func onTargetLine(frozen, now journal.VerdictFigures) Line {
	if !frozen.Enough || !now.Enough {
		return Line{Figure: OnTarget, Moved: frozen.Enough != now.Enough}
	}
	why := ""
	switch was, is := frozen.OnTarget >= OnTargetEnough, now.OnTarget >= OnTargetEnough; {
	case was && !is:
		why = "It is now more likely off target than on."
	case !was && is:
		why = "It is now more likely on target than not."
	}
	return matters(OnTarget, math.Abs(frozen.OnTarget-now.OnTarget) >= movedChance, why)
}

func place(frozen, now journal.VerdictFigures) Line {
	why := ""
	switch {
	case frozen.Rank == 1 && now.Rank != 1:
		why = "It is no longer the first in the standings."
	case frozen.Rank != 1 && now.Rank == 1:
		why = "It is now the first in the standings."
	}
	return matters(Place, frozen.Rank != now.Rank || frozen.Ranked != now.Ranked, why)
}

// hard tells findings apart by their rule and place, or by their words where a
// verdict was made before these were kept.
func hard(frozen, now journal.VerdictFigures) Line {
	was, is := frozen.Hard, now.Hard
	if len(frozen.HardKeys) == len(was) && len(now.HardKeys) == len(is) {
		was, is = frozen.HardKeys, now.HardKeys
	}
	fresh, gone := without(is, was), without(was, is)
	why := ""
	if fresh > 0 {
		why = count(fresh, "hard finding is", "hard findings are") + " new."
	}
	if gone > 0 {
		why = strings.TrimSpace(why + " " + count(gone, "hard finding is", "hard findings are") + " gone.")
	}
	return matters(Hard, false, why)
}

// faults are compared by name, and those seen both times by their share.
func faults(frozen, now journal.VerdictFigures) Line {
	var fresh, more, less []string
	for _, f := range now.Faults {
		i := slices.IndexFunc(frozen.Faults, func(x journal.FaultCount) bool { return x.Name == f.Name })
		switch {
		case i < 0:
			fresh = append(fresh, f.Name)
		case oftener(frozen.Faults[i], f):
			more = append(more, f.Name)
		case seldomer(frozen.Faults[i], f):
			less = append(less, f.Name)
		}
	}
	var why []string
	for _, x := range []struct {
		said  string
		names []string
	}{{"A fault is new since then: ", fresh}, {"Seen clearly more often than then: ", more}, {"Seen clearly less often than then: ", less}} {
		if len(x.names) > 0 {
			why = append(why, x.said+joined(x.names)+".")
		}
	}
	return matters(Faults, !slices.Equal(frozen.Faults, now.Faults), strings.Join(why, " "))
}

// When a fault counts as seen more often: the 95 % intervals of the two shares
// do not meet, or the share is oftenerBy times what it was, in oftenerFrom
// burns or more (app defaults).
const (
	oftenerBy   = 2
	oftenerFrom = 3
	shareLevel  = 0.95
)

func oftener(was, is journal.FaultCount) bool {
	_, high := stats.WilsonInterval(was.Burns, was.Of, shareLevel)
	low, _ := stats.WilsonInterval(is.Burns, is.Of, shareLevel)
	return low > high || is.Burns >= oftenerFrom && is.Burns*was.Of >= oftenerBy*was.Burns*is.Of
}

func seldomer(was, is journal.FaultCount) bool {
	low, _ := stats.WilsonInterval(was.Burns, was.Of, shareLevel)
	_, high := stats.WilsonInterval(is.Burns, is.Of, shareLevel)
	return high < low
}

func rate(was, is *journal.RateSpan) Line {
	if was == nil || is == nil {
		return Line{Figure: Rate, Moved: (was == nil) != (is == nil)}
	}
	why := ""
	if was.Low != nil && was.High != nil && (is.Mean < *was.Low || is.Mean > *was.High) {
		why = "The burn rate lies outside the interval it had."
	}
	return matters(Rate, apart(was.Mean, is.Mean, movedRate), why)
}

func labelLine(was, is *journal.LabelFigures) Line {
	var a, b *quantity.Hours
	if was != nil {
		a = was.Bound
	}
	if is != nil {
		b = is.Bound
	}
	why := ""
	switch {
	case a != nil && b == nil:
		why = "There is no burn time for a label any more."
	case a != nil && *b < *a && a.WholeDown() != b.WholeDown():
		why = "The burn time for a label is shorter than it was."
	case a == nil && b != nil:
		why = "There is a burn time for a label now."
	}
	return matters(Label, apartHours(a, b), why)
}

func smokeLine(was, is *journal.SmokeFigures) Line {
	if was == nil || is == nil {
		why := ""
		if is != nil && is.Over() {
			why = "After-smoke was timed, and lies over its limit."
		}
		return matters(AfterSmoke, (was == nil) != (is == nil), why)
	}
	why := ""
	if is.Over() && !was.Over() {
		why = "After-smoke lies over its limit now."
	}
	return matters(AfterSmoke, apart(was.Mean, is.Mean, movedSmoke), why)
}

// apart reports whether two values differ by a step or more.
func apart[T ~float64](a, b, step T) bool { return math.Abs(float64(a-b)) >= float64(step) }

// apartHours is apart for times that may be unknown.
func apartHours(a, b *quantity.Hours) bool {
	if a == nil || b == nil {
		return (a == nil) != (b == nil)
	}
	return apart(*a, *b, movedHours)
}

// joined lists names as a sentence does.
func joined(names []string) string {
	if len(names) < 2 {
		return names[0]
	}
	out := names[0]
	for _, n := range names[1 : len(names)-1] {
		out += ", " + n
	}
	return out + " and " + names[len(names)-1]
}
