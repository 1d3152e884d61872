package plan_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

var everyDay = []time.Weekday{time.Sunday, time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday}

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// monday is the morning of Monday 2 March 2026.
var monday = time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC)

// roundOf is a round of so many candles to be poured on a Monday, cured for a
// week, burned twice on any evening, two at a time.
func roundOf(candles int) plan.CalendarInput {
	in := plan.CalendarInput{Now: monday, Zone: time.UTC, Pace: plan.Usual(), Days: journal.RoundDays{
		PourOn: "2026-03-02", Start: "18:00", Hours: 4, PerEvening: 1, BenchPlaces: 2, Burns: 2, Weekdays: everyDay,
	}}
	for n := 1; n <= candles; n++ {
		in.Candles = append(in.Candles, plan.CalendarCandle{Place: n, Melt: 1, Cure: cures(7)})
	}
	return in
}

func cures(days quantity.Days) journal.Range[quantity.Days] {
	return journal.Range[quantity.Days]{Low: &days}
}

func poured(in plan.CalendarInput, at time.Time) plan.CalendarInput {
	for i := range in.Candles {
		in.Candles[i].PouredAt, in.Candles[i].SetChecked = &at, true
	}
	return in
}

// said is a calendar in short lines.
func said(c plan.Calendar) []string {
	var out []string
	for _, e := range c.Events {
		line := string(e.Day)[5:] + " " + string(e.Kind)
		if e.Kind == plan.SittingEvent {
			line += " " + e.From.In(c.Zone).Format("15:04") + "-" + e.To.In(c.Zone).Format("15:04")
			for _, b := range e.Burns {
				line += fmt.Sprintf(" %d.%d@%d", b.Place, b.Number, b.Bench)
			}
		} else {
			line += " " + strings.Trim(fmt.Sprint(e.Places), "[]")
		}
		if e.Done {
			line += " done"
		}
		if e.Late {
			line += " late"
		}
		out = append(out, line)
	}
	return out
}

func planned(t testing.TB, in plan.CalendarInput) plan.Calendar {
	t.Helper()
	c := plan.NewCalendar(in)
	if len(c.Problems) > 0 {
		t.Fatal(c.Problems)
	}
	return c
}
