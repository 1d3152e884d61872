package sqlite

import (
	"errors"
	"fmt"
	"strings"

	driver "modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"rimward/internal/journal"
)

// code is SQLite's extended result code of an error; 0 when it has none.
func code(err error) int {
	var e *driver.Error
	if errors.As(err, &e) {
		return e.Code()
	}
	return 0
}

// outside is said of a value that a table refuses and no rule named.
const outside = "A value here lies outside what the journal can hold."

// refused turns a constraint's refusal into a problem of the right field.
func (tx *Tx) refused(err error, noun journal.Noun, fields []field, taken journal.Problem) error {
	switch code(err) {
	case sqlite3.SQLITE_CONSTRAINT_UNIQUE:
		return journal.Invalid(taken.Field, taken.Text)
	case sqlite3.SQLITE_CONSTRAINT_CHECK, sqlite3.SQLITE_CONSTRAINT_NOTNULL:
		return journal.Invalid("", outside)
	case sqlite3.SQLITE_CONSTRAINT_FOREIGNKEY:
		return tx.unknown(err, fields)
	}
	return fmt.Errorf("write %s: %w", noun, err)
}

// unknown finds the field whose reference leads nowhere: SQLite does not say.
func (tx *Tx) unknown(err error, fields []field) error {
	for _, f := range fields {
		if f.ref == "" {
			continue
		}
		var there bool
		query := "SELECT ? IS NULL OR EXISTS (SELECT 1 FROM " + f.ref + " WHERE id = ?)"
		if _, err := tx.value(query, []any{f.at, f.at}, &there); err != nil {
			return err
		}
		if !there {
			return missing(strings.TrimSuffix(f.name, "_id"))
		}
	}
	return fmt.Errorf("write journal: %w", err)
}

// missing says that a reference leads nowhere. The nouns that are referred to
// are named as the fields are.
func missing(field string) error {
	return journal.Invalid(field, "This "+field+" is not in the journal.")
}

// orMissing turns a record that was not found into a problem of the field
// that referred to it.
func orMissing(err error, field string) error {
	if errors.Is(err, journal.ErrNotFound) {
		return missing(field)
	}
	return err
}
