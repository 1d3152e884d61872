package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"rimward/internal/journal"
)

// ErrNested is a write started from within a write.
var ErrNested = errors.New("a write within a write")

// ErrBusy is a write that waited too long for another.
var ErrBusy = errors.New("another write has not ended")

// Tx is one transaction that writes. It is valid until the function that
// received it returns.
type Tx struct {
	reader
	tx  *sql.Tx
	now func() time.Time
}

// Now is the store's clock, in UTC to the second.
func (tx *Tx) Now() time.Time { return tx.now() }

// Context is the transaction's own context: it outlives a caller who leaves,
// and a write started with it is refused as nested.
func (tx *Tx) Context() context.Context { return tx.ctx }

// within marks a context as being inside a write of a store.
type within struct{ s *Store }

// Write runs do in one transaction: all of it is kept, or nothing when do
// fails or panics. Once the transaction has begun it is finished even if ctx
// ends, so that a phone that drops out loses nothing. It refuses to start
// within another write.
func (s *Store) Write(ctx context.Context, do func(*Tx) error) error {
	if ctx.Value(within{s}) != nil {
		return fmt.Errorf("begin writing: %w", ErrNested)
	}
	if err := s.await(ctx); err != nil {
		return fmt.Errorf("begin writing: %w", err)
	}
	defer func() { <-s.turn }()
	lasting := context.WithValue(context.WithoutCancel(ctx), within{s}, true)
	tx, err := s.write.BeginTx(lasting, nil)
	if err != nil {
		return fmt.Errorf("begin writing: %w", err)
	}
	defer tx.Rollback() // does nothing after a commit
	if err := do(&Tx{reader{lasting, tx}, tx, s.moment}); err != nil {
		return err
	}
	if err := tx.Commit(); err != nil {
		return fmt.Errorf("commit: %w", err)
	}
	return nil
}

// await waits for the turn to write. The wait ends by itself, so that a write
// within a write shows as an error and not as a standstill.
func (s *Store) await(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	timer := time.NewTimer(s.patience)
	defer timer.Stop()
	select {
	case s.turn <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	case <-timer.C:
		return ErrBusy
	}
}

// Once is Write for a form that may be sent twice: the first saving under a
// token keeps the reference that do returns; any later one does nothing and
// returns that reference with again set. An empty token always writes.
func (s *Store) Once(ctx context.Context, token string, do func(*Tx) (ref string, err error)) (ref string, again bool, err error) {
	err = s.Write(ctx, func(tx *Tx) error {
		if ref, again, err = receipt(tx.reader, token); err != nil || again {
			return err
		}
		if ref, err = do(tx); err != nil || token == "" {
			return err
		}
		at := tx.Now()
		return tx.exec("INSERT INTO receipt (token, ref, at) VALUES (?, ?, ?)", token, ref, moment{&at})
	})
	if err != nil {
		return "", false, err
	}
	return ref, again, nil
}

// Receipt tells whether something was saved under a token, and its reference.
func (s *Store) Receipt(ctx context.Context, token string) (ref string, ok bool, err error) {
	ref, err = view(ctx, s, func(r reader) (ref string, err error) {
		ref, ok, err = receipt(r, token)
		return ref, err
	})
	return ref, ok, err
}

func receipt(r reader, token string) (ref string, ok bool, err error) {
	ok, err = r.value("SELECT ref FROM receipt WHERE token = ?", []any{token}, &ref)
	return ref, ok, err
}

func (tx *Tx) exec(query string, args ...any) error {
	if _, err := tx.tx.ExecContext(tx.ctx, query, args...); err != nil {
		return fmt.Errorf("write journal: %w", err)
	}
	return nil
}

// NewSitting makes a sitting for candles that are lit together.
func (tx *Tx) NewSitting() (journal.ID, error) {
	at := tx.Now()
	res, err := tx.tx.ExecContext(tx.ctx, "INSERT INTO sitting (created_at) VALUES (?)", moment{&at})
	if err != nil {
		return 0, fmt.Errorf("write sitting: %w", err)
	}
	id, err := res.LastInsertId()
	return journal.ID(id), err
}
