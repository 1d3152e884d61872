package plan

import "time"

// Day is a date on the studio's calendar, as 2006-01-02. Days sort as text.
type Day string

const dayForm = "2006-01-02"

// ReadDay reads a date as it is stored; false when it is none.
func ReadDay(s string) (Day, bool) {
	t, err := time.Parse(dayForm, s)
	return Day(t.Format(dayForm)), err == nil
}

// DayOf is the date that a moment falls on in a zone.
func DayOf(t time.Time, zone *time.Location) Day { return Day(t.In(zone).Format(dayForm)) }

// Add is the date some days on.
func (d Day) Add(days int) Day { return Day(d.utc().AddDate(0, 0, days).Format(dayForm)) }

// Weekday is the day of the week of the date.
func (d Day) Weekday() time.Weekday { return d.utc().Weekday() }

// String is the date in words: Tuesday 3 March 2026.
func (d Day) String() string { return d.utc().Format("Monday 2 January 2006") }

// Noon is midday of the date in a zone: a moment that no clock change skips.
func (d Day) Noon(zone *time.Location) time.Time {
	u := d.utc()
	return time.Date(u.Year(), u.Month(), u.Day(), 12, 0, 0, 0, zone)
}

func (d Day) utc() time.Time {
	t, _ := time.Parse(dayForm, string(d))
	return t
}

// hand is a time of day as a clock on the wall shows it.
type hand struct{ hour, minute int }

func readHand(s string) (hand, bool) {
	t, err := time.Parse("15:04", s)
	return hand{t.Hour(), t.Minute()}, err == nil
}

// at is the moment at which the clocks of a zone show the hand on a date. A
// time that a change of the clocks skips becomes the moment of the change, and
// skipped says so; of a time that comes twice it is the first.
func (d Day) at(h hand, zone *time.Location) (t time.Time, skipped bool) {
	u := d.utc()
	t = time.Date(u.Year(), u.Month(), u.Day(), h.hour, h.minute, 0, 0, zone)
	if !shows(t, h) {
		_, change := t.Add(-12 * time.Hour).ZoneBounds()
		return change, true
	}
	if began, _ := t.ZoneBounds(); !began.IsZero() {
		_, before := began.Add(-time.Second).Zone()
		_, now := t.Zone()
		if first := t.Add(time.Duration(now-before) * time.Second); first.Before(began) && shows(first, h) {
			return first, false
		}
	}
	return t, false
}

func shows(t time.Time, h hand) bool { return t.Hour() == h.hour && t.Minute() == h.minute }
