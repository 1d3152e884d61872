package plan_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

// drawn is any round in any state, in a zone whose clocks change on the way.
func drawn(t *rapid.T) plan.CalendarInput {
	names := []string{"Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "UTC"}
	z, err := time.LoadLocation(rapid.SampledFrom(names).Draw(t, "zone"))
	if err != nil {
		t.Fatal(err)
	}
	now := time.Date(2026, 3, 1, 0, 0, 0, 0, z).Add(time.Duration(rapid.IntRange(0, 300*24*60).Draw(t, "minutes")) * time.Minute)
	d := journal.RoundDays{
		PourOn: string(plan.DayOf(now.AddDate(0, 0, rapid.IntRange(-9, 9).Draw(t, "pour")), z)),
		Start:  fmt.Sprintf("%02d:%02d", rapid.IntRange(0, 23).Draw(t, "hour"), rapid.SampledFrom([]int{0, 15, 30}).Draw(t, "minute")),
		Hours:  quantity.Hours(rapid.SampledFrom([]float64{1, 2.5, 3, 4}).Draw(t, "hours")), PerEvening: rapid.IntRange(1, 4).Draw(t, "sittings"),
		BenchPlaces: rapid.IntRange(1, 5).Draw(t, "bench"), Burns: rapid.IntRange(0, 5).Draw(t, "burns"),
		Weekdays: rapid.SliceOfNDistinct(rapid.SampledFrom(everyDay), 1, 7, rapid.ID).Draw(t, "weekdays"),
	}
	for range rapid.IntRange(0, 3).Draw(t, "away") {
		d.Away = append(d.Away, string(plan.DayOf(now.AddDate(0, 0, rapid.IntRange(0, 20).Draw(t, "away on")), z)))
	}
	in := plan.CalendarInput{Now: now, Zone: z, Days: d, Pace: plan.Usual(), Together: rapid.Bool().Draw(t, "together")}
	for n := 1; n <= rapid.IntRange(1, 9).Draw(t, "candles"); n++ {
		in.Candles = append(in.Candles, drawnCandle(t, n, now))
	}
	return in
}

func drawnCandle(t *rapid.T, place int, now time.Time) plan.CalendarCandle {
	c := plan.CalendarCandle{
		Place: place, Group: rapid.IntRange(0, 3).Draw(t, "group"), Benches: rapid.SliceOfN(rapid.IntRange(1, 6), 0, 2).Draw(t, "benches"),
		Cure: cures(quantity.Days(rapid.IntRange(0, 14).Draw(t, "cure"))), Lasts: quantity.Hours(rapid.IntRange(0, 20).Draw(t, "lasts")),
		Over: rapid.IntRange(0, 6).Draw(t, "over") == 0,
	}
	ago := func(most int, what string) *time.Time {
		at := now.Add(-time.Duration(rapid.IntRange(0, most).Draw(t, what)) * time.Minute)
		return &at
	}
	if rapid.Bool().Draw(t, "poured") {
		c.PouredAt = ago(20*24*60, "poured at")
		if rapid.Bool().Draw(t, "burned") {
			c.Burns, c.LitHours, c.LastOut = rapid.IntRange(1, 3).Draw(t, "burned times"), 3, ago(600, "out")
		}
		if rapid.IntRange(0, 3).Draw(t, "lit") == 0 {
			c.LitAt = ago(300, "lit at")
		}
	}
	return c
}

// Whatever has happened, no sitting breaks a rule: not in the past, on free
// evenings, one candle to a place, no more than there are, each candle's burns
// in order, cured, and rested for two hours between two burns.
func TestCalendarKeepsItsRules(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := drawn(t)
		c := plan.NewCalendar(in)
		if len(c.Problems) > 0 {
			t.Fatal(c.Problems)
		}
		cold := map[int]time.Time{}
		next := map[int]int{}
		for _, k := range in.Candles {
			begun := k.Burns
			if k.LastOut != nil {
				cold[k.Place] = k.LastOut.Add(2 * time.Hour)
			}
			if k.LitAt != nil {
				begun++
				cold[k.Place] = k.LitAt.Add(2 * time.Hour)
			}
			next[k.Place] = begun + 1
		}
		for i, s := range c.Sittings {
			checkSitting(t, in, s)
			checkLit(t, in, c.Sittings[:i], s)
			for _, b := range s.Burns {
				k := in.Candles[b.Place-1]
				if k.Over || s.From.Before(cold[b.Place]) || b.Number != next[b.Place] {
					t.Errorf("burn %d of candle %d at %v, cold at %v", b.Number, b.Place, s.From, cold[b.Place])
				}
				if at := k.PouredAt; at != nil && k.Burns == 0 && k.LitAt == nil && s.From.Before(at.Add(max(24*time.Hour, time.Duration(*k.Cure.Low)*24*time.Hour))) {
					t.Errorf("candle %d is not cured at %v", b.Place, s.From)
				}
				next[b.Place]++
				cold[b.Place] = s.To.Add(2 * time.Hour)
			}
		}
		checkKeys(t, c)
	})
}

