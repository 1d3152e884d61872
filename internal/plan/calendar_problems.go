package plan

import (
	"fmt"
	"time"

	"rimward/internal/journal"
)

// mostSittings and mostBurns are the most sittings of an evening and burns of
// a candle that are planned (chosen by us).
const (
	mostSittings = 6
	mostBurns    = 200
)

type daysProblems []DaysProblem

func (ps *daysProblems) addIf(wrong bool, field, says string) {
	if wrong {
		*ps = append(*ps, DaysProblem{field, says})
	}
}

// problems are what stands in the way of any calendar.
func (in CalendarInput) problems() []DaysProblem {
	var ps daysProblems
	ps.addIf(in.Zone == nil, "zone", "The studio's time zone is not known on this machine. Choose another in the settings.")
	ps.addIf(len(in.Candles) == 0, "", "The round has no candles to plan for.")
	in.pourProblem(&ps)
	in.sittingProblems(&ps)
	eveningProblems(in.Days, &ps)
	return ps
}

func (in CalendarInput) pourProblem(ps *daysProblems) {
	_, is := ReadDay(in.Days.PourOn)
	switch {
	case in.Days.PourOn == "":
		ps.addIf(in.unpoured(), "pour_on", "Say on which day you pour.")
	case !is:
		ps.addIf(true, "pour_on", fmt.Sprintf("“%s” is not a date.", in.Days.PourOn))
	case in.Zone != nil:
		last := DayOf(in.Now, in.Zone).Add(horizon)
		ps.addIf(in.unpoured() && Day(in.Days.PourOn) > last, "pour_on", "Choose a day within the next two years.")
	}
}

func (in CalendarInput) unpoured() bool {
	for _, c := range in.Candles {
		if c.PouredAt == nil && !c.Over {
			return true
		}
	}
	return false
}

func (in CalendarInput) sittingProblems(ps *daysProblems) {
	d := in.Days
	_, is := readHand(d.Start)
	ps.addIf(d.Start == "", "start", "Say when a sitting begins, as 18:30.")
	ps.addIf(d.Start != "" && !is, "start", fmt.Sprintf("“%s” is not a time of day. Write it as 18:30.", d.Start))
	ps.addIf(!(d.Hours >= 0.25), "hours", "A sitting lasts a quarter of an hour at least.")
	ps.addIf(d.Hours > in.Pace.Longest+hair, "hours", fmt.Sprintf("No burn may be longer than %s.", in.Pace.Longest.Clock()))
	ps.addIf(d.PerEvening < 1 || d.PerEvening > mostSittings, "per_evening", fmt.Sprintf("Between 1 and %d sittings in an evening.", mostSittings))
	ps.addIf(d.BenchPlaces < 1, "bench_places", "The bench needs a place for one candle at least.")
	ps.addIf(d.BenchPlaces > journal.MostPlaces, "bench_places", fmt.Sprintf("At most %d places on the bench.", journal.MostPlaces))
	ps.addIf(d.Burns < 0 || d.Burns > mostBurns, "burns", fmt.Sprintf("Between 1 and %d burns of each candle, or 0 to burn until it is spent.", mostBurns))
}

func eveningProblems(d journal.RoundDays, ps *daysProblems) {
	ps.addIf(len(d.Weekdays) == 0, "weekdays", "No evening of the week is free: choose one at least.")
	for _, w := range d.Weekdays {
		ps.addIf(w < time.Sunday || w > time.Saturday, "weekdays", "Choose the evenings from the days of the week.")
	}
	for _, a := range d.Away {
		_, is := ReadDay(a)
		ps.addIf(!is, "away", fmt.Sprintf("“%s” is not a date.", a))
	}
}
