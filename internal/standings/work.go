package standings

import (
	"context"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// Work puts the pairings of candles in order, everything worked out from these
// alone: the same function wherever standings are shown.
func Work(ctx context.Context, logs []journal.CandleLog, opt Options, prior tree.Prior) (Table, error) {
	return WorkStacks(ctx, StacksOf(logs, opt), prior)
}

// WorkStacks is Work for readings that were sorted into series already.
func WorkStacks(ctx context.Context, stacks []*Stack, prior tree.Prior) (Table, error) {
	w, err := NewDesk(prior).Weigh(ctx, stacks)
	if err != nil {
		return Table{}, err
	}
	return w.Judge(ctx, stacks)
}

// chanceText writes a chance to two places, never as certain.
func chanceText(p float64) string { return quantity.Chance(p).String() }

// closenessText writes a closeness to a tenth.
func closenessText(p Pairing) string { return quantity.Closeness(p.Closeness()).String() }
