package server

import (
	"context"
	"net/http"
	"sync"

	"rimward/internal/influence"
	"rimward/internal/journal"
	"rimward/web/page"
)

// showMoved asks what went with wider and narrower pools across the candles of
// one wax.
func (s *Server) showMoved(w http.ResponseWriter, r *http.Request, v visit) error {
	tried, err := s.store.Tried(r.Context())
	if err != nil {
		return err
	}
	sh, err := s.shelf(r.Context())
	if err != nil {
		return err
	}
	choice := page.ReadMovedChoice(r.URL.Query(), tried)
	answer, note, err := s.whatMoved(r.Context(), v, choice)
	if err != nil {
		return err
	}
	p := page.NewMovedPage(answer, choice, tried, sh, note, v.view)
	return s.render(w, r, http.StatusOK, s.frame(r, v.set, "What moved the pool", "standings"), page.Moved(p))
}

// movedChart sends the chart of what moved the pool as a file.
func (s *Server) movedChart(w http.ResponseWriter, r *http.Request, v visit) error {
	tried, err := s.store.Tried(r.Context())
	if err != nil {
		return err
	}
	answer, _, err := s.whatMoved(r.Context(), v, page.ReadMovedChoice(r.URL.Query(), tried))
	if err != nil {
		return err
	}
	name, kind := chartFile(r)
	if name != "moved" || len(answer.Effects) == 0 {
		return journal.ErrNotFound
	}
	return s.sendChart(w, r, page.MovedChart(answer, v.view), name, kind)
}

// whatMoved weighs the wax's candles with the whole journal and explains them,
// once for each revision.
func (s *Server) whatMoved(ctx context.Context, v visit, choice page.MovedChoice) (influence.Answer, string, error) {
	if choice.Wax == 0 {
		return influence.Explain(nil), "", nil
	}
	revision, err := s.store.Revision(ctx)
	if err != nil {
		return influence.Answer{}, "", err
	}
	if a, ok := s.moved.at(revision, choice.Wax); ok {
		return a, "", nil
	}
	table, note, worked, err := s.judgeAt(ctx, v, choice.Picks)
	if err != nil {
		return influence.Answer{}, "", err
	}
	pours, err := s.pours(ctx)
	if err != nil {
		return influence.Answer{}, "", err
	}
	a := influence.Explain(influence.CandlesOf(table, pours))
	if worked == revision && note == "" {
		s.moved.keep(revision, choice.Wax, a)
	}
	return a, note, nil
}

// movedAnswers are the answers of the newest revision that was asked about, by
// wax. Nobody may change an answer that is kept.
type movedAnswers struct {
	mu       sync.Mutex
	revision int64
	of       map[journal.ID]influence.Answer
}

func (m *movedAnswers) at(revision int64, wax journal.ID) (influence.Answer, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	a, ok := m.of[wax]
	return a, ok && m.revision == revision
}

func (m *movedAnswers) keep(revision int64, wax journal.ID, a influence.Answer) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.of == nil || m.revision != revision {
		m.revision, m.of = revision, map[journal.ID]influence.Answer{}
	}
	m.of[wax] = a
}

// pours loads every pour, by ID.
func (s *Server) pours(ctx context.Context) (map[journal.ID]journal.Pour, error) {
	out := map[journal.ID]journal.Pour{}
	for below, more := 0, true; more; {
		lines, rest, err := s.store.Pours(ctx, below, poursAtOnce)
		if err != nil {
			return nil, err
		}
		for _, l := range lines {
			out[l.Pour.ID], below = l.Pour, l.Pour.Number
		}
		more = rest
	}
	return out, nil
}

// poursAtOnce is how many pours are read at a time.
const poursAtOnce = 500
