package verdict

import (
	"fmt"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/quantity"
	"rimward/internal/standings"
)

// PlaceOf names a pairing of a series in a group.
func PlaceOf(g standings.Group, s standings.Series, p standings.Pairing) journal.Place {
	out := journal.Place{Vessel: g.Vessel.ID, Wick: p.Wick.ID, Series: s.Key}
	if len(g.Settings) > 0 {
		out.Wax = g.Settings[0].Wax.ID
	}
	return out
}

// Draft is a verdict on a pairing with its figures and without a ruling. apart
// is how the studio keeps settings apart.
func Draft(e Evidence, g standings.Group, apart journal.Apart) journal.Verdict {
	at := PlaceOf(g, e.Series, e.Pairing)
	v := journal.Verdict{Vessel: at.Vessel, Wick: at.Wick, Wicks: e.Pairing.Wicks, Wax: at.Wax, Apart: apart, Series: at.Series, Figures: Freeze(e)}
	if len(g.Settings) == 0 || g.Settings[0].Fragrance == nil || apart == journal.ByWax {
		return v
	}
	v.Fragrance = &g.Settings[0].Fragrance.ID
	if apart == journal.ByLoad {
		v.Load = g.Settings[0].Load
	}
	return v
}

// Doubts asks about a verdict that keeps the rules and is unusual all the
// same.
func Doubts(v journal.Verdict) []journal.Doubt {
	var out []journal.Doubt
	if v.Ruling == journal.Accepted && v.Figures.Rank > 1 {
		out = append(out, journal.Doubt{Key: fmt.Sprintf("not-first:%d", v.Figures.Rank), Field: "ruling",
			Text: "It is " + quantity.Ordinal(v.Figures.Rank) + " of " + count(v.Figures.Ranked, "pairing", "pairings") + " in the standings. Is it the one you mean to accept?"})
	}
	if text := claimText(v); text != "" {
		out = append(out, journal.Doubt{Key: fmt.Sprintf("claim:%g", float64(*v.ClaimedHours)), Field: "claimed_hours", Text: text})
	}
	return out
}

// claimText asks about a claimed burn time; "" when there is nothing to ask. A
// time within the bound is cautious, however far below the mean it lies.
func claimText(v journal.Verdict) string {
	l := v.Figures.Label
	switch {
	case v.ClaimedHours == nil:
		return ""
	case l == nil:
		return "No candle was burned to the end yet, so nothing speaks for this time. Keep it all the same?"
	case l.Bound == nil:
		return unboundText(*v.ClaimedHours, *l) + " Keep it all the same?"
	case *v.ClaimedHours > *l.Bound:
		return "This is longer than the " + l.Bound.WholeDown().String() + " that nine candles in ten are sure enough to last. Keep it all the same?"
	}
	return ""
}

// unboundText says of a claimed time that nothing says how long nine in ten
// candles last, and how far it lies from their mean.
func unboundText(h quantity.Hours, l journal.LabelFigures) string {
	text := "The candles burned to the end lasted too differently to say what nine in ten last."
	if l.Candles < life.LabelNeeds {
		text = "Only " + count(l.Candles, "candle was", "candles were") + " burned to the end, and it takes " + quantity.Number(life.LabelNeeds, 0) + " to say what nine in ten last."
	}
	if c, ok := life.NewClaim(h, l.Mean); ok && c.Says != life.ClaimInside {
		text += " This lies more than " + quantity.Fraction(life.ClaimWithin).Percent().String() + " from the " + l.Mean.Decimal().String() + " measured on average."
	}
	return text
}

// Ready reports whether a pairing could be ready for a verdict by what the
// standings know of it: it may be the closest, and nothing that they see is
// missing. How its candles lasted is looked at after that.
func Ready(p standings.Pairing) bool {
	return p.Enough() && p.Running && !p.BelowLine() && p.Candles >= CandlesEnough && p.OnTarget >= OnTargetEnough
}

// LogsOf picks the logs of a pairing's candles.
func LogsOf(p standings.Pairing, logs []journal.CandleLog) []journal.CandleLog {
	ids := p.CandleIDs()
	return slices.DeleteFunc(slices.Clone(logs), func(l journal.CandleLog) bool { return !slices.Contains(ids, l.Candle.ID) })
}
