package chart

// NewCourse lays out one quantity against the hours lit, for a wide page and
// for a narrow one. Several series are told apart by shape, dash and a name at
// their end.
func NewCourse(s CourseSpec) Chart {
	return NewCourses(s, s)
}

// NewCourses stacks several quantities over one axis of hours. The first spec
// names the chart and gives its caption, table, burns and hours; each of the
// panels gives its own values, limits and name.
func NewCourses(whole CourseSpec, panels ...CourseSpec) Chart {
	dropped, left := 0, 0
	cleaned := make([]CourseSpec, len(panels))
	var far []string
	for i, p := range panels {
		n := 0
		cleaned[i], n = p.cleaned()
		dropped, left = dropped+n, left+cleaned[i].leftOut()
		far = append(far, cleaned[i].farWords())
	}
	whole, _ = whole.cleaned()
	wide, unnamed := layCourses(whole, cleaned, Wide)
	narrow, _ := layCourses(whole, cleaned, Narrow)
	return Chart{Wide: wide, Narrow: narrow, Table: whole.Table,
		Caption: sentences(whole.Caption, sentences(far...), droppedWords(dropped), leftOutWords(left), namesTaken(unnamed))}
}

// leftOut counts the readings that are shown but do not count.
func (s CourseSpec) leftOut() int {
	n := 0
	for _, x := range s.Series {
		for _, p := range x.Points {
			if p.LeftOut {
				n++
			}
		}
	}
	return n
}

// layCourses lays out one drawing of stacked panels.
func layCourses(whole CourseSpec, panels []CourseSpec, width int) (Drawing, int) {
	st := newStack(whole, width, panels)
	unnamed := 0
	for i, p := range panels {
		unnamed += st.course(i, p, width)
	}
	return st.Drawing, unnamed
}

// stack is a drawing of panels over one axis of hours.
type stack struct {
	Drawing
	hours       axis
	plots       []plot
	left, right float64
}

// The height of a panel alone, of one among several, and of what lies between
// two of them.
const (
	between   = 30.0
	underAxes = 27.0
)

// panelHigh is the height of one of n panels.
func panelHigh(n int, w float64) float64 {
	if n == 1 {
		return 156 + 0.18*w
	}
	return 92 + 0.08*w
}

// newStack makes the sheet for some panels.
func newStack(whole CourseSpec, width int, panels []CourseSpec) stack {
	to := whole.hours()
	if len(panels) > 0 {
		whole.Burns = panels[0].Burns
	}
	var ys []axis
	var names []string
	for _, p := range panels {
		to = max(to, p.hours())
		ys = append(ys, p.axis(p.most(len(panels))))
		names = append(names, p.names(width)...)
	}
	return ruled(whole, width, to, ys, names)
}

// ruled makes the sheet for one panel for each value axis, over hours up to
// the last; names are those that stand at the right.
func ruled(whole CourseSpec, width int, last float64, ys []axis, names []string) stack {
	w, n := sheetWide(width), len(ys)
	each, first := panelHigh(n, w), 27.0
	if n > 1 {
		first = 44 // a line for the name, one for the burns
	}
	left := leftRoom(ys...)
	if len(whole.Burns) > 1 {
		left = max(left, breadth(burnWord)+9)
	}
	st := stack{left: left, right: w - labelRoom(width, names), hours: axis{0, last, 6, nil, "h", orPlain(whole.Hour)}}
	st.Frame = newSheet(head{orChart(whole.ID), whole.Title, whole.Desc}, width, first+float64(n)*each+float64(n-1)*between+underAxes)
	for i := range ys {
		top := first + float64(i)*(each+between)
		st.plots = append(st.plots, plot{st.left, st.right, top, top + each})
	}
	return st
}

// most is how many ticks the value axis of one of n panels may have.
func (s CourseSpec) most(n int) int {
	if n > 1 {
		return 4
	}
	return 5
}

// names are the labels of the series that fit the width.
func (s CourseSpec) names(width int) []string {
	var out []string
	for _, x := range s.Series {
		if width <= Narrow && x.Short != "" {
			x.Label = x.Short
		}
		out = append(out, x.Label)
	}
	return out
}

// panel rules the axes of the i-th panel; only the lowest has its hours
// numbered.
func (st *stack) panel(i int, y axis, name string) {
	p, hours := st.plots[i], st.hours
	if i < len(st.plots)-1 {
		hours = hours.wordless()
	}
	st.another(p, hours, y)
	top, foot := p.top-24, p.foot+4
	if i == 0 {
		top = 0
	}
	if i == len(st.plots)-1 {
		foot = st.high
	}
	st.crowd.sheet = box{1, top, st.wide - 2, foot - top}
	st.call(i, name)
}

// call names the i-th panel where there are several.
func (st *stack) call(i int, name string) {
	if len(st.plots) == 1 || name == "" {
		return
	}
	y := st.plots[i].top - 13
	if i == 0 {
		y = 11
	}
	t := newText(st.left, y, "start", name)
	st.crowd.label(t)
	st.say("chart-label chart-name", t)
}

// course draws one quantity into the i-th panel and counts the series that
// found no room for their name.
func (st *stack) course(i int, s CourseSpec, width int) (unnamed int) {
	st.panel(i, s.axis(s.most(len(st.plots))), s.Name)
	c := course{st, s}
	c.burns(i == 0)
	c.note()
	c.limits()
	ends := c.series(s.names(width))
	return st.nameEnds(ends)
}
