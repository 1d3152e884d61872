package page

import (
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/web/ui"
)

// RoundAhead is a running round with its days.
type RoundAhead struct {
	Round    journal.TestRound
	Calendar plan.Calendar
	Progress *plan.RoundProgress
}

// ShowRounds puts the next day of every running round on the bench, and what
// is to be lit tonight before all else that is due; a round with nothing ahead
// is left out.
func (p *BenchPage) ShowRounds(list []RoundAhead, v View) {
	var lights []ui.Item
	for _, x := range list {
		if s, is := x.tonight(v); is {
			lights = append(lights, ui.Item{Text: capital(x.burnsOf(s)), Href: lightRoundHref(x.Round.ID), When: "at " + v.Clock(s.From), More: eveningWord(s, v) + ": " + x.Round.Question})
		}
		next := newCalendarPart(x.Calendar, placeNamer(x.Progress), v).Next
		if len(next) == 0 {
			continue
		}
		i := ui.Item{Text: x.Round.Question, Href: "/rounds/" + idText(x.Round.ID), When: next[0].Day}
		for _, row := range next {
			if row.Day == next[0].Day {
				i.More = joinBy("; ", i.More, row.What+": "+row.More)
			}
		}
		p.Rounds = append(p.Rounds, i)
	}
	p.Due = append(lights, p.Due...)
}
