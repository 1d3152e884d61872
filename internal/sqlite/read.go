package sqlite

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"

	"rimward/internal/journal"
)

// querier is a transaction or anything else that answers queries.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

// reader reads nouns within one transaction; both Tx and the reading methods
// of Store go through it.
type reader struct {
	ctx context.Context
	q   querier
}

// view reads within one transaction, so that several queries see the same
// journal.
func view[R any](ctx context.Context, s *Store, do func(reader) (R, error)) (R, error) {
	var none R
	tx, err := s.read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true})
	if err != nil {
		return none, fmt.Errorf("begin reading: %w", err)
	}
	defer tx.Rollback() // nothing was written that could be lost
	return do(reader{ctx, tx})
}

// rows hands every row of a query to scan.
func (r reader) rows(scan func(*sql.Rows) error, query string, args ...any) error {
	rows, err := r.q.QueryContext(r.ctx, query, args...)
	if err != nil {
		return fmt.Errorf("query journal: %w", err)
	}
	defer rows.Close()
	for rows.Next() {
		if err := scan(rows); err != nil {
			return fmt.Errorf("read row: %w", err)
		}
	}
	if err := rows.Err(); err != nil {
		return fmt.Errorf("query journal: %w", err)
	}
	return nil
}

// value reads a query of one row; found is false when there is none.
func (r reader) value(query string, args []any, into ...any) (found bool, err error) {
	err = r.rows(func(rows *sql.Rows) error {
		found = true
		return rows.Scan(into...)
	}, query, args...)
	return found, err
}

// all reads the records that the rest of the query picks.
func all[T any](r reader, k kind[T], rest string, args ...any) ([]T, error) {
	var list []T
	var v T
	into := places(k.fields(&v))
	err := r.rows(func(rows *sql.Rows) error {
		if err := rows.Scan(into...); err != nil {
			return err
		}
		list = append(list, v)
		return nil
	}, k.selects()+" "+rest, args...)
	return list, err
}

// one reads the record with an ID.
func one[T any](r reader, k kind[T], id journal.ID) (T, error) {
	list, err := all(r, k, "WHERE "+k.column("id")+" = ?", id)
	if err == nil && len(list) == 0 {
		err = fmt.Errorf("find %s %d: %w", k.noun, id, journal.ErrNotFound)
	}
	if err != nil {
		var none T
		return none, err
	}
	return list[0], nil
}

// byID reads the records that the rest of the query picks, by their ID.
func byID[T any](r reader, k kind[T], rest string, args ...any) (map[journal.ID]T, error) {
	list, err := all(r, k, rest, args...)
	found := make(map[journal.ID]T, len(list))
	for _, v := range list {
		found[k.meta(&v).ID] = v
	}
	return found, err
}

// idList is a list of IDs as one argument, read by json_each.
func idList(ids []journal.ID) string {
	if ids == nil {
		ids = []journal.ID{}
	}
	text, err := json.Marshal(ids)
	if err != nil {
		panic(err) // integers always have a JSON form
	}
	return string(text)
}
