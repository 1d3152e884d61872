package chart

import (
	"math"
	"strconv"
)

// The widths that a chart is laid out for; the page shows the one that fits.
const (
	Wide   = 720
	Narrow = 360
)

// Frame is what charts with two axes have in common, ready to be drawn.
type Frame struct {
	ID, Class   string
	ViewBox     string
	Title, Desc string
	Ground      string // path of the line at the foot of the plot
	X, Y        []Tick

	x, y       Scale
	wide, high float64
	crowd      crowd
}

// Tick is one division of an axis: its line and its label.
type Tick struct {
	Line  string
	Label Text
}

// Table is the data under a chart, already in words.
type Table struct {
	Name string // what can be opened; empty is the readings
	Head []string
	Rows [][]string
}

// called names the table where it is opened.
func (t Table) called() string {
	if t.Name == "" {
		return "The readings as a table"
	}
	return t.Name
}

// axis says how one axis is divided and named.
type axis struct {
	lo, hi float64
	most   int // ticks
	steps  []float64
	unit   string
	words  func(float64) string
}

// wordless is the axis with divisions that are not named.
func (a axis) wordless() axis {
	a.unit, a.words = "", func(float64) string { return "" }
	return a
}

// without is the axis with the division at v not named.
func (a axis) without(v float64) axis {
	words := a.words
	a.words = func(x float64) string {
		if x == v {
			return ""
		}
		return words(x)
	}
	return a
}

// ticks are the axis's divisions as numbers and as words, the last with unit.
func (a axis) ticks() ([]float64, []string) {
	at := NewScale(a.lo, a.hi, 0, 1).Ticks(a.most, a.steps)
	words := make([]string, len(at))
	for i, v := range at {
		if words[i] = a.words(v); i == len(at)-1 && a.unit != "" {
			words[i] += " " + a.unit
		}
	}
	return at, words
}

// thinned is the axis with no more ticks than have room for their labels side
// by side in a given length, the last perhaps moved in from the edge.
func (a axis) thinned(room float64) axis {
	for ; a.most > 1; a.most-- {
		at, words := a.ticks()
		widest := 0.0
		for _, w := range words {
			widest = math.Max(widest, breadth(w))
		}
		if len(at) < 2 || (at[1]-at[0])/(a.hi-a.lo)*room > 1.5*widest+4 {
			break
		}
	}
	return a
}

// head names a chart.
type head struct{ id, title, desc string }

// newFrame lays out the axes in a drawing of a given width, leaving room for
// labels at the right of the plot.
func newFrame(h head, width int, x, y axis, right float64) Frame {
	w := sheetWide(width)
	high := 210 + 0.18*w
	f := newSheet(h, width, high)
	f.rule(plot{leftRoom(y), w - right, 27, high - 27}, x, y)
	return f
}

// sheetWide is the width of a sheet in user units; none is narrower than 200.
func sheetWide(width int) float64 { return math.Max(float64(width), 200) }

// newSheet is a drawing of a given width and height with nothing on it yet.
func newSheet(h head, width int, high float64) Frame {
	w := sheetWide(width)
	f := Frame{
		ID: h.id + "-" + strconv.Itoa(width), Title: h.title, Desc: h.desc,
		Class: "chart chart-wide", ViewBox: "0 0 " + px(w) + " " + px(high),
		wide: w, high: high,
	}
	if width <= Narrow {
		f.Class = "chart chart-narrow"
	}
	f.crowd.sheet = box{1, 0, w - 2, high}
	return f
}

// plot is where a pair of axes stands on a sheet: its four edges.
type plot struct{ left, right, top, foot float64 }

// leftRoom is the room that the labels of vertical axes take at the left of a
// plot.
func leftRoom(ys ...axis) float64 {
	left := 12.0
	for _, y := range ys {
		_, words := y.ticks()
		for _, w := range words {
			left = math.Max(left, breadth(w)+9)
		}
	}
	return left
}

// rule draws a pair of axes into a plot.
func (f *Frame) rule(p plot, x, y axis) {
	ys, yWords := y.ticks()
	xs, xWords := x.thinned(p.right - p.left).ticks()
	f.x = NewScale(x.lo, x.hi, p.left, p.right)
	f.y = NewScale(y.lo, y.hi, p.foot, p.top)
	f.Ground = "M" + at(p.left, f.y.From) + "H" + px(f.x.To)
	f.divide(xs, xWords, ys, yWords)
}

// divide draws the ticks of both axes and notes the room that they take.
func (f *Frame) divide(xs []float64, xWords []string, ys []float64, yWords []string) {
	for i, v := range xs {
		x := f.x.Map(v)
		label := f.inSheet(newText(x, f.y.From+16, "middle", xWords[i]))
		f.X = append(f.X, Tick{"M" + at(x, f.y.From) + "v5", label})
		f.crowd.label(label)
	}
	for i, v := range ys {
		y := f.y.Map(v)
		label := newText(f.x.From-7, y, "end", yWords[i])
		f.Y = append(f.Y, Tick{"M" + at(f.x.From, y) + "H" + px(f.x.To), label})
		f.crowd.label(label)
	}
}

// inSheet moves a label that would leave the drawing at its sides.
func (f *Frame) inSheet(t Text) Text {
	middle, y := t.box.x+t.box.w/2, t.box.y+lineHigh/2
	lo, hi := f.crowd.sheet.x+t.box.w/2, f.crowd.sheet.x+f.crowd.sheet.w-t.box.w/2
	if middle < lo || middle > hi {
		return newText(clamp(middle, lo, max(lo, hi)), y, "middle", t.Words)
	}
	return t
}

// labelRoom is the room at the right of a plot for the longest of the labels,
// no more than a share of the width.
func labelRoom(width int, labels []string) float64 {
	room := 14.0
	for _, l := range labels {
		room = math.Max(room, breadth(l)+12)
	}
	return math.Min(room, 0.26*math.Max(float64(width), 200))
}

// orPlain is the given way of writing axis numbers, or the plain one.
func orPlain(words func(float64) string) func(float64) string {
	if words == nil {
		return plain
	}
	return words
}
