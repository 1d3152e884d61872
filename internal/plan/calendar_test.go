package plan_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

// Tops are looked at a day after pouring and a soy wax cures for a week (common
// practice, no source); what is poured by noon is cured by noon.
func TestCalendarOfARound(t *testing.T) {
	t.Parallel()
	c := planned(t, roundOf(3))
	want := []string{
		"03-02 pour 1 2 3", "03-03 set check 1 2 3", "03-09 ready 1 2 3",
		"03-09 sitting 18:00-22:00 1.1@1 2.1@2", "03-10 sitting 18:00-22:00 1.2@1 3.1@2", "03-11 sitting 18:00-22:00 2.2@1 3.2@2",
	}
	if d := cmp.Diff(want, said(c)); d != "" {
		t.Error(d)
	}
	if c.Finish != "2026-03-11" || len(c.Left) > 0 || len(c.Notes) > 0 {
		t.Errorf("%+v", c)
	}
	if d := cmp.Diff([]plan.Day{"2026-03-09", "2026-03-10", "2026-03-11"}, c.Evenings); d != "" {
		t.Error(d)
	}
}

// 200 g at 6.3 g/h are 31.746 h; 240 min lit and 60 min out are 8 burns and 7
// rests, over after 2324.8 min: the cycle of EN 15426 (240 min on, at least 60
// min off; read in a secondary source), worked by hand: 200/6.3·60 + 7·60.
func TestCourseOfTwoHundredGrams(t *testing.T) {
	t.Parallel()
	lit := quantity.Hours(200 / 6.3)
	got := plan.BackToBack(lit, 4, 1)
	if got.Burns != 8 || got.Rests != 7 || math.Abs(float64(got.Elapsed)*60-2324.8) > 0.05 || math.Abs(float64(got.Last)-3.746) > 5e-4 {
		t.Errorf("%+v", got)
	}
	if got := plan.BackToBack(8, 4, 1); got.Burns != 2 || got.Last != 4 || got.Elapsed != 9 {
		t.Errorf("of 8 h: %+v", got)
	}
	for _, none := range []quantity.Hours{0, -1, quantity.Hours(math.NaN())} {
		if got := plan.BackToBack(none, 4, 1); got.Burns != 0 {
			t.Errorf("of %v h: %+v", float64(none), got)
		}
	}
	in := poured(roundOf(1), monday.AddDate(0, 0, -30))
	in.Now = time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	in.Pace.Rest, in.Pace.RestAdvised = 1, 1
	in.Days.Start, in.Days.PerEvening, in.Days.Burns, in.Candles[0].Lasts = "00:00", 6, 0, lit
	c := planned(t, in)
	n := len(c.Sittings)
	if n != 8 || math.Abs(c.Sittings[n-1].To.Sub(c.Sittings[0].From).Minutes()-2324.8) > 0.05 {
		t.Errorf("%d sittings: %v", n, said(c))
	}
}

// A sitting at 18:00 stays at 18:00 through the changes of the clocks and lasts
// its hours. The changes are those of the IANA time zone database: in Berlin 29
// March and 25 October 2026, in New York 8 March and 1 November 2026.
func TestCalendarThroughClockChanges(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		zone, first  string
		before, then string // of the first two sittings, in UTC
	}{
		{"Europe/Berlin", "2026-03-28", "28 17:00", "29 16:00"},
		{"Europe/Berlin", "2026-10-24", "24 16:00", "25 17:00"},
		{"America/New_York", "2026-03-07", "07 23:00", "08 22:00"},
		{"America/New_York", "2026-10-31", "31 22:00", "01 23:00"},
	} {
		in := roundOf(1)
		in.Zone = zone(t, c.zone)
		at := plan.Day(c.first).Noon(in.Zone)
		in = poured(in, at.AddDate(0, 0, -20))
		in.Now = at
		k := planned(t, in)
		a, b := k.Sittings[0], k.Sittings[1]
		if got := []string{a.From.UTC().Format("02 15:04"), b.From.UTC().Format("02 15:04")}; got[0] != c.before || got[1] != c.then {
			t.Errorf("%s: %v", c.zone, got)
		}
		if string(a.Day) != c.first || b.Day != a.Day.Add(1) || a.To.Sub(a.From) != 4*time.Hour || b.To.Sub(b.From) != 4*time.Hour {
			t.Errorf("%s: %v", c.zone, said(k))
		}
	}
}

