package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/stats"
	"rimward/web/chart"
)

// GrowthPair is the growth chart laid out for a wide and for a narrow page.
type GrowthPair struct{ Wide, Narrow chart.Growth }

// chart is the pair as a chart of a page.
func (g GrowthPair) chart() chart.Chart {
	return chart.Chart{Wide: g.Wide.Drawing(), Narrow: g.Narrow.Drawing(), Caption: g.Wide.Caption, Table: g.Wide.Table}
}

// growthOf draws the width of the pool against the hours since lighting, all
// burns that count; nil when nothing was measured.
func growthOf(l journal.CandleLog, v View) *GrowthPair {
	unit := v.Units.Length
	s := chart.GrowthSpec{
		ID: "growth", Title: "Width of the pool against time, candle " + l.Candle.Code(), Unit: unit.Word(),
		Desc: "One line for each burn, from lighting on. The readings stand in the table under the chart.",
		Wall: unit.Of(l.Vessel.Width()), WallLabel: "wall " + v.length(l.Vessel.Width()).String(),
		Target: float64(l.Vessel.Target()), TargetLabel: "target " + l.Vessel.Target().Clock(), MaxHour: float64(journal.LongestBurn),
		Value: v.lengthTick, Steps: v.lengthSteps(), Table: growthTable(l, v),
	}
	if l.Vessel.Shape != journal.Round {
		s.Caption = meanWidths
	}
	for _, b := range l.Burns {
		if g := growthBurn(b, l.Vessel, v); !b.Burn.IsGone() && len(g.Points) > 0 {
			s.Burns = append(s.Burns, g)
		}
	}
	if len(s.Burns) == 0 {
		return nil
	}
	s.Burns[len(s.Burns)-1].Current = true
	return &GrowthPair{chart.NewGrowth(s, chart.Wide), chart.NewGrowth(s, chart.Narrow)}
}

// meanWidths says what stands for the width of a pool that is not round.
const meanWidths = "Widths are the geometric mean of both ways across, as is the wall."

// lengthTick writes a number on an axis of lengths.
func (v View) lengthTick(x float64) string { return v.length(v.Units.Length.From(x)).Number }

// lengthSteps are the steps of an axis of lengths.
func (v View) lengthSteps() []float64 {
	if v.Units.Length == quantity.InInches {
		return chart.InchSteps
	}
	return nil
}

// growthTable is every reading that says how wide the pool was.
func growthTable(l journal.CandleLog, v View) chart.Table {
	t := chart.Table{Head: []string{"Burn", "Since lighting, h", "Width, " + v.Units.Length.Word(), "Pool"}}
	for _, b := range l.Burns {
		if b.Burn.IsGone() {
			continue
		}
		for _, p := range growthBurn(b, l.Vessel, v).Points {
			t.Rows = append(t.Rows, []string{strconv.Itoa(b.Burn.Number), quantity.Hours(p.Hour).Column(), v.column(float64(v.Units.Length.From(p.Width))), poolWords(p)})
		}
	}
	return t
}

// poolWords says of a reading what its width does not.
func poolWords(p chart.GrowthPoint) string {
	switch {
	case p.LeftOut:
		return "left out"
	case p.Full:
		return "full"
	}
	return "short of the wall"
}

// burnName names a burn in a chart.
func burnName(b journal.Burn) string { return "burn " + strconv.Itoa(b.Number) }

// growthBurn is the readings of one burn that say how wide the pool was.
func growthBurn(b journal.BurnLog, x journal.Vessel, v View) chart.GrowthBurn {
	g := chart.GrowthBurn{Label: burnName(b.Burn), Short: strconv.Itoa(b.Burn.Number)}
	wall := meltpool.Vessel{Length: x.Length(), Width: x.InnerWidth}
	for _, c := range b.Checks {
		ratio, _, ok := meltpool.Reach(wall, c.WidthA, c.WidthB, c.Full)
		if c.IsGone() || !ok {
			continue
		}
		g.Points = append(g.Points, chart.GrowthPoint{
			Hour: float64(spanOf(b.Burn.LitAt, c.At)), Width: ratio * v.Units.Length.Of(x.Width()),
			Full: meltpool.IsFull(wall, c.WidthA, c.WidthB, c.Full, v.Ruler), LeftOut: c.LeftOut,
		})
	}
	return g
}

// MassPart is the candle's mass over its life: the rate in words, and the
// chart where there is anything to draw.
type MassPart struct {
	Words string
	Chart *chart.Chart
}

// rateLevel is the level of the interval of the burn rate.
const rateLevel = 0.95

// massOf works out the burn rate over the candle's life from its weighings.
func massOf(l journal.CandleLog, v View) MassPart {
	hours, grams := weighings(l)
	if len(hours) < 2 {
		return MassPart{Words: "Not enough weighings yet. Weigh it before lighting and again when it is cold: two weighings give a rate, three an interval."}
	}
	line, err := stats.FitLine(hours, grams, rateLevel)
	if err != nil {
		return MassPart{Words: "Not enough weighings yet: they were all taken at the same hour of its life."}
	}
	p, rates := MassPart{Words: rateWords(line)}, life.RatesOf(l)
	if rates.Any() {
		p.Words = overallWords(rates)
	}
	c := chart.NewMassAndRate(massSpec(l, line, rates, p.Words, v), rateSpec(l, rates, v))
	p.Chart = &c
	return p
}

