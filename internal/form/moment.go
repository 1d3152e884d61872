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
		p.unread(dateName, timeName, "Say on which day.")
		return nil
	}
	d, err := time.Parse("2006-01-02", date)
	if err != nil || d.Year() < 1900 || d.Year() > 9000 {
		p.unread(dateName, timeName, dateSentence)
		return nil
	}
	return p.onDay(timeName, d)
}

// unread notes a problem beside the date of a moment, and that the time of day
// beside it has nothing to answer for: no rule finds it missing.
func (p *Parser) unread(dateName, timeName, text string) {
	p.Problem(dateName, text)
	p.shared.excused[p.prefix+timeName] = true
}

// onDay reads a time of day on a civil date; of one that came twice, the first.
func (p *Parser) onDay(name string, day time.Time) *time.Time {
	c, ok := clockTime(p.raw(name))
	if !ok {
		p.Problem(name, clockSentence)
		return nil
	}
	ts := civilTimes(day, c, p.shared.zone)
	if len(ts) == 0 {
		p.Problem(name, gapSentence)
		return nil
	}
	return &ts[0]
}

// civilTimes are the moments, in order, at which a clock on the wall shows a
// time of day on a date: one, two where clocks went back over it, none where
// they skipped it.
func civilTimes(day, clock time.Time, zone *time.Location) []time.Time {
	wall := time.Date(day.Year(), day.Month(), day.Day(), clock.Hour(), clock.Minute(), clock.Second(), 0, time.UTC)
	var out []time.Time
	for _, near := range []time.Duration{-24 * time.Hour, 24 * time.Hour} { // the clock's offset before and after any change
		_, offset := wall.Add(near).In(zone).Zone()
		t := wall.Add(-time.Duration(offset) * time.Second).In(zone)
		if t.Hour() == clock.Hour() && t.Minute() == clock.Minute() && t.Day() == wall.Day() && (len(out) == 0 || !t.Equal(out[0])) {
			out = append(out, t)
		}
	}
	return out
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
// now (two minutes are allowed for clocks that disagree), and of one that came
// twice the first; nil when empty or unreadable.
func (p *Parser) ClockBefore(name string, now time.Time) *time.Time {
	if p.raw(name) == "" {
		return nil
	}
	local := now.In(p.shared.zone)
	t := p.onDay(name, local)
	if t != nil && t.After(now.Add(2*time.Minute)) {
		t = p.onDay(name, nextDay(local, -1))
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
	if c, ok := clockTime(s); ok {
		return p.firstAfter(name, c, start)
	}
	h, err := quantity.ParseHours(strings.TrimPrefix(s, "+"))
	if err != nil || h < 0 || h > 7*24 {
		p.Problem(name, "Write a time of day such as 20:30, or the time since lighting such as 1 h 30.")
		return nil
	}
	t := start.Add(time.Duration(float64(h) * float64(time.Hour))).Truncate(time.Second)
	return &t
}

// firstAfter is the first moment at or after the start when the clock shows the
// time of day; within the minute of the start it is the start.
func (p *Parser) firstAfter(name string, clock, start time.Time) *time.Time {
	day := start.In(p.shared.zone)
	for _, d := range []time.Time{day, nextDay(day, 1)} {
		ts := civilTimes(d, clock, p.shared.zone)
		if len(ts) == 0 {
			p.Problem(name, gapSentence)
			return nil
		}
		for _, t := range ts {
			if !t.Before(start.Truncate(time.Minute)) {
				return later(t, start)
			}
		}
	}
	return nil
}

// later is the later of two moments.
func later(a, b time.Time) *time.Time {
	if a.Before(b) {
		return &b
	}
	return &a
}

// nextDay is noon some days on, where no clock change can move the date.
func nextDay(t time.Time, days int) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day()+days, 12, 0, 0, 0, time.UTC)
}

// ClockText writes a moment as the time of day that a box takes.
func (p *Parser) ClockText(t time.Time) string { return t.In(p.shared.zone).Format("15:04") }
