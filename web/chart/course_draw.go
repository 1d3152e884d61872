package chart

import "math"

// course draws one quantity into a panel that has been ruled.
type course struct {
	*stack
	spec CourseSpec
}

// burns draws a hairline where one burn ends and the next begins, and numbers
// the burns over the plot where that is asked for and there is room.
func (c course) burns(numbered bool) {
	d := ""
	for i, b := range c.spec.Burns {
		if x := c.x.Map(b.To); i < len(c.spec.Burns)-1 {
			d += "M" + at(x, c.y.From) + "V" + px(c.y.To)
		}
		if numbered {
			c.number(b)
		}
	}
	c.paint("", Shape{"chart-rest", d})
	if numbered && d != "" {
		c.settleTick(newText(c.x.From-7, c.y.To-8, "end", burnWord))
	}
}

// burnWord is what the numbers over a plot count.
const burnWord = "burn"

// number sets the label of a burn over its hours, where it fits them.
func (c course) number(b CourseBurn) {
	t := newText(c.x.Map((b.From+b.To)/2), c.y.To-8, "middle", b.Label)
	if t.box.w < c.x.Map(b.To)-c.x.Map(b.From)-2 {
		c.settleTick(t)
	}
}

// settleTick sets a small label in its place or not at all.
func (c course) settleTick(t Text) {
	if w, ok := c.crowd.settle([]wish{{t, 0}}); ok {
		c.say("chart-tick", w.text)
	}
}

// note keeps names off the values.
func (c course) note() {
	for _, x := range c.spec.Series {
		for _, run := range runs(x.Points) {
			for i, p := range run {
				px, py := c.place(p)
				c.crowd.marks = append(c.crowd.marks, around(px, py, 5))
				if i > 0 {
					qx, qy := c.place(run[i-1])
					c.crowd.line(qx, qy, px, py)
				}
			}
		}
		for _, p := range x.Steps {
			y := c.y.Map(p.Mid)
			c.crowd.line(c.x.Map(p.From), y, c.x.Map(p.To), y)
			c.crowd.marks = append(c.crowd.marks, around(c.x.Map((p.From+p.To)/2), y, 5))
		}
	}
}

func (c course) place(p CoursePoint) (x, y float64) { return c.x.Map(p.Hour), c.y.Map(p.Value) }

// limits draws the near limits, each named at its line.
func (c course) limits() {
	near, _ := c.spec.drawn()
	for _, l := range near {
		if l.High > l.Low {
			top, foot := c.level(l.High), c.level(l.Low)
			c.paint("", Shape{"chart-within", "M" + at(c.x.From, top) + "H" + px(c.x.To) + "V" + px(foot) + "H" + px(c.x.From) + "Z"})
		}
		y := c.y.Map(l.Value)
		c.paint("", Shape{"chart-limit", "M" + at(c.x.From, y) + "H" + px(c.x.To)})
		if w, ok := c.crowd.settle(append(onLevel(c.x, y, l.Label), fartherOff(c.x, y, l.Label)...)); ok {
			c.say("chart-label", w.text)
		}
		c.crowd.line(c.x.From, y, c.x.To, y)
	}
}

// fartherOff wishes for a place a line away from a level line that is crowded
// along its whole length.
func fartherOff(x Scale, y float64, words string) []wish {
	var out []wish
	for _, dy := range []float64{-19, 20} {
		out = append(out, wish{newText(x.From+6, y+dy, "start", words), 8 + dy/10}, wish{newText(x.To-4, y+dy, "end", words), 10 + dy/10})
	}
	return out
}

// level is the height of a value, held inside the plot.
func (c course) level(v float64) float64 { return c.y.Map(clamp(v, c.y.Min, c.y.Max)) }

// series draws every series and says where each ends.
func (c course) series(names []string) []*ending {
	ends := make([]*ending, len(names))
	for i, x := range c.spec.Series {
		line, marks, out := "", "", ""
		for _, run := range runs(x.Points) {
			pen := "M"
			for _, p := range run {
				px, py := c.place(p)
				line += pen + at(px, py)
				pen = "L"
				marks += c.mark(i, px, py)
				ends[i] = &ending{point{px, py}, names[i]}
			}
		}
		for _, p := range x.Points {
			if p.LeftOut {
				out += cross(c.place(p))
			}
		}
		step, whisker, mids := c.steps(i, x.Steps)
		if n := len(x.Steps); n > 0 {
			ends[i] = &ending{point{c.x.Map(x.Steps[n-1].To), c.y.Map(x.Steps[n-1].Mid)}, names[i]}
		}
		c.paint(seriesClass(i), Shape{"chart-line", line}, Shape{"chart-step", step}, Shape{"chart-whisker", whisker},
			Shape{"chart-marker", marks + mids}, Shape{"chart-out", out})
	}
	return ends
}

// mark is a reading's mark; readings that are crowded are dots.
func (c course) mark(i int, x, y float64) string {
	if c.crowded() {
		return circle(x, y, dotRadius)
	}
	return marker(i%overlaid, x, y)
}

// crowded reports whether one series has more readings than marks have room.
func (c course) crowded() bool {
	for _, x := range c.spec.Series {
		if float64(len(x.Points))*9 > c.x.To-c.x.From && len(c.spec.Series) == 1 {
			return true
		}
	}
	return false
}

// steps draws values of whole burns with their intervals.
func (c course) steps(i int, steps []CourseStep) (line, whisker, mids string) {
	for _, p := range steps {
		x, y := c.x.Map((p.From+p.To)/2), c.y.Map(p.Mid)
		line += "M" + at(c.x.Map(p.From), y) + "H" + px(c.x.Map(p.To))
		if p.High > p.Low {
			top, foot := c.y.Map(p.High), c.y.Map(p.Low)
			whisker += upright(x, top, foot)
		}
		mids += marker(i%overlaid, x, y)
	}
	return line, whisker, mids
}

// upright is a whisker with a short bar at either end.
func upright(x, top, foot float64) string {
	return "M" + at(x, top) + "V" + px(foot) + "M" + at(x-3, top) + "h6M" + at(x-3, foot) + "h6"
}

// runs are the readings that count, parted where a burn ends.
func runs(ps []CoursePoint) [][]CoursePoint {
	var out [][]CoursePoint
	last := math.MinInt
	for _, p := range ps {
		if p.LeftOut {
			continue
		}
		if p.Burn != last {
			out, last = append(out, nil), p.Burn
		}
		out[len(out)-1] = append(out[len(out)-1], p)
	}
	return out
}
