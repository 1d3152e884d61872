package chart

import "math"

// RungSpec is a ladder of wicks, weakest first, with the width of the pool at
// the target hour for each, if no wall stopped it. Widths are in the reader's
// unit.
type RungSpec struct {
	ID, Title, Desc string
	Unit            string  // of widths, such as "mm"
	Wall            float64 // inner width; 0 is unknown
	WallLabel       string
	BandLabel       string // names the band that is on target
	Rungs           []Rung
	Caption         string
	Table           Table
	Steps           []float64            // steps of the width axis; none is 1-2-5
	Value           func(float64) string // axis numbers without unit; nil is plain
}

// Rung is one wick: the width that it keeps within with 8 chances in 10, and its middle.
type Rung struct {
	Label          string // the wick's, under the axis
	Shown          string // its middle in words, beside its mark; empty is not shown
	Low, Mid, High float64
	AtLeast        bool    // only Low is known: Mid and High are not looked at
	Guess          bool    // it was not burned: drawn open and dashed
	Below          bool    // it stands below the line: its mark is crossed
	Soon           float64 // the width from which its pool would be full too soon; 0 is unknown
}

// cleaned is a copy of the rungs that can be drawn, and how many cannot.
func (s RungSpec) cleaned() (RungSpec, int) {
	var rungs []Rung
	for _, r := range s.Rungs {
		if r.AtLeast {
			r.Mid, r.High = r.Low, r.Low
		}
		if fit(r.Low) && fit(r.Mid) && fit(r.High) && r.Low <= r.Mid && r.Mid <= r.High {
			r.Soon = known(r.Soon)
			rungs = append(rungs, r)
		}
	}
	dropped := len(s.Rungs) - len(rungs)
	s.Rungs, s.Wall = rungs, known(s.Wall)
	return s, dropped
}

// span is the stretch of widths to be held.
func (s RungSpec) span() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	if s.Wall > 0 {
		low, high = s.Wall, s.Wall
	}
	for _, r := range s.Rungs {
		low, high = min(low, r.Low), max(high, r.High)
		if r.AtLeast {
			high = max(high, 1.1*r.Low) // room for the arrow
		}
	}
	if low > high {
		low, high = 0, 1
	}
	return padded(low, high, false)
}

// NewRungs lays out a ladder: filled marks for wicks that were burned, open
// ones with dashed intervals for guesses from their neighbours.
func NewRungs(s RungSpec) Chart {
	s, dropped := s.cleaned()
	wide, unnamed := layRungs(s, Wide)
	narrow, _ := layRungs(s, Narrow)
	return Chart{Wide: wide, Narrow: narrow, Table: s.Table, Caption: sentences(s.Caption, rungless(dropped), wicksTaken(unnamed))}
}

func rungless(n int) string {
	if n == 0 {
		return ""
	}
	return "Not drawn: " + count(n, "wick", "wicks") + " without a usable width."
}

func wicksTaken(n int) string {
	if n == 0 {
		return ""
	}
	return count(n, "wick is", "wicks are") + " drawn without a label for want of room; the table names them all."
}

// rungs is such a chart being laid out.
type rungs struct {
	Drawing
	spec RungSpec
}

// layRungs lays out one drawing and counts the wicks that bear no label.
func layRungs(s RungSpec, width int) (Drawing, int) {
	low, high := s.span()
	y := axis{low, high, 5, s.Steps, s.Unit, orPlain(s.Value)}
	x := axis{-0.5, max(1, float64(len(s.Rungs))) - 0.5, 0, nil, "", plain}
	c := rungs{newDrawing(head{orChart(s.ID), s.Title, s.Desc}, width, x, y), s}
	for i, r := range s.Rungs {
		c.onTarget(i, r)
	}
	c.wall()
	unnamed := c.wicks()
	for i, r := range s.Rungs {
		c.rung(i, r)
	}
	c.nameBand()
	return c.Drawing, unnamed
}

// newDrawing is a drawing with one pair of axes and a narrow margin.
func newDrawing(h head, width int, x, y axis) Drawing {
	return Drawing{Frame: newFrame(h, width, x, y, 14)}
}

