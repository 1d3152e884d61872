package safety_test

import (
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// courseOf is the course of one fault over candles, with the others' remedies.
func courseOf(t *testing.T, fault string, logs ...journal.CandleLog) safety.Course {
	t.Helper()
	for _, c := range safety.Courses(logs, defaults, quantity.Metric) {
		if c.Fault == fault {
			return c
		}
	}
	t.Fatalf("nobody looked for %s", fault)
	return safety.Course{}
}

// graded are burns with one grade of mushrooming each, at the second check.
func capped(gs ...journal.Grade) []func(*journal.BurnLog) {
	var out []func(*journal.BurnLog)
	for _, g := range gs {
		out = append(out, func(l *journal.BurnLog) {
			l.Burn.Trim = ptr(quantity.Millimetres(6))
			l.Checks[1].Mushroom = g
		})
	}
	return out
}

func walled(gs ...journal.Grade) []func(*journal.BurnLog) {
	var out []func(*journal.BurnLog)
	for _, g := range gs {
		out = append(out, func(l *journal.BurnLog) { l.Checks[1].WallWax = g })
	}
	return out
}

func TestTrendsOverALife(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		grades []journal.Grade
		want   safety.Trend
	}{
		// Mann's score of a strict rise of four is 6, its variance 26/3: z = 5/2.944.
		{"rises", []journal.Grade{"none", "bead", "cap", "shedding"}, safety.Grows},
		{"falls", []journal.Grade{"shedding", "cap", "bead", "none"}, safety.Fades},
		// Two ties of two take 2 from a variance of 26/3: a score of 4 has z =
		// 3/2.582 = 1.162, a chance of 0.245. Of five, two ties take 2 from 50/3: a
		// score of 6 has z = 5/3.830 = 1.306, 0.192 (any table of the normal
		// distribution). The limit is 0.2.
		{"rises, not quite clearly", []journal.Grade{"none", "none", "cap", "cap"}, safety.NoTrend},
		{"rises just clearly", []journal.Grade{"none", "bead", "none", "cap", "cap"}, safety.Grows},
		{"comes and goes", []journal.Grade{"cap", "none", "cap", "none", "cap"}, safety.NoTrend},
		{"always", []journal.Grade{"cap", "cap", "cap", "cap", "cap"}, safety.NoTrend},
		{"three burns", []journal.Grade{"none", "bead", "cap"}, safety.FewToTell},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := courseOf(t, "Mushrooming", days(capped(c.grades...)...)); got.Trend != c.want || !strings.Contains(strings.ToLower(got.Text), string(c.want)) {
				t.Errorf("%q, want %q: %s", got.Trend, c.want, got.Text)
			}
		})
	}
}

func TestACourseInWords(t *testing.T) {
	t.Parallel()
	a, b := days(capped("none", "bead", "cap", "shedding")...), days(capped("none", "none")...)
	b.Candle.Letter = "D"
	got := courseOf(t, "Mushrooming", a, b)
	want := "Seen in 2 of 6 burns that were looked at for it: 14-C burns 3 and 4. It was noted 2 h 00 after lighting. It grows over the candle's life."
	if got.Text != want || got.Candles != 1 || got.OfCandles != 2 {
		t.Errorf("%q, %+v", got.Text, got)
	}
	if none := courseOf(t, "Sweating", a, b); none.Text != "Not seen in 6 burns that were looked at for it." || none.Remedy.Do != "" {
		t.Errorf("%+v", none)
	}
	for _, c := range safety.Courses([]journal.CandleLog{a}, defaults, quantity.Metric) {
		if c.Fault == "Tunnelling" {
			t.Errorf("nobody looked at the wall, yet: %+v", c)
		}
	}
}

