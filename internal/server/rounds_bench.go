package server

import (
	"context"

	"rimward/web/page"
)

// roundsAhead are the running rounds with their days, for the bench.
func (s *Server) roundsAhead(ctx context.Context, v visit) (out []page.RoundAhead, err error) {
	list, err := s.store.Rounds(ctx)
	if err != nil {
		return nil, err
	}
	for _, x := range list {
		if x.IsGone() || x.Closed != nil {
			continue
		}
		progress, _, err := s.roundProgress(ctx, x, v)
		if err != nil {
			return nil, err
		}
		in, err := s.roundInput(ctx, x, &progress, v)
		if err != nil {
			return nil, err
		}
		out = append(out, page.RoundAhead{Round: x, Calendar: in.Calendar, Progress: &progress})
	}
	return out, nil
}
