package form

import (
	"time"

	"rimward/internal/journal"
)

// ReadSetCheck reads what was seen of one candle, its moment apart. A depth
// says that the top is a dip, and the tick for all being as it should be fills
// in what was left open. wallSeen tells whether wet spots would show through
// the vessel.
func ReadSetCheck(p *Parser, wallSeen bool) journal.SetCheck {
	s := journal.SetCheck{
		Top: journal.Top(p.Choice("top", stringsOf(journal.Tops)...)), Dip: p.Length("dip"),
		SinkHole: p.amount("sink_hole"), Cracks: p.amount("cracks"), Frosting: p.amount("frosting"), Sweating: p.amount("sweating"),
		Stuck: p.Percent("stuck"), ColdThrow: p.Count("cold_throw"), Note: p.Text("note"),
	}
	if s.Top == "" && s.Dip != nil {
		s.Top = journal.TopDip
	}
	if p.Flag("fine") {
		s = s.AsItShouldBe(wallSeen)
	}
	return s
}

func (p *Parser) amount(name string) journal.Amount {
	return journal.Amount(p.Choice(name, stringsOf(journal.Amounts)...))
}

// LookedAt reads when candles were looked at: a date with a time of day, a time
// of day alone as the latest such moment before now, or now where both are
// empty. It is now, too, where they cannot be read, which is noted as a problem.
func (p *Parser) LookedAt(dateName, timeName string, now time.Time) time.Time {
	at := p.ClockBefore(timeName, now)
	if p.raw(dateName) != "" {
		at = p.Moment(dateName, timeName)
	}
	if at == nil {
		return now
	}
	return *at
}
