package form

import (
	"strings"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// BurnInput is a whole burn as it was typed, from a correction or from paper.
type BurnInput struct {
	LitAt  *time.Time `form:"lit_time" validate:"required"`
	OutAt  *time.Time `form:"out_time"`
	Ending string     `form:"ending" validate:"required_with=OutAt"`
	burn   journal.Burn
}

// ReadBurn reads the form of a burn. A date of going out that was left empty
// is the first such time of day after lighting.
func ReadBurn(p *Parser) BurnInput {
	in := BurnInput{LitAt: p.Moment("lit_date", "lit_time"), Ending: p.Choice("ending", stringsOf(journal.Endings)...)}
	switch {
	case p.raw("out_date") == "" && p.raw("out_time") != "":
		if in.LitAt != nil { // else the lighting has its problem
			in.OutAt = p.ClockAfter("out_time", *in.LitAt)
		}
	case p.raw("out_date") != "":
		in.OutAt = p.Moment("out_date", "out_time")
	case in.Ending != "":
		p.Problem("out_time", "Say when it went out, or that it is still lit.")
	}
	in.burn = journal.Burn{
		Trim: p.Length("trim"), MassBefore: p.Mass("mass_before"), Room: p.Temperature("room"),
		Draught: journal.Draught(p.Choice("draught", "none", "slight", "strong")), Place: p.Text("place"),
		MassAfter: p.Mass("mass_after"), AfterSmoke: p.Seconds("after_smoke"), Note: p.Text("note"),
	}
	p.Check(in)
	return in
}

// Burn is the burn that was typed.
func (in BurnInput) Burn() journal.Burn {
	b := in.burn
	if in.LitAt != nil {
		b.LitAt = *in.LitAt
	}
	b.OutAt, b.Ending = in.OutAt, journal.Ending(in.Ending)
	return b
}

// CheckInput is a check as it was typed.
type CheckInput struct {
	At    *time.Time            `form:"at_time"`
	A     *quantity.Millimetres `form:"width_a" validate:"omitempty,gte=0"`
	B     *quantity.Millimetres `form:"width_b" validate:"omitempty,gte=0"`
	Odd   []string              `form:"odd" validate:"unique,dive,oneof='flame on the pool' 'vessel cracked' 'debris in the pool' 'wick drifted' 'flickering' 'drowning' 'sweating' 'flame very small'"`
	Throw *int                  `form:"hot_throw" validate:"omitempty,gte=0,lte=5"`
	check journal.Check
}

// ReadCheck reads the form of a check with its date and time. A time of day
// alone is read by whoever knows when the candle was lit.
func ReadCheck(p *Parser) CheckInput {
	var at *time.Time
	if p.raw("at_date") != "" {
		at = p.Moment("at_date", "at_time")
	}
	return ReadCheckAt(p, at)
}

// ReadCheckAt reads the form of a check made at a moment that is known.
func ReadCheckAt(p *Parser, at *time.Time) CheckInput {
	in := CheckInput{At: at, Odd: p.Strings("odd"), Throw: p.Count("hot_throw")}
	full := p.Flag("full")
	in.A, full = p.width("width_a", full)
	in.B, full = p.width("width_b", full)
	in.check = journal.Check{
		Full: full, Depth: p.Length("depth"), Flame: p.Length("flame"),
		Mushroom: p.grade("mushroom", journal.MushroomScale), Soot: p.grade("soot", journal.SootScale), WallWax: p.grade("wall_wax", journal.WallWaxScale),
		VesselTemp: p.Temperature("vessel_temp"), LeftOut: p.Flag("left_out"), Note: p.Text("note"),
	}
	if p.Flag("clean") {
		in.check.Mushroom, in.check.Soot, in.check.WallWax = noneIfOpen(in.check.Mushroom), noneIfOpen(in.check.Soot), noneIfOpen(in.check.WallWax)
	}
	p.Check(in)
	return in
}

// isFull reports whether a text in the place of a width means that the pool
// touches the wall all round.
func isFull(s string) bool {
	s = strings.ToLower(strings.TrimSpace(s))
	return s == "full" || s == "f"
}

// width reads one width of the pool; the word full in its place is the tick.
func (p *Parser) width(name string, full bool) (*quantity.Millimetres, bool) {
	if isFull(p.raw(name)) {
		return nil, true
	}
	return p.Length(name), full
}

func (p *Parser) grade(name string, scale []journal.GradeWord) journal.Grade {
	words := make([]string, len(scale))
	for i, w := range scale {
		words[i] = string(w.Grade)
	}
	return journal.Grade(p.Choice(name, words...))
}

func noneIfOpen(g journal.Grade) journal.Grade {
	if g == "" {
		return "none"
	}
	return g
}

// Check is the check that was typed.
func (in CheckInput) Check() journal.Check {
	c := in.check
	c.WidthA, c.WidthB, c.HotThrow = in.A, in.B, in.Throw
	if in.At != nil {
		c.At = *in.At
	}
	for _, o := range in.Odd {
		c.Odd = append(c.Odd, journal.Odd(o))
	}
	return c
}
