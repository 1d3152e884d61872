package sqlite

import (
	"context"
	"errors"
	"fmt"
	"time"
)

// Look opens the journal at path for reading alone, also while another program
// writes to it. Nothing is made, and nothing brought up to date: a journal of
// an older program is refused, as is anything that Open would refuse. Writes
// fail.
func Look(ctx context.Context, path string) (*Store, error) {
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
		return nil, refuse(ErrOlder, "%s was made by an older program (journal version %d; this program keeps %d). Open it with “rimward serve” once; that brings it up to date.", path, h.version, knows)
	}
	db, err := handle(path, onlyLook, readers)
	if err != nil {
		return nil, err
	}
	if err := db.PingContext(ctx); err != nil {
		return nil, errors.Join(fmt.Errorf("open journal: %w", err), db.Close())
	}
	return &Store{write: db, read: db, now: func() (none time.Time) { return none }, turn: make(chan struct{}, 1), patience: patience}, nil
}

// ErrOlder is a journal that must be brought up to date first.
var ErrOlder = errors.New("made by an older program")
