// Package form turns what a browser posted into typed values and, where that
// is not possible, into problems that stand beside their fields.
//
// It keeps every text as it was typed, reads quantities in the person's units
// and dates in the studio's zone. It knows nothing of requests, of storage or
// of pages, and never returns a number that is not finite.
package form

import (
	"net/url"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Problem is one thing that is wrong with one field; Field is "" for the form
// as a whole.
type Problem struct{ Field, Text string }

// Problems lists what is wrong with a form, in the order it was found.
type Problems []Problem

// Any reports whether anything is wrong.
func (ps Problems) Any() bool { return len(ps) > 0 }

// For is what is wrong with one field, "" when nothing is.
func (ps Problems) For(field string) string {
	for _, p := range ps {
		if p.Field == field {
			return p.Text
		}
	}
	return ""
}

// Parser reads one posted form, or one row of it.
type Parser struct {
	shared *sheet
	prefix string
}

// sheet is what the parsers of all rows of one form share.
type sheet struct {
	values   url.Values
	units    quantity.Units
	zone     *time.Location
	problems Problems
	excused  map[string]bool // fields that no rule may speak of
}

// NewParser starts reading a posted form.
func NewParser(values url.Values, units quantity.Units, zone *time.Location) *Parser {
	return &Parser{shared: &sheet{values: values, units: units, zone: zone, excused: map[string]bool{}}}
}

// With is the parser of one row, whose fields' names start with the prefix.
func (p *Parser) With(prefix string) *Parser { return &Parser{p.shared, p.prefix + prefix} }

// Problems is everything that is wrong with the whole form so far.
func (p *Parser) Problems() Problems { return slices.Clone(p.shared.problems) }

// Row is what is wrong with the fields of this row alone.
func (p *Parser) Row() Problems {
	var out Problems
	for _, x := range p.shared.problems {
		if p.prefix != "" && strings.HasPrefix(x.Field, p.prefix) {
			out = append(out, x)
		}
	}
	return out
}

// Problem notes that something is wrong with a field. The first problem of a
// field stands: what could not be read is not also out of range.
func (p *Parser) Problem(name, text string) {
	field := p.prefix + name
	if field != "" && p.shared.problems.For(field) != "" {
		return
	}
	p.shared.problems = append(p.shared.problems, Problem{field, text})
}

// Require notes the sentence when nothing was typed.
func (p *Parser) Require(name, sentence string) {
	if p.raw(name) == "" {
		p.Problem(name, sentence)
	}
}

func (p *Parser) raw(name string) string {
	return strings.TrimSpace(p.shared.values.Get(p.prefix + name))
}

// longest is how much text one field takes.
const longest = 4000

// Text reads a text without the space around it.
func (p *Parser) Text(name string) string {
	s := strings.ReplaceAll(p.raw(name), "\r\n", "\n")
	if utf8.RuneCountInString(s) > longest {
		p.Problem(name, "Keep it under 4,000 characters.")
	}
	if !utf8.ValidString(s) || strings.ContainsRune(s, 0) {
		p.Problem(name, "This holds signs that are not text.")
		return strings.ToValidUTF8(strings.ReplaceAll(s, "\x00", ""), "")
	}
	return s
}

// Flag reads a tick.
func (p *Parser) Flag(name string) bool { return p.raw(name) != "" }

// Strings reads everything that was chosen under one name, empties left out.
func (p *Parser) Strings(name string) []string {
	var out []string
	for _, v := range p.shared.values[p.prefix+name] {
		if v = strings.TrimSpace(v); v != "" {
			out = append(out, v)
		}
	}
	return out
}

// Choice reads one of a few words; anything else is a problem and reads as "".
func (p *Parser) Choice(name string, allowed ...string) string {
	s := p.raw(name)
	if s == "" || slices.Contains(allowed, s) {
		return s
	}
	p.Problem(name, chooseSentence)
	return ""
}

// read reads any value that may be left empty.
func read[T any](p *Parser, name string, parse func(string) (T, error)) *T {
	s := p.raw(name)
	if s == "" {
		return nil
	}
	v, err := parse(s)
	if err != nil {
		p.Problem(name, err.Error())
		return nil
	}
	return &v
}

// Length reads a length; nil when empty or unreadable.
func (p *Parser) Length(name string) *quantity.Millimetres {
	return read(p, name, func(s string) (quantity.Millimetres, error) { return quantity.ParseLength(s, p.shared.units.Length) })
}

// Mass reads a mass; nil when empty or unreadable.
func (p *Parser) Mass(name string) *quantity.Grams {
	return read(p, name, func(s string) (quantity.Grams, error) { return quantity.ParseMass(s, p.shared.units.Mass) })
}

// Temperature reads a temperature; nil when empty or unreadable.
func (p *Parser) Temperature(name string) *quantity.Celsius {
	return read(p, name, func(s string) (quantity.Celsius, error) {
		return quantity.ParseTemperature(s, p.shared.units.Temperature)
	})
}

// Volume reads a volume; nil when empty or unreadable.
func (p *Parser) Volume(name string) *quantity.Millilitres {
	return read(p, name, func(s string) (quantity.Millilitres, error) { return quantity.ParseVolume(s, p.shared.units.Volume) })
}

// Hours reads a span of hours; nil when empty or unreadable.
func (p *Parser) Hours(name string) *quantity.Hours { return read(p, name, quantity.ParseHours) }

// Seconds reads a span of seconds; nil when empty or unreadable.
func (p *Parser) Seconds(name string) *quantity.Seconds {
	return read(p, name, quantity.ParseSeconds)
}

// Days reads a span of days; nil when empty or unreadable.
func (p *Parser) Days(name string) *quantity.Days { return read(p, name, quantity.ParseDays) }

// Percent reads a share in per cent; nil when empty or unreadable.
func (p *Parser) Percent(name string) *quantity.Fraction { return read(p, name, quantity.ParsePercent) }

// Density reads a density; nil when empty or unreadable.
func (p *Parser) Density(name string) *quantity.GramsPerMillilitre {
	return read(p, name, quantity.ParseDensity)
}

// Heat reads a heat of combustion; nil when empty or unreadable.
func (p *Parser) Heat(name string) *quantity.KilojoulesPerGram {
	return read(p, name, quantity.ParseHeat)
}

// Count reads a whole number; nil when empty or unreadable.
func (p *Parser) Count(name string) *int { return read(p, name, quantity.ParseCount) }

// ID reads the ID that a select sent; nil when empty or no ID.
func (p *Parser) ID(name string) *journal.ID {
	return read(p, name, func(s string) (journal.ID, error) {
		n, err := quantity.ParseCount(s)
		if err != nil || n < 1 {
			return 0, &quantity.ParseError{Sentence: chooseSentence}
		}
		return journal.ID(n), nil
	})
}

// Values is everything that was posted, as it was typed.
func (p *Parser) Values() url.Values { return p.shared.values }
