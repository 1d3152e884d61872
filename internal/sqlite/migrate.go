package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/pressly/goose/v3"
	"rimward/migrations"
)

// steps are the migrations this program knows.
func steps() fs.FS { return migrations.FS }

// prepare brings the file at path to the newest version of the given steps:
// recognised first, refused untouched, copied before an existing journal
// changes.
func prepare(ctx context.Context, path string, steps fs.FS) error {
	h, err := recognise(path)
	if err != nil {
		return err
	}
	knows, err := newest(steps)
	if err != nil {
		return err
	}
	if err := tooNew(path, h.version, knows); err != nil {
		return err
	}
	if err := mayWrite(path, h); err != nil {
		return err
	}
	if h.empty {
		if err := stamp(ctx, path); err != nil {
			return err
		}
	}
	if h.version == knows {
		return nil
	}
	if h.version > 0 {
		if err := keepBefore(ctx, path, knows); err != nil {
			return err
		}
	}
	return migrate(ctx, path, steps, knows)
}

// newest is the number of the last step.
func newest(steps fs.FS) (int64, error) {
	names, err := fs.Glob(steps, "*.sql")
	if err != nil {
		return 0, fmt.Errorf("list migrations: %w", err)
	}
	var last int64
	for _, name := range names {
		n, err := goose.NumericComponent(name)
		if err != nil {
			return 0, fmt.Errorf("read migration's number: %w", err)
		}
		last = max(last, n)
	}
	return last, nil
}

// stamp marks a new file as a journal before anything else is in it, straight
// into its header, so that it is recognised even if the next step is cut off.
func stamp(ctx context.Context, path string) error {
	db, err := handle(path, plain, 1)
	if err != nil {
		return err
	}
	_, err = db.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id = %d", applicationID))
	if err = errors.Join(err, db.Close()); err != nil {
		return refuse(ErrUnwritable, "No journal can be made at %s: %v.", path, err)
	}
	return nil
}

// keepBefore copies the journal beside itself before it is changed.
func keepBefore(ctx context.Context, path string, to int64) error {
	file := fmt.Sprintf("%s.before-%04d", path, to)
	for n := 2; ; n++ {
		err := Backup(ctx, path, file)
		if !errors.Is(err, fs.ErrExist) {
			return err
		}
		file = fmt.Sprintf("%s.before-%04d.%d", path, to, n)
	}
}

// migrate runs the steps that are missing, then writes the version into the
// header, where recognise finds it.
func migrate(ctx context.Context, path string, steps fs.FS, knows int64) error {
	db, err := handle(path, forWriting, 1)
	if err != nil {
		return err
	}
	err = up(ctx, db, path, steps, knows)
	if err = errors.Join(err, db.Close()); err != nil {
		return fmt.Errorf("migrate journal: %w", err)
	}
	return nil
}

func up(ctx context.Context, db *sql.DB, path string, steps fs.FS, knows int64) error {
	p, err := goose.NewProvider(goose.DialectSQLite3, db, steps, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	has, err := p.GetDBVersion(ctx)
	if err != nil {
		return err
	}
	if err := tooNew(path, has, knows); err != nil {
		return err
	}
	if _, err := p.Up(ctx); err != nil {
		return err
	}
	if _, err := db.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", knows)); err != nil {
		return err
	}
	return foldBack(ctx, db)
}

// foldBack writes the write-ahead log back into the file itself.
func foldBack(ctx context.Context, db *sql.DB) error {
	_, err := db.ExecContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)")
	return err
}

// syncFile makes sure that a file has reached the disk.
func syncFile(name string) error {
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
