package demo_test

import (
	"testing"

	"rimward/internal/demo"
	"rimward/internal/journal"
)

// SaveRound holds the rules of a round.
func (l *ledger) SaveRound(r *journal.TestRound) error {
	if l.rounds == nil {
		l.rounds = map[journal.ID]journal.TestRound{}
	}
	f := journal.RoundRecord{}
	if before, known := l.rounds[r.ID]; known {
		f.Before = &before
	}
	for _, c := range l.candles {
		if c.Round != nil && *c.Round == r.ID {
			f.Poured++
		}
	}
	return put(l, journal.NounRound, l.rounds, r, &r.Meta, r.Validate(f))
}

// The season plans two rounds: one was answered, and of one a copy is still to
// be poured. Every candle stands at the place that was drawn for its wick.
func TestTheSeasonPlansTwoRounds(t *testing.T) {
	l := fill(t, demo.NewSeason(1, evening, lisbon(t)))
	if len(l.rounds) != 2 {
		t.Fatalf("%d rounds", len(l.rounds))
	}
	closed, open := 0, 0
	for id, r := range l.rounds {
		taken := map[int]bool{}
		for _, c := range l.candles {
			if c.Round == nil || *c.Round != id {
				continue
			}
			p, there := r.Place(c.RoundPlace)
			if !there || taken[c.RoundPlace] || p.Wick != c.Wick || p.Vessel != c.Vessel || p.Wicks != c.Wicks {
				t.Errorf("candle %s at place %d of %+v", c.Code(), c.RoundPlace, p)
			}
			if l.pours[c.Pour].At.Before(r.Created) {
				t.Errorf("candle %s was poured before its round was planned", c.Code())
			}
			taken[c.RoundPlace] = true
		}
		switch {
		case r.Closed != nil && len(taken) == len(r.Places):
			closed++
		case r.Closed == nil && len(taken) > 0 && len(taken) < len(r.Places):
			open++
		}
	}
	if closed != 1 || open != 1 || l.corrected[journal.NounRound] != 2 {
		t.Errorf("%d closed, %d running, %d corrections", closed, open, l.corrected[journal.NounRound])
	}
}
