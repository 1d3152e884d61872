package page

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/plan"
)

// CalendarPart is the days of a round in words.
type CalendarPart struct {
	Problems []string
	Lede     string
	Next     []CalendarRow // the first that lie ahead
	Later    []CalendarRow
	LaterTo  string // what opens the later ones
	Past     []CalendarRow
	Notes    []string
	Left     []string
}

// CalendarRow is one day of a round.
type CalendarRow struct {
	Day, What, More string
	Done, Late      bool
}

// firstDays is how many days ahead stand open (our choice).
const firstDays = 8

// newCalendarPart puts a calendar in words; name says what a place is called.
func newCalendarPart(c plan.Calendar, name func(place int) string, v View) CalendarPart {
	p := CalendarPart{Notes: c.Notes}
	for _, x := range c.Problems {
		p.Problems = append(p.Problems, x.Says)
	}
	for _, l := range c.Left {
		p.Left = append(p.Left, capital(placeNames(l.Places, name))+": "+l.Why)
	}
	for _, e := range c.Events {
		row := calendarRow(e, c, name, v)
		switch {
		case e.Done:
			p.Past = append(p.Past, row)
		case len(p.Next) < firstDays:
			p.Next = append(p.Next, row)
		default:
			p.Later = append(p.Later, row)
		}
	}
	if n := len(p.Later); n > 0 {
		p.LaterTo = "and " + counted(n, "day more", "more")
	}
	p.Lede = calendarLede(c, v)
	return p
}

func calendarLede(c plan.Calendar, v View) string {
	if len(c.Problems) > 0 {
		return ""
	}
	if c.Finish == "" {
		return "Nothing is left to burn."
	}
	earliest := " at the earliest"
	if c.PartedFinish != "" || c.Unproven {
		earliest = ""
	}
	return "Done " + onDay(v.planDay(c.Finish, c)) + earliest + ", with " + counted(len(c.Evenings), "evening", "evenings") + " at the bench."
}

// onDay puts a day into a sentence: tomorrow, or on Fri 11 Dec.
func onDay(day string) string {
	if day == "today" || day == "tomorrow" {
		return day
	}
	return "on " + day
}

// planDay writes a day of a plan.
func (v View) planDay(d plan.Day, c plan.Calendar) string {
	if c.Zone == nil {
		return d.String()
	}
	return v.Day(d.Noon(c.Zone))
}

func calendarRow(e plan.CalendarEvent, c plan.Calendar, name func(int) string, v View) CalendarRow {
	row := CalendarRow{Day: v.planDay(e.Day, c), Done: e.Done, Late: e.Late}
	switch e.Kind {
	case plan.PourEvent:
		row.What, row.More = "Pour "+meltsText(e.Melts), counted(len(e.Places), "candle", "candles")
	case plan.SetEvent:
		row.What, row.More = "Look at the set candles", placeNames(e.Places, name)
	case plan.ReadyEvent:
		row.What, row.More = "Set and cured", placeNames(e.Places, name)
	default:
		row.What, row.More = "Light at "+v.Clock(e.From)+", out by "+v.Clock(e.To), sittingText(e.Burns, name)
	}
	return row
}

func meltsText(melts []int) string {
	if len(melts) == 0 {
		return "the candles"
	}
	return wordWith(melts, "melt", "melts")
}

// wordWith writes numbers after their noun: melt 1, melts 1 to 3.
func wordWith(ns []int, one, many string) string {
	if len(ns) == 1 {
		return one + " " + strconv.Itoa(ns[0])
	}
	return many + " " + runsText(ns)
}

// runsText writes numbers with runs drawn together: 1 to 4, 7 and 9.
func runsText(ns []int) string {
	ns = slices.Sorted(slices.Values(ns))
	var parts []string
	for i := 0; i < len(ns); {
		j := i
		for j+1 < len(ns) && ns[j+1] == ns[j]+1 {
			j++
		}
		switch {
		case j-i > 1:
			parts = append(parts, strconv.Itoa(ns[i])+" to "+strconv.Itoa(ns[j]))
		default:
			for _, n := range ns[i : j+1] {
				parts = append(parts, strconv.Itoa(n))
			}
		}
		i = j + 1
	}
	return listed(parts)
}

// placeNames names the candles of an event: by their codes where they have
// one, by their places otherwise.
func placeNames(places []int, name func(int) string) string {
	var codes []string
	var bare []int
	for _, p := range places {
		if n := name(p); n != "" {
			codes = append(codes, n)
		} else {
			bare = append(bare, p)
		}
	}
	var parts []string
	if len(codes) > 0 {
		parts = append(parts, listed(codes))
	}
	if len(bare) > 0 {
		parts = append(parts, wordWith(bare, "place", "places"))
	}
	return strings.Join(parts, "; ")
}

// sittingText says which candle stands at which place of the bench, and which
// burn it is of them.
func sittingText(burns []plan.PlannedBurn, name func(int) string) string {
	burns = slices.SortedStableFunc(slices.Values(burns), func(a, b plan.PlannedBurn) int { return cmp.Compare(a.Bench, b.Bench) })
	alike := !slices.ContainsFunc(burns, func(b plan.PlannedBurn) bool { return b.Number != burns[0].Number })
	var parts []string
	for _, b := range burns {
		who := name(b.Place)
		if who == "" {
			who = "candle " + strconv.Itoa(b.Place)
		}
		part := strconv.Itoa(b.Bench) + ": " + who
		if !alike {
			part += ", burn " + strconv.Itoa(b.Number)
		}
		parts = append(parts, part)
	}
	text := "On the bench " + strings.Join(parts, "; ")
	if alike && len(burns) > 0 {
		return "Burn " + strconv.Itoa(burns[0].Number) + ". " + text
	}
	return text
}

// placeNamer gives a place the code of its candle; "" where it has none.
func placeNamer(p *plan.RoundProgress) func(int) string {
	codes := map[int]string{}
	if p != nil {
		for _, x := range p.Places {
			if x.Candle != nil {
				codes[x.Place.Number] = x.Candle.Candle.Code()
			}
		}
	}
	return func(place int) string { return codes[place] }
}
