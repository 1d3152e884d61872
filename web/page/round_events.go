package page

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"rimward/internal/ical"
	"rimward/internal/journal"
	"rimward/internal/plan"
)

// Taken is the state of the journal that a calendar was worked out from.
type Taken struct {
	Revision int64 // of the journal; it rises with whatever is recorded
	Now      time.Time
}

// sequence is a number that rises whenever the days of a round may have moved:
// because something was recorded, or because a day went by.
func (t Taken) sequence(r journal.TestRound) int {
	return int(max(t.Revision, 0)) + max(int(t.Now.Sub(r.Created)/(24*time.Hour)), 0)
}

// RoundEvents are the days of a round as a calendar program reads them. name
// gives the code of a candle that is poured, by its place in the round; empty
// where it has none yet. Without events there is nothing to write.
func RoundEvents(c plan.Calendar, r journal.TestRound, at Taken, name func(place int) string) []ical.Event {
	w := eventWords{round: r, name: name}
	var out []ical.Event
	for _, e := range c.Events {
		x := ical.Event{
			UID: w.uid(e), Sequence: at.sequence(r), Summary: w.summary(e), Detail: w.detail(e),
			Start: e.From, End: e.To, WholeDays: e.Kind != plan.SittingEvent,
		}
		if x.WholeDays {
			x.Start = e.Day.Noon(c.Zone)
			x.End = x.Start
		}
		out = append(out, x)
	}
	return out
}

// eventWords finds the words for the events of one round.
type eventWords struct {
	round journal.TestRound
	name  func(place int) string
}

// uid is the name of an event among all calendars: the round's number and the
// moment it was written tell it from the rounds of other journals.
func (w eventWords) uid(e plan.CalendarEvent) string {
	return fmt.Sprintf("round-%d-%s-%s@rimward", w.round.ID, w.round.Created.UTC().Format("20060102T150405Z"), e.Key)
}

func (w eventWords) summary(e plan.CalendarEvent) string {
	n := figured(len(e.Places), "candle", "candles")
	switch e.Kind {
	case plan.PourEvent:
		if e.Done {
			return "Poured: " + n
		}
		return "Pour " + n
	case plan.SetEvent:
		return "Look at the tops of " + n
	case plan.ReadyEvent:
		return "Cured and ready: " + n
	}
	return "Light " + n
}

func (w eventWords) detail(e plan.CalendarEvent) string {
	lines := []string{w.round.Question}
	switch e.Kind {
	case plan.SittingEvent:
		for _, b := range e.Burns {
			lines = append(lines, fmt.Sprintf("Bench place %d: %s, burn %d, %s", b.Bench, w.candle(b.Place), b.Number, b.Hours.Clock()))
		}
		lines = append(lines, "Trim the wicks first. Never leave a burning candle. Lid within reach; no water on burning wax.")
	case plan.PourEvent:
		lines = append(lines, w.candles(e.Places))
		if len(e.Melts) > 0 {
			lines = append(lines, figured(len(e.Melts), "melt", "melts")+": "+eventNumbers(e.Melts))
		}
	default:
		lines = append(lines, w.candles(e.Places))
	}
	return strings.Join(lines, "\n")
}

// candle names a candle by its place in the round, and its code where it has
// one.
func (w eventWords) candle(place int) string {
	s := "candle " + strconv.Itoa(place)
	if code := w.name(place); code != "" {
		s += " (" + code + ")"
	}
	return s
}

func (w eventWords) candles(places []int) string {
	var out []string
	for _, p := range places {
		s := strconv.Itoa(p)
		if code := w.name(p); code != "" {
			s += " (" + code + ")"
		}
		out = append(out, s)
	}
	if len(out) == 1 {
		return "Candle " + out[0]
	}
	return "Candles " + listed(out)
}

func eventNumbers(ns []int) string {
	var out []string
	for _, n := range ns {
		out = append(out, strconv.Itoa(n))
	}
	return listed(out)
}
