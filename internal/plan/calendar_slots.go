package plan

import (
	"fmt"
	"iter"
	"slices"
	"time"
)

const (
	// horizon is how many days are looked ahead (chosen by us).
	horizon = 731
	// grace is how late a sitting may still begin (chosen by us).
	grace = time.Hour
)

// slot is a time at which candles can be lit.
type slot struct {
	day  Day
	from time.Time
}

// desk is what a calendar is worked out on.
type desk struct {
	in    CalendarInput
	today Day
	start hand
	gap   time.Duration // between two burns of a candle
	lasts time.Duration // of a whole sitting
	notes []string
	said  map[string]bool // which notes were made: each kind once
}

func (in CalendarInput) desk() *desk {
	h, _ := readHand(in.Days.Start)
	return &desk{
		in: in, today: DayOf(in.Now, in.Zone), start: h, said: map[string]bool{},
		gap:   after(in.Now, max(in.Pace.Rest, in.Pace.RestAdvised)).Sub(in.Now),
		lasts: after(in.Now, in.Days.Hours).Sub(in.Now),
	}
}

// note keeps a sentence; of one kind only the first.
func (d *desk) note(kind, format string, args ...any) {
	if !d.said[kind] {
		d.said[kind] = true
		d.notes = append(d.notes, fmt.Sprintf(format, args...))
	}
}

// slots are the times from now on at which candles can be lit, each long
// enough after the one before that the same candles can be lit in both.
func (d *desk) slots() iter.Seq[slot] {
	return func(yield func(slot) bool) {
		var cold time.Time // when what burned before has rested
		for day := d.today; day <= d.today.Add(2*horizon); day = day.Add(1) {
			if !d.isFree(day) {
				continue
			}
			for _, s := range d.evening(day, cold) {
				cold = s.from.Add(d.lasts + d.gap)
				if !s.from.Before(d.in.Now) && !yield(s) {
					return
				}
			}
		}
	}
}

// evening are the slots of one day, the bench being cold from a moment on. One
// that should have begun a little while ago begins now.
func (d *desk) evening(day Day, cold time.Time) []slot {
	var out []slot
	for n := range d.in.Days.PerEvening {
		from := d.begins(day, n, cold)
		if late := d.in.Now.Sub(from); late > 0 && late <= grace {
			from = d.soon()
		}
		if n > 0 && d.pastMidnight(day, from) {
			d.note("midnight", "Only %d of %d sittings fit into an evening: the next would run past midnight, from %s to %s.",
				n, d.in.Days.PerEvening, d.clock(from), d.clock(from.Add(d.lasts)))
			break
		}
		cold = from.Add(d.lasts + d.gap)
		out = append(out, slot{day, from})
	}
	return out
}

// begins is when the n-th sitting of an evening would begin, counted from 0.
func (d *desk) begins(day Day, n int, cold time.Time) time.Time {
	if n > 0 {
		return cold
	}
	if from, _ := day.at(d.start, d.in.Zone); from.After(cold) {
		return from
	}
	return cold
}

// soon is now, on the next full minute.
func (d *desk) soon() time.Time {
	if t := d.in.Now.Truncate(time.Minute); t.Equal(d.in.Now) {
		return t
	}
	return d.in.Now.Truncate(time.Minute).Add(time.Minute)
}

func (d *desk) isFree(day Day) bool {
	return slices.Contains(d.in.Days.Weekdays, day.Weekday()) && !d.isAway(day)
}

func (d *desk) isAway(day Day) bool { return slices.Contains(d.in.Days.Away, string(day)) }

func (d *desk) pastMidnight(day Day, from time.Time) bool {
	return DayOf(from.Add(d.lasts-time.Nanosecond), d.in.Zone) > day
}

func (d *desk) clock(t time.Time) string { return t.In(d.in.Zone).Format("15:04") }

// remark says what is unusual about a slot that is used.
func (d *desk) remark(s slot) {
	if _, skipped := s.day.at(d.start, d.in.Zone); skipped {
		d.note("skipped "+string(s.day), "On %s the clocks skip %02d:%02d: the sitting begins at %s.", s.day, d.start.hour, d.start.minute, d.clock(s.from))
	}
	if d.pastMidnight(s.day, s.from) {
		d.note("late", "A sitting that begins at %s ends after midnight, at %s.", d.clock(s.from), d.clock(s.from.Add(d.lasts)))
	}
}
