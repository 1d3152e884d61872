package main

import (
	"context"
	"fmt"
	"time"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/internal/sqlite"
	"rimward/internal/standings"
	"rimward/internal/verdict"
)

// judge saves a verdict of the season with the figures that the journal gives
// for its pairing at that moment, worked out as the pages work them out.
func judge(ctx context.Context, store *sqlite.Store, v journal.Verdict, at time.Time) error {
	changes, err := store.Changed(ctx, 0)
	if err != nil {
		return err
	}
	set, err := store.Settings(ctx)
	if err != nil {
		return err
	}
	shelf, err := store.Wicks(ctx)
	if err != nil {
		return err
	}
	logs, err := store.Logs(ctx)
	if err != nil {
		return err
	}
	table, err := standings.Work(ctx, logs, standings.OptionsOf(set, shelf), standings.PriorOf(set.Beliefs))
	if err != nil {
		return err
	}
	draft, ok := draftFor(v, table, verdict.Evidence{Logs: logs, Limits: safety.NewLimits(set.Limits), Revision: changes.Revision, At: at}, set.Apart)
	if !ok {
		return fmt.Errorf("find the pairing of a verdict: %w", journal.ErrNotFound)
	}
	draft.Ruling, draft.By, draft.Why, draft.TipTest, draft.BaseCheck = v.Ruling, v.By, v.Why, v.TipTest, v.BaseCheck
	if v.Ruling == journal.Accepted && len(draft.Figures.Hard) > 0 {
		draft.Ruling, draft.Why = journal.LeftOpen, unlucky
	}
	return store.Write(ctx, func(tx *sqlite.Tx) error { return tx.SaveVerdict(&draft) })
}

// unlucky is why a verdict is left open in a season whose luck put a hard
// finding against the pairing that was to be accepted.
const unlucky = "It would have been accepted, but a hard finding stands against it. One more candle, trimmed shorter, is to tell."

// draftFor finds the pairing that a verdict is about in the standings.
func draftFor(v journal.Verdict, table standings.Table, e verdict.Evidence, apart journal.Apart) (out journal.Verdict, ok bool) {
	key := standings.TriedKey(triedOf(v), apart)
	all := e.Logs
	table.Each(func(g standings.Group, s standings.Series, p standings.Pairing) {
		if g.Vessel.ID != v.Vessel || p.Wick.ID != v.Wick || p.Wicks != v.Wicks || s.Setting != key || g.Settings[0].Wax.ID != v.Wax {
			return
		}
		e.Series, e.Pairing, e.Logs = s, p, verdict.LogsOf(p, all)
		out, ok = verdict.Draft(e, g, apart), true
	})
	return out, ok
}

// triedOf is the setting of a verdict.
func triedOf(v journal.Verdict) journal.Tried {
	t := journal.Tried{Vessel: v.Vessel, Wax: v.Wax, Fragrance: v.Fragrance, Basis: journal.OfWax}
	if v.Load != nil {
		load := float64(*v.Load)
		t.Load = &load
	}
	return t
}
