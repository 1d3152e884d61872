package compare

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// CoursePoint is one reading of a candle against the hours that it was lit by
// then, burns joined end to end.
type CoursePoint struct {
	Lit     quantity.Hours
	Burn    int
	Value   float64 // in the unit of its measure; of grades the place on their scale
	LeftOut bool
}

// CourseName says what a course follows.
type CourseName string

// What can be followed over a candle's life.
const (
	MassCourse     CourseName = "mass"     // g
	FlameCourse    CourseName = "flame"    // mm
	DepthCourse    CourseName = "depth"    // mm
	WallCourse     CourseName = "wall"     // °C
	SootCourse     CourseName = "soot"     // place on journal.SootScale
	MushroomCourse CourseName = "mushroom" // place on journal.MushroomScale
)

// CourseNames lists what can be followed in the order it is shown.
var CourseNames = []CourseName{MassCourse, FlameCourse, DepthCourse, WallCourse, SootCourse, MushroomCourse}

// Course follows one reading of a candle over the hours that it was lit. Of a
// pairing there is none: its candles burned each for itself.
func Course(s Side, n CourseName) []CoursePoint {
	if s.Whole {
		return nil
	}
	var out []CoursePoint
	for _, l := range s.Logs {
		lit := quantity.Hours(0)
		for _, b := range l.Burns {
			out = append(out, burnCourse(n, b, lit)...)
			if b.Burn.OutAt == nil {
				break // nothing is known of what comes after
			}
			lit += b.Burn.Lasted(*b.Burn.OutAt)
		}
	}
	return out
}

// burnCourse are the readings of one burn, which began after so many hours.
func burnCourse(n CourseName, b journal.BurnLog, lit quantity.Hours) []CoursePoint {
	var out []CoursePoint
	if n == MassCourse {
		if m := b.Burn.MassBefore; m != nil {
			out = append(out, CoursePoint{Lit: lit, Burn: b.Burn.Number, Value: float64(*m)})
		}
		if m := b.Burn.MassAfter; m != nil && b.Burn.OutAt != nil {
			out = append(out, CoursePoint{Lit: lit + b.Burn.Lasted(*b.Burn.OutAt), Burn: b.Burn.Number, Value: float64(*m)})
		}
		return out
	}
	for _, c := range b.Checks {
		if v := courseValue(n, c); v != nil {
			out = append(out, CoursePoint{Lit: lit + quantity.Hours(c.At.Sub(b.Burn.LitAt).Hours()), Burn: b.Burn.Number, Value: *v, LeftOut: c.LeftOut})
		}
	}
	return out
}

func courseValue(n CourseName, c journal.Check) *float64 {
	switch n {
	case FlameCourse:
		return number(c.Flame)
	case DepthCourse:
		return number(c.Depth)
	case WallCourse:
		return number(c.VesselTemp)
	case SootCourse:
		return place(journal.SootScale, c.Soot)
	}
	return place(journal.MushroomScale, c.Mushroom)
}

func place(scale []journal.GradeWord, g journal.Grade) *float64 {
	r, ok := journal.Rank(scale, g)
	if !ok {
		return nil
	}
	v := float64(r)
	return &v
}
