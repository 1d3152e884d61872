package sqlite

import (
	"database/sql"
	"fmt"
	"net/url"
	"path/filepath"
	"strings"

	_ "modernc.org/sqlite" // registers the driver
)

// Settings of a connection. They stand in its address because a pragma that is
// executed reaches one connection of a pool only.
const (
	// plain waits for locks and leaves the file's journal mode alone.
	plain = "_pragma=busy_timeout(5000)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)"
	// shared also lets readers and one writer work at the same time.
	shared     = "_pragma=busy_timeout(5000)&_pragma=journal_mode(WAL)&_pragma=foreign_keys(1)&_pragma=synchronous(FULL)"
	forWriting = shared + "&_txlock=immediate"
	forReading = shared + "&_pragma=query_only(1)"
	onlyLook   = plain + "&_pragma=query_only(1)"
)

// handle opens a pool of at most n connections to the file.
func handle(path, settings string, n int) (*sql.DB, error) {
	address, err := dsn(path, settings)
	if err != nil {
		return nil, err
	}
	db, err := sql.Open("sqlite", address)
	if err != nil {
		return nil, fmt.Errorf("open journal: %w", err)
	}
	db.SetMaxOpenConns(n)
	db.SetMaxIdleConns(n)
	return db, nil
}

// dsn is the address of a file: its absolute path with everything escaped
// that has a meaning in an address.
func dsn(path, settings string) (string, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return "", fmt.Errorf("find journal: %w", err)
	}
	abs = filepath.ToSlash(abs)
	if !strings.HasPrefix(abs, "/") {
		abs = "/" + abs // a drive letter comes first
	}
	u := url.URL{Scheme: "file", Path: abs, RawQuery: settings}
	return u.String(), nil
}
