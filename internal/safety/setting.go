package safety

import (
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// SetFault is a fault of a candle as it set, before it was ever lit.
type SetFault string

// The faults of setting, in the order of what to mind: what may feed a fire
// first, then what shows the wax set badly, then what only spoils its looks.
const (
	SetSweating SetFault = "sweating"
	SetSinkHole SetFault = "sink hole"
	SetCracks   SetFault = "cracks"
	SetRough    SetFault = "rough top"
	SetDip      SetFault = "dip"
	SetWetSpots SetFault = "wet spots"
	SetFrosting SetFault = "frosting"
)

// SetFaults lists the faults of setting in the order of what to mind.
var SetFaults = []SetFault{SetSweating, SetSinkHole, SetCracks, SetRough, SetDip, SetWetSpots, SetFrosting}

// StuckWell is the share of the wall that the wax adheres to from which no wet
// spots are counted: all of it but a twentieth, which the eye cannot tell
// (app default).
const StuckWell quantity.Fraction = 0.95

// LookFor is what one set check says of a fault: whether it was looked for, how
// much was seen, AmountNone for nothing.
func LookFor(s journal.SetCheck, f SetFault) (seen journal.Amount, looked bool) {
	switch f {
	case SetSweating:
		return s.Sweating, s.Sweating != ""
	case SetSinkHole:
		return s.SinkHole, s.SinkHole != ""
	case SetCracks:
		return s.Cracks, s.Cracks != ""
	case SetFrosting:
		return s.Frosting, s.Frosting != ""
	case SetWetSpots:
		return stuckAs(s.Stuck), s.Stuck != nil
	case SetRough:
		return shapeAs(s.Top, journal.TopRough), s.Top != ""
	case SetDip:
		return shapeAs(s.Top, journal.TopDip), s.Top != ""
	}
	return "", false
}

// stuckAs grades adhesion: under half of the wall stuck is heavy (app default).
func stuckAs(stuck *quantity.Fraction) journal.Amount {
	switch {
	case stuck == nil:
		return ""
	case *stuck >= StuckWell:
		return journal.AmountNone
	case *stuck >= 0.5:
		return journal.AmountSlight
	}
	return journal.AmountHeavy
}

// shapeAs makes an amount of the shape of a top.
func shapeAs(top, fault journal.Top) journal.Amount {
	switch top {
	case "":
		return ""
	case fault:
		return journal.AmountSlight
	}
	return journal.AmountNone
}

// SetRemedy is the usual answer to a fault of setting: one change to the next
// pour (common practice, no source).
func SetRemedy(f SetFault) Remedy {
	switch f {
	case SetSweating:
		return usual(Oil, "Use less oil in the next pour, and look at the maximum that the wax and the fragrance are said to take.")
	case SetSinkHole:
		return usual(Pouring, "Poke relief holes beside the wick while the wax sets and fill them with a second pour; or pour a little cooler.")
	case SetCracks, SetRough:
		return usual(Pouring, "Let it cool more slowly, in a warmer room; or pour a little warmer, or pass a heat gun over the top.")
	case SetDip:
		return usual(Pouring, "Top it up with a second pour; or pour a little cooler.")
	case SetWetSpots:
		return usual(Pouring, "Pour into clean, warmed vessels and let them cool slowly and evenly. It is a matter of looks.")
	case SetFrosting:
		return usual(Pouring, "Pour a little cooler, or let it cool more slowly; leave dye out. It is a matter of looks, and natural waxes do it.")
	}
	return Remedy{}
}

// Pouring is a change of how the next pour is poured and cooled.
const Pouring Turn = "pouring"

// SetCourse is one fault of setting over candles.
type SetCourse struct {
	Fault  SetFault
	Seen   int // candles that showed it
	Looked int // candles that were looked at for it
	Heavy  int // of those that showed it, heavily
	Remedy Remedy
}

// SetCourses counts in how many candles each fault of setting was seen, of how
// many that were looked at for it; those that were never looked for are left
// out. Candles and set checks that were withdrawn do not count.
func SetCourses(logs []journal.CandleLog) []SetCourse {
	var out []SetCourse
	for _, f := range SetFaults {
		c := SetCourse{Fault: f, Remedy: SetRemedy(f)}
		for _, l := range logs {
			worst, looked := Worst(l.CountedSetChecks(), f)
			if l.Withdrawn() || !looked {
				continue
			}
			c.Looked++
			c.Seen += one(worst.Seen())
			c.Heavy += one(worst == journal.AmountHeavy)
		}
		if c.Looked > 0 {
			out = append(out, c)
		}
	}
	return out
}

// Worst is the most that set checks saw of a fault; looked is false when none
// of them looked for it.
func Worst(cs []journal.SetCheck, f SetFault) (worst journal.Amount, looked bool) {
	for _, c := range cs {
		seen, did := LookFor(c, f)
		if !did {
			continue
		}
		if !looked || seen == journal.AmountHeavy || (seen.Seen() && !worst.Seen()) {
			worst, looked = seen, true
		}
	}
	return worst, looked
}

// SetChange picks the one thing to change in the next pour: the answer to the
// first fault that was seen, in the order of what to mind. ok is false where
// none was.
func SetChange(cs []SetCourse) (c SetCourse, ok bool) {
	for _, c := range cs {
		if c.Seen > 0 {
			return c, true
		}
	}
	return SetCourse{}, false
}

// sweated finds the set check that saw the most sweat, the latest of equals.
func sweated(l journal.CandleLog) (at journal.SetCheck, ok bool) {
	for _, c := range l.CountedSetChecks() {
		if c.Sweating.Seen() && (!ok || c.Sweating == at.Sweating || c.Sweating == journal.AmountHeavy) {
			at, ok = c, true
		}
	}
	return at, ok
}

// sweatedAsSet: oil stood on the cold wax before the candle was ever lit.
func sweatedAsSet(l journal.CandleLog) *Finding {
	c, ok := sweated(l)
	if !ok {
		return nil
	}
	return &Finding{Rule: "sweating before it was lit", Level: Caution, Source: practice, At: c.At, Reading: quantity.Shown{Number: string(c.Sweating)},
		Text: "Oil beads stood on the cold wax, " + string(c.Sweating) + ", " + AfterPour(l.Pour.At, c.At) + ": more oil than the wax holds. Wax rich in oil catches fire more easily.",
		Do: []string{
			"Wipe the oil off before lighting, keep clear of the flame while you light it, and stay close, with the lid at hand.",
			"Use less oil in the next pour; look at the wax's and the oil's own maximum.",
		}}
}

// AfterPour says how long after the pour something was seen: in hours up to
// three days, then in days.
func AfterPour(poured, at time.Time) string {
	span := at.Sub(poured)
	if span < 72*time.Hour {
		return strconv.Itoa(quantity.Hours(span.Hours()).Nearest()) + " h after the pour"
	}
	return quantity.Days(span.Hours()/24).Shown().String() + " after the pour"
}

// withSweat strengthens the findings about a load over a maximum where the
// candle sweated as well: the two say the same.
func withSweat(fs []Finding, l journal.CandleLog) []Finding {
	if _, ok := sweated(l); !ok {
		return fs
	}
	for i := range fs {
		if fs[i].Rule == overWaxRule || fs[i].Rule == overOilRule {
			fs[i].Text += " It sweated, too, before it was lit."
			fs[i].Do = append([]string{"Take more care than usual when lighting it: two signs say that it holds too much oil."}, fs[i].Do...)
		}
	}
	return fs
}

// ofSetting are the notes about how a candle set. What is seen before a day is
// over may still change and says so.
func ofSetting(l journal.CandleLog) []Finding {
	var fs []Finding
	cs := l.CountedSetChecks()
	for _, f := range SetFaults {
		if worst, _ := Worst(cs, f); f != SetSweating && worst.Seen() {
			fs = append(fs, settingNote(l, cs, f, worst))
		}
	}
	return fs
}

func settingNote(l journal.CandleLog, cs []journal.SetCheck, f SetFault, worst journal.Amount) Finding {
	at := cs[0]
	for _, c := range cs {
		if seen, _ := LookFor(c, f); seen == worst {
			at = c
			break
		}
	}
	n := Finding{Rule: "set with " + string(f), Level: Note, Source: practice, At: at.At, Do: []string{SetRemedy(f).Do}}
	n.Text = upper(string(f)) + ", seen " + AfterPour(l.Pour.At, at.At) + "."
	if f != SetRough && f != SetDip {
		n.Reading = quantity.Shown{Number: string(worst)}
		n.Text = upper(string(f)) + ", " + string(worst) + ", seen " + AfterPour(l.Pour.At, at.At) + "."
	}
	if at.Early(l.Pour.At) {
		n.Text += " That was before a full day had passed, and may have changed since."
	}
	return n
}