// The remedies are those of the trade: common practice, no source.
func TestRemediesDependOnWhatWasSeen(t *testing.T) {
	t.Parallel()
	drown := func(depth *quantity.Millimetres) func(*journal.BurnLog) {
		return func(l *journal.BurnLog) { l.Checks[1].Odd, l.Checks[1].Depth = []journal.Odd{journal.Drowning}, depth }
	}
	trimmed := func(l *journal.BurnLog) { sooted("marks")(l); l.Burn.Trim = ptr(quantity.Millimetres(6)) }
	long := func(l *journal.BurnLog) { *l = burn(5, capped("cap")[0]) }
	// 76 mm are 2.992 in: a first burn of 2.75 h is a quarter of an hour short.
	wholeFirst := func(l *journal.BurnLog) { *l = burn(2.75, walled("tunnel")[0]) }
	shortFirst := func(l *journal.BurnLog) { *l = burn(2.73, walled("tunnel")[0]) }
	halfGone := days(walled("ring", "ring")...)
	halfGone.Candle.Filled = ptr(quantity.Grams(100))
	mass(&halfGone, 300, 260, 250)
	early := days(walled("ring", "ring")...)
	early.Candle.Filled = ptr(quantity.Grams(100))
	mass(&early, 300, 290, 251)
	worse := days(walled("ring", "tunnel")...)
	worse.Candle.Filled = ptr(quantity.Grams(100))
	mass(&worse, 300, 290, 240)
	for _, c := range []struct {
		name, fault string
		log         journal.CandleLog
		want        safety.Turn
		says        string
	}{
		{"drowned in 6.3 mm", "Drowning", days(drown(ptr(quantity.Millimetres(6.3)))), safety.WickUp, "shallow"},
		{"drowned in a quarter of an inch", "Drowning", days(drown(ptr(safety.Shallow))), safety.NothingYet, "usual"},
		{"drowned in 6.4 mm", "Drowning", days(drown(ptr(quantity.Millimetres(6.4)))), safety.NothingYet, "usual"},
		{"drowned in 12.7 mm", "Drowning", days(drown(ptr(quantity.Millimetres(12.7)))), safety.NothingYet, "usual"},
		{"drowned in 12.8 mm", "Drowning", days(drown(ptr(quantity.Millimetres(12.8)))), safety.WickDown, "deep"},
		{"drowned at no known depth", "Drowning", days(drown(nil)), safety.NothingYet, "measure"},
		{"went out by itself", "Drowning", days(func(l *journal.BurnLog) { l.Burn.Ending = journal.WentOut }), safety.NothingYet, "measure"},
		{"soot, trim not noted", "Sooting", days(sooted("marks")), safety.Handling, "6 mm"},
		{"soot, trimmed", "Sooting", days(trimmed), safety.WickDown, "below"},
		{"soot in a slight draught", "Sooting", days(func(l *journal.BurnLog) { trimmed(l); l.Burn.Draught = journal.DraughtSlight }), safety.Handling, "still air"},
		{"mushrooms, trimmed", "Mushrooming", days(capped("cap")...), safety.WickDown, "below"},
		{"mushrooms, long burn", "Mushrooming", days(long), safety.Handling, "4 h 00"},
		{"tunnel after a short first burn", "Tunnelling", days(shortFirst), safety.Handling, "longer first burn"},
		{"tunnel after a whole first burn", "Tunnelling", days(wholeFirst), safety.WickUp, "above"},
		{"hang-up in the upper half", "Hang-up", early, safety.NothingYet, "half of the wax"},
		{"hang-up with half of the wax gone", "Hang-up", halfGone, safety.WickUp, "above"},
		{"hang-up that became a tunnel", "Hang-up", worse, safety.WickUp, "above"},
		{"sweating", "Sweating", days(func(l *journal.BurnLog) { l.Checks[0].Odd = []journal.Odd{journal.SweatingPool} }), safety.Oil, "less oil"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := courseOf(t, c.fault, c.log)
			if got.Remedy.Turn != c.want || !strings.Contains(got.Remedy.Do, c.says) || got.Remedy.Source != "common practice, no source" {
				t.Errorf("%+v", got.Remedy)
			}
			if got.Provisional != (c.name == "hang-up in the upper half") {
				t.Errorf("provisional: %v", got.Provisional)
			}
		})
	}
}

func TestOneChangeAtATime(t *testing.T) {
	t.Parallel()
	with := func(turns ...safety.Turn) []safety.Course {
		var out []safety.Course
		for _, turn := range turns {
			out = append(out, safety.Course{Fault: "Fault of " + string(turn), Remedy: safety.Remedy{Do: string(turn), Turn: turn}})
		}
		return append(out, safety.Course{Fault: "Never seen"})
	}
	for _, c := range []struct {
		name  string
		turns []safety.Turn
		want  safety.Turn
	}{
		{"what feeds a fire first", []safety.Turn{safety.Handling, safety.WickUp, safety.Oil}, safety.Oil},
		{"then what needs no new candle", []safety.Turn{safety.WickDown, safety.Handling}, safety.Handling},
		{"then the wick", []safety.Turn{safety.NothingYet, safety.WickUp}, safety.WickUp},
		{"not up and down at once", []safety.Turn{safety.WickUp, safety.WickDown}, safety.Ladder},
		{"nothing yet", []safety.Turn{safety.NothingYet}, safety.NothingYet},
	} {
		t.Run(c.name, func(t *testing.T) {
			if r, fault, ok := safety.OneChange(with(c.turns...)); !ok || r.Turn != c.want || fault == "" {
				t.Errorf("%+v, %q, %v", r, fault, ok)
			}
		})
	}
	if _, _, ok := safety.OneChange(with()); ok {
		t.Error("a change without a fault")
	}
}
