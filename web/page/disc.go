package page

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/chart"
)

// discOf draws the pool that a check found, with its words as its name.
func discOf(x journal.Vessel, wicks int, c *journal.Check, mark float64, v View) chart.Disc {
	s := chart.DiscSpec{
		Shape: string(x.Shape), Length: float64(x.Length()), Width: float64(x.InnerWidth),
		Wicks: wicks, Mark: mark, Unlit: c == nil || !measured(*c), Decorative: true,
	}
	if c != nil {
		s.PoolA, s.PoolB, s.Full = number(c.WidthA), number(c.WidthB), c.Full
	}
	return chart.NewDisc(s)
}

func number(x *quantity.Millimetres) float64 {
	if x == nil {
		return 0
	}
	return float64(*x)
}

// measured reports whether a check says anything of the pool's width.
func measured(c journal.Check) bool { return c.Full || c.WidthA != nil || c.WidthB != nil }

// lastMeasured is the latest check that counts and says something of the
// pool's width.
func lastMeasured(checks []journal.Check) *journal.Check {
	for i := len(checks) - 1; i >= 0; i-- {
		if c := checks[i]; !c.IsGone() && measured(c) {
			return &c
		}
	}
	return nil
}

// litDisc draws a lit candle as it was last seen, with the mark of where the
// pool should be by now.
func litDisc(l journal.CandleLog, v View) chart.Disc {
	b := l.OpenBurn()
	return discOf(l.Vessel, l.Candle.Wicks, lastMeasured(b.Checks), shareByNow(b.Burn, l.Vessel, v), v)
}

// poolText writes a pool's widths: 61 × 58, 61, full.
func poolText(c journal.Check, v View) (text, unit string) {
	unit = v.Units.Length.Word()
	switch {
	case c.Full && c.WidthA == nil && c.WidthB == nil:
		return "full", ""
	case c.WidthA != nil && c.WidthB != nil:
		text = v.length(*c.WidthA).Number + " × " + v.length(*c.WidthB).Number
	case c.WidthA != nil:
		text = v.length(*c.WidthA).Number
	case c.WidthB != nil:
		text = v.length(*c.WidthB).Number
	default:
		return "not measured", ""
	}
	return text, unit
}
