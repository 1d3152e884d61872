package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/chart"
)

// litBurn is a burn that counts with the stretch that it takes of the hours a
// candle has been lit.
type litBurn struct {
	journal.BurnLog
	From, To float64
}

// litBurns joins the burns that count end to end.
func litBurns(l journal.CandleLog, v View) []litBurn {
	var out []litBurn
	lit := 0.0
	for _, b := range l.Burns {
		if b.Burn.IsGone() {
			continue
		}
		to := lit + max(0, float64(b.Burn.Lasted(v.Now)))
		out = append(out, litBurn{b, lit, to})
		lit = to
	}
	return out
}

// burnStretches are the burns for a chart over the hours lit.
func burnStretches(l journal.CandleLog, v View) []chart.CourseBurn {
	var out []chart.CourseBurn
	for _, b := range litBurns(l, v) {
		out = append(out, chart.CourseBurn{From: b.From, To: b.To, Label: strconv.Itoa(b.Burn.Number)})
	}
	return out
}

// gauge is one quantity that checks may hold.
type gauge struct {
	value func(journal.Check) (float64, bool) // in the reader's unit, or its place on a scale
	word  func(journal.Check) string          // as it stands in a table
}

// over is the readings of a quantity over the hours lit.
func (q gauge) over(l journal.CandleLog, v View) chart.CourseSeries {
	var x chart.CourseSeries
	for _, b := range litBurns(l, v) {
		for _, c := range inTime(b.Checks) {
			if value, ok := q.value(c); ok && !c.IsGone() {
				x.Points = append(x.Points, chart.CoursePoint{Hour: b.From + float64(spanOf(b.Burn.LitAt, c.At)), Value: value, Burn: b.Burn.Number})
			}
		}
	}
	return x
}

// readingsTable is several quantities of each check that holds any.
func readingsTable(l journal.CandleLog, v View, heads []string, qs ...gauge) chart.Table {
	t := chart.Table{Head: append([]string{"Burn", "Lit before, h", "Since lighting, h"}, heads...)}
	for _, b := range litBurns(l, v) {
		for _, c := range inTime(b.Checks) {
			row := []string{strconv.Itoa(b.Burn.Number), quantity.Hours(b.From).Column(), spanOf(b.Burn.LitAt, c.At).Column()}
			held := false
			for _, q := range qs {
				word := ""
				if _, ok := q.value(c); ok {
					held, word = true, q.word(c)
				}
				row = append(row, word)
			}
			if held && !c.IsGone() {
				t.Rows = append(t.Rows, row)
			}
		}
	}
	return t
}

// lengthReading is a length of a check.
func (v View) lengthReading(of func(journal.Check) *quantity.Millimetres) gauge {
	return gauge{
		func(c journal.Check) (float64, bool) {
			if x := of(c); x != nil {
				return v.Units.Length.Of(*x), true
			}
			return 0, false
		},
		func(c journal.Check) string { return v.length(*of(c)).Number },
	}
}

// heatReading is the temperature of the vessel at a check.
func (v View) heatReading() gauge {
	return gauge{
		func(c journal.Check) (float64, bool) {
			if c.VesselTemp == nil {
				return 0, false
			}
			return v.Units.Temperature.Of(*c.VesselTemp), true
		},
		func(c journal.Check) string { return v.temperature(*c.VesselTemp).Number },
	}
}

// gradeReading is a grade of a check as its place on a scale.
func gradeReading(scale []journal.GradeWord, of func(journal.Check) journal.Grade) gauge {
	return gauge{
		func(c journal.Check) (float64, bool) {
			r, ok := journal.Rank(scale, of(c))
			return float64(r), ok
		},
		func(c journal.Check) string { return string(of(c)) },
	}
}

// gradeWords are the words of a scale, lowest first.
func gradeWords(scale []journal.GradeWord) []string {
	var out []string
	for _, w := range scale {
		out = append(out, string(w.Grade))
	}
	return out
}

// lengthLimit is a limit of a length as a level line.
func (v View) lengthLimit(label string, x quantity.Millimetres) chart.CourseLimit {
	return chart.CourseLimit{Value: v.Units.Length.Of(x), Label: label + " " + v.length(x).String()}
}

// heatLimit is a limit of a temperature as a level line.
func (v View) heatLimit(label string, x quantity.Celsius) chart.CourseLimit {
	return chart.CourseLimit{Value: v.Units.Temperature.Of(x), Label: label + " " + v.temperature(x).String()}
}

// limitsAre says what the limits in a chart are.
const limitsAre = "The limits are references, each with its source in the settings; the vessel’s own maker and local rules come first."

// readingsSaid says how many readings a chart rests on.
func readingsSaid(n, burns int) string {
	return capital(counted(n, "reading", "readings")) + " in " + counted(burns, "burn", "burns") + "."
}

// sootFault is where soot begins to be a fault, between two words of its scale.
func sootFault() chart.CourseLimit {
	return chart.CourseLimit{Value: float64(safety.SootFault()) - 0.5, Label: "a fault above this line"}
}

// mushroomFault is the same for mushrooming.
func mushroomFault() chart.CourseLimit {
	return chart.CourseLimit{Value: float64(safety.MushroomFault()) - 0.5, Label: "a fault above this line"}
}
