package sqlite

import (
	"database/sql/driver"
	"encoding/json"
	"fmt"
)

// asJSON keeps a value of several parts as one text.
type asJSON[T any] struct{ v *T }

// Value is the text to keep.
func (a asJSON[T]) Value() (driver.Value, error) {
	text, err := json.Marshal(a.v)
	if err != nil {
		return nil, fmt.Errorf("write %T down: %w", *a.v, err)
	}
	return string(text), nil
}

// Scan reads the text back, into a value that holds nothing of what was read
// before.
func (a asJSON[T]) Scan(src any) error {
	text, ok := src.(string)
	if !ok {
		return fmt.Errorf("read %T: %T is not text", *a.v, src)
	}
	var v T
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		return fmt.Errorf("read %T: %w", v, err)
	}
	*a.v = v
	return nil
}
