package chart

import (
	"math"
	"slices"
)

// SpanSpec is when pools became full: one row for each burn or pairing, with
// the span of hours in which it happened.
type SpanSpec struct {
	ID, Title, Desc string
	Rows            []SpanRow
	Target          float64 // hour by which the pool should have met the wall; 0 is none
	TargetLabel     string
	HalfLabel       string // names half the target hour; empty leaves it out
	MaxHour         float64
	Caption         string
	Table           Table
	Hour            func(float64) string // hours without unit; nil is plain
}

// SpanRow is one burn or pairing: full after From and by To. To is infinite
// where that may never come. Mid is its best guess; 0 is none.
type SpanRow struct {
	Label, Short  string // its name, and the name in a narrow drawing; empty is Label
	From, Mid, To float64
	Note          string // in words, at the right of the plot on a wide page
}

// spansMost is how many rows one figure holds.
const spansMost = 40

// cleaned is a copy of the rows that can be drawn, how many cannot, and how
// many are beyond what a figure holds.
func (s SpanSpec) cleaned() (out SpanSpec, dropped, beyond int) {
	var rows []SpanRow
	for _, r := range s.Rows {
		if fit(r.From) && (fit(r.To) || math.IsInf(r.To, 1)) && r.From <= r.To {
			r.Mid = known(r.Mid)
			rows = append(rows, r)
		}
	}
	dropped, beyond = len(s.Rows)-len(rows), max(0, len(rows)-spansMost)
	s.Rows, s.Target, s.MaxHour = rows[:len(rows)-beyond], known(s.Target), known(s.MaxHour)
	return s, dropped, beyond
}

// hours is the last hour that the chart must hold, with room for the arrow of
// a pool that was not full yet.
func (s SpanSpec) hours() float64 {
	to := max(s.MaxHour, 1.05*s.Target)
	for _, r := range s.Rows {
		to = max(to, r.Mid)
		if math.IsInf(r.To, 1) {
			to = max(to, 1.12*r.From)
		} else {
			to = max(to, r.To)
		}
	}
	return orOne(to)
}

// NewSpans lays out when pools became full: a bar for a span, an open arrow
// where the pool was not full yet, a mark for the best guess.
func NewSpans(s SpanSpec) Chart {
	s, dropped, beyond := s.cleaned()
	return Chart{Wide: laySpans(s, Wide), Narrow: laySpans(s, Narrow), Table: s.Table,
		Caption: sentences(s.Caption, beyondWords(spansMost, beyond), rowless(dropped))}
}

func rowless(n int) string {
	if n == 0 {
		return ""
	}
	return "Not drawn: " + count(n, "row", "rows") + " without a usable span."
}

// rowHigh is the height of a row.
const rowHigh = 22.0

// spans is such a chart being laid out.
type spans struct {
	Drawing
	spec SpanSpec
}

// laySpans lays out one drawing.
func laySpans(s SpanSpec, width int) Drawing {
	s.Rows = fitted(s.Rows, width)
	left, right := 12.0, 14.0
	for _, r := range s.Rows {
		left, right = max(left, breadth(r.Label)+11), max(right, breadth(r.Note)+14)
	}
	c := spans{spec: s}
	top := 40.0
	c.Frame = newSheet(head{orChart(s.ID), s.Title, s.Desc}, width, top+rowHigh*float64(max(1, len(s.Rows)))+underAxes)
	x, y := axis{0, s.hours(), 6, nil, "h", orPlain(s.Hour)}, axis{0, 1, 0, nil, "", plain}
	c.rule(plot{left, c.wide - min(right, 0.3*c.wide), top, c.high - underAxes}, x, y)
	c.marked(s.Target, s.TargetLabel, 26)
	if s.HalfLabel != "" {
		c.marked(s.Target/2, s.HalfLabel, 11)
	}
	for i := range s.Rows {
		c.row(s.Rows[i], top+rowHigh*(float64(i)+0.5))
	}
	return c.Drawing
}

// fitted is a copy of the rows with the words that a width has room for.
func fitted(rows []SpanRow, width int) []SpanRow {
	out := slices.Clone(rows)
	for i, r := range out {
		if width <= Narrow {
			out[i].Label, out[i].Note = orLabel(r.Short, r.Label), ""
		}
		out[i].Label = shortened(out[i].Label, 0.34*sheetWide(width))
	}
	return out
}

// marked draws an hour with its name above the plot.
func (c *spans) marked(hour float64, name string, y float64) {
	if hour == 0 {
		return
	}
	x := c.x.Map(hour)
	c.paint("", Shape{"chart-target", "M" + at(x, c.y.From) + "V" + px(y+8)})
	t := c.inSheet(newText(x, y, "middle", name))
	c.crowd.label(t)
	c.say("chart-label chart-due", t)
}

// barHalf is half the height of a bar.
const barHalf = 4.5

// row draws one span.
func (c *spans) row(r SpanRow, y float64) {
	name := newText(c.x.From-8, y, "end", r.Label)
	c.say("chart-label", name)
	x1, bar, open, mid := c.x.Map(r.From), "", "", ""
	if math.IsInf(r.To, 1) {
		open = arrow(x1, c.x.To, y)
	} else {
		bar = "M" + at(x1, y-barHalf) + "H" + px(c.x.Map(r.To)) + "v" + px(2*barHalf) + "H" + px(x1) + "Z"
	}
	if r.Mid > 0 {
		mid = circle(c.x.Map(r.Mid), y, 3.4)
	}
	c.paint("chart-spans", Shape{"chart-row", "M" + at(c.x.From, y) + "H" + px(c.x.To)}, Shape{"chart-span", bar}, Shape{"chart-open", open}, Shape{"chart-marker", mid})
	if note := newText(c.x.To+10, y, "start", r.Note); r.Note != "" && note.box.within(c.crowd.sheet) {
		c.say("chart-tick", note)
	}
}

// arrow is a line to the right with an open head and a bar where it begins.
func arrow(from, to, y float64) string {
	return "M" + at(from, y-barHalf) + "v" + px(2*barHalf) + "M" + at(from, y) + "H" + px(to) + "M" + at(to-5, y-4) + "L" + at(to, y) + "L" + at(to-5, y+4)
}
