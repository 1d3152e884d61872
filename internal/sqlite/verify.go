package sqlite

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"rimward/internal/journal"
)

// Verify looks a journal through without changing it: whether the file is
// whole, every reference and every photo leads somewhere, burns and checks keep
// the rules of time, and casts, set checks, rounds and pour sheets keep theirs. Problems are plain sentences; none means that it is whole. An error
// is a file that cannot be looked through at all.
func Verify(ctx context.Context, path string) (problems []string, err error) {
	h, err := recogniseJournal(path)
	if err != nil {
		return nil, err
	}
	knows, err := newest(steps())
	if err != nil {
		return nil, err
	}
	if err := tooNew(path, h.version, knows); err != nil {
		return nil, err
	}
	if h.version < knows {
		return []string{fmt.Sprintf("The journal has version %d and this program keeps version %d. Open it with the program once; that brings it up to date.", h.version, knows)}, nil
	}
	db, err := handle(path, onlyLook, 1)
	if err != nil {
		return nil, err
	}
	defer db.Close()
	s := &Store{read: db}
	return view(ctx, s, func(r reader) ([]string, error) { return r.faults() })
}

// faults gathers what is wrong, the file itself first.
func (r reader) faults() ([]string, error) {
	var out []string
	err := r.rows(func(rows *sql.Rows) error {
		var line string
		err := rows.Scan(&line)
		if line != "ok" {
			out = append(out, "The file is damaged: "+line+".")
		}
		return err
	}, "PRAGMA integrity_check(20)")
	if err != nil || len(out) > 0 {
		return append(out, sentence(err)...), nil
	}
	err = r.rows(func(rows *sql.Rows) error {
		var table, parent string
		var row, key sql.NullInt64
		err := rows.Scan(&table, &row, &parent, &key)
		out = append(out, fmt.Sprintf("The %s %d refers to a %s that is not there.", table, row.Int64, parent))
		return err
	}, "PRAGMA foreign_key_check")
	if err != nil {
		return append(out, sentence(err)...), nil
	}
	return append(append(out, r.lostPhotos()...), r.brokenRules()...), nil
}

func sentence(err error) []string {
	if err == nil {
		return nil
	}
	return []string{"The file is damaged: " + err.Error() + "."}
}

// lostPhotos names the photos, withdrawn ones too, that show what is not there.
func (r reader) lostPhotos() []string {
	list, err := all(r, photos, "ORDER BY id")
	if err != nil {
		return sentence(err)
	}
	var out []string
	for _, p := range list {
		var id journal.ID
		of, found := photographed[p.Of]
		if found {
			found, err = r.value("SELECT id FROM "+of.table+" WHERE id = ?", []any{p.OfID}, &id)
		}
		if err != nil {
			return append(out, sentence(err)...)
		}
		if !found {
			out = append(out, fmt.Sprintf("Photo %d shows a %s that is not there, with the number %d.", p.ID, p.Of, p.OfID))
		}
	}
	return out
}

// brokenRules reads every burn and check beside its neighbours, and what was
// written before.
func (r reader) brokenRules() []string {
	var out []string
	list, err := all(r, candles, "ORDER BY candle.id")
	if err != nil {
		return sentence(err)
	}
	logs, err := r.logs(list, counts, counts, counts)
	if err != nil {
		return sentence(err)
	}
	far := time.Date(9000, 1, 1, 0, 0, 0, 0, time.UTC)
	for _, l := range logs {
		out = append(out, brokenBurns(l, far)...)
	}
	return append(out, r.brokenMaking(logs, far)...)
}

// brokenBurns holds the rules of one candle's burns and checks. The moment of
// verifying plays no part: it lies beyond any that was written.
func brokenBurns(l journal.CandleLog, far time.Time) []string {
	var out []string
	for _, b := range l.Burns {
		f := journal.BurnFacts{Now: far, Candle: l.Candle, Life: l.Life(), Checks: b.Checks}
		for _, o := range l.Burns {
			if o.Burn.ID != b.Burn.ID {
				f.Others = append(f.Others, o.Burn)
			}
		}
		if err := b.Burn.Validate(f); err != nil {
			out = append(out, fmt.Sprintf("Burn %d of candle %s: %s", b.Burn.Number, l.Candle.Code(), err))
		}
		for _, c := range b.Checks {
			facts := journal.CheckFacts{Now: far, Burn: b.Burn, Vessel: l.Vessel, Wicks: l.Candle.Wicks, Ruler: 10, Others: b.Checks}
			if err := c.Validate(facts); err != nil {
				out = append(out, fmt.Sprintf("A check of burn %d of candle %s: %s", b.Burn.Number, l.Candle.Code(), err))
			}
		}
	}
	return out
}
