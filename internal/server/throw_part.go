package server

import (
	"context"

	"rimward/internal/journal"
	"rimward/web/page"
)

// throwPart is what is known of the throw of some candles; ask is the one that
// can be smelled from the page, 0 for none.
func (s *Server) throwPart(ctx context.Context, logs []journal.CandleLog, ask journal.ID, v visit) (page.ThrowPart, error) {
	ids := make([]journal.ID, len(logs))
	for i, l := range logs {
		ids[i] = l.Candle.ID
	}
	smelled, err := s.store.SmelledOf(ctx, ids)
	return page.NewThrowPart(smelled, logs, ask, v.view), err
}
