package form

import (
	"errors"
	"reflect"
	"strings"
	"time"

	"github.com/go-playground/validator/v10"

	"rimward/internal/journal"
)

// rules is the one validator of the process. Everything is registered here:
// it is not safe to do so later.
var rules = newRules()

func newRules() *validator.Validate {
	v := validator.New(validator.WithRequiredStructEnabled())
	v.RegisterTagNameFunc(func(f reflect.StructField) string { return f.Tag.Get("form") })
	err := v.RegisterValidation("timezone_known", func(f validator.FieldLevel) bool {
		name := f.Field().String()
		_, err := time.LoadLocation(name)
		return err == nil && name != "Local"
	})
	if err != nil {
		panic(err) // the tag is empty: the build is broken
	}
	return v
}

// Check holds the rules of a typed input, a struct with form and validate
// tags, and notes what is broken beside the field. What could not be read
// keeps its own problem.
func (p *Parser) Check(in any) {
	var broken validator.ValidationErrors
	if !errors.As(rules.Struct(in), &broken) {
		return
	}
	for _, b := range broken {
		_, name, _ := strings.Cut(b.Namespace(), ".")
		name, _, _ = strings.Cut(name, "[") // one of many under a name
		if !p.shared.excused[p.prefix+name] {
			p.Problem(name, sentenceOf(b))
		}
	}
}

// Merge turns a refusal of the journal's rules into problems beside the
// fields; any other error is returned as it is.
func (p *Parser) Merge(err error) error {
	var invalid *journal.InvalidError
	if !errors.As(err, &invalid) {
		return err
	}
	for _, x := range invalid.Problems {
		p.Problem(FieldOf(x.Field), x.Text)
	}
	return nil
}

// FieldOf is the form's field for a field of the journal: moments are typed
// into two boxes, and what is said of them stands beside the time of day.
func FieldOf(field string) string {
	switch field {
	case "at":
		return "at_time"
	case "lit_at":
		return "lit_time"
	case "out_at":
		return "out_time"
	}
	return field
}
