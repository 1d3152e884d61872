package chart

// NewMassAndRate puts a candle's mass over the burn rate of each of its burns,
// both over the same hours. The rate's caption and table are those of the
// whole; where it has none, the mass's.
func NewMassAndRate(m MassSpec, rate CourseSpec) Chart {
	m, lost := m.cleaned()
	rate, dropped := rate.cleaned()
	wide, unnamed := layMassAndRate(m, rate, Wide)
	narrow, _ := layMassAndRate(m, rate, Narrow)
	c := Chart{Wide: wide, Narrow: narrow, Table: rate.Table}
	if len(c.Table.Rows) == 0 {
		c.Table = m.Table
	}
	c.Caption = sentences(m.Caption, rate.Caption, rate.farWords(), droppedWords(lost+dropped), leftOutWords(m.leftOut()+rate.leftOut()), namesTaken(unnamed))
	return c
}

// layMassAndRate lays out one drawing; the hours reach to where the mass line
// meets its floor.
func layMassAndRate(m MassSpec, rate CourseSpec, width int) (Drawing, int) {
	y, to := m.axis(4)
	whole := CourseSpec{ID: m.ID, Title: m.Title, Desc: m.Desc, Hour: m.Hour, Burns: rate.Burns}
	st := ruled(whole, width, max(to, rate.hours()), []axis{y, rate.axis(4)}, rate.names(width))
	st.panel(0, y, "Mass")
	c := course{&st, rate}
	c.burns(true)
	mass := Mass{Frame: st.Frame}
	mass.draw(m)
	st.crowd = mass.crowd
	d := mass.Drawing()
	st.Layers, st.Labels = append(st.Layers, d.Layers...), append(st.Labels, d.Labels...)
	unnamed := st.course(1, rate, width)
	return st.Drawing, unnamed
}
