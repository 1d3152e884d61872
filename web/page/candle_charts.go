package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/stats"
	"rimward/web/chart"
)

// GrowthPair is the growth chart laid out for a wide and for a narrow page.
type GrowthPair struct{ Wide, Narrow chart.Growth }

// growthOf draws the width of the pool against the hours since lighting, all
// burns that count; nil when nothing was measured.
func growthOf(l journal.CandleLog, v View) *GrowthPair {
	unit := v.Units.Length
	s := chart.GrowthSpec{
		ID: "growth", Title: "Width of the pool against time, candle " + l.Candle.Code(), Unit: unit.Word(),
		Desc: "One line for each burn, from lighting on. The readings stand in the table on this page.",
		Wall: unit.Of(l.Vessel.Width()), WallLabel: "wall " + v.length(l.Vessel.Width()).String(),
		Target: float64(l.Vessel.Target()), TargetLabel: "target " + l.Vessel.Target().Clock(), MaxHour: float64(journal.LongestBurn),
		Value: func(x float64) string { return v.length(unit.From(x)).Number },
	}
	if unit == quantity.InInches {
		s.Steps = chart.InchSteps
	}
	if l.Vessel.Shape != journal.Round {
		s.Caption = "Widths are the geometric mean of both ways across, as is the wall."
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

// growthBurn is the readings of one burn that say how wide the pool was.
func growthBurn(b journal.BurnLog, x journal.Vessel, v View) chart.GrowthBurn {
	n := strconv.Itoa(b.Burn.Number)
	g := chart.GrowthBurn{Label: "burn " + n, Short: n}
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
	Words        string
	Warnings     []string
	Wide, Narrow *chart.Mass
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
	p := MassPart{Words: rateWords(line)}
	for _, w := range line.Warnings {
		if line.N > 2 {
			p.Warnings = append(p.Warnings, capital(w)+".")
		}
	}
	unit := v.Units.Mass
	s := chart.MassSpec{
		ID: "mass", Title: "Mass of candle " + l.Candle.Code() + " against the hours it was lit", Unit: unit.Word(),
		Desc:      "The weighings and the straight line through them. " + p.Words,
		Line:      &chart.MassLine{Slope: unit.Of(quantity.Grams(line.Slope)), Intercept: unit.Of(quantity.Grams(line.Intercept))},
		RateLabel: quantity.GramsPerHour(-line.Slope).Shown().String(),
		Table:     massTable(hours, grams, v),
	}
	for i := range hours {
		s.Points = append(s.Points, chart.MassPoint{Hour: hours[i], Mass: unit.Of(quantity.Grams(grams[i]))})
	}
	wide, narrow := chart.NewMass(s, chart.Wide), chart.NewMass(s, chart.Narrow)
	p.Wide, p.Narrow = &wide, &narrow
	return p
}

func massTable(hours, grams []float64, v View) chart.Table {
	t := chart.Table{Head: []string{"Lit so far", "Mass"}}
	for i := range hours {
		t.Rows = append(t.Rows, []string{hoursText(hours[i]), v.mass(quantity.Grams(grams[i])).String()})
	}
	return t
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

// rateWords writes the burn rate with its interval and what it rests on.
func rateWords(l stats.Line) string {
	rate := quantity.GramsPerHour(-l.Slope)
	from := counted(l.N, "weighing", "weighings")
	switch {
	case l.Slope >= 0:
		return "The masses do not fall. Look at the weighings again: " + from + "."
	case !l.HasInterval:
		return rate.Shown().String() + " from " + from + "; a third would give an interval."
	}
	low, high := quantity.GramsPerHour(-l.SlopeHigh).Shown(), quantity.GramsPerHour(-l.SlopeLow).Shown()
	return rate.Shown().String() + ", " + quantity.Fraction(l.Level).Percent().String() + " interval " + low.Number + "–" + high.String() + ", from " + from + "."
}
