package form

import (
	"testing"
	"time"

	"rimward/internal/quantity"
)

// zoned loads a zone by its IANA name.
func zoned(t *testing.T, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// at reads a moment in RFC 3339, or nil from "".
func at(t *testing.T, text string) *time.Time {
	t.Helper()
	if text == "" {
		return nil
	}
	m, err := time.Parse(time.RFC3339, text)
	if err != nil {
		t.Fatal(err)
	}
	return &m
}

// The clocks of the European Union went forward on 29 March 2026 and back on
// 25 October 2026, both at 01:00 UTC: the last Sundays of the months
// (Directive 2000/84/EC).
const (
	lisbon = "Europe/Lisbon" // 01:00 is skipped, 01:00 to 02:00 comes twice
	berlin = "Europe/Berlin" // 02:00 is skipped, 02:00 to 03:00 comes twice
	lord   = "Australia/Lord_Howe"
)

func TestMoment(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, zone, date, clock, want, field, problem string }{
		{"summer in Lisbon is an hour from UTC", lisbon, "2026-07-01", "20:30", "2026-07-01T19:30:00Z", "", ""},
		{"winter in Lisbon is UTC", lisbon, "2026-01-01", "20:30", "2026-01-01T20:30:00Z", "", ""},
		{"seconds are kept", berlin, "2026-01-01", "20:30:15", "2026-01-01T19:30:15Z", "", ""},
		{"midnight", berlin, "2026-01-01", "00:00", "2025-12-31T23:00:00Z", "", ""},
		{"a leap day", berlin, "2028-02-29", "12:00", "2028-02-29T11:00:00Z", "", ""},
		{"nothing is nothing", berlin, "", "", "", "", ""},
		{"the last minute before the gap", berlin, "2026-03-29", "01:59", "2026-03-29T00:59:00Z", "", ""},
		{"inside the gap", berlin, "2026-03-29", "02:30", "", "t", gapSentence},
		{"the first minute of the gap", berlin, "2026-03-29", "02:00", "", "t", gapSentence},
		{"the first minute after the gap", berlin, "2026-03-29", "03:00", "2026-03-29T01:00:00Z", "", ""},
		{"inside the gap of Lisbon", lisbon, "2026-03-29", "01:30", "", "t", gapSentence},
		{"a time that came twice is the first", berlin, "2026-10-25", "02:30", "2026-10-25T00:30:00Z", "", ""},
		{"the first minute that came twice", berlin, "2026-10-25", "02:00", "2026-10-25T00:00:00Z", "", ""},
		{"the minute after both", berlin, "2026-10-25", "03:00", "2026-10-25T02:00:00Z", "", ""},
		{"a time that came twice in Lisbon", lisbon, "2026-10-25", "01:30", "2026-10-25T00:30:00Z", "", ""},
		// Lord Howe Island moves its clocks by half an hour (IANA tz database): back
		// on 5 April 2026 at 02:00 +11, forward on 4 October 2026 at 02:00 +10:30.
		{"half an hour that came twice", lord, "2026-04-05", "01:45", "2026-04-04T14:45:00Z", "", ""},
		{"half an hour that was skipped", lord, "2026-10-04", "02:15", "", "t", gapSentence},
		{"no date", berlin, "", "20:30", "", "d", "Say on which day."},
		{"no time", berlin, "2026-01-01", "", "", "t", "Say at what time of day."},
		{"no such day", berlin, "2026-02-30", "20:30", "", "d", dateSentence},
		{"a date in words", berlin, "yesterday", "20:30", "", "d", dateSentence},
		{"a date far off", berlin, "1899-12-31", "20:30", "", "d", dateSentence},
		{"a date farther off", berlin, "9001-01-01", "20:30", "", "d", dateSentence},
		{"no such time", berlin, "2026-01-01", "24:30", "", "t", clockSentence},
		{"a time in words", berlin, "2026-01-01", "noon", "", "t", clockSentence},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := NewParser(posted("d", c.date, "t", c.clock), quantity.Metric, zoned(t, c.zone))
			diff(t, "moment", at(t, c.want), p.Moment("d", "t"))
			var want Problems
			if c.problem != "" {
				want = Problems{{c.field, c.problem}}
			}
			diff(t, "problems", want, p.Problems())
		})
	}
}

func TestClockTexts(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]string{
		"20:30": "20:30", "8:30": "08:30", "20.30": "20:30", "8:30pm": "20:30", "8:30 PM": "20:30", "00:00": "00:00", "23:59": "23:59", "20:30:15": "20:30", "12:15 am": "00:15",
		"24:00": "", "20:60": "", "2030": "", "20": "", "8 o'clock": "", "-1:30": "", "20:30 Uhr": "", "\x00": "",
	} {
		c, ok := clockTime(text)
		if got := c.Format("15:04"); ok != (want != "") || ok && got != want {
			t.Errorf("%q: got %s, %v, want %q", text, got, ok, want)
		}
	}
}