// onTarget shades where the i-th pool is full in time and not too soon.
func (c *rungs) onTarget(i int, r Rung) {
	if r.Soon <= c.spec.Wall || c.spec.Wall == 0 {
		return
	}
	top, foot := c.y.Map(min(r.Soon, c.y.Max)), c.y.Map(c.spec.Wall)
	left, right := c.x.Map(float64(i)-0.5), c.x.Map(float64(i)+0.5)
	c.paint("", Shape{"chart-within", "M" + at(left, top) + "H" + px(right) + "V" + px(foot) + "H" + px(left) + "Z"})
}

func (c *rungs) wall() {
	if c.spec.Wall == 0 {
		return
	}
	y := c.y.Map(c.spec.Wall)
	c.paint("", Shape{"chart-wall", "M" + at(c.x.From, y) + "H" + px(c.x.To)})
	for i, r := range c.spec.Rungs {
		x := c.x.Map(float64(i))
		c.crowd.marks = append(c.crowd.marks, around(x, c.y.Map(r.Mid), 6))
		c.crowd.line(x, c.y.Map(r.Low), x, c.y.Map(r.High))
	}
	if w, ok := c.crowd.settle(onLevel(c.x, y, c.spec.WallLabel)); ok {
		c.say("chart-label", w.text)
	}
	c.crowd.line(c.x.From, y, c.x.To, y)
}

// wicks names the rungs under the axis and counts those without room.
func (c *rungs) wicks() (unnamed int) {
	each := c.x.Map(1) - c.x.Map(0)
	for i, r := range c.spec.Rungs {
		t := c.inSheet(newText(c.x.Map(float64(i)), c.y.From+16, "middle", shortened(r.Label, max(each-6, 15))))
		w, ok := c.crowd.settle([]wish{{t, 0}})
		if !ok {
			unnamed++
			continue
		}
		c.say("chart-tick", w.text)
	}
	return unnamed
}

// rung draws the i-th wick.
func (c *rungs) rung(i int, r Rung) {
	x, y := c.x.Map(float64(i)), c.y.Map(r.Mid)
	class := "chart-rung"
	if r.Guess {
		class = "chart-rung chart-guess"
	}
	mark, whisker, out := marker(0, x, y), "", ""
	switch {
	case r.AtLeast:
		whisker = upArrow(x, y, c.y.Map(r.Low*1.1))
	case r.High > r.Low:
		whisker = upright(x, c.y.Map(r.High), c.y.Map(r.Low))
	}
	if r.Below {
		class, mark, out = class+" chart-below", circle(x, y, 6.4), cross(x, y)
	}
	c.paint(class, Shape{"chart-whisker", whisker}, Shape{"chart-marker", mark}, Shape{"chart-out", out})
	if r.Shown == "" {
		return
	}
	if w, ok := c.crowd.settle(nearBy(x, y, r.Shown)); ok {
		c.say("chart-label", w.text)
	}
}

// nearBy wishes for a place at the right of a mark or at its left, and no
// farther: a number must not stray.
func nearBy(x, y float64, words string) []wish {
	var out []wish
	for i, dy := range []float64{0, -9, 9} {
		out = append(out, wish{newText(x+9, y+dy, "start", words), float64(i)}, wish{newText(x-9, y+dy, "end", words), 2 + float64(i)})
	}
	return out
}

// upArrow is a line upwards with an open head and a bar where it begins.
func upArrow(x, from, to float64) string {
	return "M" + at(x-3, from) + "h6M" + at(x, from) + "V" + px(to) + "M" + at(x-4, to+5) + "L" + at(x, to) + "L" + at(x+4, to+5)
}

// nameBand names the band that is on target where it finds room.
func (c *rungs) nameBand() {
	var wishes []wish
	for i, r := range c.spec.Rungs {
		if r.Soon <= c.spec.Wall || c.spec.Wall == 0 {
			continue
		}
		top, foot := c.y.Map(min(r.Soon, c.y.Max)), c.y.Map(c.spec.Wall)
		if foot-top < lineHigh {
			continue
		}
		wishes = append(wishes, wish{newText(c.x.Map(float64(i)-0.5)+6, top+9, "start", c.spec.BandLabel), float64(i) / 4})
	}
	if w, ok := c.crowd.settle(wishes); ok && c.spec.BandLabel != "" {
		c.say("chart-tick", w.text)
	}
}
