package server

import (
	"context"

	"rimward/internal/answer"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/standings"
	"rimward/web/page"
)

// roundProgress is how far a round has come, with what its candles were poured
// from.
func (s *Server) roundProgress(ctx context.Context, r journal.TestRound, v visit) (plan.RoundProgress, map[journal.ID]journal.Pour, error) {
	lines, err := s.store.RoundCandles(ctx, r.ID)
	if err != nil {
		return plan.RoundProgress{}, nil, err
	}
	pours := map[journal.ID]journal.Pour{}
	for _, l := range lines {
		id := l.Candle.Pour
		if _, known := pours[id]; known {
			continue
		}
		if pours[id], err = s.store.Pour(ctx, id); err != nil {
			return plan.RoundProgress{}, nil, err
		}
	}
	return plan.Progress(r, lines, pours, v.view.Now), pours, nil
}

// roundAnswer is what a round's candles answer, weighed with what the whole
// journal says of how burns and candles differ; note says where that is behind
// the record.
func (s *Server) roundAnswer(ctx context.Context, r journal.TestRound, p plan.RoundProgress, pours map[journal.ID]journal.Pour, v visit) (answer.RoundAnswer, string, error) {
	table, note, err := s.roundTable(ctx, p, v)
	if err != nil {
		return answer.RoundAnswer{}, "", err
	}
	return answer.Of(r, p, table, pours), note, nil
}

// roundTable is the standings of the candles that took the round's places.
func (s *Server) roundTable(ctx context.Context, p plan.RoundProgress, v visit) (standings.Table, string, error) {
	var burned []journal.ID
	for _, x := range p.Places {
		if x.Done > 0 || x.Stage == plan.IsLit {
			burned = append(burned, x.Candle.Candle.ID)
		}
	}
	if len(burned) == 0 {
		return standings.Table{}, "", nil
	}
	logs, err := s.store.LogsOf(ctx, burned)
	if err != nil {
		return standings.Table{}, "", err
	}
	weighed, fresh, err := s.scales.weigh(ctx)
	if err != nil {
		return standings.Table{}, "", err
	}
	table, err := weighed.JudgeBetween(ctx, standings.StacksOf(logs, standings.OptionsOf(v.set, nil)))
	return table, page.WeighedNote(weighed.at, fresh, weighed.err != nil, v.view), err
}
