package standings

import (
	"context"

	"rimward/internal/journal"
	"rimward/internal/standings/tree"
)

// Between is one pairing's chance of being the closest of all that a table
// holds, in whichever vessel and setting, each by its own wall and its own
// target hour.
type Between struct {
	Vessel  journal.ID
	Setting string // names its fragrance and load, as its series does
	Wick    journal.ID
	Wicks   int
	Chance  float64
}

// JudgeBetween is Judge, and compares pairings of different vessels and
// settings too: as those of one are, for a miss is a share of its own wall.
func (w *Weighed) JudgeBetween(ctx context.Context, stacks []*Stack) (Table, error) {
	t, err := w.Judge(ctx, stacks)
	if err != nil {
		return t, err
	}
	var series []tree.Series
	for _, s := range stacks {
		series = append(series, s.tree())
	}
	reports, err := w.tree.Reports(ctx, series...)
	if err != nil {
		return t, err
	}
	for i, s := range stacks {
		for k, r := range s.Rungs {
			if k < len(reports[i].Across) && r.burned() {
				t.Between = append(t.Between, Between{s.Vessel.ID, s.Setting(), r.Wick.ID, s.Wicks, reports[i].Across[k]})
			}
		}
	}
	return t, nil
}
