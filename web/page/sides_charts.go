package page

import (
	"net/url"
	"slices"
	"strings"

	"rimward/internal/compare"
	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/chart"
	"rimward/web/ui"
)

// SidesChart is one chart under the columns.
type SidesChart struct {
	Title, Note string
	Lead        ui.Item      // where it can be seen instead; empty for nowhere
	Chart       *chart.Chart // nil where the note says why there is none
	name        string       // in the address of its files
}

// sidesCharts lay the curves of the columns over each other, and follow the
// readings of candles over the hours that they were lit.
func sidesCharts(sides []compare.Side, keys []SidesKey, v View) []SidesChart {
	out := append(sidesGrowth(sides, v), sidesCourses(sides, v)...)
	_, query, _ := strings.Cut(sidesAddress(keys), "?")
	for _, c := range out {
		if c.Chart != nil {
			c.Chart.Files = chartFiles("/side-by-side/charts/"+c.name, "?"+query)
		}
	}
	return out
}

// FindSidesChart is one chart of what was found by the name in the address of
// its files; false where there is none.
func FindSidesChart(name string, f SidesFound, v View) (chart.Chart, bool) {
	if len(f.Things) == 0 {
		return chart.Chart{}, false
	}
	for _, c := range sidesCharts(sidesOf(f.Things), keysOf(f.Things), v) {
		if c.name == name && c.Chart != nil {
			return *c.Chart, true
		}
	}
	return chart.Chart{}, false
}

// sidesGrowth lays the curves over each other; nothing where nothing was read.
func sidesGrowth(sides []compare.Side, v View) []SidesChart {
	unit := v.Units.Length
	s := chart.OverlaySpec{ID: "sides-growth", Title: "Width of the pool against time, side by side", Unit: unit.Word(),
		Desc:    "A curve for each column with its range, and the readings of candles. The same numbers stand in the table below it.",
		MaxHour: float64(journal.LongestBurn), Value: func(w float64) string { return v.length(unit.From(w)).Number }, Caption: growthCaption(sides)}
	if unit == quantity.InInches {
		s.Steps = chart.InchSteps
	}
	curves := make([][]compare.CurvePoint, len(sides))
	drawn := false
	for i, x := range sides {
		curves[i] = compare.Curve(x, longestHour(sides))
		one := overlaySeries(x, curves[i], v)
		drawn = drawn || len(one.Band)+len(one.Burns) > 0
		s.Series = append(s.Series, one)
	}
	if !drawn {
		return nil
	}
	s.Table = curveTable(sides, curves, v)
	c := chart.NewOverlay(s)
	return []SidesChart{{Title: "Curves laid over each other", Chart: &c, name: "curves"}}
}

// longestHour is how far curves are read.
func longestHour(sides []compare.Side) quantity.Hours {
	to := journal.LongestBurn
	for _, s := range sides {
		to = max(to, sideVessel(s).Target())
	}
	return to
}

// growthCaption says what curves and bands are.
func growthCaption(sides []compare.Side) string {
	whole, candles := 0, 0
	for _, s := range sides {
		if s.Whole {
			whole++
		} else {
			candles++
		}
	}
	out := ""
	if candles > 0 {
		out = "A candle’s curve is the mean of those fitted to its burns, if no wall stopped the pool; its band goes from the lowest to the highest of them. Marks are readings."
	}
	if whole > 0 {
		out = joinWords(out, "A pairing’s curve is the pool expected of its next candle if no wall stopped it; eight in ten keep within the band.")
	}
	return out
}

func overlaySeries(x compare.Side, curve []compare.CurvePoint, v View) chart.OverlaySeries {
	vessel := sideVessel(x)
	out := chart.OverlaySeries{Label: x.Name, Wall: v.Units.Length.Of(vessel.Width()), WallLabel: "wall " + v.length(vessel.Width()).String(),
		Target: float64(vessel.Target()), TargetLabel: "target " + vessel.Target().Clock()}
	width := func(mm float64) float64 { return v.Units.Length.Of(quantity.Millimetres(mm)) }
	for _, p := range curve {
		out.Band = append(out.Band, chart.BandPoint{Hour: float64(p.Hour), Low: width(p.Low), Mid: width(p.Mid), High: width(p.High)})
	}
	if x.Whole {
		return out
	}
	for _, l := range x.Logs {
		for _, b := range l.Burns {
			if g := growthBurn(b, l.Vessel, v); len(g.Points) > 0 {
				out.Burns = append(out.Burns, g.Points)
			}
		}
	}
	return out
}

