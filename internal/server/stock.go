package server

import (
	"context"
	"net/url"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/web/page"
)

// recounted marks a stock as counted just now where the form says so.
func recounted[N quantity.Grams | int](s *journal.Stock[N], values url.Values, tx *sqlite.Tx) {
	if values.Get("recounted") != "" && s.OnHand != nil {
		now := tx.Now()
		s.CountedAt = &now
	}
}

// showTaken adds to the page of a thing what was poured since it was counted.
func (s *Server) showTaken(ctx context.Context, p *page.ThingPage, noun journal.Noun, id journal.ID, countedAt *time.Time, v page.View) error {
	if countedAt == nil {
		return nil
	}
	t, err := s.store.Taken(ctx, noun, id, *countedAt)
	if err != nil {
		return err
	}
	p.ShowTaken(t, v)
	return nil
}