func TestClockBefore(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, now, text, want, problem string }{
		{"earlier today", "2026-01-10T21:00:00+01:00", "20:30", "2026-01-10T20:30:00+01:00", ""},
		{"this very minute", "2026-01-10T20:30:40+01:00", "20:30", "2026-01-10T20:30:00+01:00", ""},
		{"two minutes ahead is a clock that disagrees", "2026-01-10T20:28:00+01:00", "20:30", "2026-01-10T20:30:00+01:00", ""},
		{"three minutes ahead was yesterday", "2026-01-10T20:27:00+01:00", "20:30", "2026-01-09T20:30:00+01:00", ""},
		{"just after midnight, late in the evening was yesterday", "2026-01-10T00:10:00+01:00", "23:50", "2026-01-09T23:50:00+01:00", ""},
		{"on the first of the year, yesterday is last year", "2026-01-01T00:10:00+01:00", "23:50", "2025-12-31T23:50:00+01:00", ""},
		{"today is the studio's, not UTC's", "2026-01-09T23:30:00Z", "00:20", "2026-01-10T00:20:00+01:00", ""},
		{"over the gap", "2026-03-29T04:00:00+02:00", "01:30", "2026-03-29T01:30:00+01:00", ""},
		{"the day after the gap, yesterday evening", "2026-03-30T00:10:00+02:00", "23:50", "2026-03-29T23:50:00+02:00", ""},
		{"inside the gap", "2026-03-29T09:00:00+02:00", "02:30", "", gapSentence},
		{"a time that came twice is the first", "2026-10-25T09:00:00+01:00", "02:30", "2026-10-25T02:30:00+02:00", ""},
		{"in the second of two hours", "2026-10-25T02:10:00+01:00", "02:40", "2026-10-25T02:40:00+02:00", ""},
		{"empty", "2026-01-10T21:00:00+01:00", "", "", ""},
		{"unreadable", "2026-01-10T21:00:00+01:00", "soon", "", clockSentence},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := NewParser(posted("t", c.text), quantity.Metric, zoned(t, berlin))
			diff(t, "moment", at(t, c.want), p.ClockBefore("t", *at(t, c.now)))
			diff(t, "problem", c.problem, p.Problems().For("t"))
		})
	}
}

func TestClockAfter(t *testing.T) {
	t.Parallel()
	const spans = "Write a time of day such as 20:30, or the time since lighting such as 1 h 30."
	for _, c := range []struct{ name, start, text, want, problem string }{
		{"later the same evening", "2026-01-10T19:05:00+01:00", "20:30", "2026-01-10T20:30:00+01:00", ""},
		{"past midnight", "2026-01-10T22:05:00+01:00", "00:30", "2026-01-11T00:30:00+01:00", ""},
		{"past the end of the year", "2026-12-31T22:05:00+01:00", "00:30", "2027-01-01T00:30:00+01:00", ""},
		{"a minute before lighting is a day later", "2026-01-10T19:05:00+01:00", "19:04", "2026-01-11T19:04:00+01:00", ""},
		{"the day of lighting is the studio's, not UTC's", "2026-01-10T23:30:00Z", "00:10", "2026-01-12T00:10:00+01:00", ""},
		{"within the minute of lighting is the lighting", "2026-01-10T19:05:40+01:00", "19:05", "2026-01-10T19:05:40+01:00", ""},
		{"a bare number is hours since lighting", "2026-01-10T19:05:00+01:00", "2", "2026-01-10T21:05:00+01:00", ""},
		{"so is a decimal", "2026-01-10T19:05:00+01:00", "1,5", "2026-01-10T20:35:00+01:00", ""},
		{"hours and minutes since lighting", "2026-01-10T19:05:00+01:00", "1 h 30", "2026-01-10T20:35:00+01:00", ""},
		{"minutes since lighting", "2026-01-10T19:05:00+01:00", "90 min", "2026-01-10T20:35:00+01:00", ""},
		{"a plus makes a time of day a span", "2026-01-10T19:05:00+01:00", "+1:30", "2026-01-10T20:35:00+01:00", ""},
		{"without it, 1:30 is at night", "2026-01-10T19:05:00+01:00", "1:30", "2026-01-11T01:30:00+01:00", ""},
		{"nothing since lighting", "2026-01-10T19:05:00+01:00", "0", "2026-01-10T19:05:00+01:00", ""},
		{"a span counts through the gap", "2026-03-28T23:00:00+01:00", "4 h", "2026-03-29T04:00:00+02:00", ""},
		{"a time of day over the gap", "2026-03-28T23:00:00+01:00", "03:00", "2026-03-29T03:00:00+02:00", ""},
		{"inside the gap", "2026-03-28T23:00:00+01:00", "02:30", "", gapSentence},
		{"a time that came twice is the first", "2026-10-24T23:00:00+02:00", "02:30", "2026-10-25T02:30:00+02:00", ""},
		{"lit in the first of two hours, before the time", "2026-10-25T02:10:00+02:00", "02:30", "2026-10-25T02:30:00+02:00", ""},
		{"lit in the first of two hours, after the time", "2026-10-25T02:40:00+02:00", "02:10", "2026-10-25T02:10:00+01:00", ""},
		{"lit in the second of two hours", "2026-10-25T02:40:00+01:00", "02:50", "2026-10-25T02:50:00+01:00", ""},
		{"lit in the second of two hours, after the time", "2026-10-25T02:40:00+01:00", "02:10", "2026-10-26T02:10:00+01:00", ""},
		{"empty", "2026-01-10T19:05:00+01:00", "", "", ""},
		{"more than a week", "2026-01-10T19:05:00+01:00", "169 h", "", spans},
		{"before lighting", "2026-01-10T19:05:00+01:00", "-1", "", spans},
		{"words", "2026-01-10T19:05:00+01:00", "late", "", spans},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := NewParser(posted("t", c.text), quantity.Metric, zoned(t, berlin))
			diff(t, "moment", at(t, c.want), p.ClockAfter("t", *at(t, c.start)))
			diff(t, "problem", c.problem, p.Problems().For("t"))
		})
	}
}

func TestClockText(t *testing.T) {
	t.Parallel()
	p := NewParser(nil, quantity.Metric, zoned(t, berlin))
	diff(t, "summer", "21:05", p.ClockText(*at(t, "2026-07-01T19:05:40Z")))
	diff(t, "winter", "20:05", p.ClockText(*at(t, "2026-01-01T19:05:40Z")))
}
