package safety

import (
	"strconv"

	"rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// EarlyRule names the findings of burns that were lit before the candle was
// set and cured.
const EarlyRule = "burned before it was cured"

// OfCure finds the burns that count and were lit before the candle was set and
// cured: one finding each, in order of lighting.
func OfCure(l journal.CandleLog) []Finding {
	var fs []Finding
	for _, e := range guide.EarlyBurns(l) {
		waited, meant := e.Waited.Shown(), e.Meant.Shown()
		fs = append(fs, Finding{Rule: EarlyRule, Level: Note, Reading: waited, Limit: meant,
			Source: waxSupplier + "; a day to set is common practice, no source",
			At:     e.LitAt, Burn: e.Burn, Candle: l.Candle.Code(), CandleID: l.Candle.ID,
			Text: "Burn " + strconv.Itoa(e.Burn) + " was lit " + waited.String() + " after the pour, " + shortSpan(e.By) + " early: " + meant.String() +
				" of setting and cure is meant. It may not show what a cured candle does."})
	}
	return fs
}

// shortSpan writes a span in days, and below two of them in hours.
func shortSpan(d quantity.Days) string {
	if d < 2 {
		return quantity.Hours(d * 24).Clock()
	}
	return d.Shown().String()
}
