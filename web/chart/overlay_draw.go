package chart

// draw paints ranges first, then the wall, then curves and readings.
func (o *overlay) draw() {
	for i, x := range o.spec.Series {
		area, _ := o.curve(x.Band)
		o.paint(seriesClass(i), Shape{"chart-range", area})
	}
	o.line100()
	for i, x := range o.spec.Series {
		_, curve := o.curve(x.Band)
		marks, out := o.readings(i, x)
		if end, ok := o.end(x); ok {
			marks += marker(i%overlaid, end.x+aside, end.y) // beside the curve: it is no reading
		}
		shapes := []Shape{{"chart-fit", curve}}
		if len(x.Band) == 0 {
			shapes = append(shapes, Shape{"chart-line", o.joins(x)})
		}
		o.paint(seriesClass(i), append(shapes, Shape{"chart-marker", marks}, Shape{"chart-out", out})...)
	}
}

// line100 draws the wall, named where no reading is in the way.
func (o *overlay) line100() {
	if o.wall == 0 {
		return
	}
	y := o.y.Map(o.wall)
	o.paint("", Shape{"chart-wall", "M" + at(o.x.From, y) + "H" + px(o.x.To)})
	if w, ok := o.crowd.settle(onLevel(o.x, y, o.wallName)); ok {
		o.say("chart-label", w.text)
	}
	o.crowd.line(o.x.From, y, o.x.To, y)
}

// onLevel wishes for a place above or below a level line, at its left, its right
// or its middle.
func onLevel(x Scale, y float64, words string) []wish {
	var out []wish
	for _, dy := range []float64{-10, 11} {
		out = append(out,
			wish{newText(x.From+6, y+dy, "start", words), dy / 10},
			wish{newText(x.To-4, y+dy, "end", words), 3 + dy/10},
			wish{newText((x.From+x.To)/2, y+dy, "middle", words), 6 + dy/10})
	}
	return out
}

// curve is the area of a fitted range and its middle, cut where they leave the
// plot.
func (o *overlay) curve(ps []BandPoint) (area, curve string) {
	g := Growth{Frame: o.Frame}
	b := g.band(GrowthBand{Points: ps})
	return b.Area, b.Curve
}

// readings are the marks of a series, and the crosses of those left out.
func (o *overlay) readings(i int, x OverlaySeries) (marks, out string) {
	for _, p := range x.readings() {
		at := o.place(i, p)
		if p.LeftOut {
			out += cross(at.x, at.y)
			continue
		}
		marks += marker(i%overlaid, at.x, at.y)
	}
	return marks, out
}

// joins is a line through the readings of each burn, up to the wall.
func (o *overlay) joins(x OverlaySeries) string {
	d := ""
	for _, b := range x.Burns {
		pen := "M"
		for _, p := range b {
			if !p.LeftOut {
				d += pen + at(o.x.Map(p.Hour), o.y.Map(p.Width))
				pen = "L"
			}
		}
	}
	return d
}

// aside is how far from a curve's end the mark stands that names it.
const aside = 9.0

// ends are where the curves end, or the last readings where there are none.
func (o *overlay) ends(names []string) []*ending {
	out := make([]*ending, len(o.spec.Series))
	for i, x := range o.spec.Series {
		if p, ok := o.end(x); ok {
			out[i] = &ending{point{p.x + aside, p.y}, names[i]}
		}
	}
	for _, x := range o.spec.Series {
		o.note(x)
	}
	return out
}

// end is the last place of a curve that is on the plot.
func (o *overlay) end(x OverlaySeries) (point, bool) {
	var last point
	found := false
	for _, p := range x.Band {
		if o.x.Inside(p.Hour) && o.y.Inside(p.Mid) {
			last, found = point{o.x.Map(p.Hour), o.y.Map(p.Mid)}, true
		}
	}
	if found {
		return last, true
	}
	for _, p := range x.readings() {
		if at := (point{o.x.Map(p.Hour), o.y.Map(p.Width)}); !p.LeftOut && (!found || at.x >= last.x) {
			last, found = at, true
		}
	}
	return last, found
}

// note keeps names off a curve.
func (o *overlay) note(x OverlaySeries) {
	for i := 1; i < len(x.Band); i++ {
		a, b := x.Band[i-1], x.Band[i]
		if o.x.Inside(b.Hour) && o.y.Inside(a.Mid) && o.y.Inside(b.Mid) {
			o.crowd.line(o.x.Map(a.Hour), o.y.Map(a.Mid), o.x.Map(b.Hour), o.y.Map(b.Mid))
		}
	}
}
