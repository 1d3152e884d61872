package page

import (
	"math"
	"net/url"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings"
	"rimward/web/chart"
	"rimward/web/ui"
)

// MovedPage says what went with wider and narrower pools across the candles of
// one wax.
type MovedPage struct {
	Filters  []ui.Field
	Note     string // when it was worked out, where that is behind the record
	Compared string
	Effects  []MovedEffect
	Chart    *chart.Chart
	Untold   []MovedUntold
	LeftOut  []string
	Doubts   []string
	Empty    string
	Acts     []ui.Action
}

// MovedEffect is one thing that the candles can tell of.
type MovedEffect struct {
	Name, Text, From string
	Doubt            string
}

// MovedUntold is one thing that they cannot tell of.
type MovedUntold struct{ Name, Text, Next string }

// MovedChoice is which wax is asked about; 0 in a journal without burns.
type MovedChoice struct{ Wax journal.ID }

// Picks reports whether a series is of the wax.
func (c MovedChoice) Picks(s *standings.Stack) bool { return s.Wax() == c.Wax }

// ReadMovedChoice reads the choice from the address; where it names no wax that
// was burned it is the one with the most burns.
func ReadMovedChoice(q url.Values, tried []journal.Tried) MovedChoice {
	wanted := queryNumber(q, "wax")
	for _, t := range tried {
		if t.Wax == wanted {
			return MovedChoice{wanted}
		}
	}
	return MovedChoice{busiest(tried, func(t journal.Tried) journal.ID { return t.Wax })}
}

// movedHref leads to the page of a wax, or of the busiest.
func movedHref(wax journal.ID) string {
	if wax == 0 {
		return "/standings/moved"
	}
	return "/standings/moved?wax=" + idText(wax)
}

// NewMovedPage puts the answer into a maker's words.
func NewMovedPage(a influence.Answer, choice MovedChoice, tried []journal.Tried, sh Shelves, note string, v View) MovedPage {
	p := MovedPage{Note: note}
	if choice.Wax == 0 {
		p.Empty = "Nothing was burned yet. This page compares candles of one wax that differ in load, pour temperature, warmed vessels or days of cure."
		p.Acts = []ui.Action{{Text: "Light a candle", Href: "/light", Main: true}, {Text: "What is on the shelf", Href: "/shelf"}}
		return p
	}
	var waxes names
	for _, t := range tried {
		waxes.add(idText(t.Wax), waxName(sh, t.Wax))
	}
	p.Filters = []ui.Field{{Kind: ui.SelectField, Name: "wax", Label: "Wax", Options: chosen(waxes.options, idText(choice.Wax))}}
	p.LeftOut = movedLeftOut(a.LeftOut)
	if a.Candles == 0 {
		p.Empty = "No two candles of " + waxName(sh, choice.Wax) + " can be compared yet: they must share vessel, wick, number of wicks and fragrance, and each needs a width that was read short of the wall, no earlier than a quarter of the target hour."
		return p
	}
	p.Compared = "Compared: " + figured(a.Candles, "candle", "candles") + " in " + figured(a.Pairings, "pairing", "pairings") + " of " + waxName(sh, choice.Wax) + ", " + figured(a.Burns, "burn", "burns") + ". Fragrances are kept apart."
	for _, e := range a.Effects {
		p.Effects = append(p.Effects, movedEffect(e, a, v))
	}
	if len(a.Effects) > 0 {
		c := MovedChart(a, v)
		c.Files = chartFiles("/standings/moved/charts/moved", "?wax="+idText(choice.Wax))
		p.Chart = &c
	}
	for _, u := range a.Untold {
		p.Untold = append(p.Untold, movedUntold(u, a, v))
	}
	p.Doubts = movedDoubts(a)
	return p
}

// step is how much of a factor an effect is told for, in the factor's unit, and
// how that reads.
type step struct {
	size        float64
	name, words string
	values      func(from, to float64) string
}

func stepOf(f influence.Factor, v View) step {
	span := func(unit string, show func(float64) string) func(float64, float64) string {
		return func(from, to float64) string { return show(from) + " to " + show(to) + unit }
	}
	switch f {
	case influence.Load:
		return step{f.Step(), "Fragrance load", "For each percentage point more oil, of the wax,", span(" %", func(x float64) string { return quantity.Fraction(x).Percent().Number })}
	case influence.PouredAt:
		size := quantity.Celsius(f.Step())
		if v.Units.Temperature == quantity.InFahrenheit {
			size = 10 / 1.8
		}
		return step{float64(size), "Pour temperature", "For each " + v.Units.ShowTemperatureDifference(size).String() + " hotter pour", func(from, to float64) string {
			return v.temperature(quantity.Celsius(from)).Number + " to " + v.temperature(quantity.Celsius(to)).String()
		}}
	case influence.Warmed:
		return step{f.Step(), "Warmed vessel", "In a vessel that was warmed", func(float64, float64) string { return "warmed and not" }}
	}
	return step{f.Step(), "Cure", "For each week more of cure before the first burn", span(" days", func(x float64) string { return quantity.Number(x, 0) })}
}

