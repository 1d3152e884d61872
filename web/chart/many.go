package chart

// NewMany lays out a grid of small growth charts: four side by side on a wide
// page, two on a narrow one. Only the first of a row has its widths numbered,
// only the last of a column its hours.
func NewMany(s ManySpec) Chart {
	s, dropped, beyond := s.cleaned()
	return Chart{Wide: layMany(s, Wide, 4), Narrow: layMany(s, Narrow, 2), Table: s.Table,
		Caption: sentences(s.Caption, s.key(), beyondWords(manyMost, beyond), droppedWords(dropped), leftOutWords(s.leftOut()))}
}

// The measures of a grid of small charts.
const (
	cellHigh  = 96.0
	cellApart = 16.0
	cellTitle = 34.0 // between two rows: the ground's ticks and the next title
)

// layMany lays out one drawing with so many cells side by side.
func layMany(s ManySpec, width, across int) Drawing {
	hour, widest := s.reach()
	y, x := axis{0, widest, 4, s.Steps, s.Unit, orPlain(s.Value)}, axis{0, hour, 4, nil, "h", orPlain(s.Hour)}
	n := len(s.Cells)
	rows := max(1, (n+across-1)/across)
	var d Drawing
	d.Frame = newSheet(head{orChart(s.ID), s.Title, s.Desc}, width, 24+float64(rows)*cellHigh+float64(rows-1)*cellTitle+underAxes)
	left := leftRoom(y)
	each := (d.wide - left - 14 - float64(across-1)*cellApart) / float64(across)
	for i, c := range s.Cells {
		at := point{left + float64(i%across)*(each+cellApart), 24 + float64(i/across)*(cellHigh+cellTitle)}
		xi, yi := x, y
		if i+across < n {
			xi = x.wordless()
		}
		if i%across > 0 {
			xi, yi = xi.without(0), y.wordless() // the neighbour's last hour stands there
		}
		d.another(plot{at.x, at.x + each, at.y, at.y + cellHigh}, xi, yi)
		d.cell(s, c, each)
	}
	return d
}

// cell draws one small chart on its axes.
func (d *Drawing) cell(s ManySpec, c ManyCell, each float64) {
	d.entitle(c, each)
	g := Growth{Frame: d.Frame}
	band := g.band(GrowthBand{Points: c.Fitted})
	d.paint("", Shape{"chart-band", band.Area}, Shape{"chart-target", d.cellTarget(s)}, Shape{"chart-wall", d.cellWall(s)}, Shape{"chart-curve", band.Curve})
	line, full, marks, out := "", "", "", ""
	for _, b := range c.Burns {
		pen := "M"
		for _, p := range b {
			x, y := d.x.Map(p.Hour), d.y.Map(p.Width)
			if p.LeftOut {
				out += cross(x, y)
				continue
			}
			if p.Full {
				full += "M" + at(x, y) + "v-11"
			}
			line += pen + at(x, y)
			pen = "L"
			marks += circle(x, y, 3)
		}
	}
	if len(c.Burns) > 1 {
		line = "" // burns of one candle would only hide each other
	}
	d.paint("chart-burn chart-now chart-small", Shape{"chart-line", line}, Shape{"chart-full", full}, Shape{"chart-marker", marks}, Shape{"chart-out", out})
}

// entitle sets a cell's title, and its note where there is room.
func (d *Drawing) entitle(c ManyCell, each float64) {
	y := d.y.To - 10
	t := newText(d.x.From, y, "start", shortened(c.Title, each))
	d.crowd.label(t)
	d.say("chart-label", t)
	if note := newText(d.x.To, y, "end", c.Note); c.Note != "" && t.box.w+note.box.w+8 < each {
		d.crowd.label(note)
		d.say("chart-tick", note)
	}
}

func (d *Drawing) cellTarget(s ManySpec) string {
	if s.Target == 0 {
		return ""
	}
	return "M" + at(d.x.Map(s.Target), d.y.From) + "V" + px(d.y.To)
}

func (d *Drawing) cellWall(s ManySpec) string {
	if s.Wall == 0 {
		return ""
	}
	return "M" + at(d.x.From, d.y.Map(s.Wall)) + "H" + px(d.x.To)
}
