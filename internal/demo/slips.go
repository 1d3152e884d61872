package demo

import (
	"time"

	"rimward/internal/journal"
)

// How long it takes to see that something was written wrongly.
const (
	seenAfter = 9 * time.Minute
	backAfter = 14 * time.Minute
)

// note writes a check down, with the slip that the plan holds for the burn's
// first walk. It returns the check as it stands in the end.
func (s *studio) note(f *flame, c journal.Check, walk int) journal.Check {
	s.checks++
	c.ID = s.checks
	switch {
	case walk == 0 && f.mishap == misread && c.WidthA != nil:
		wrong := c
		wrong.WidthA = p(*c.WidthA - 10)
		s.write(c.At, wrong)
		c.Note = "The tens were misread at first."
		s.write(c.At.Add(seenAfter), c)
	case walk == 0 && f.mishap == wrongCandle:
		s.write(c.At, c)
		s.stray(f, c)
	default:
		s.write(c.At, c)
	}
	return c
}

// stray is a reading of another candle, written here and taken back.
func (s *studio) stray(f *flame, c journal.Check) {
	s.checks++
	other := journal.Check{Meta: meta(s.checks), Burn: f.burn.ID, At: c.At.Add(seenAfter)}
	other.WidthA, other.WidthB = p(f.candle.vessel.Length()/2), p(f.candle.vessel.InnerWidth/2)
	s.write(other.At, other)
	s.write(c.At.Add(backAfter), Withdrawal{journal.NounCheck, other.ID, "Written for the wrong candle."})
}
