package chart

// Sign is what one burn says of one fault.
type Sign int

// The signs, each with a shape of its own.
const (
	NotLooked Sign = iota // a dash
	Clean                 // a small open ring
	Slight                // a ring, half filled
	Shown                 // a filled square
)

// SignSpec is a candle's faults over its life: a row for each fault, a column
// for each burn.
type SignSpec struct {
	ID, Title, Desc string
	Columns         []string // the burns
	Rows            []SignRow
	Words           [4]string // what the four signs are called, in their order
	Caption         string
	Table           Table
}

// SignRow is one fault with a sign for each column.
type SignRow struct {
	Name  string
	Limit string // from where on it is one, in words; at the right on a wide page
	Signs []Sign
}

// NewSigns lays out faults over a candle's life. Columns for which there is no
// room are counted, the earliest first to go.
func NewSigns(s SignSpec) Chart {
	wide, _ := laySigns(s, Wide)
	narrow, lost := laySigns(s, Narrow)
	return Chart{Wide: wide, Narrow: narrow, Table: s.Table, Caption: sentences(s.Caption, columnsLost(lost))}
}

func columnsLost(n int) string {
	if n == 0 {
		return ""
	}
	return "On a narrow page the first " + count(n, "burn is", "burns are") + " not drawn; the table has them all."
}

// signs is such a chart being laid out.
type signs struct {
	Drawing
	spec  SignSpec
	left  float64
	each  float64
	first int // the first column drawn
}

// The room that a column needs and may take.
const (
	columnLeast = 15.0
	columnMost  = 34.0
)

// laySigns lays out one drawing and counts the columns left out.
func laySigns(s SignSpec, width int) (Drawing, int) {
	c := signs{spec: s, left: breadth("burn") + 12}
	c.Frame = newSheet(head{orChart(s.ID), s.Title, s.Desc}, width, 30+rowHigh*float64(max(1, len(s.Rows)))+30)
	right := 8.0
	for _, r := range s.Rows {
		c.left = max(c.left, breadth(r.Name)+12)
		if width > Narrow {
			right = max(right, breadth(r.Limit)+14)
		}
	}
	c.left = min(c.left, 0.42*c.wide)
	room := c.wide - c.left - min(right, 0.34*c.wide)
	n := len(s.Columns)
	c.first = max(0, n-int(room/columnLeast))
	c.each = min(room/float64(max(1, n-c.first)), columnMost)
	c.columns()
	for i, r := range s.Rows {
		c.row(i, r, width > Narrow)
	}
	c.key()
	return c.Drawing, c.first
}

// at is the middle of the k-th column.
func (c *signs) at(k int) float64 { return c.left + c.each*(float64(k-c.first)+0.5) }

// columns names the burns over the rows, as many as have room.
func (c *signs) columns() {
	title := newText(c.left-8, 13, "end", "burn")
	c.crowd.label(title)
	c.say("chart-tick", title)
	for k := c.first; k < len(c.spec.Columns); k++ {
		if w, ok := c.crowd.settle([]wish{{newText(c.at(k), 13, "middle", c.spec.Columns[k]), 0}}); ok {
			c.say("chart-tick", w.text)
		}
	}
}

// row draws one fault.
func (c *signs) row(i int, r SignRow, limited bool) {
	y := 30 + rowHigh*(float64(i)+0.5)
	end := c.left + c.each*float64(len(c.spec.Columns)-c.first)
	c.paint("", Shape{"chart-row", "M" + at(c.left, y+rowHigh/2) + "H" + px(end)})
	c.say("chart-label", newText(c.left-8, y, "end", shortened(r.Name, c.left-10)))
	var shapes []Shape
	for k := c.first; k < min(len(r.Signs), len(c.spec.Columns)); k++ {
		shapes = append(shapes, signShapes(r.Signs[k], c.at(k), y)...)
	}
	c.paint("chart-signs", shapes...)
	if limited {
		c.say("chart-tick", newText(end+10, y, "start", shortened(r.Limit, c.wide-end-12)))
	}
}

// signShapes are the marks of a sign about a point.
func signShapes(s Sign, x, y float64) []Shape {
	switch s {
	case Clean:
		return []Shape{{"chart-clean", circle(x, y, 3)}}
	case Slight:
		return []Shape{{"chart-clean", circle(x, y, 4.6)}, {"chart-shown", "M" + at(x, y-4.6) + "a4.6 4.6 0 0 1 0 9.2Z"}}
	case Shown:
		return []Shape{{"chart-shown", polygon(x, y, -4.6, -4.6, 4.6, -4.6, 4.6, 4.6, -4.6, 4.6)}}
	}
	return []Shape{{"chart-dash", "M" + at(x-3, y) + "h6"}}
}

// key says under the rows what each sign is, in their order, as far as there
// is room.
func (c *signs) key() {
	x, y := 8.0, c.high-13
	for _, s := range []Sign{Clean, Slight, Shown, NotLooked} {
		t := newText(x+10, y, "start", c.spec.Words[s])
		if c.spec.Words[s] == "" || !t.box.within(c.crowd.sheet) {
			continue
		}
		c.paint("chart-signs", signShapes(s, x, y)...)
		c.say("chart-tick", t)
		x += t.box.w + 18
	}
}
