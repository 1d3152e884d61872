package safety_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// What counts as a fault is the program's own choice, marked so in the table
// of limits; this holds the life of a candle to the same rules as its counts.
func TestFaultsOverLifeFollowTheCounts(t *testing.T) {
	t.Parallel()
	lit := time.Date(2026, 5, 1, 18, 0, 0, 0, time.UTC)
	burn := func(n int, soot journal.Grade, odd ...journal.Odd) journal.BurnLog {
		at := lit.Add(time.Duration(n) * 24 * time.Hour)
		return journal.BurnLog{Burn: journal.Burn{Number: n, LitAt: at}, Checks: []journal.Check{{At: at.Add(time.Hour), Soot: soot, Odd: odd}}}
	}
	gone := burn(2, "marks")
	gone.Burn.Gone = &lit
	log := journal.CandleLog{Burns: []journal.BurnLog{burn(1, "none"), gone, burn(3, "wisp"), burn(4, "thread", journal.Debris), burn(5, "")}}
	lim := safety.NewLimits(nil)
	burns, faults := safety.FaultsOverLife(log, lim, quantity.Metric)
	if d := cmp.Diff([]int{1, 3, 4, 5}, burns); d != "" {
		t.Error(d)
	}
	want := map[string][]safety.Look{
		"soot":               {safety.NotSeen, safety.SeenSlight, safety.Seen, safety.NotLooked},
		"debris in the pool": {safety.NotSeen, safety.NotSeen, safety.Seen, safety.NotSeen},
		"hot vessel":         {safety.NotLooked, safety.NotLooked, safety.NotLooked, safety.NotLooked},
	}
	counts := safety.CountFaults(log, lim, quantity.Metric)
	for i, f := range faults {
		if w, ok := want[f.Name]; ok {
			if d := cmp.Diff(w, f.Burns); d != "" {
				t.Errorf("%s: %s", f.Name, d)
			}
			delete(want, f.Name)
		}
		seen, of := 0, 0
		for _, l := range f.Burns {
			if l == safety.Seen {
				seen++
			}
			if l != safety.NotLooked {
				of++
			}
		}
		if counts[i].Name != f.Name || counts[i].Burns != seen || counts[i].Of != of {
			t.Errorf("%s: %d of %d over its life, counted %+v", f.Name, seen, of, counts[i])
		}
	}
	if len(want) > 0 {
		t.Errorf("not among the faults: %v", want)
	}
}
