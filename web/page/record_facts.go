package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// candleFacts lists what is written down of a candle itself.
func candleFacts(c journal.Candle, k Known, v View) []ui.Fact {
	var l factList
	l.text("Vessel", k.vesselName(c.Vessel))
	l.text("Wick", wickCount(c.Wicks)+k.WickName(c.Wick))
	maybe(&l, "Filled", c.Filled, v.mass)
	l.text("Note", c.Note)
	return l
}

// massAfter names the fact that is usually written down last.
const massAfter = "Mass after"

// burnFacts lists what is written down of a burn, its checks apart.
func burnFacts(b journal.Burn, v View) []ui.Fact {
	var l factList
	l.text("Lit", v.Date(b.LitAt)+", "+v.Clock(b.LitAt))
	maybe(&l, "Wick trimmed to", b.Trim, v.length)
	maybe(&l, "Mass before", b.MassBefore, v.mass)
	maybe(&l, "Room", b.Room, v.temperature)
	l.text("Draught", string(b.Draught))
	l.text("Place", b.Place)
	if b.OutAt != nil {
		l.text("Out", v.Date(*b.OutAt)+", "+v.Clock(*b.OutAt))
	}
	l.text("How it ended", string(b.Ending))
	maybe(&l, massAfter, b.MassAfter, v.mass)
	maybe(&l, "After-smoke", b.AfterSmoke, quantity.Seconds.Shown)
	l.text("Note", b.Note)
	return l
}

// checkFacts lists what a check observed.
func checkFacts(c journal.Check, v View) []ui.Fact {
	var l factList
	l.text("Time", v.Date(c.At)+", "+v.Clock(c.At))
	maybe(&l, "Width", c.WidthA, v.length)
	maybe(&l, "Width across", c.WidthB, v.length)
	l.text("Wall all round", yesNo(c.Full))
	maybe(&l, "Depth", c.Depth, v.length)
	maybe(&l, "Flame", c.Flame, v.length)
	l.text("Mushrooming", string(c.Mushroom))
	l.text("Soot", string(c.Soot))
	l.text("Wax on the wall", string(c.WallWax))
	maybe(&l, "Vessel, outside", c.VesselTemp, v.temperature)
	if c.HotThrow != nil {
		l.text("Hot throw", throwText(*c.HotThrow))
	}
	l.text("Odd events", oddText(c.Odd))
	l.text("Left out of the standings", yesNo(c.LeftOut))
	l.text("Note", c.Note)
	return l
}

// throwText writes a hot throw as its number and word.
func throwText(n int) string {
	g := strconv.Itoa(n)
	for _, w := range journal.ThrowScale {
		if string(w.Grade) == g {
			return g + " " + w.Meaning
		}
	}
	return g
}

// oddText lists the odd events of a check.
func oddText(odd []journal.Odd) string {
	words := make([]string, len(odd))
	for i, o := range odd {
		words[i] = string(o)
	}
	return listed(words)
}
