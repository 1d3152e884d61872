package server

import (
	"context"
	"net/url"
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/page"
)

// lightAsked is what running rounds plan for tonight, with the round that the
// page was opened for; 0 is none.
func (s *Server) lightAsked(ctx context.Context, round journal.ID, v visit) (in page.LightAsked, err error) {
	in = page.LightAsked{Longest: safety.NewLimits(v.set.Limits).LongestBurn(), BenchPlaces: v.set.BenchPlaces}
	if round != 0 {
		x, err := s.store.Round(ctx, round)
		if err != nil {
			return in, err
		}
		in.Round = &x
	}
	if in.Ahead, err = s.roundsAhead(ctx, v); err != nil {
		return in, err
	}
	in.Lit, err = s.store.LitLogs(ctx)
	return in, err
}

// ofRound ticks the sitting of the round that was asked for, and puts its
// candles on top of those that wait, in their order on the bench.
func ofRound(in page.LightAsked, waiting []journal.CandleLine, v visit) (url.Values, []journal.CandleLine) {
	for _, x := range in.Ahead {
		if in.Round == nil || x.Round.ID != in.Round.ID {
			continue
		}
		first := x.TonightLines(v.view)
		rest := slices.DeleteFunc(slices.Clone(waiting), func(c journal.CandleLine) bool {
			return slices.ContainsFunc(first, func(f journal.CandleLine) bool { return f.Candle.ID == c.Candle.ID })
		})
		return x.TonightValues(v.view), append(first, rest...)
	}
	return url.Values{}, waiting
}

// postedRound is the round that a lighting page was opened for; 0 is none.
func postedRound(values url.Values) journal.ID {
	n, err := strconv.ParseInt(values.Get("round"), 10, 64)
	if err != nil || n < 1 {
		return 0
	}
	return journal.ID(n)
}
