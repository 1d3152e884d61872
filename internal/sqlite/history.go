package sqlite

import (
	"context"
	"database/sql"

	"rimward/internal/journal"
)

// remember adds a line to the record's history.
func remember[T any](tx *Tx, k kind[T], change journal.ChangeKind, next, before *T) error {
	after, err := k.json(next)
	if err != nil {
		return err
	}
	var was []byte
	if before != nil {
		if was, err = k.json(before); err != nil {
			return err
		}
	}
	return tx.remember(k.noun, k.meta(next).ID, change, was, after)
}

// remember adds a line to a record's history from its finished JSON.
func (tx *Tx) remember(noun journal.Noun, of journal.ID, change journal.ChangeKind, before, after []byte) error {
	at := tx.Now()
	was := sql.NullString{String: string(before), Valid: before != nil}
	return tx.exec("INSERT INTO history (noun, of_id, at, kind, before_json, after_json) VALUES (?, ?, ?, ?, ?, ?)",
		noun, of, moment{&at}, change, was, string(after))
}

// newestFirst reads the changes that the given select picks.
func (r reader) newestFirst(which string, args ...any) ([]journal.Change, error) {
	var list []journal.Change
	err := r.rows(func(rows *sql.Rows) error {
		var c journal.Change
		if err := rows.Scan(&c.ID, &c.Noun, &c.Of, moment{&c.At}, &c.Kind, &c.Before, &c.After); err != nil {
			return err
		}
		list = append(list, c)
		return nil
	}, which+" ORDER BY 1 DESC", args...)
	return list, err
}

const changes = "SELECT id, noun, of_id, at, kind, before_json, after_json FROM history WHERE noun = ? AND of_id "

// History lists the changes of one record, newest first.
func (s *Store) History(ctx context.Context, noun journal.Noun, id journal.ID) ([]journal.Change, error) {
	return view(ctx, s, func(r reader) ([]journal.Change, error) { return r.history(noun, id) })
}

func (r reader) history(noun journal.Noun, id journal.ID) ([]journal.Change, error) {
	return r.newestFirst(changes+"= ?", noun, id)
}

// CandleHistory lists the changes of a candle, its set checks, its burns, its checks and the
// photos of all of these, newest first.
func (s *Store) CandleHistory(ctx context.Context, candle journal.ID) ([]journal.Change, error) {
	return view(ctx, s, func(r reader) ([]journal.Change, error) { return r.candleHistory(candle) })
}

func (r reader) candleHistory(candle journal.ID) ([]journal.Change, error) {
	ofBurns := "IN (SELECT id FROM burn WHERE candle_id = ?)"
	ofSet := "IN (SELECT id FROM set_check WHERE candle_id = ?)"
	ofChecks := "IN (SELECT checks.id FROM burn CROSS JOIN checks ON checks.burn_id = burn.id WHERE burn.candle_id = ?)"
	return r.newestFirst(changes+"= ? UNION ALL "+changes+ofBurns+" UNION ALL "+changes+ofChecks+" UNION ALL "+changes+ofSet+" UNION ALL "+changes+photosOfCandle,
		journal.NounCandle, candle, journal.NounBurn, candle, journal.NounCheck, candle, journal.NounSetCheck, candle, journal.NounPhoto, candle, candle, candle, candle)
}

// Revision is a number that rises with every change to the journal.
func (s *Store) Revision(ctx context.Context) (int64, error) {
	return view(ctx, s, func(r reader) (n int64, err error) {
		_, err = r.value("SELECT coalesce(max(id), 0) FROM history", nil, &n)
		return n, err
	})
}
