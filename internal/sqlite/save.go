package sqlite

import (
	"bytes"
	"fmt"
	"strings"

	"rimward/internal/journal"
)

// rules checks a record that is about to be kept and fills in what the store
// decides; before is nil when it is new.
type rules[T any] func(next, before *T) error

// save keeps a record. A new one (ID 0) is inserted, any other corrected if
// its version is the one that is kept. v changes only when the save succeeds.
func save[T any](tx *Tx, k kind[T], v *T, obey rules[T]) error {
	next := *v
	before, err := stored(tx, k, &next)
	if err != nil {
		return err
	}
	k.tidy(&next)
	if err := obey(&next, before); err != nil {
		return err
	}
	same, err := k.same(&next, before)
	if err != nil {
		return err
	}
	switch {
	case same:
	case before == nil:
		err = insert(tx, k, &next)
	default:
		err = update(tx, k, journal.Corrected, &next, before)
	}
	if err != nil {
		return err
	}
	*v = next
	return nil
}

// stored reads what is kept under the record's ID and carries its Meta over:
// a save cannot change when a record was written or whether it is gone.
func stored[T any](tx *Tx, k kind[T], next *T) (*T, error) {
	m := k.meta(next)
	if m.ID == 0 {
		*m = journal.Meta{Version: 1, Created: tx.Now()}
		return nil, nil
	}
	before, err := one(tx.reader, k, m.ID)
	if err != nil {
		return nil, err
	}
	was := k.meta(&before)
	if m.Version != was.Version {
		return nil, fmt.Errorf("correct %s %d: %w", k.noun, m.ID, journal.ErrConflict)
	}
	*m = *was
	return &before, nil
}

// same reports whether nothing was changed.
func (k kind[T]) same(next, before *T) (bool, error) {
	if before == nil {
		return false, nil
	}
	was, err := k.json(before)
	if err != nil {
		return false, err
	}
	is, err := k.json(next)
	return bytes.Equal(was, is), err
}

func insert[T any](tx *Tx, k kind[T], v *T) error {
	kept := k.kept(v)
	var names []string
	for _, f := range kept {
		names = append(names, `"`+f.name+`"`)
	}
	query := fmt.Sprintf("INSERT INTO %s (%s) VALUES (?%s)", k.table, strings.Join(names, ", "), strings.Repeat(", ?", len(names)-1))
	res, err := tx.tx.ExecContext(tx.ctx, query, places(kept)...)
	if err != nil {
		return tx.refused(err, k.noun, kept, k.taken)
	}
	id, err := res.LastInsertId()
	if err != nil {
		return fmt.Errorf("write %s: %w", k.noun, err)
	}
	k.meta(v).ID = journal.ID(id)
	return remember(tx, k, journal.Written, v, nil)
}

// update puts next in the place of before and raises its version.
func update[T any](tx *Tx, k kind[T], change journal.ChangeKind, next, before *T) error {
	m := k.meta(next)
	m.Version++
	kept := k.kept(next)
	var sets []string
	for _, f := range kept {
		sets = append(sets, `"`+f.name+`" = ?`)
	}
	query := fmt.Sprintf("UPDATE %s SET %s WHERE id = ?", k.table, strings.Join(sets, ", "))
	if _, err := tx.tx.ExecContext(tx.ctx, query, append(places(kept), m.ID)...); err != nil {
		return tx.refused(err, k.noun, kept, k.taken)
	}
	return remember(tx, k, change, next, before)
}
