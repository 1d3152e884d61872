package form

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// SmellingInput is a smelling as it was typed.
type SmellingInput struct {
	At   *time.Time `form:"at_time" validate:"required"`
	Kind string     `form:"kind" validate:"required"`
	How  string     `form:"how" validate:"required"`
	room *quantity.CubicMetres
	note string
}

// The ways in which a smelling can be held.
const (
	HeldBlind = "blind"
	HeldOpen  = "open"
)

// ReadSmelling reads the form that begins a smelling.
func ReadSmelling(p *Parser) SmellingInput {
	in := SmellingInput{
		At: p.Moment("at_date", "at_time"), room: p.Room("room"), note: p.Text("note"),
		Kind: p.Choice("kind", string(journal.ColdThrow), string(journal.HotThrow)), How: p.Choice("how", HeldBlind, HeldOpen),
	}
	p.Check(in)
	return in
}

// Smelling is the smelling that was typed.
func (in SmellingInput) Smelling() journal.Smelling {
	s := journal.Smelling{Kind: journal.ThrowKind(in.Kind), Blind: in.How == HeldBlind, Room: in.room, Note: in.note}
	if in.At != nil {
		s.At = *in.At
	}
	return s
}

// SmellingChange is what can be corrected of a smelling.
type SmellingChange struct {
	At   *time.Time `form:"at_time" validate:"required"`
	room *quantity.CubicMetres
	note string
}

// ReadSmellingChange reads the form that corrects a smelling.
func ReadSmellingChange(p *Parser) SmellingChange {
	in := SmellingChange{At: p.Moment("at_date", "at_time"), room: p.Room("room"), note: p.Text("note")}
	p.Check(in)
	return in
}

// Correct puts what was typed in its place.
func (in SmellingChange) Correct(s journal.Smelling) journal.Smelling {
	s.Room, s.Note = in.room, in.note
	if in.At != nil {
		s.At = *in.At
	}
	return s
}

// Room reads the volume of a room; nil when empty or unreadable.
func (p *Parser) Room(name string) *quantity.CubicMetres {
	return read(p, name, p.shared.units.ParseRoom)
}

// Minutes reads a span of minutes; nil when empty or unreadable.
func (p *Parser) Minutes(name string) *quantity.Minutes { return read(p, name, quantity.ParseMinutes) }

// Score reads a score of throw, a whole number from 0 to 5; nil when empty or
// anything else.
func (p *Parser) Score(name string) *int {
	return read(p, name, func(s string) (int, error) {
		n, err := quantity.ParseCount(s)
		if err != nil || n < journal.LeastThrow || n > journal.MostThrow {
			return 0, &quantity.ParseError{Sentence: "Choose a whole number from 0 to 5."}
		}
		return n, nil
	})
}

// Nose reads whose nose it is, which must be said; "" is a problem.
func (p *Parser) Nose(name string) string {
	p.Require(name, "Whose nose is it? Write a name or initials.")
	return journal.TidyNose(p.Text(name))
}
