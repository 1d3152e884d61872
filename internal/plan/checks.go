package plan

import (
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Slot is one check that a burn asks for.
type Slot struct {
	Hour quantity.Hours // after lighting
	Why  string
}

// Lead is how long before its slot a check already meets it, and how near two
// slots may lie before they are one (chosen by us).
const Lead quantity.Hours = 0.25

// hair absorbs the noise of adding hours.
const hair quantity.Hours = 1e-9

// mostSlots keeps a very short interval from asking for a check every second.
const mostSlots = 96

// Slots are the checks of a burn: one after every interval up to the longest
// burn, and one at half the target hour, before which no pool should be full.
// The half is merged into a slot that lies within Lead of it.
func (p Pace) Slots(target quantity.Hours) []Slot {
	var ss []Slot
	every := max(p.Every, p.Longest/mostSlots)
	for n := 1; every > 0 && every*quantity.Hours(n) <= p.Longest+hair; n++ {
		ss = append(ss, Slot{every * quantity.Hours(n), p.regular()})
	}
	half := target / 2
	if half <= 0 || half > p.Longest+hair {
		return ss
	}
	for i, s := range ss {
		if d := s.Hour - half; d <= Lead+hair && d >= -Lead-hair {
			ss[i].Why += " and half the target hour"
			return ss
		}
	}
	ss = append(ss, Slot{half, "half the target hour"})
	slices.SortFunc(ss, func(a, b Slot) int { return compare(a.Hour, b.Hour) })
	return ss
}

// regular names the checks that come after every interval.
func (p Pace) regular() string {
	if p.Every == 1 {
		return "hourly check"
	}
	return "check every " + p.Every.Clock()
}

func compare(a, b quantity.Hours) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// Due is the check that a burn asks for next; its At is zero when it asks for
// none.
type Due struct {
	At   time.Time
	Hour quantity.Hours // after lighting
	Late time.Duration  // how long it has been due; 0 when it lies ahead
	Why  string
}

// Next is the check that a burn asks for at the usual pace.
func Next(b journal.Burn, checks []journal.Check, target quantity.Hours, now time.Time) Due {
	return Usual().Next(b, checks, target, now)
}

// Next is the check that a burn asks for: the latest slot that has come, or
// else the first one ahead, unless it or a later one was met. A slot is met by
// a check from Lead before it until Lead before the next. After the longest
// burn no check is asked for: the candle is to be put out.
func (p Pace) Next(b journal.Burn, checks []journal.Check, target quantity.Hours, now time.Time) Due {
	if !b.Lit() || now.After(after(b.LitAt, p.Longest)) {
		return Due{}
	}
	next := 0
	slots := p.Slots(target)
	for i, s := range slots {
		switch {
		case met(slots, i, b, checks):
			next = i + 1
		case !after(b.LitAt, s.Hour).After(now):
			next = i
		}
	}
	if next == len(slots) {
		return Due{}
	}
	return dueAt(slots[next], b, now)
}

func dueAt(s Slot, b journal.Burn, now time.Time) Due {
	at := after(b.LitAt, s.Hour)
	return Due{At: at, Hour: s.Hour, Late: max(now.Sub(at), 0), Why: s.Why}
}

// met reports whether a check that counts fell into the slot's time.
func met(slots []Slot, i int, b journal.Burn, checks []journal.Check) bool {
	from := slots[i].Hour - Lead - hair
	for _, c := range checks {
		h := since(b.LitAt, c.At)
		if !c.IsGone() && h >= from && (i+1 == len(slots) || h < slots[i+1].Hour-Lead-hair) {
			return true
		}
	}
	return false
}

// StopAt is when a burn is to be put out at the usual pace.
func StopAt(b journal.Burn) time.Time { return Usual().StopAt(b) }

// StopAt is when a burn is to be put out.
func (p Pace) StopAt(b journal.Burn) time.Time { return after(b.LitAt, p.Longest) }

// TargetAt is when the pool should meet the wall.
func TargetAt(b journal.Burn, target quantity.Hours) time.Time { return after(b.LitAt, target) }