// In the night of 29 March 2026 the clocks of Berlin go from 02:00 to 03:00; in
// that of 25 October 02:30 comes twice, first as 00:30 UTC.
func TestCalendarInHoursThatAreSkippedOrComeTwice(t *testing.T) {
	t.Parallel()
	at := func(day plan.Day) plan.Calendar {
		in := roundOf(1)
		in.Zone, in.Days.Start = zone(t, "Europe/Berlin"), "02:30"
		in = poured(in, monday.AddDate(0, 0, -20))
		in.Now = day.Noon(in.Zone).AddDate(0, 0, -1)
		return planned(t, in)
	}
	skipped := at("2026-03-29")
	if got := skipped.Sittings[0]; got.From.UTC().Format("02 15:04") != "29 01:00" || got.To.Sub(got.From) != 4*time.Hour {
		t.Error(said(skipped))
	}
	if d := cmp.Diff([]string{"On Sunday 29 March 2026 the clocks skip 02:30: the sitting begins at 03:00."}, skipped.Notes); d != "" {
		t.Error(d)
	}
	if twice := at("2026-10-25"); twice.Sittings[0].From.UTC().Format("02 15:04") != "25 00:30" || len(twice.Notes) > 0 {
		t.Error(said(twice), twice.Notes)
	}
}

func TestCalendarHoldsToTheEvenings(t *testing.T) {
	t.Parallel()
	in := roundOf(2)
	in.Days.Weekdays = []time.Weekday{time.Tuesday, time.Friday}
	in.Days.Away = []string{"2026-03-10"}
	if c := planned(t, in); len(c.Sittings) != 2 || c.Sittings[0].Day != "2026-03-13" || c.Finish != "2026-03-17" {
		t.Error(said(c))
	}
	in.Days.Weekdays, in.Days.Away = []time.Weekday{time.Monday}, nil
	in.Candles[0].Cure = cures(7.3) // cured an hour after the sitting of the 9th
	if c := planned(t, in); c.Sittings[0].Burns[0].Place != 2 || len(c.Sittings[0].Burns) != 1 || c.Finish != "2026-03-23" {
		t.Error(said(c))
	}
}

// Without a stated cure a candle is ready when it has set for a day (common
// practice, no source).
func TestCalendarOfAWaxWithoutACure(t *testing.T) {
	t.Parallel()
	in := roundOf(1)
	in.Candles[0].Cure = journal.Range[quantity.Days]{}
	if c := planned(t, in); c.Sittings[0].Day != "2026-03-03" {
		t.Error(said(c))
	}
}

func TestCalendarOfTwoSittingsAnEvening(t *testing.T) {
	t.Parallel()
	in := roundOf(2)
	in.Days.PerEvening, in.Days.Hours, in.Days.Start = 2, 2, "17:00"
	c := planned(t, in)
	if d := cmp.Diff([]string{"03-09 sitting 17:00-19:00 1.1@1 2.1@2", "03-09 sitting 21:00-23:00 1.2@1 2.2@2"}, said(c)[3:]); d != "" {
		t.Error(d) // two hours of rest are advised
	}
	in.Days.Start = "18:00" // the second would end on the stroke of midnight
	if c := planned(t, in); c.Finish != "2026-03-09" || len(c.Notes) > 0 {
		t.Error(said(c), c.Notes)
	}
	in.Days.Start = "18:01"
	c = planned(t, in)
	if d := cmp.Diff([]string{"Between two burns a candle rests for 2 h 00, so that one candle can be lit once an evening: the other sittings are for other candles."}, c.Notes); d != "" || c.Finish != "2026-03-10" {
		t.Error(d, said(c))
	}
	in.Days.Start = "20:01"
	c = planned(t, in)
	if d := cmp.Diff([]string{"Only 1 of 2 sittings fit into an evening: the next would run past midnight, from 22:01 to 00:01."}, c.Notes); d != "" || c.Finish != "2026-03-10" {
		t.Error(d, said(c))
	}
	in.Days.Start, in.Days.PerEvening = "22:30", 1
	if c := planned(t, in); len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "after midnight, at 00:30") {
		t.Error(c.Notes)
	}
}

