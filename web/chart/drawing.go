package chart

// Chart is one chart of a page, ready to be shown: laid out for a wide page
// and for a narrow one, with what is said under it, its numbers as a table,
// and where it can be had as a file.
type Chart struct {
	Wide, Narrow Drawing
	Caption      string
	Table        Table
	Files        []File
}

// File is one way to take a chart away: the words of its link and its address.
type File struct{ Text, Href string }

// Drawing is one layout of a chart: its axes, its marks in the order they are
// painted, and its words above them.
type Drawing struct {
	Frame
	More   []Frame // the axes of further panels; their heads are not used
	Layers []Layer
	Labels []Label
}

// Layer is marks that are painted together. Class names the group that they
// stand in; without one they stand in none.
type Layer struct {
	Class  string
	Shapes []Shape
}

// Shape is one path; an empty one is not drawn.
type Shape struct{ Class, Path string }

// Label is words of a class; empty ones are not drawn.
type Label struct {
	Class string
	Text
}

// another rules a further pair of axes. The drawing's own are those at hand;
// marks and lines of the panel before are no longer in the way.
func (d *Drawing) another(p plot, x, y axis) {
	if d.Ground != "" {
		d.More = append(d.More, Frame{Ground: d.Ground, X: d.X, Y: d.Y})
		d.Ground, d.X, d.Y = "", nil, nil
	}
	d.rule(p, x, y)
	d.crowd.marks, d.crowd.lines = nil, nil
}

// paint adds a layer.
func (d *Drawing) paint(class string, shapes ...Shape) {
	d.Layers = append(d.Layers, Layer{class, shapes})
}

// say adds words.
func (d *Drawing) say(class string, t Text) {
	d.Labels = append(d.Labels, Label{class, t})
}

// ending is where a line ends that bears a name.
type ending struct {
	point
	name string
}

// nameEnds sets the names of lines beside their ends, with leaders where a
// name had to move away, and counts those that found no room. Names of ends
// that are nil or without a name are passed over.
func (d *Drawing) nameEnds(ends []*ending) (unnamed int) {
	marks := make([]*point, len(ends))
	for i, e := range ends {
		if e != nil && e.name != "" {
			marks[i] = &e.point
		}
	}
	heights := spread(marks)
	for i, m := range marks {
		if m != nil && !d.nameEnd(*ends[i], heights[i]) {
			unnamed++
		}
	}
	return unnamed
}

// nameEnd sets one name at about a height; false when there is no room.
func (d *Drawing) nameEnd(e ending, height float64) bool {
	w, ok := d.crowd.settle(beside(e.x, height, shortened(e.name, 0.26*d.wide-9)))
	if !ok {
		return false
	}
	d.paint("", Shape{"chart-leader", leader(e.point, w.text)})
	d.say("chart-label", w.text)
	return true
}

// namesTaken says how many lines bear no name for want of room.
func namesTaken(n int) string {
	if n == 0 {
		return ""
	}
	return count(n, "line is", "lines are") + " drawn without a name for want of room; the table names them all."
}