// overallWords writes the rate over the whole candle with its interval, the
// same that stands under Life.
func overallWords(r life.Rates) string {
	return joinBy(", ", r.Overall.Shown().String(), rateRange(r.OverallRange), "over "+counted(len(r.Burns), "weighed burn", "weighed burns")) + "."
}

// massSpec is the weighings and the line through them.
func massSpec(l journal.CandleLog, line stats.Line, r life.Rates, words string, v View) chart.MassSpec {
	unit := v.Units.Mass
	hours, grams := weighings(l)
	s := chart.MassSpec{
		ID: "mass", Title: "Mass and burn rate of candle " + l.Candle.Code() + " over the hours it was lit", Unit: unit.Word(),
		Desc:      "The weighings and the straight line through them, and under them the rate of each burn. " + words,
		Line:      &chart.MassLine{Slope: unit.Of(quantity.Grams(line.Slope)), Intercept: unit.Of(quantity.Grams(line.Intercept))},
		RateLabel: quantity.GramsPerHour(-line.Slope).Shown().String(),
	}
	if r.Any() {
		s.RateLabel = r.Overall.Shown().String()
	}
	for i := range hours {
		s.Points = append(s.Points, chart.MassPoint{Hour: hours[i], Mass: unit.Of(quantity.Grams(grams[i]))})
	}
	return s
}

// rateSpec is the burn rate of each burn that was weighed before and after,
// with the rate over the whole life.
func rateSpec(l journal.CandleLog, r life.Rates, v View) chart.CourseSpec {
	s := chart.CourseSpec{Name: "Burn rate", Unit: "g/h", FromZero: true, Value: func(x float64) string { return quantity.GramsPerHour(x).Shown().Number },
		Burns: burnStretches(l, v), Caption: "Level strokes: the rate of each burn by its two weighings."}
	whole := chart.CourseLimit{Value: float64(r.Overall), Label: r.Overall.Shown().String() + " over its life"}
	if r.OverallRange.Known {
		whole.Low, whole.High = r.OverallRange.Low, r.OverallRange.High
		s.Caption += " Shaded: the rate over its life, with its " + rateRange(r.OverallRange) + ", over " + counted(len(r.Burns), "weighed burn", "weighed burns") + "."
	}
	if r.Any() {
		s.Limits = []chart.CourseLimit{whole}
	}
	var x chart.CourseSeries
	for _, b := range litBurns(l, v) {
		if r, ok := b.Burn.Rate(); ok {
			x.Steps = append(x.Steps, chart.CourseStep{From: b.From, To: b.To, Low: float64(r), Mid: float64(r), High: float64(r)})
		}
	}
	s.Series = []chart.CourseSeries{x}
	s.Table = rateTable(l, v)
	return s
}

// rateTable is the weighings of each burn and the rate that they give.
func rateTable(l journal.CandleLog, v View) chart.Table {
	unit := v.Units.Mass.Word()
	t := chart.Table{Name: "The weighings as a table", Head: []string{"Burn", "Lit before, h", "Lit for, h", "Mass before, " + unit, "Mass after, " + unit, "Rate, g/h"}}
	for _, b := range litBurns(l, v) {
		rate := ""
		if r, ok := b.Burn.Rate(); ok {
			rate = r.Shown().Number
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(b.Burn.Number), quantity.Hours(b.From).Column(), quantity.Hours(b.To - b.From).Column(),
			v.massCell(b.Burn.MassBefore), v.massCell(b.Burn.MassAfter), rate})
	}
	return t
}

// massCell writes a mass into a table, nothing where there is none.
func (v View) massCell(m *quantity.Grams) string {
	if m == nil {
		return ""
	}
	return v.mass(*m).Number
}

// weighings are the candle's masses against the hours it had been lit, burns
// that count only. A rest is weighed once: where the mass after one burn and
// the mass before the next are both known, their mean stands for it.
func weighings(l journal.CandleLog) (hours, grams []float64) {
	lit, sum, n := 0.0, 0.0, 0
	rest := func() {
		if n > 0 {
			hours, grams = append(hours, lit), append(grams, sum/float64(n))
		}
		sum, n = 0, 0
	}
	add := func(m *quantity.Grams) {
		if m != nil {
			sum, n = sum+float64(*m), n+1
		}
	}
	for _, b := range l.Burns {
		if b.Burn.IsGone() {
			continue
		}
		add(b.Burn.MassBefore)
		if b.Burn.OutAt == nil {
			break
		}
		rest()
		lit += float64(b.Burn.Lasted(*b.Burn.OutAt))
		add(b.Burn.MassAfter)
	}
	rest()
	return hours, grams
}

// rateWords writes the rate that a line through weighings gives where no burn
// was weighed both before and after.
func rateWords(l stats.Line) string {
	from := counted(l.N, "weighing", "weighings")
	if l.Slope >= 0 {
		return "The masses do not fall. Look at the weighings again: " + from + "."
	}
	return "About " + quantity.GramsPerHour(-l.Slope).Shown().String() + " from " + from + "; weighing it before and after the same burn gives an interval."
}
