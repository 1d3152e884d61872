package server

import (
	"context"
	"net/url"

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

// showMassTaken adds to the page of a wax or a fragrance what was poured since
// it was counted.
func (s *Server) showMassTaken(ctx context.Context, p *page.ThingPage, noun journal.Noun, id journal.ID, x journal.Stock[quantity.Grams], v page.View) error {
	if x.CountedAt == nil {
		return nil
	}
	t, err := s.store.Taken(ctx, noun, id, *x.CountedAt)
	p.ShowTaken(page.MassTaken(x, t, v))
	return err
}

// showPiecesTaken does so for a vessel or a wick.
func (s *Server) showPiecesTaken(ctx context.Context, p *page.ThingPage, noun journal.Noun, id journal.ID, x journal.Stock[int]) error {
	if x.CountedAt == nil {
		return nil
	}
	t, err := s.store.Taken(ctx, noun, id, *x.CountedAt)
	p.ShowTaken(page.PiecesTaken(x, t))
	return err
}

// stocked is the shelf with what was taken from it since its counts.
func (s *Server) stocked(ctx context.Context) (page.Known, error) {
	k, err := s.known(ctx)
	if err != nil {
		return k, err
	}
	t, err := s.store.Takings(ctx)
	return k.WithTaken(t), err
}
