// Package ical writes a calendar as a file that calendar programs read:
// iCalendar, RFC 5545.
//
// It writes events and nothing else: no tasks, no alarms, no invitations, no
// repeating rules. It does not read calendars, and has no clock: the moment of
// writing is handed to it.
package ical

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"
)

// Calendar is what one file holds.
type Calendar struct {
	Name   string    // shown by the program that reads it
	Stamp  time.Time // when the file was written
	Events []Event
}

// Event is one entry: from one moment to another, or whole days.
type Event struct {
	UID      string // the same whenever the same event is written again
	Sequence int    // rises when the event is planned anew; never below 0
	Summary  string
	Detail   string // may have several lines; empty: none
	// Start and End are moments, written in UTC. Of whole days their own dates
	// count, in their own zone, and End is the last day itself.
	Start, End time.Time
	WholeDays  bool
}

// maker names what wrote the file (PRODID, RFC 5545 section 3.7.3).
const maker = "-//Rimward//Rounds of test burns//EN"

// ErrEmpty is the error for a calendar without events: RFC 5545 asks for at
// least one (section 3.6).
var ErrEmpty = errors.New("ical: a calendar needs an event")

// Write writes the calendar; ErrEmpty without events, an error when an event
// has no UID or ends before it begins, or when w fails.
func Write(w io.Writer, c Calendar) error {
	if len(c.Events) == 0 {
		return ErrEmpty
	}
	var f file
	f.line("BEGIN", "VCALENDAR")
	f.line("VERSION", "2.0")
	f.line("PRODID", maker)
	f.line("CALSCALE", "GREGORIAN")
	if c.Name != "" {
		f.line("X-WR-CALNAME", Escape(c.Name))
	}
	for i, e := range c.Events {
		if err := e.check(); err != nil {
			return fmt.Errorf("ical: event %d: %w", i+1, err)
		}
		f.event(e, c.Stamp)
	}
	f.line("END", "VCALENDAR")
	_, err := io.WriteString(w, f.String())
	return err
}

func (e Event) check() error {
	switch {
	case clean(e.UID) == "":
		return errors.New("no UID")
	case e.End.Before(e.Start):
		return errors.New("ends before it begins")
	}
	return nil
}

func (f *file) event(e Event, stamp time.Time) {
	f.line("BEGIN", "VEVENT")
	f.line("UID", Escape(e.UID))
	f.line("DTSTAMP", moment(stamp))
	f.line("SEQUENCE", strconv.Itoa(max(e.Sequence, 0)))
	if e.WholeDays {
		f.line("DTSTART;VALUE=DATE", e.Start.Format("20060102"))
		f.line("DTEND;VALUE=DATE", e.End.AddDate(0, 0, 1).Format("20060102"))
		f.line("TRANSP", "TRANSPARENT")
	} else {
		f.line("DTSTART", moment(e.Start))
		f.end(e)
	}
	f.line("SUMMARY", Escape(e.Summary))
	if e.Detail != "" {
		f.line("DESCRIPTION", Escape(e.Detail))
	}
	f.line("END", "VEVENT")
}

// end writes when an event ends; one that ends the second it begins has no end,
// for an end must be later (section 3.8.2.2).
func (f *file) end(e Event) {
	if end := moment(e.End); end != moment(e.Start) {
		f.line("DTEND", end)
	}
}

// moment is a time in UTC (section 3.3.5, form 2).
func moment(t time.Time) string { return t.UTC().Format("20060102T150405Z") }

// file is what is written so far.
type file struct{ strings.Builder }

// mostOctets is how long a line may be without its break (section 3.1).
const mostOctets = 75

// line writes one content line, folded: a line break and a space before what
// would make it longer than 75 octets, never within a character.
func (f *file) line(name, value string) {
	left := mostOctets
	for _, r := range name + ":" + value {
		s := string(r)
		if len(s) > left {
			f.WriteString("\r\n ")
			left = mostOctets - 1
		}
		f.WriteString(s)
		left -= len(s)
	}
	f.WriteString("\r\n")
}
