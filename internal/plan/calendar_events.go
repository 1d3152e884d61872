package plan

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"rimward/internal/journal"
)

// making puts the pours, the set checks and the ready days on the calendar.
func (c *Calendar) making(d *desk) {
	for _, k := range d.in.Candles {
		for _, e := range d.made(k) {
			c.join(e, k)
		}
	}
	d.pourNotes()
}

// join adds a candle to the event that it shares with others, or begins one.
func (c *Calendar) join(e CalendarEvent, k CalendarCandle) {
	i := slices.IndexFunc(c.Events, func(o CalendarEvent) bool {
		return o.Kind == e.Kind && o.Day == e.Day && o.Done == e.Done && o.Late == e.Late
	})
	if i < 0 {
		i = len(c.Events)
		c.Events = append(c.Events, e)
	}
	o := &c.Events[i]
	o.Places = append(o.Places, k.Place)
	if e.Kind == PourEvent && k.Melt > 0 && !slices.Contains(o.Melts, k.Melt) {
		o.Melts = append(o.Melts, k.Melt)
	}
}

// made are the whole-day events of one candle.
func (d *desk) made(k CalendarCandle) []CalendarEvent {
	if k.Over && k.PouredAt == nil {
		return nil
	}
	poured, pour := d.pourAt(), CalendarEvent{Kind: PourEvent, Day: d.pourDay()}
	if k.PouredAt != nil {
		poured = *k.PouredAt
		pour.Day, pour.Done = DayOf(poured, d.in.Zone), true
	}
	pour.Late = !pour.Done && pour.Day > Day(d.in.Days.PourOn)
	out := []CalendarEvent{pour}
	burned := k.Burns > 0 || k.LitAt != nil
	if !k.Over && !burned && !k.SetChecked {
		out = append(out, d.due(SetEvent, poured.Add(journal.SetsAfter)))
	}
	if !k.Over && !burned {
		ready := CalendarEvent{Kind: ReadyEvent, Day: DayOf(d.readyAt(k), d.in.Zone)}
		ready.Done = !d.readyAt(k).After(d.in.Now)
		out = append(out, ready)
	}
	return out
}

// due is something that is to be done from a moment on: where its day has
// passed, it is late, and today's.
func (d *desk) due(kind EventKind, at time.Time) CalendarEvent {
	day := DayOf(at, d.in.Zone)
	return CalendarEvent{Kind: kind, Day: max(day, d.today), Late: day < d.today}
}

func (d *desk) pourNotes() {
	if !d.in.unpoured() {
		return
	}
	wanted, day := Day(d.in.Days.PourOn), d.pourDay()
	if day > wanted {
		d.note("pour", "The pour of %s is late: the days are counted as if it were poured on %s.", wanted, day)
	} else if d.isAway(day) {
		d.note("pour", "You pour on %s, a day on which you are away.", day)
	}
}

// list puts the sittings among the events, in order of time, and every event
// under its key.
func (c *Calendar) list() {
	for _, s := range c.Sittings {
		e := CalendarEvent{Key: s.Key, Kind: SittingEvent, Day: s.Day, From: s.From, To: s.To, Burns: s.Burns}
		for _, b := range s.Burns {
			e.Places = append(e.Places, b.Place)
		}
		c.Events = append(c.Events, e)
		if !slices.Contains(c.Evenings, s.Day) {
			c.Evenings = append(c.Evenings, s.Day)
		}
	}
	for i := range c.Events {
		e := &c.Events[i]
		slices.Sort(e.Places)
		slices.Sort(e.Melts)
		if e.Key == "" {
			e.Key = fmt.Sprintf("%s-%d", map[EventKind]string{PourEvent: "pour", SetEvent: "set", ReadyEvent: "ready"}[e.Kind], e.Places[0])
		}
	}
	slices.SortStableFunc(c.Events, compareEvents)
}

func compareEvents(a, b CalendarEvent) int {
	return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(slices.Index(EventKinds, a.Kind), slices.Index(EventKinds, b.Kind)),
		a.From.Compare(b.From), cmp.Compare(a.Places[0], b.Places[0]))
}