func checkSitting(t *rapid.T, in plan.CalendarInput, s plan.PlannedSitting) {
	if s.From.Before(in.Now) || plan.DayOf(s.From, in.Zone) != s.Day && in.Days.Start < "20:00" {
		t.Errorf("from %v", s.From)
	}
	if !slices.Contains(in.Days.Weekdays, s.Day.Weekday()) || slices.Contains(in.Days.Away, string(s.Day)) {
		t.Errorf("%v is not free", s.Day)
	}
	if n := len(s.Burns); n == 0 || n > in.Days.BenchPlaces {
		t.Errorf("%d candles", n)
	}
	taken := map[int]bool{}
	for _, b := range s.Burns {
		if taken[b.Bench] || b.Bench < 1 || b.Bench > in.Days.BenchPlaces || b.Hours <= 0 || b.Hours > in.Days.Hours {
			t.Errorf("%+v", b)
		}
		taken[b.Bench] = true
	}
}

// checkLit holds the bench to its places at the moment of lighting, and an
// evening to its sittings and to midnight.
func checkLit(t *rapid.T, in plan.CalendarInput, before []plan.PlannedSitting, s plan.PlannedSitting) {
	lit, today := len(s.Burns), 1
	for _, k := range in.Candles {
		if k.LitAt != nil && !k.Over && k.LitAt.Add(time.Duration(float64(in.Days.Hours)*float64(time.Hour))).After(s.From) {
			lit++
		}
	}
	for _, b := range before {
		if b.To.After(s.From) {
			t.Errorf("a sitting begins at %v, and the one before ends at %v", s.From, b.To)
		}
		if b.Day == s.Day {
			today++
		}
	}
	if lit > in.Days.BenchPlaces || today > in.Days.PerEvening {
		t.Errorf("%d candles lit on %d places in sitting %d of %d", lit, in.Days.BenchPlaces, today, in.Days.PerEvening)
	}
	noon := s.Day.Add(1).Noon(in.Zone) // midnight is not always twelve hours before
	if midnight := time.Date(noon.Year(), noon.Month(), noon.Day(), 0, 0, 0, 0, in.Zone); today > 1 && s.To.After(midnight) {
		t.Errorf("sitting %d of %s ends at %v", today, s.Day, s.To)
	}
}

func checkKeys(t *rapid.T, c plan.Calendar) {
	seen := map[string]bool{}
	for i, e := range c.Events {
		if seen[e.Key] || e.Key == "" {
			t.Errorf("the key %q comes twice", e.Key)
		}
		seen[e.Key] = true
		if i > 0 && e.Day < c.Events[i-1].Day {
			t.Error("out of order")
		}
	}
}

// No plan whatever finishes earlier: every choice of candles for every evening
// is tried.
func TestNoPlanFinishesEarlier(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := plan.CalendarInput{Now: monday, Zone: time.UTC, Pace: plan.Usual(), Days: journal.RoundDays{
			PourOn: "2026-03-02", Start: "18:00", Hours: 4, PerEvening: 1, BenchPlaces: rapid.IntRange(1, 3).Draw(t, "bench"), Weekdays: everyDay,
		}}
		state := ""
		for n := 1; n <= rapid.IntRange(1, 4).Draw(t, "candles"); n++ {
			burns, cure := rapid.IntRange(1, 4).Draw(t, "burns"), rapid.IntRange(0, 6).Draw(t, "cure")
			at := monday.AddDate(0, 0, -3)
			in.Candles = append(in.Candles, plan.CalendarCandle{
				Place: n, PouredAt: &at, Lasts: quantity.Hours(4 * burns), Cure: cures(quantity.Days(cure)), Group: rapid.IntRange(0, 2).Draw(t, "group"),
			})
			state += fmt.Sprintf("%c%c", burns, max(cure-3, 0))
		}
		c := plan.NewCalendar(in)
		if want := plan.Day("2026-03-01").Add(fewest(state, in.Days.BenchPlaces, 0, map[string]int{})); c.Finish != want {
			t.Errorf("finishes on %s, and could on %s: %v", c.Finish, want, said(c))
		}
	})
}

// fewest is the least number of evenings until every candle is burned: state
// holds, candle by candle, burns before it and the evening from which it is
// cured.
func fewest(state string, bench, evening int, known map[string]int) int {
	burnt := true
	for i := 0; i < len(state); i += 2 {
		burnt = burnt && state[i] == 0
	}
	if burnt {
		return 0
	}
	if evening > 30 {
		return 1000
	}
	key := fmt.Sprintf("%d %s", evening, state)
	if n, is := known[key]; is {
		return n
	}
	best := 1000
	for chosen := range 1 << (len(state) / 2) {
		if s, can := light(state, chosen, bench, evening); can {
			best = min(best, 1+fewest(s, bench, evening+1, known))
		}
	}
	known[key] = best
	return best
}

func light(state string, chosen, bench, evening int) (string, bool) {
	s, n := []byte(state), 0
	for i := 0; i < len(s); i += 2 {
		if chosen>>(i/2)&1 == 0 {
			continue
		}
		if s[i] == 0 || int(s[i+1]) > evening {
			return "", false
		}
		s[i]--
		n++
	}
	return string(s), n <= bench
}
