package page

import (
	"rimward/internal/journal"
	"rimward/internal/safety"
)

// earlyNotes says that a burn came before the candle was set and cured.
func earlyNotes(burn int, l journal.CandleLog) []string {
	var out []string
	for _, f := range safety.OfCure(l) {
		if f.Burn == burn {
			out = append(out, f.Text)
		}
	}
	return out
}
