package form

import (
	"time"

	"rimward/internal/journal"
)

// MouldInput is a mould as it was typed.
type MouldInput struct {
	Name     string `form:"name" validate:"required,max=120"`
	Cavities *int   `form:"cavities" validate:"required"`
	Detail   string `form:"detail" validate:"required"`
	mould    journal.Mould
}

// ReadMould reads the form of a mould.
func ReadMould(p *Parser) MouldInput {
	in := MouldInput{Name: p.Text("name"), Cavities: p.Count("cavities"), Detail: p.Choice("detail", stringsOf(journal.Details)...)}
	in.mould = journal.Mould{CavityVolume: p.Volume("cavity_volume"), WaterFill: p.Mass("water_fill"), Material: p.Text("material"), Note: p.Text("note")}
	p.Check(in)
	p.Merge(in.Mould().Validate()) //nolint:errcheck // only ever a refusal
	return in
}

// Mould is the mould that was typed.
func (in MouldInput) Mould() journal.Mould {
	m := in.mould
	m.Name, m.Detail = in.Name, journal.Detail(in.Detail)
	if in.Cavities != nil {
		m.Cavities = *in.Cavities
	}
	return m
}

// What the form of a cast says of where the pieces are.
const (
	PiecesIn  = "in"  // still in the mould
	PiecesOut = "out" // taken out
)

// CastInput is a cast as it was typed.
type CastInput struct {
	Mould    *journal.ID `form:"mould" validate:"required"`
	Pieces   *int        `form:"pieces"`
	Fillings *int        `form:"fillings" validate:"omitempty,gt=0"`
	State    string      `form:"state"`
	cast     journal.Cast
}

// ReadCast reads the form of a cast. Pieces that are out came out now where no
// moment was typed.
func ReadCast(p *Parser, now time.Time) CastInput {
	in := CastInput{Mould: p.ID("mould"), Pieces: p.Count("pieces"), Fillings: p.Count("fillings"), State: p.Choice("state", PiecesIn, PiecesOut)}
	in.cast = journal.Cast{Note: p.Text("note")}
	in.cast.Captured, in.cast.Surface, in.cast.Firmness = readLook(p)
	in.cast.Clean, in.cast.Chipped, in.cast.Broken = p.Count("clean"), p.Count("chipped"), p.Count("broken")
	typed := p.raw("out_date") != "" || p.raw("out_time") != ""
	switch {
	case in.State == PiecesIn && typed:
		p.Problem("out_time", "Choose that they are out, or leave the time empty.")
	case in.State == PiecesOut || typed:
		in.cast.Out = outMoment(p, now)
	}
	p.Check(in)
	return in
}

// Cast is the cast that was typed, into the mould that was chosen: where no
// pieces were counted, every cavity was filled as often as was said.
func (in CastInput) Cast(m journal.Mould) journal.Cast {
	c := in.cast
	c.Mould = m.ID
	switch {
	case in.Pieces != nil:
		c.Pieces = *in.Pieces
	case in.Fillings != nil && *in.Fillings > 0 && *in.Fillings <= journal.MostPieces:
		c.Pieces = m.Cavities * *in.Fillings
	default:
		c.Pieces = m.Cavities
	}
	return filledUp(c)
}

// ReadTakeOut reads how the pieces of a cast came out of the mould; now, where
// no moment was typed.
func ReadTakeOut(p *Parser, c journal.Cast, now time.Time) journal.Cast {
	if n := p.Count("pieces"); n != nil {
		c.Pieces = *n
	}
	c.Clean, c.Chipped, c.Broken = p.Count("clean"), p.Count("chipped"), p.Count("broken")
	c.Captured, c.Surface, c.Firmness = readLook(p)
	c.Out, c.Note = outMoment(p, now), p.Text("note")
	return filledUp(c)
}

func readLook(p *Parser) (journal.Captured, journal.Surface, journal.Firmness) {
	return journal.Captured(p.Choice("captured", stringsOf(journal.Captures)...)),
		journal.Surface(p.Choice("surface", stringsOf(journal.Surfaces)...)),
		journal.Firmness(p.Choice("firmness", stringsOf(journal.Firmnesses)...))
}

// outMoment is when the pieces came out: as typed, a time of day alone as the
// latest such moment, or now.
func outMoment(p *Parser, now time.Time) *time.Time {
	switch {
	case p.raw("out_date") != "":
		return p.Moment("out_date", "out_time")
	case p.raw("out_time") != "":
		return p.ClockBefore("out_time", now)
	}
	return &now
}

// filledUp sets the counts that were left empty to nothing, where those that
// were typed are all the pieces.
func filledUp(c journal.Cast) journal.Cast {
	counts, sum, given := []**int{&c.Clean, &c.Chipped, &c.Broken}, 0, 0
	for _, n := range counts {
		if *n != nil {
			sum, given = sum+**n, given+1
		}
	}
	for _, n := range counts {
		if *n == nil && given > 0 && sum == c.Pieces {
			*n = new(int)
		}
	}
	return c
}
