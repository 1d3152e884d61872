package plan

import (
	"fmt"
	"iter"
	"slices"
	"time"

	"rimward/internal/quantity"
)

const (
	// horizon is how many days are looked ahead (chosen by us).
	horizon = 731
	// grace is how late a sitting may still begin (chosen by us).
	grace = time.Hour
)

// slot is a sitting that an evening has room for.
type slot struct {
	day  Day
	from time.Time // it begins then at the earliest
	by   time.Time // and then at the latest, so that those after it fit
}

// desk is what a calendar is worked out on.
type desk struct {
	in    CalendarInput
	today Day
	start hand
	gap   time.Duration // between two burns of a candle
	lasts time.Duration // of a whole sitting
	most  int           // burns that any candle has before it
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

// evenings are the free days from now on.
func (d *desk) evenings() iter.Seq[Day] {
	return func(yield func(Day) bool) {
		for day := d.today; day <= d.today.Add(2*horizon); day = day.Add(1) {
			if d.isFree(day) && !yield(day) {
				return
			}
		}
	}
}

// evening are the sittings of one day, what burned last being out at a moment.
// The first begins when the person says, or when that has rested; one that
// should have begun a little while ago begins now.
func (d *desk) evening(day Day, out time.Time, way laying) []slot {
	start, _ := day.at(d.start, d.in.Zone)
	first := slot{day: day, from: latest(start, out), by: latest(start, out.Add(d.gap))}
	if late := d.soon().Sub(first.by); late > 0 && late <= grace {
		first.from, first.by = d.soon(), d.soon()
	}
	ss := []slot{first}
	for n, by := range d.spread(day, first.by, way) {
		if n > 0 {
			ss = append(ss, slot{day: day, from: first.from.Add(time.Duration(n) * d.lasts), by: by})
		}
	}
	return d.ahead(ss)
}

// laying is a way to lay the sittings of an evening: how many at most, and
// whether those that stand close together are the later ones or all evenly.
type laying struct {
	most int
	even bool
}

// layings are the ways to lay the sittings of an evening that are worth trying.
// Where all can be so far apart that one candle could be in each, or where
// there are two at most, one way is as good as any: nothing that can be lit at
// an earlier time cannot be lit at the latest.
func (d *desk) layings() []laying {
	start, _ := d.today.at(d.start, d.in.Zone)
	fit, n := d.fits(start, d.lastStart(d.today))
	out := []laying{{most: d.in.Days.PerEvening}}
	if n < 3 || n == fit {
		return out
	}
	for most := n; most >= fit; most-- {
		out = append(out, laying{most, true}, laying{most, false})
	}
	return out
}

// fits is how many sittings an evening has room for from its first to its last
// start: rested says how many of one candle.
func (d *desk) fits(first, last time.Time) (rested, all int) {
	room := max(last.Sub(first), 0)
	all = min(1+int(room/d.lasts), d.in.Days.PerEvening)
	return min(1+int(room/(d.lasts+d.gap)), all), all
}

// spread is when each sitting of an evening begins at the latest, the first of
// them being known: as far apart as the same candles would have to rest and as
// midnight allows.
func (d *desk) spread(day Day, first time.Time, way laying) []time.Time {
	last := d.lastStart(day)
	rested, n := d.fits(first, last)
	d.spreadNotes(first, last, rested, n)
	n = min(n, way.most)
	out := []time.Time{first}
	for i := 1; i < n; i++ {
		by := last.Add(-time.Duration(n-1-i) * d.lasts)
		if way.even {
			by = first.Add(last.Sub(first) * time.Duration(i) / time.Duration(n-1))
		}
		out = append(out, earlier(by, first.Add(time.Duration(i)*(d.lasts+d.gap))))
	}
	return out
}

func (d *desk) spreadNotes(first, last time.Time, rested, n int) {
	if wanted := d.in.Days.PerEvening; n < wanted {
		end := first.Add(time.Duration(n) * d.lasts)
		d.note("midnight", "Only %d of %d sittings fit into an evening: the next would run past midnight, from %s to %s.", n, wanted, d.clock(end), d.clock(end.Add(d.lasts)))
	}
	if rested < n && rested < d.most {
		d.note("rest", "Between two burns a candle rests for %s, so that one candle can be lit %s an evening: the other sittings are for other candles.", quantity.Hours(d.gap.Hours()).Clock(), times(rested))
	}
}

// lastStart is when a whole sitting begins that is over by midnight.
func (d *desk) lastStart(day Day) time.Time {
	midnight, _ := day.Add(1).at(hand{}, d.in.Zone)
	return midnight.Add(-d.lasts)
}

// ahead are the slots that still can begin; none begins in the past.
func (d *desk) ahead(ss []slot) (out []slot) {
	for i, s := range ss {
		if late := d.soon().Sub(s.by); i > 0 && late > 0 && late <= grace && !d.pastMidnight(s.day, d.soon()) {
			s.by = d.soon()
		}
		if s.from = latest(s.from, d.soon()); !s.by.Before(s.from) {
			out = append(out, s)
		}
	}
	return out
}

func times(n int) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

func earlier(a, b time.Time) time.Time {
	if a.Before(b) {
		return a
	}
	return b
}

func latest(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// soon is now, on the next full minute.
func (d *desk) soon() time.Time { return fullMinute(d.in.Now) }

// fullMinute is a moment or the next full minute after it.
func fullMinute(t time.Time) time.Time {
	if m := t.Truncate(time.Minute); m.Before(t) {
		return m.Add(time.Minute)
	}
	return t
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
