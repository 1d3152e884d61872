package plan

import (
	"time"

	"rimward/internal/journal"
)

// AddCasts puts on the board what is still in its mould: to be taken out a
// full day after the pour (common practice, no source).
func (b *Board) AddCasts(now time.Time, lines []journal.CastLine) {
	for _, l := range lines {
		if l.Cast.Out != nil || !l.Counts() {
			continue
		}
		it := Item{Kind: TakeOut, Pour: l.Pour.ID, PourNumber: l.Pour.Number, Cast: &l, At: l.Pour.At.Add(journal.SetsAfter)}
		if it.At.After(now) {
			b.Coming = append(b.Coming, it)
		} else {
			b.Due = append(b.Due, it)
		}
	}
	b.order()
}
