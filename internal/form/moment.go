package form

import (
	"strings"
	"time"

	"rimward/internal/quantity"
)

const (
	dateSentence  = "Write the date as it stands in a calendar."
	clockSentence = "Write a time of day such as 20:30."
	gapSentence   = "The clocks went forward then: that time of day did not exist."
)

// Moment reads a date and a time of day in the studio's zone; nil when either
// is empty or unreadable. A time that came twice, when clocks went back, is
// read as the first of the two.
func (p *Parser) Moment(dateName, timeName string) *time.Time {
	date, clock := p.raw(dateName), p.raw(timeName)
	if date == "" && clock == "" {
		return nil
	}
	if clock == "" {
		p.Problem(timeName, "Say at what time of day.")
		return nil
	}
	if date == "" {
		p.Problem(dateName, "Say on which day.")
		return nil
	}
	d, err := time.Parse("2006-01-02", date)
	if err != nil || d.Year() < 1900 || d.Year() > 9000 {
		p.Problem(dateName, dateSentence)
		return nil
	}
	return p.onDay(timeName, d)
}

// onDay reads a time of day on a civil date.
func (p *Parser) onDay(name string, day time.Time) *time.Time {
	c, ok := clockTime(p.raw(name))
	if !ok {
		p.Problem(name, clockSentence)
		return nil
	}
	t, exists := civilTime(day, c, p.shared.zone)
	if !exists {
		p.Problem(name, gapSentence)
		return nil
	}
	return &t
}

// civilTime is the moment at which a clock on the wall shows a time of day on a
// date; false when the clocks skipped it.
func civilTime(day, clock time.Time, zone *time.Location) (time.Time, bool) {
	t := time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), clock.Second(), 0, zone)
	if t.Hour() != clock.Hour() || t.Minute() != clock.Minute() {
		return t, false
	}
	if earlier := t.Add(-time.Hour); earlier.Hour() == t.Hour() && earlier.Day() == t.Day() {
		return earlier, true
	}
	return t, true
}

// clockTime reads a time of day: 20:30, 20.30, 8:30, 20:30:15.
func clockTime(s string) (time.Time, bool) {
	for _, layout := range []string{"15:04", "15:04:05", "15.04", "3:04pm", "3:04 pm"} {
		if t, err := time.Parse(layout, strings.ToLower(s)); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

// ClockBefore reads a time of day as the latest such moment that is not after
// now (two minutes are allowed for clocks that disagree); nil when empty or
// unreadable.
func (p *Parser) ClockBefore(name string, now time.Time) *time.Time {
	if p.raw(name) == "" {
		return nil
	}
	local := now.In(p.shared.zone)
	t := p.onDay(name, local)
	if t != nil && t.After(now.Add(2*time.Minute)) {
		t = p.onDay(name, local.AddDate(0, 0, -1))
	}
	return t
}

// ClockAfter reads when a check was made: a time of day, as the first such
// moment at or after the start, or a span since the start such as +1:30,
// 1 h 30, 90 min or 2. Nil when empty or unreadable.
func (p *Parser) ClockAfter(name string, start time.Time) *time.Time {
	s := p.raw(name)
	if s == "" {
		return nil
	}
	if _, ok := clockTime(s); ok && !strings.HasPrefix(s, "+") {
		return p.firstAfter(name, start)
	}
	h, err := quantity.ParseHours(strings.TrimPrefix(s, "+"))
	if err != nil || h < 0 || h > 7*24 {
		p.Problem(name, "Write a time of day such as 20:30, or the time since lighting such as 1 h 30.")
		return nil
	}
	t := start.Add(time.Duration(float64(h) * float64(time.Hour))).Truncate(time.Second)
	return &t
}

func (p *Parser) firstAfter(name string, start time.Time) *time.Time {
	local := start.In(p.shared.zone)
	t := p.onDay(name, local)
	if t != nil && t.Before(start.Truncate(time.Minute)) {
		t = p.onDay(name, local.AddDate(0, 0, 1))
	}
	if t != nil && t.Before(start) { // within the minute of lighting
		t = &start
	}
	return t
}

// ClockText writes a moment as the time of day that a box takes.
func (p *Parser) ClockText(t time.Time) string { return t.In(p.shared.zone).Format("15:04") }
