package page

import (
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// hoursText writes a span of hours as a clock counts it.
func hoursText(h float64) string { return quantity.Hours(h).Clock() }

// madeFacts lists what a candle is made of and how.
func madeFacts(l journal.CandleLog, v View) []ui.Fact {
	var f factList
	f = append(f, ui.Fact{Label: "Vessel", Text: l.Vessel.Name, Href: "/shelf/vessels/" + idText(l.Vessel.ID), More: wallText(l.Vessel, v) + " inside, " + string(l.Vessel.Material)})
	f = append(f, ui.Fact{Label: "Wick", Text: wicksText(l.Made), Href: "/shelf/ladders/" + idText(l.Ladder.ID), More: "rung " + strconv.Itoa(l.Wick.Rung) + ", " + string(l.Ladder.Kind)})
	f = append(f, ui.Fact{Label: "Wax", Text: l.Wax.Name, Href: "/shelf/waxes/" + idText(l.Wax.ID), More: lotText(l.Pour.WaxLot)})
	f = append(f, scentFact(l.Made))
	poured := ui.Fact{Label: "Poured", Text: v.Day(l.Pour.At) + ", " + pourName(l.Pour), Href: "/pours/" + idText(l.Pour.ID)}
	if t := l.Pour.PouredAt; t != nil {
		poured.More = "at " + v.temperature(*t).String()
	}
	f = append(f, poured)
	if l.Candle.Filled != nil {
		f.shown("Filled", v.mass(*l.Candle.Filled))
	} else {
		f.text("Filled", "not weighed")
	}
	f = append(f, cureFact(l, v))
	f.text("Target hour", targetText(l.Vessel))
	f.text("Note", l.Candle.Note)
	return f
}

// scentFact is the fragrance with its load on both bases.
func scentFact(m journal.Made) ui.Fact {
	if m.Fragrance == nil {
		return ui.Fact{Label: "Fragrance", Text: "none"}
	}
	return ui.Fact{Label: "Fragrance", Text: m.Fragrance.Name, Href: "/shelf/fragrances/" + idText(m.Fragrance.ID),
		More: joinBy("; ", bothBases(m.Pour), lotText(m.Pour.FragranceLot))}
}

// cureFact says how long the candle cured; how that stands to what the
// supplier states is told with the rest of the guidance.
func cureFact(l journal.CandleLog, v View) ui.Fact {
	f := ui.Fact{Label: "Cure"}
	until := v.Now
	first := firstLit(l)
	if first != nil {
		until = *first
	}
	days := v.daysApart(l.Pour.At, until)
	f.Text, f.Unit = days.Shown().Number, days.Shown().Unit
	f.More = "so far"
	if first != nil {
		f.More = "to the first burn"
	}
	stated := "no cure stated"
	if !l.Wax.CureDays.IsZero() {
		stated = "guide " + rangeText(l.Wax.CureDays, daysOf).String()
	}
	f.More = joinBy("; ", f.More, stated)
	return f
}

// firstLit is when the candle was lit first, burns that count only.
func firstLit(l journal.CandleLog) *time.Time {
	var first *time.Time
	for _, b := range l.Burns {
		if at := b.Burn.LitAt; !b.Burn.IsGone() && (first == nil || at.Before(*first)) {
			first = &at
		}
	}
	return first
}

// daysApart counts the midnights between two moments in the studio's zone.
func (v View) daysApart(from, to time.Time) quantity.Days {
	return quantity.Days(civil(to.In(v.Zone)).Sub(civil(from.In(v.Zone))).Hours() / 24)
}
