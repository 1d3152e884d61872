package sqlite

import (
	"context"
	"database/sql"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"rimward/internal/journal"
)

// planner answers queries and notes how SQLite means to answer them.
type planner struct {
	*sql.DB
	plans []string // the statement, then its steps
}

func (p *planner) QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error) {
	plan := query
	rows, err := p.DB.QueryContext(ctx, "EXPLAIN QUERY PLAN "+query, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		var id, parent, unused int
		var detail string
		if err := rows.Scan(&id, &parent, &unused, &detail); err != nil {
			return nil, err
		}
		plan += "\n  " + detail
	}
	if err := rows.Err(); err != nil {
		return nil, err
	}
	p.plans = append(p.plans, plan)
	return p.DB.QueryContext(ctx, query, args...)
}

// wholeScan finds a step that reads all of burn, checks or history. Indexes of
// a few rows at any time may be read whole: the burns that are open, and those
// that wait for the scale.
var wholeScan = regexp.MustCompile(`SCAN (burn|checks|set_check|history|photo|p)\b(?:(?: USING)?(?: COVERING)? INDEX (\w+))?`)

func scansWhole(plan string) bool {
	for _, m := range wholeScan.FindAllStringSubmatch(strings.Replace(plan, "USING COVERING INDEX", "INDEX", -1), -1) {
		if m[2] != "burn_open" && m[2] != "burn_cold" {
			return true
		}
	}
	return false
}

func TestNoReadGoesThroughAllBurnsOrChecks(t *testing.T) {
	s, _ := openInside(t)
	fillInside(t, s)
	p := &planner{DB: s.read}
	r := reader{t.Context(), p}
	for name, read := range map[string]func() error{
		"candle log":   func() error { _, err := r.candleLog(1); return err },
		"lit":          func() error { _, err := r.litLogs(); return err },
		"logs":         func() error { _, err := r.logsThatCount(""); return err },
		"logs of some": func() error { _, err := r.logsOf([]journal.ID{1, 2}); return err },
		"changed":      func() error { _, err := r.changed(1); return err },
		"candles":      func() error { _, err := r.candleLines(journal.CandleFilter{Limit: 50}); return err },
		"candles, narrowed": func() error {
			_, err := r.candleLines(journal.CandleFilter{Vessel: 1, Wax: 1, Wick: 1, Ladder: 1, Pour: 1, Before: 9, Limit: 50})
			return err
		},
		"waiting":        func() error { _, err := r.waiting(50); return err },
		"cold":           func() error { _, err := r.cold(50); return err },
		"sitting":        func() error { _, err := r.sittingBurns(1); return err },
		"tried":          func() error { _, err := r.tried(); return err },
		"use":            func() error { return r.useOfEach() },
		"photos of":      func() error { _, err := r.photosOf(journal.NounCheck, []journal.ID{1, 2}); return err },
		"candle photos":  func() error { _, err := r.candlePhotos(1); return err },
		"burn log":       func() error { _, err := r.burnLog(1); return err },
		"burn facts":     func() error { _, err := r.burnFacts(journal.Burn{Meta: journal.Meta{ID: 1}, Candle: 1}); return err },
		"check facts":    func() error { _, err := r.checkFacts(journal.Check{Burn: 1}); return err },
		"history":        func() error { _, err := r.history(journal.NounBurn, 1); return err },
		"candle history": func() error { _, err := r.candleHistory(1); return err },
		"pour":           func() error { _, err := r.pourLines([]journal.Pour{{Meta: journal.Meta{ID: 1}, Wax: 1}}); return err },
		"setting":        func() error { _, err := r.settingLogs(1); return err },
	} {
		t.Run(name, func(t *testing.T) {
			p.plans = nil
			ok(t, read())
			if len(p.plans) == 0 {
				t.Error("nothing was asked")
			}
			for _, plan := range p.plans {
				if scansWhole(plan) {
					t.Error(plan)
				}
			}
		})
	}
}

// useOfEach counts the uses of one thing of each kind.
func (r reader) useOfEach() error {
	for noun := range usedBy {
		if _, err := r.use(noun, 1); err != nil {
			return err
		}
	}
	return nil
}

func TestAPlanThatReadsEverythingIsFound(t *testing.T) {
	s, _ := openInside(t)
	p := &planner{DB: s.read}
	for _, query := range []string{"SELECT * FROM burn", "SELECT * FROM checks WHERE flame > 50", "SELECT candle_id FROM burn ORDER BY candle_id", "SELECT count(*) FROM history"} {
		p.plans = nil
		ok(t, reader{t.Context(), p}.rows(func(*sql.Rows) error { return nil }, query))
		if !scansWhole(p.plans[0]) {
			t.Errorf("not found: %s", p.plans[0])
		}
	}
}

// The number of queries must not grow with the number of candles.
func TestLogsTakeAConstantNumberOfQueries(t *testing.T) {
	s, _ := openInside(t)
	fillInside(t, s)
	count := func() string {
		p := &planner{DB: s.read}
		r := reader{t.Context(), p}
		_, err := r.logsThatCount("")
		ok(t, err)
		logs := len(p.plans)
		_, err = r.candleLines(journal.CandleFilter{Limit: 50})
		ok(t, err)
		return fmt.Sprint(logs, len(p.plans)-logs)
	}
	before := count()
	ok(t, s.Write(t.Context(), func(tx *Tx) error {
		for range 20 {
			c := journal.Candle{Pour: 1, Vessel: 1, Wick: 1, Wicks: 1}
			if err := tx.SaveCandle(&c); err != nil {
				return err
			}
			if err := tx.SaveBurn(&journal.Burn{Candle: c.ID, LitAt: tx.Now()}); err != nil {
				return err
			}
		}
		return nil
	}))
	if after := count(); after != before {
		t.Errorf("got %s queries for many candles, %s for one", after, before)
	}
}
