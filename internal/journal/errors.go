package journal

import (
	"errors"
	"strings"
)

// ErrNotFound is returned when no record has the asked ID.
var ErrNotFound = errors.New("no such record")

// ErrConflict is returned when a record was changed meanwhile by someone else.
var ErrConflict = errors.New("the record was changed meanwhile")

// Problem is one reason why a record cannot be kept, tied to the field of the
// form where the reason stands ("" for the record as a whole).
type Problem struct {
	Field string
	Text  string // a sentence to the person
}

// InvalidError says why a record cannot be kept. It always has a problem.
type InvalidError struct{ Problems []Problem }

// Error joins the sentences.
func (e *InvalidError) Error() string {
	texts := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		texts[i] = p.Text
	}
	return strings.Join(texts, " ")
}

// Invalid makes an InvalidError with a single problem.
func Invalid(field, text string) error {
	return &InvalidError{Problems: []Problem{{field, text}}}
}

// problems gathers what is wrong with a record while its rules are read.
type problems []Problem

// addIf notes the problem when bad holds.
func (ps *problems) addIf(bad bool, field, text string) {
	if bad {
		*ps = append(*ps, Problem{field, text})
	}
}

// err is nil when nothing was noted.
func (ps problems) err() error {
	if len(ps) == 0 {
		return nil
	}
	return &InvalidError{Problems: ps}
}
