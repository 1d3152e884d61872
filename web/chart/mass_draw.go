package chart

// weighings draws the points.
func (m *Mass) weighings(s MassSpec) {
	for _, p := range s.Points {
		x, y := m.x.Map(p.Hour), m.y.Map(p.Mass)
		m.crowd.marks = append(m.crowd.marks, around(x, y, 5))
		if p.LeftOut {
			m.Out += cross(x, y)
			continue
		}
		m.Markers += marker(0, x, y)
	}
}

// floor draws the mass at which to stop, named at its left or its right.
func (m *Mass) floor(s MassSpec) {
	if s.Floor == 0 {
		return
	}
	y := m.y.Map(s.Floor)
	m.Floor = "M" + at(m.x.From, y) + "H" + px(m.x.To)
	w, ok := m.crowd.settle([]wish{
		{newText(m.x.From+6, y-10, "start", s.FloorLabel), 0},
		{newText(m.x.To-4, y-10, "end", s.FloorLabel), 2},
		{newText(m.x.From+6, y+11, "start", s.FloorLabel), 3},
	})
	if ok {
		m.FloorName = w.text
	}
	m.crowd.line(m.x.From, y, m.x.To, y)
}

// line draws the fitted line over the hours weighed, and on to the floor.
func (m *Mass) line(s MassSpec, from float64) {
	if s.Line == nil || s.last() <= from {
		return
	}
	x1, y1 := m.on(*s.Line, from)
	x2, y2 := m.on(*s.Line, s.last())
	m.Line = "M" + at(x1, y1) + "L" + at(x2, y2)
	m.crowd.line(x1, y1, x2, y2)
	if end, ok := s.ends(); ok && end > s.last() && m.x.Inside(end) {
		x3, y3 := m.on(*s.Line, end)
		m.Ahead = "M" + at(x2, y2) + "L" + at(x3, y3)
		m.crowd.line(x2, y2, x3, y3)
	}
	m.rate(s.RateLabel, x1, y1, x2, y2)
}

// on is the place of the line at an hour, held inside the plot.
func (m *Mass) on(l MassLine, hour float64) (x, y float64) {
	return m.x.Map(hour), m.y.Map(clamp(l.Intercept+l.Slope*hour, m.y.Min, m.y.Max))
}

// rate sets the rate beside the line, as near to its middle as there is room.
func (m *Mass) rate(words string, x1, y1, x2, y2 float64) {
	var wishes []wish
	for i, t := range []float64{0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2} {
		x, y := mix(x1, x2, t), mix(y1, y2, t)
		for _, off := range []float64{8, 14, 22} {
			away := float64(i) + off/4
			wishes = append(wishes,
				wish{newText(x+off, y-off, "start", words), away},
				wish{newText(x-off, y+off, "end", words), away + 3})
		}
	}
	if w, ok := m.crowd.settle(wishes); ok && words != "" {
		m.Rate = w.text
	}
}