func TestCalendarUntilSpent(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(2), monday.AddDate(0, 0, -20))
	in.Days.Burns, in.Candles[0].Lasts = 0, 10
	c := planned(t, in)
	if d := cmp.Diff([]string{"03-02 sitting 18:00-22:00 1.1@1", "03-03 sitting 18:00-22:00 1.2@1", "03-04 sitting 18:00-20:00 1.3@1"}, said(c)[2:]); d != "" {
		t.Error(d)
	}
	if len(c.Left) != 1 || !cmp.Equal(c.Left[0].Places, []int{2}) || !strings.Contains(c.Left[0].Why, "not known how long") {
		t.Errorf("%+v", c.Left)
	}
	in.Candles[0].Burns, in.Candles[0].LitHours = 3, 11 // outlasts what was expected
	if c := planned(t, in); len(c.Sittings) != 1 || c.Sittings[0].Burns[0].Number != 4 {
		t.Error(said(c))
	}
	in.Days.Burns, in.Candles[0].Burns, in.Candles[0].LitHours = 5, 0, 0 // spent before its fifth burn
	if c := planned(t, in); c.Sittings[len(c.Sittings)-1].Burns[0].Place != 2 || len(c.Sittings) != 5 || len(c.Sittings[3].Burns) != 1 {
		t.Error(said(c))
	}
}

func TestCalendarKeepsGroupsTogether(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(4), monday.AddDate(0, 0, -20))
	for i, g := range []int{1, 2, 1, 2} {
		in.Candles[i].Group, in.Candles[i].Benches = g, []int{2 - i/2}
	}
	c := planned(t, in)
	if d := cmp.Diff([]string{"03-02 sitting 18:00-22:00 3.1@1 1.1@2", "03-03 sitting 18:00-22:00 4.1@1 2.1@2", "03-04 sitting 18:00-22:00 3.2@1 1.2@2", "03-05 sitting 18:00-22:00 4.2@1 2.2@2"}, said(c)[2:]); d != "" || c.Split {
		t.Error(d, c.Split)
	}
	in.Days.BenchPlaces = 3 // 8 burns fit into 3 evenings, but not by groups
	c = planned(t, in)
	if !c.Split || c.Finish != "2026-03-04" || c.TogetherFinish != "2026-03-05" || len(c.Notes) != 1 {
		t.Errorf("%v %v %+v", c.Split, c.Notes, said(c))
	}
	in.Together = true
	if c = planned(t, in); c.Split || c.Finish != "2026-03-05" {
		t.Error(said(c))
	}
	in.Days.BenchPlaces, in.Together = 1, false // no bench holds a group
	if c = planned(t, in); c.Split || c.Finish != "2026-03-09" || len(c.Left) > 0 {
		t.Error(said(c))
	}
}

// Places on the bench change from burn to burn where the design says so.
func TestCalendarRotatesTheBench(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(2), monday.AddDate(0, 0, -20))
	in.Days.Burns = 3
	in.Candles[0].Benches, in.Candles[1].Benches = []int{1, 2}, []int{2, 9}
	want := []string{"1.1@1 2.1@2", "2.2@1 1.2@2", "1.3@1 2.3@2"}
	for i, s := range said(planned(t, in))[2:] {
		if !strings.HasSuffix(s, want[i]) {
			t.Error(s)
		}
	}
}

func TestCalendarThatDoesNotFit(t *testing.T) {
	t.Parallel()
	in := roundOf(3)
	in.Days.BenchPlaces, in.Days.Burns, in.Days.Weekdays = 1, 200, []time.Weekday{time.Sunday}
	c := planned(t, in)
	if len(c.Left) != 1 || !cmp.Equal(c.Left[0].Places, []int{1, 2, 3}) || !strings.Contains(c.Left[0].Why, "free evenings of the 4 years ahead") {
		t.Errorf("%+v", c.Left)
	}
}

