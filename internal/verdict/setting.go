package verdict

import (
	"rimward/internal/journal"
	"rimward/internal/safety"
)

// settled fills in how many candles were looked at when they were set, and how
// many sweated before they were ever lit.
func settled(f *journal.VerdictFigures, logs []journal.CandleLog) {
	for _, l := range logs {
		if l.Withdrawn() {
			continue
		}
		if l.Life().SetLooked() {
			f.Set++
		}
		if worst, _ := safety.Worst(l.CountedSetChecks(), safety.SetSweating); worst.Seen() {
			f.Sweated++
		}
	}
}

// setItem is good to have, and wanted where a candle sweated: oil that stands
// on cold wax feeds a fire.
func setItem(f journal.VerdictFigures) Item {
	i := Item{Key: KeySet, Name: "each candle looked at a day after the pour, none of them sweating", Source: "common practice, no source", Optional: f.Sweated == 0,
		Done: f.Sweated == 0 && f.Set > 0 && f.Set >= len(f.Candles), Has: count(f.Set, "candle", "candles") + " of " + count(len(f.Candles), "candle", "candles") + " looked at"}
	if f.Sweated > 0 {
		i.Has += "; " + count(f.Sweated, "candle", "candles") + " sweated"
	}
	return i
}