// curveTable is the curves at whole and half hours.
func curveTable(sides []compare.Side, curves [][]compare.CurvePoint, v View) chart.Table {
	t := chart.Table{Name: "The curves as a table", Head: []string{"Hour"}}
	for _, s := range sides {
		t.Head = append(t.Head, s.Name+", "+v.Units.Length.Word())
	}
	for h := quantity.Hours(0.5); h <= longestHour(sides); h += 0.5 {
		row, any := []string{tight(h.Clock())}, false
		for _, c := range curves {
			i := slices.IndexFunc(c, func(p compare.CurvePoint) bool { return p.Hour > h-guide.Hair && p.Hour < h+guide.Hair })
			if i < 0 {
				row = append(row, "–")
				continue
			}
			row, any = append(row, v.column(c[i].Mid)+" ("+spanText(v.column(c[i].Low), v.column(c[i].High))+")"), true
		}
		if any {
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// following is how one course is shown.
type following struct {
	name, unit string
	words      []journal.GradeWord
	zero       bool
	of         func(float64) float64        // from the course's unit to the axis's
	show       func(float64) string         // a number of the axis
	value      func(float64) quantity.Shown // a value of the course
}

// followings are the courses in words.
func followings(v View) map[compare.CourseName]following {
	length := func(mm float64) float64 { return v.Units.Length.Of(quantity.Millimetres(mm)) }
	plainLength := func(x float64) string { return v.length(v.Units.Length.From(x)).Number }
	same := func(x float64) float64 { return x }
	showLength := func(x float64) quantity.Shown { return v.length(quantity.Millimetres(x)) }
	word := func(scale []journal.GradeWord) func(float64) quantity.Shown {
		return func(x float64) quantity.Shown { return quantity.Shown{Number: string(scale[int(x)].Grade)} }
	}
	return map[compare.CourseName]following{
		compare.MassCourse: {"Mass", v.Units.Mass.Word(), nil, false, func(g float64) float64 { return v.Units.Mass.Of(quantity.Grams(g)) }, nil,
			func(g float64) quantity.Shown { return v.mass(quantity.Grams(g)) }},
		compare.FlameCourse: {"Flame height", v.Units.Length.Word(), nil, true, length, plainLength, showLength},
		compare.DepthCourse: {"Pool depth", v.Units.Length.Word(), nil, true, length, plainLength, showLength},
		compare.WallCourse: {"Vessel, outside", v.Units.Temperature.Word(), nil, false, same, func(c float64) string { return v.temperature(quantity.Celsius(c)).Number },
			func(c float64) quantity.Shown { return v.temperature(quantity.Celsius(c)) }},
		compare.SootCourse:     {"Soot", "", journal.SootScale, false, same, nil, word(journal.SootScale)},
		compare.MushroomCourse: {"Mushrooming", "", journal.MushroomScale, false, same, nil, word(journal.MushroomScale)},
	}
}

// sidesCourses follow the candles over the hours that they were lit, one panel
// above the other so that an hour stands over the same hour.
func sidesCourses(sides []compare.Side, v View) []SidesChart {
	candles := slices.DeleteFunc(slices.Clone(sides), func(s compare.Side) bool { return s.Whole })
	out := SidesChart{Title: "Over the hours lit", name: "hours"}
	if len(candles) == 0 {
		out.Note = "What candles weighed and showed hour after hour is drawn of candles: put some of these pairings’ candles side by side to see it."
		out.Lead = oneOfEach(sides)
		return []SidesChart{out}
	}
	var panels []chart.CourseSpec
	for _, n := range compare.CourseNames {
		if p, ok := coursePanel(candles, n, v); ok {
			panels = append(panels, p)
		}
	}
	if len(panels) == 0 {
		return nil
	}
	whole := chart.CourseSpec{ID: "sides-courses", Title: "What candles weighed and showed against the hours lit, side by side",
		Desc:    "One panel above the other for each kind of reading, a line for each candle. The same numbers stand in the table below it.",
		Caption: "Burns are joined end to end; rests take no room. Readings of one burn are joined.", Table: courseTable(candles, v)}
	c := chart.NewCourses(whole, panels...)
	out.Chart = &c
	return []SidesChart{out}
}

// oneOfEach leads to the candle of each pairing that was lit most often; empty
// where there are not two.
func oneOfEach(sides []compare.Side) ui.Item {
	q := url.Values{}
	for _, s := range sides {
		most, burns := journal.ID(0), 0
		for _, l := range s.Logs {
			if len(l.Burns) > burns {
				most, burns = l.Candle.ID, len(l.Burns)
			}
		}
		if most != 0 {
			q.Add("of", SidesKey{Candle: most}.Text())
		}
	}
	if len(q["of"]) < 2 {
		return ui.Item{}
	}
	return ui.Item{Text: "One candle of each, side by side", Href: "/side-by-side?" + q.Encode()}
}

// coursePanel is one kind of reading; ok is false where nothing was read.
func coursePanel(candles []compare.Side, n compare.CourseName, v View) (p chart.CourseSpec, ok bool) {
	f := followings(v)[n]
	p = chart.CourseSpec{Name: f.name, Unit: f.unit, FromZero: f.zero, Value: f.show}
	for _, w := range f.words {
		p.Words = append(p.Words, string(w.Grade))
	}
	for _, s := range candles {
		x := chart.CourseSeries{Label: s.Name}
		for _, c := range compare.Course(s, n) {
			burn := c.Burn
			if n == compare.MassCourse {
				burn = 0 // joined over rests: the mass stays
			}
			x.Points = append(x.Points, chart.CoursePoint{Hour: float64(c.Lit), Value: f.of(c.Value), Burn: burn, LeftOut: c.LeftOut})
		}
		ok = ok || len(x.Points) > 0
		p.Series = append(p.Series, x)
	}
	return p, ok
}

// courseTable is every reading of the candles, a row for each moment.
func courseTable(candles []compare.Side, v View) chart.Table {
	t := chart.Table{Name: "The readings as a table", Head: []string{"Candle", "Lit for"}}
	for _, n := range compare.CourseNames {
		t.Head = append(t.Head, followings(v)[n].name)
	}
	for _, s := range candles {
		rows := map[quantity.Hours][]string{}
		var moments []quantity.Hours
		for i, n := range compare.CourseNames {
			for _, c := range compare.Course(s, n) {
				if rows[c.Lit] == nil {
					moments = append(moments, c.Lit)
					rows[c.Lit] = append([]string{s.Name, tight(c.Lit.Clock())}, make([]string, len(compare.CourseNames))...)
				}
				rows[c.Lit][2+i] = followings(v)[n].value(c.Value).String()
			}
		}
		slices.Sort(moments)
		for _, m := range moments {
			t.Rows = append(t.Rows, rows[m])
		}
	}
	return t
}
