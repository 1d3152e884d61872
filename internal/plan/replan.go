package plan

import (
	"cmp"
	"slices"
	"time"
)

// Move is one thing that two calendars of a round place differently.
type Move struct {
	Kind   EventKind
	Places []int // the candles it is about, in order
	Burn   int   // of a sitting: which of their burns; 0 otherwise
	From   Day   // empty: it was not planned
	To     Day   // empty: it no longer is
}

// Moved says what a new calendar of a round places on another day than an old
// one, what only the new one plans, and what it has no room for. What has
// happened by the new one is no move. Either calendar may have problems: then
// nothing can be compared.
func Moved(old, new Calendar) []Move {
	if len(old.Problems) > 0 || len(new.Problems) > 0 {
		return nil
	}
	was, is := old.things(), new.things()
	var ms []Move
	for t, from := range was {
		to, planned := is[t]
		if to.day != from.day && !to.done && (planned || new.leaves(t)) {
			ms = note(ms, t, from.day, to.day)
		}
	}
	for t, to := range is {
		if _, known := was[t]; !known && !to.done {
			ms = note(ms, t, "", to.day)
		}
	}
	return sortMoves(ms)
}

// thing is what is planned of one candle.
type thing struct {
	kind        EventKind
	place, burn int
}

type placed struct {
	day  Day
	done bool
}

func (c Calendar) things() map[thing]placed {
	out := map[thing]placed{}
	for _, e := range c.Events {
		for _, p := range e.Places {
			if e.Kind != SittingEvent {
				out[thing{e.Kind, p, 0}] = placed{e.Day, e.Done}
			}
		}
		for _, b := range e.Burns {
			out[thing{e.Kind, b.Place, b.Number}] = placed{day: e.Day}
		}
	}
	return out
}

// leaves reports whether a burn is missing for want of evenings rather than
// because it has happened.
func (c Calendar) leaves(t thing) bool {
	return t.kind == SittingEvent && slices.ContainsFunc(c.Left, func(l LeftOut) bool { return slices.Contains(l.Places, t.place) })
}

// note adds a candle to the move that it shares with others, or begins one.
func note(ms []Move, t thing, from, to Day) []Move {
	i := slices.IndexFunc(ms, func(m Move) bool {
		return m.Kind == t.kind && m.Burn == t.burn && m.From == from && m.To == to
	})
	if i < 0 {
		return append(ms, Move{Kind: t.kind, Places: []int{t.place}, Burn: t.burn, From: from, To: to})
	}
	ms[i].Places = append(ms[i].Places, t.place)
	return ms
}

func sortMoves(ms []Move) []Move {
	for i := range ms {
		slices.Sort(ms[i].Places)
	}
	slices.SortFunc(ms, func(a, b Move) int {
		return cmp.Or(cmp.Compare(slices.Index(EventKinds, a.Kind), slices.Index(EventKinds, b.Kind)),
			cmp.Compare(a.Burn, b.Burn), cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To), cmp.Compare(a.Places[0], b.Places[0]))
	})
	return ms
}

// Tonight is the next sitting of the day that a moment falls on which is not
// over by then; false where none is planned.
func (c Calendar) Tonight(now time.Time) (PlannedSitting, bool) {
	if c.Zone == nil {
		return PlannedSitting{}, false
	}
	today := DayOf(now, c.Zone)
	for _, s := range c.Sittings {
		if s.Day == today && s.To.After(now) {
			return s, true
		}
	}
	return PlannedSitting{}, false
}
