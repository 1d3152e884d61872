package sqlite

import (
	"database/sql/driver"
	"fmt"
	"time"
)

// timeText is how every time is kept: RFC 3339, UTC, to the second, so that
// text sorts as time does.
const timeText = "2006-01-02T15:04:05Z"

func toSecond(t time.Time) time.Time { return t.UTC().Truncate(time.Second) }

// moment reads and writes a time as text.
type moment struct{ t *time.Time }

// Value is the text to keep.
func (m moment) Value() (driver.Value, error) { return toSecond(*m.t).Format(timeText), nil }

// Scan reads the text back.
func (m moment) Scan(src any) error {
	text, ok := src.(string)
	if !ok {
		return fmt.Errorf("read time: %T is not text", src)
	}
	t, err := time.Parse(timeText, text)
	if err != nil {
		return fmt.Errorf("read time: %w", err)
	}
	*m.t = t
	return nil
}

// tidy gives the time the form in which it is kept.
func (m moment) tidy() { *m.t = toSecond(*m.t) }

// maybeMoment is moment for a time that may be missing.
type maybeMoment struct{ t **time.Time }

// Value is the text to keep, or nothing.
func (m maybeMoment) Value() (driver.Value, error) {
	if *m.t == nil {
		return nil, nil
	}
	return moment{*m.t}.Value()
}

// Scan reads the text back, or nothing.
func (m maybeMoment) Scan(src any) error {
	*m.t = nil
	if src == nil {
		return nil
	}
	var t time.Time
	if err := (moment{&t}).Scan(src); err != nil {
		return err
	}
	*m.t = &t
	return nil
}

func (m maybeMoment) tidy() {
	if *m.t != nil {
		t := toSecond(**m.t)
		*m.t = &t
	}
}
