package cast

import "rimward/internal/journal"

// Try is one change to make (all of them common practice, no source).
type Try string

// What can be tried, in the order in which it is advised.
const (
	LongerSet    Try = "longer set"    // a full day in the mould before they are taken out
	SlowerCold   Try = "slower"        // brittle pieces: back to room temperature before they are taken out
	WarmerMould  Try = "warmer mould"  // lost detail: warm the mould, or pour hotter within the guidance
	HarderWax    Try = "harder wax"    // a wax that sets firmer
	SimplerMould Try = "simpler mould" // with less detail to hold on to
)

const (
	// many is the share of chipped and broken pieces from which a change is
	// advised (chosen by us).
	many = 0.2
	// often is the share of noted casts whose detail did not come through
	// from which a change is advised (chosen by us).
	often = 0.5
)

// tries are the changes that are worth making where many pieces chip or break,
// or their detail is lost. The casts are those whose pieces were counted.
func tries(detail journal.Detail, lines []journal.CastLine) []Try {
	t := TallyOf(lines)
	if t.Pieces() < Least {
		return nil
	}
	harmed := float64(t.Chipped+t.Broken) >= many*float64(t.Pieces())
	s := signsOf(lines)
	if !harmed && !s.blurred() {
		return nil
	}
	var out []Try
	add := func(when bool, try Try) {
		if when {
			out = append(out, try)
		}
	}
	add(harmed && s.hurried > 0, LongerSet)
	add(harmed && s.brittle > 0, SlowerCold)
	add(s.blurred(), WarmerMould)
	add(harmed && s.brittle == 0, HarderWax)
	add(harmed && detail != journal.Plain, SimplerMould)
	return out
}

// signs are what was seen on some casts.
type signs struct {
	hurried, brittle int // casts
	blunt, noted     int // casts whose detail came soft or not at all, of those where it was noted
}

func signsOf(lines []journal.CastLine) signs {
	var s signs
	for _, l := range lines {
		if hurried(l) {
			s.hurried++
		}
		if l.Cast.Firmness == journal.Brittle {
			s.brittle++
		}
		if l.Cast.Captured != "" {
			s.noted++
		}
		if l.Cast.Captured == journal.DetailSoft || l.Cast.Captured == journal.DetailLost {
			s.blunt++
		}
	}
	return s
}

// blurred reports whether the detail often did not come through.
func (s signs) blurred() bool { return s.noted > 0 && float64(s.blunt) >= often*float64(s.noted) }
