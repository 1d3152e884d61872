package plan

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// CalendarInput is what a round's calendar is worked out from.
type CalendarInput struct {
	Now     time.Time      // nothing is planned before it
	Zone    *time.Location // the studio's; nil is a problem
	Days    journal.RoundDays
	Candles []CalendarCandle
	Pace    Pace
	// Together keeps the evening groups of the design together even where
	// that finishes on a later day.
	Together bool
}

// CalendarCandle is one candle of a round: its place in the plan, and what has
// become of it.
type CalendarCandle struct {
	Place int // its number in the order of pouring, from 1
	Melt  int
	Group int // the evening group of the design; 0: none
	// Benches are its places on the bench at its first, second … burn, and
	// from the start again; empty: whichever is free.
	Benches []int
	Cure    journal.Range[quantity.Days] // of its wax, from its supplier
	// Lasts is how many hours it is expected to burn until it is spent; 0
	// where that is not known.
	Lasts quantity.Hours

	PouredAt   *time.Time // nil: not yet
	SetChecked bool
	Burns      int            // that are over and count
	LitHours   quantity.Hours // over those
	LitAt      *time.Time     // while it is lit
	LastOut    *time.Time     // the end of its last burn
	Over       bool           // spent or withdrawn: nothing more is planned
}

// Calendar is what falls on which day of a round, from what has happened to
// its last planned burn.
type Calendar struct {
	Zone     *time.Location
	Events   []CalendarEvent  // in order of time
	Sittings []PlannedSitting // that lie ahead, in order of time
	Evenings []Day            // with a sitting, each once
	// Finish is the day of the last sitting, the earliest that can be unless
	// PartedFinish is set; empty where nothing is left to burn.
	Finish Day
	// Unproven says that an earlier day cannot be ruled out: three or more
	// sittings stand so close in an evening that there are many ways to lay
	// them, of which a few were tried.
	Unproven bool
	// Split says that evening groups were parted because together they would
	// finish on TogetherFinish.
	Split          bool
	TogetherFinish Day
	// PartedFinish is the earlier day that groups would finish on, had they not
	// been kept together as Together asks; empty where that costs no day.
	PartedFinish Day
	Left         []LeftOut     // what is not planned, and why
	Notes        []string      // what to know about the plan, in sentences
	Problems     []DaysProblem // what stands in its way: then there are no events
}

// DaysProblem is a reason why no calendar can be made, beside the field of the
// round's days that it is about.
type DaysProblem struct{ Field, Says string }

// LeftOut are candles whose burns are not all planned.
type LeftOut struct {
	Places []int
	Why    string // a sentence
}

// EventKind is what an event of a round's calendar is.
type EventKind string

// The kinds of event, in the order in which they stand within a day.
const (
	PourEvent    EventKind = "pour"
	SetEvent     EventKind = "set check"
	ReadyEvent   EventKind = "ready"
	SittingEvent EventKind = "sitting"
)

// EventKinds lists the kinds in order.
var EventKinds = []EventKind{PourEvent, SetEvent, ReadyEvent, SittingEvent}

// CalendarEvent is one thing on the calendar. All but sittings take the whole
// day.
type CalendarEvent struct {
	// Key tells the event from the others of its round, and stays when the
	// event moves to another day.
	Key    string
	Kind   EventKind
	Day    Day
	From   time.Time // of a sitting
	To     time.Time // of a sitting
	Places []int     // the candles it is about, in order
	Melts  []int     // of a pour: the batches, in order
	Burns  []PlannedBurn
	Done   bool // it has happened
	Late   bool // it was due on an earlier day
}

// PlannedSitting is one evening's candles lit together.
type PlannedSitting struct {
	Key   string
	Day   Day
	From  time.Time
	To    time.Time     // when the last of its candles is put out
	Burns []PlannedBurn // in order of their places on the bench
}

// PlannedBurn is one candle's burn in a sitting.
type PlannedBurn struct {
	Place  int            // of the candle in the round
	Number int            // which of its burns, from 1
	Bench  int            // where it stands, from 1
	Hours  quantity.Hours // how long it burns
}

// NewCalendar works out the days of a round from what has happened and from
// now on. It finishes on the earliest day that the evenings and the bench
// allow; within that, and with Together before that, evening groups are lit
// together. A candle rests between two of its burns; others may follow at once.
func NewCalendar(in CalendarInput) Calendar {
	c := Calendar{Zone: in.Zone, Problems: in.problems()}
	if len(c.Problems) > 0 {
		return c
	}
	d := in.desk()
	c.making(d)
	c.burning(d)
	c.Notes = append(c.Notes, d.notes...)
	c.list()
	return c
}