// change is how much wider the typical pool is for one step, in mm.
func change(logWidth float64, s step, a influence.Answer) quantity.Millimetres {
	return a.Typical * quantity.Millimetres(math.Expm1(logWidth*s.size))
}

func movedEffect(e influence.Effect, a influence.Answer, v View) MovedEffect {
	s := stepOf(e.Factor, v)
	out := MovedEffect{Name: s.name}
	mid := v.Units.ShowLengthChange(change(e.Estimate, s, a))
	out.Text = s.words + " the pool was " + sided(change(e.Estimate, s, a), v) + " at its target hour (80 % interval " + interval(change(e.Low, s, a), change(e.High, s, a), v) + ")"
	switch {
	case e.Told():
		out.Text += "."
	case mid.Number == "0":
		out.Text += ": no difference to speak of, either way within the interval."
	default:
		out.Text += ". Which way it goes is not settled."
	}
	out.From = movedFrom(e) + " where it differed, " + s.values(e.From, e.To) + "."
	if e.DF < influence.LeastDF {
		out.Doubt = "So few pours may still move the interval a good deal."
	}
	return out
}

// movedFrom says how many candles and pours speak, and whether pours were
// compared or candles inside them.
func movedFrom(e influence.Effect) string {
	candles, pours, pairings := figured(e.Candles, "candle", "candles"), figured(e.Batches, "pour", "pours"), figured(e.Pairings, "pairing", "pairings")
	if e.Inside {
		return "From " + candles + " in " + pairings + ", each compared only with candles of its own pour, in " + pours
	}
	return "From " + pours + " with " + candles + " in " + pairings
}

// sided writes a change with its side: 0.9 mm narrower.
func sided(x quantity.Millimetres, v View) string {
	s := v.Units.ShowLengthChange(x)
	switch {
	case s.Number == "0":
		return "neither wider nor narrower"
	case x < 0:
		return s.String() + " narrower"
	}
	return s.String() + " wider"
}

// interval writes two changes, the lower first: 0.1 to 1.7 mm narrower, or
// 0.2 mm narrower to 1 mm wider.
func interval(low, high quantity.Millimetres, v View) string {
	a, b := v.Units.ShowLengthChange(low), v.Units.ShowLengthChange(high)
	switch {
	case high < 0:
		return b.Number + " to " + a.Number + " " + a.Unit + " narrower"
	case low > 0:
		return a.Number + " to " + b.Number + " " + b.Unit + " wider"
	}
	return a.String() + " narrower to " + b.String() + " wider"
}

// MovedChart draws the effects about nothing.
func MovedChart(a influence.Answer, v View) chart.Chart {
	unit := v.Units.Length
	s := chart.EffectsSpec{
		ID: "moved", Title: "How the pool’s width at the target hour went with each thing", Unit: unit.Word(), Less: "narrower", More: "wider",
		Desc:    "A dot for each difference, a line for its 80 % interval. The numbers stand in the text beside it.",
		Caption: "In a pool that would be " + v.length(a.Typical).String() + " wide with no wall, the middle of those compared. A line that crosses the dotted one leaves open which way it goes; of five such lines one is expected to miss the truth.",
		Table:   chart.Table{Name: "The differences as a table", Head: []string{"What", "Difference", "80 % interval"}},
	}
	for _, e := range a.Effects {
		st := stepOf(e.Factor, v)
		low, mid, high := change(e.Low, st, a), change(e.Estimate, st, a), change(e.High, st, a)
		s.Rows = append(s.Rows, chart.EffectRow{Label: stepLabel(e.Factor, v), Low: unit.Of(low), Mid: unit.Of(mid), High: unit.Of(high)})
		s.Table.Rows = append(s.Table.Rows, []string{stepLabel(e.Factor, v), sided(mid, v), interval(low, high, v)})
	}
	return s.Charted()
}

// stepLabel names one step of a factor in a few words.
func stepLabel(f influence.Factor, v View) string {
	switch f {
	case influence.Load:
		return "1 percentage point more oil"
	case influence.PouredAt:
		return v.Units.ShowTemperatureDifference(quantity.Celsius(stepOf(f, v).size)).String() + " hotter pour"
	case influence.Warmed:
		return "vessel warmed"
	}
	return "1 week more cure"
}
