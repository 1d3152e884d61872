package sqlite

import (
	"encoding/json"
	"fmt"
	"strings"

	"rimward/internal/journal"
)

// field ties one column to the place of its value in a struct. The same list
// of fields serves reading and writing, so that the two cannot differ.
type field struct {
	name string // of the column
	at   any    // pointer to the value; nil pointers within it are NULL
	ref  string // the table that the column refers to, if any
	from string // the expression of a column that is only read
}

// kind is how one noun is kept.
type kind[T any] struct {
	noun  journal.Noun
	table string
	meta  func(*T) *journal.Meta
	own   func(*T) []field
	// taken is the problem when a unique index refuses a record.
	taken journal.Problem
}

// fields lists every column with its place in v, the id first.
func (k kind[T]) fields(v *T) []field {
	m := k.meta(v)
	return append([]field{
		{name: "id", at: &m.ID}, {name: "version", at: &m.Version}, {name: "created_at", at: moment{&m.Created}},
		{name: "gone_at", at: maybeMoment{&m.Gone}}, {name: "gone_why", at: &m.GoneWhy},
	}, k.own(v)...)
}

// selects is the start of every query that reads whole records.
func (k kind[T]) selects() string {
	var columns []string
	for _, f := range k.fields(new(T)) {
		if f.from != "" {
			columns = append(columns, f.from)
			continue
		}
		columns = append(columns, k.column(f.name))
	}
	return "SELECT " + strings.Join(columns, ", ") + " FROM " + k.table
}

func (k kind[T]) column(name string) string { return k.table + `."` + name + `"` }

// tidy gives every value the form in which it is kept, so that what was saved
// equals what is read.
func (k kind[T]) tidy(v *T) {
	for _, f := range k.fields(v) {
		if t, ok := f.at.(interface{ tidy() }); ok {
			t.tidy()
		}
	}
}

// kept lists the fields that a write sets: all but the id and those that are
// only read.
func (k kind[T]) kept(v *T) []field {
	var kept []field
	for _, f := range k.fields(v)[1:] {
		if f.from == "" {
			kept = append(kept, f)
		}
	}
	return kept
}

func places(fields []field) []any {
	at := make([]any, len(fields))
	for i, f := range fields {
		at[i] = f.at
	}
	return at
}

func (k kind[T]) json(v *T) ([]byte, error) {
	text, err := json.Marshal(v)
	if err != nil {
		return nil, fmt.Errorf("write %s down: %w", k.noun, err)
	}
	return text, nil
}
