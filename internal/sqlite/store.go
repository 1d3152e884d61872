package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"
)

// Store is an open journal. It is safe for use by many goroutines.
type Store struct {
	write *sql.DB
	read  *sql.DB
	now   func() time.Time
	// turn is held by whoever writes; patience is how long another waits.
	turn     chan struct{}
	patience time.Duration
}

// readers is how many reads may run at once.
const readers = 4

// patience is how long a write waits for the one before it. Writes take
// milliseconds, so that a longer wait is a fault of the program.
const patience = 10 * time.Second

// Open opens the journal at path. The file is made when it does not exist;
// its folder must. A journal of an older program is copied beside itself and
// brought up to date. Anything else is refused untouched: see ErrNotJournal,
// ErrNewer and ErrUnwritable. now is the clock of everything written.
func Open(ctx context.Context, path string, now func() time.Time) (*Store, error) {
	if err := prepare(ctx, path, steps()); err != nil {
		return nil, err
	}
	write, err := handle(path, forWriting, 1)
	if err != nil {
		return nil, err
	}
	read, err := handle(path, forReading, readers)
	if err != nil {
		return nil, errors.Join(err, write.Close())
	}
	s := &Store{write: write, read: read, now: now, turn: make(chan struct{}, 1), patience: patience}
	if err := errors.Join(write.PingContext(ctx), read.PingContext(ctx)); err != nil {
		return nil, errors.Join(fmt.Errorf("open journal: %w", err), s.Close())
	}
	return s, nil
}

// Close ends all use of the journal and folds its write-ahead log back into
// the one file.
func (s *Store) Close() error {
	if err := errors.Join(s.read.Close(), s.write.Close()); err != nil {
		return fmt.Errorf("close journal: %w", err)
	}
	return nil
}

// moment is the clock's time as the journal keeps it: UTC, to the second.
func (s *Store) moment() time.Time { return toSecond(s.now()) }
