package sqlite

import (
	"database/sql/driver"
	"fmt"

	"rimward/internal/journal"
)

// markLine keeps the marks of one line as one text.
type markLine struct{ line *journal.MarkLine }

// Value is the text to keep.
func (m markLine) Value() (driver.Value, error) { return m.line.String(), nil }

// Scan reads the text back.
func (m markLine) Scan(src any) error {
	text, ok := src.(string)
	line, read := journal.ParseMarkLine(text)
	if !ok || !read {
		return fmt.Errorf("read marks from %T", src)
	}
	*m.line = line
	return nil
}

// tidy gives no marks the form in which they are read.
func (m markLine) tidy() {
	if len(*m.line) == 0 {
		*m.line = nil
	}
}
