package page

import (
	"math"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// intervalWords says of what level an interval is.
func intervalWords() string {
	return tight(quantity.Fraction(life.Level).Percent().String()) + " interval "
}

// tooAlike says why values have no interval though there are enough of them.
const tooAlike = "values too alike to tell how far others may lie"

// rateRange writes an interval of burn rates, or that the rates are too alike
// for one; "" when there are too few.
func rateRange(i life.Interval) string {
	switch {
	case i.Alike:
		return tooAlike
	case !i.Known:
		return ""
	}
	low, high := quantity.GramsPerHour(i.Low).Shown(), quantity.GramsPerHour(i.High).Shown()
	return intervalWords() + spanOfShown(low, high)
}

// spanOfShown writes an interval that no line breaks.
func spanOfShown(low, high quantity.Shown) string {
	return tight(spanText(low.Number, high.Number) + " " + high.Unit)
}

// heatFact is the heat output with where the wax's heat comes from; where that
// is not known it leads to the place to record it.
func heatFact(wax journal.Wax, rate quantity.GramsPerHour, i life.Interval) ui.Fact {
	f := ui.Fact{Label: "Heat while it burns"}
	m, known := life.HeatOf(wax)
	if !known {
		f.Text, f.Href = "needs the heat of combustion of "+wax.Name, "/shelf/waxes/"+idText(wax.ID)+"/edit"
		return f
	}
	w := life.Power(rate, m.Net).Shown()
	f.Text, f.Unit = "about "+w.Number, w.Unit
	span := ""
	if i.Known && i.Low > 0 {
		high := life.Power(quantity.GramsPerHour(i.High), m.Net).Shown()
		span = spanOfShown(life.Power(quantity.GramsPerHour(i.Low), m.Net).Shown(), high) + " over that interval"
	}
	f.More = joinBy("; ", span, tight(m.Net.Shown().String())+" "+m.Source)
	return f
}

// changeWords are how a late reading can differ from an early one: more, less.
var changeWords = map[life.Reading][2]string{
	life.PoolWidth: {"wider", "narrower"}, life.PoolDepth: {"deeper", "shallower"},
	life.VesselHeat: {"hotter", "cooler"}, life.Flame: {"taller", "shorter"},
}

// changeFact writes how late burns differ from early ones in one reading.
func changeFact(c life.Change, v View) ui.Fact {
	f := ui.Fact{Label: capital(string(c.Reading))}
	switch {
	case !c.Told():
		f.Text, f.More = "not enough yet", "it takes readings at the same hours in the first and the last third"
		return f
	case c.Range.Known && !c.Range.Apart():
		f.Text = "no clear change"
		f.More = intervalWords() + "from " + differs(c, c.Range.Low, v) + " to " + differs(c, c.Range.High, v)
	default:
		f.Text = differs(c, c.Mean, v)
		f.More = changeSpan(c, v)
	}
	f.More = joinBy("; ", f.More, changeBehind(c), wallWords(c))
	return f
}

// changeSpan writes the interval of a change that is clear.
func changeSpan(c life.Change, v View) string {
	switch {
	case c.Range.Alike:
		return tooAlike
	case !c.Range.Known:
		return "too few burns for an interval"
	}
	near, far := c.Range.Low, c.Range.High
	if c.Mean < 0 {
		near, far = -far, -near
	}
	low, high := changeShown(c.Reading, near, v), changeShown(c.Reading, far, v)
	return intervalWords() + spanOfShown(low, high)
}

// differs writes a difference without a sign: 3 mm wider.
func differs(c life.Change, by float64, v View) string {
	s := changeShown(c.Reading, math.Abs(by), v)
	if s.Number == "0" {
		return "none"
	}
	word := changeWords[c.Reading][0]
	if by < 0 {
		word = changeWords[c.Reading][1]
	}
	return tight(s.String()) + " " + word
}

func changeShown(r life.Reading, by float64, v View) quantity.Shown {
	if r == life.VesselHeat {
		return v.Units.ShowTemperatureDifference(quantity.Celsius(by))
	}
	return v.length(quantity.Millimetres(by))
}

// changeBehind says what a change rests on.
func changeBehind(c life.Change) string {
	burns := counted(c.Early, "early burn", "early burns") + " and " + counted(c.Late, "late one", "late ones")
	if c.Candles == 1 {
		return burns
	}
	return burns + " of " + counted(c.Candles, "candle", "candles")
}

// wallWords say that some widths could not have been wider.
func wallWords(c life.Change) string {
	if c.AtWall == 0 {
		return ""
	}
	return strconv.Itoa(c.AtWall) + " of " + figured(c.Widths, "width", "widths") + " stood at the wall, so the pool may have changed more"
}
