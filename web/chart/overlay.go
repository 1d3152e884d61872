package chart

import "strconv"

// overlay is an overlay being laid out.
type overlay struct {
	Drawing
	spec     OverlaySpec
	lanes    []float64 // the height of each series' row of full readings; 0 is none
	wall     float64
	wallName string
	hour     float64
}

// NewOverlay lays out several growth curves over each other, for a wide page
// and for a narrow one. Readings are marked by a shape for each series, its
// curve by a dash of its own, and its name stands at the curve's end. Readings
// of a full pool stand in a row for each series above the plot.
func NewOverlay(s OverlaySpec) Chart {
	s, dropped := s.cleaned()
	wall, label, shared := s.oneWall()
	left, words := 0, ""
	if !shared {
		s, left = s.ofTheirWalls()
		again := 0
		s, again = s.cleaned() // a share of next to nothing is beyond drawing
		dropped += again
		wall, label = 100, "the wall, 100 %"
		words = "The vessels differ, so each width is shown in per cent of its own wall."
	}
	wide, unnamed := layOverlay(s, wall, label, Wide)
	narrow, _ := layOverlay(s, wall, label, Narrow)
	return Chart{Wide: wide, Narrow: narrow, Table: s.Table,
		Caption: sentences(s.Caption, words, wallless(left), droppedWords(dropped), leftOutWords(s.leftOut()), namesTaken(unnamed))}
}

// wallless says how many series are missing for want of a wall.
func wallless(n int) string {
	if n == 0 {
		return ""
	}
	return "Not drawn: " + count(n, "curve", "curves") + " of a vessel whose width is not known."
}

// leftOut counts the readings that are shown but do not count.
func (s OverlaySpec) leftOut() int {
	n := 0
	for _, x := range s.Series {
		for _, p := range x.readings() {
			if p.LeftOut {
				n++
			}
		}
	}
	return n
}

// layOverlay lays out one drawing.
func layOverlay(s OverlaySpec, wall float64, wallName string, width int) (Drawing, int) {
	hour, widest := s.reach(wall)
	names := s.names(width)
	y := axis{0, widest, 5, s.Steps, s.Unit, orPlain(s.Value)}
	x := axis{0, hour, 6, nil, "h", orPlain(s.Hour)}
	w := sheetWide(width)
	rows := s.rows()
	o := overlay{spec: s, wall: wall, wallName: wallName, hour: hour}
	o.Frame = newSheet(head{orChart(s.ID), s.Title, s.Desc}, width, 230+0.18*w+laneHigh*float64(rows))
	top := 27 + laneHigh*float64(rows)
	if rows > 0 {
		top += 8
	}
	o.rule(plot{max(leftRoom(y), breadth(laneName)+9), w - aside - labelRoom(width, names), top, o.high - 27}, x, y)
	o.nameLanes(rows)
	o.lay()
	o.due()
	o.draw()
	return o.Drawing, o.nameEnds(o.ends(names))
}

// laneHigh is the height of a series' row of full readings.
const laneHigh = 12.0

// names are the labels that fit the width.
func (s OverlaySpec) names(width int) []string {
	var out []string
	for _, x := range s.Series {
		if width <= Narrow && x.Short != "" {
			x.Label = x.Short
		}
		out = append(out, x.Label)
	}
	return out
}

// rows counts the series with a full reading.
func (s OverlaySpec) rows() int {
	n := 0
	for _, x := range s.Series {
		if x.everFull() {
			n++
		}
	}
	return n
}

func (x OverlaySeries) everFull() bool {
	for _, p := range x.readings() {
		if p.Full {
			return true
		}
	}
	return false
}

// laneName is what the rows of full readings are called.
const laneName = "full"

// nameLanes names the rows of full readings at the left.
func (o *overlay) nameLanes(rows int) {
	if rows == 0 {
		return
	}
	t := newText(o.x.From-7, 27+laneHigh*float64(rows)/2-2, "end", laneName)
	o.crowd.label(t)
	o.say("chart-tick", t)
}

// lay gives each series with full readings its row, and notes where the
// readings are.
func (o *overlay) lay() {
	y := 27.0
	for _, x := range o.spec.Series {
		lane := 0.0
		if x.everFull() {
			lane = y + laneHigh/2 - 2
			y += laneHigh
		}
		o.lanes = append(o.lanes, lane)
	}
	for i, x := range o.spec.Series {
		for _, p := range x.readings() {
			at := o.place(i, p)
			o.crowd.marks = append(o.crowd.marks, around(at.x, at.y, 5))
		}
	}
}

// place is where a reading of the i-th series stands.
func (o *overlay) place(i int, p GrowthPoint) point {
	if p.Full {
		return point{o.x.Map(p.Hour), o.lanes[i]}
	}
	return point{o.x.Map(p.Hour), o.y.Map(p.Width)}
}

// due draws the target hours, each once, named above the plot; where they
// differ each is named with its series.
func (o *overlay) due() {
	first, several := 0.0, false
	for _, x := range o.spec.Series {
		several = several || first != 0 && x.Target != 0 && x.Target != first
		if first == 0 {
			first = x.Target
		}
	}
	seen := map[float64]bool{0: true}
	for i, x := range o.spec.Series {
		if !seen[x.Target] {
			seen[x.Target] = true
			o.dueAt(x.Target, o.dueName(i, several))
		}
	}
}

// dueName names the target hour of the i-th series.
func (o *overlay) dueName(i int, several bool) string {
	x := o.spec.Series[i]
	if !several {
		return x.TargetLabel
	}
	names := ""
	for _, other := range o.spec.Series {
		if other.Target == x.Target {
			names = joined(names, ", ", orLabel(other.Short, other.Label))
		}
	}
	return x.TargetLabel + ": " + names
}

func (o *overlay) dueAt(hour float64, name string) {
	x := o.x.Map(hour)
	o.paint("", Shape{"chart-target", "M" + at(x, o.y.From) + "V25"})
	o.crowd.line(x, o.y.From, x, 25)
	middle := o.inSheet(newText(x, 11, "middle", name))
	w, ok := o.crowd.settle([]wish{{middle, 0}, {newText(x+4, 11, "start", name), 1}, {newText(x-4, 11, "end", name), 1}})
	if ok {
		o.say("chart-label chart-due", w.text)
	}
}

// joined puts a part between two texts where there are two.
func joined(a, between, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + between + b
}

func orLabel(short, label string) string {
	if short == "" {
		return label
	}
	return short
}

// seriesClass is the class of the i-th series.
func seriesClass(i int) string { return "chart-series chart-s" + strconv.Itoa(i%overlaid) }