func TestCalendarProblems(t *testing.T) {
	t.Parallel()
	for field, spoil := range map[string]func(*plan.CalendarInput){
		"zone":         func(in *plan.CalendarInput) { in.Zone = nil },
		"":             func(in *plan.CalendarInput) { in.Candles = nil },
		"pour_on":      func(in *plan.CalendarInput) { in.Days.PourOn = "" },
		"pour_on 2":    func(in *plan.CalendarInput) { in.Days.PourOn = "2026-02-30" },
		"pour_on 3":    func(in *plan.CalendarInput) { in.Days.PourOn = "9026-02-28" },
		"start":        func(in *plan.CalendarInput) { in.Days.Start = "half past six" },
		"start 2":      func(in *plan.CalendarInput) { in.Days.Start = "" },
		"start 3":      func(in *plan.CalendarInput) { in.Days.Start = "25:00" },
		"hours":        func(in *plan.CalendarInput) { in.Days.Hours = 4.01 },
		"hours 2":      func(in *plan.CalendarInput) { in.Days.Hours = 0 },
		"hours 3":      func(in *plan.CalendarInput) { in.Days.Hours = quantity.Hours(math.NaN()) },
		"per_evening":  func(in *plan.CalendarInput) { in.Days.PerEvening = 0 },
		"bench_places": func(in *plan.CalendarInput) { in.Days.BenchPlaces = 0 },
		"weekdays":     func(in *plan.CalendarInput) { in.Days.Weekdays = nil },
		"weekdays 2":   func(in *plan.CalendarInput) { in.Days.Weekdays = []time.Weekday{7} },
		"away":         func(in *plan.CalendarInput) { in.Days.Away = []string{"2026-03-09", "Easter"} },
		"burns":        func(in *plan.CalendarInput) { in.Days.Burns = -1 },
	} {
		in := roundOf(2)
		spoil(&in)
		c := plan.NewCalendar(in)
		want, _, _ := strings.Cut(field, " ")
		if len(c.Problems) != 1 || c.Problems[0].Field != want || !strings.HasSuffix(c.Problems[0].Says, ".") || c.Events != nil {
			t.Errorf("%q: %+v", field, c.Problems)
		}
	}
	if c := plan.NewCalendar(plan.CalendarInput{}); len(c.Problems) < 5 {
		t.Errorf("%+v", c.Problems)
	}
}

// The evenings of a Latin square stay apart on a bench that would hold them
// all: three cells at three places on three evenings, each once (Fisher, The
// Design of Experiments, from memory), counted in the calendar.
func TestCalendarKeepsASquare(t *testing.T) {
	t.Parallel()
	s := spec(1, 3, 0, 0)
	s.Copies, s.Square, s.BenchPlaces = 3, true, 9
	in := poured(roundOf(9), monday.AddDate(0, 0, -20))
	in.Days.BenchPlaces, in.Days.Burns, in.Together = 9, 1, true
	places := draw(t, s)
	for i, p := range places {
		in.Candles[i].Group, in.Candles[i].Benches = p.Evening, []int{p.Bench}
	}
	c := planned(t, in)
	if len(c.Sittings) != 3 {
		t.Fatal(said(c))
	}
	for _, x := range c.Sittings {
		for _, b := range x.Burns {
			if b.Bench != places[b.Place-1].Bench {
				t.Errorf("candle %d stands at %d, drawn for %d", b.Place, b.Bench, places[b.Place-1].Bench)
			}
		}
	}
}

// Five copies of three cells on six places are three groups: twelve sittings of
// four burns each when kept, and 60 burns by six, ten, when parted.
func TestCalendarSaysWhatKeepingGroupsCosts(t *testing.T) {
	t.Parallel()
	s := spec(1, 3, 0, 0)
	s.Copies, s.BenchPlaces = 5, 6
	in := poured(roundOf(15), monday.AddDate(0, 0, -20))
	in.Days.BenchPlaces, in.Days.Burns, in.Together = 6, 4, true
	for i, p := range draw(t, s) {
		in.Candles[i].Group, in.Candles[i].Benches = p.Evening, []int{p.Bench}
	}
	c := planned(t, in)
	if c.Finish != "2026-03-13" || c.PartedFinish != "2026-03-11" || len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "Parted, they could finish on Wednesday 11 March 2026.") {
		t.Errorf("%s, parted %s: %v", c.Finish, c.PartedFinish, c.Notes)
	}
	in.Days.BenchPlaces = 15
	for i := range in.Candles {
		in.Candles[i].Benches = nil
	}
	if c = planned(t, in); c.PartedFinish != "" || len(c.Notes) > 0 {
		t.Errorf("where keeping costs nothing: %v", c.Notes)
	}
}
