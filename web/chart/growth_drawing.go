package chart

// Drawing is the chart as marks in the order they are painted.
func (g Growth) Drawing() Drawing {
	d := Drawing{Frame: g.Frame}
	for _, b := range g.Bands {
		d.paint("", Shape{"chart-band", b.Area})
	}
	d.paint("", Shape{"chart-target", g.Target}, Shape{"chart-wall", g.Wall})
	for _, b := range g.Bands {
		d.paint("", Shape{"chart-curve", b.Curve})
	}
	for _, b := range g.Burns {
		d.paint(b.Class, Shape{"chart-leader", b.Leader}, Shape{"chart-line", b.Line}, Shape{"chart-full", b.Full},
			Shape{"chart-marker", b.Markers}, Shape{"chart-out", b.Out})
	}
	d.say("chart-label chart-due", g.Due)
	d.say("chart-label", g.WallName)
	for _, b := range g.Burns {
		d.say("chart-label", b.Name)
	}
	return d
}

// Drawing is the chart as marks in the order they are painted.
func (m Mass) Drawing() Drawing {
	d := Drawing{Frame: m.Frame}
	d.paint("", Shape{"chart-wall", m.Floor}, Shape{"chart-curve", m.Line}, Shape{"chart-curve chart-ahead", m.Ahead})
	d.paint("chart-burn chart-now", Shape{"chart-marker", m.Markers}, Shape{"chart-out", m.Out})
	d.say("chart-label", m.FloorName)
	d.say("chart-label", m.Rate)
	return d
}
