package page

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

func TestAwayTextDrawsRunsTogether(t *testing.T) {
	t.Parallel()
	for want, days := range map[string][]string{
		"":                                     nil,
		"2026-05-04":                           {"2026-05-04"},
		"2026-03-28 to 2026-03-30":             {"2026-03-28", "2026-03-29", "2026-03-30"}, // over the change of the clocks
		"2026-02-28 to 2026-03-01, 2026-03-05": {"2026-02-28", "2026-03-01", "2026-03-05"},
	} {
		if got := awayText(days); got != want {
			t.Errorf("%v: got %q, want %q", days, got, want)
		}
	}
}

func TestRunsText(t *testing.T) {
	t.Parallel()
	for want, ns := range map[string][]int{"1 to 4, 7 and 9": {9, 1, 2, 3, 4, 7}, "1 and 2": {2, 1}, "3": {3}, "": nil} {
		if got := runsText(ns); got != want {
			t.Errorf("%v: got %q, want %q", ns, got, want)
		}
	}
}

func roundShelf() Known {
	return NewKnown(Shelves{
		Waxes: []journal.Wax{{Meta: journal.Meta{ID: 1}, Name: "Meadow blend"}}, Vessels: []journal.Vessel{{Meta: journal.Meta{ID: 1}, Name: "Pebble tumbler"}},
		Ladders: []journal.Ladder{{Meta: journal.Meta{ID: 1}, Name: "Larkspur"}},
		Wicks:   []journal.Wick{{Meta: journal.Meta{ID: 1}, Ladder: 1, Rung: 1, Label: "6"}, {Meta: journal.Meta{ID: 2}, Ladder: 1, Rung: 2, Label: "7"}},
	})
}

// The lower of the two limits binds: 8 % of the wax here, although the wax takes
// 10 %; each load above it is named, the one that meets it is not.
func TestARoundWarnsOfTooMuchOil(t *testing.T) {
	t.Parallel()
	k := NewKnown(Shelves{
		Waxes:      []journal.Wax{{Meta: journal.Meta{ID: 1}, Name: "Meadow blend", Load: journal.Range[quantity.Fraction]{High: new(quantity.Fraction(0.1))}}},
		Fragrances: []journal.Fragrance{{Meta: journal.Meta{ID: 2}, Name: "Fig", MaxLoad: new(quantity.Fraction(0.08)), MaxBasis: journal.OfWax}},
	})
	r := journal.TestRound{Wax: 1, Fragrance: new(journal.ID(2)), Factors: journal.RoundFactors{LoadBasis: journal.OfWax, Loads: []quantity.Fraction{0.08, 0.09}}}
	ws := NewRoundPlan(RoundInput{Round: r}, k, View{Units: quantity.Metric}).Warnings
	if len(ws) != 1 || ws[0].Text != "9 % of wax is above the most that may go in. The fragrance’s supplier allows 8 % of wax. A pool rich in oil catches fire more easily." {
		t.Errorf("%+v", ws)
	}
	r.Fragrance = nil
	if ws := NewRoundPlan(RoundInput{Round: r}, k, View{Units: quantity.Metric}).Warnings; len(ws) != 0 {
		t.Errorf("without fragrance: %+v", ws)
	}
}

func TestARoundWordsItsQuestion(t *testing.T) {
	t.Parallel()
	one := []journal.RoundWick{{Wick: 1, Wicks: 1}}
	for want, f := range map[string]journal.RoundFactors{
		"Which of Larkspur 6 and 7 in Pebble tumbler with Meadow blend?":                              {Wicks: []journal.RoundWick{{Wick: 1, Wicks: 1}, {Wick: 2, Wicks: 1}}},
		"Which of Larkspur 6 and 2 × Larkspur 6 in Pebble tumbler with Meadow blend, at 8 % or 10 %?": {Wicks: []journal.RoundWick{{Wick: 1, Wicks: 1}, {Wick: 1, Wicks: 2}}, Loads: []quantity.Fraction{0.08, 0.1}},
		"Which does better in Pebble tumbler with Larkspur 6: poured at 60 °C or 65 °C?":              {Wicks: one, PourAts: []quantity.Celsius{60, 65}},
		"Which does better in Pebble tumbler with Larkspur 6: 8 % or 10 %?":                           {Wicks: one, Loads: []quantity.Fraction{0.08, 0.1}},
		"How does Larkspur 6 do in Pebble tumbler with Meadow blend?":                                 {Wicks: one},
	} {
		f.Vessels = []journal.ID{1}
		if got := RoundQuestion(journal.TestRound{Wax: 1, Factors: f}, roundShelf(), quantity.Metric); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	many := journal.RoundFactors{Vessels: []journal.ID{1}}
	for range 60 {
		many.Wicks = append(many.Wicks, journal.RoundWick{Wick: 1, Wicks: 1})
	}
	if got := RoundQuestion(journal.TestRound{Wax: 1, Factors: many}, roundShelf(), quantity.Metric); len([]rune(got)) > 200 {
		t.Errorf("%d signs", len([]rune(got)))
	}
}

// What has happened stands apart, and what lies far ahead is folded away.
func TestACalendarInWords(t *testing.T) {
	t.Parallel()
	zone := time.UTC
	v := View{Units: quantity.Metric, Zone: zone, Now: time.Date(2026, 5, 14, 12, 0, 0, 0, zone)}
	c := plan.Calendar{Zone: zone, Finish: "2026-06-01", Evenings: []plan.Day{"2026-05-20", "2026-06-01"}, Left: []plan.LeftOut{{Places: []int{4}, Why: "No evening is free."}}}
	c.Events = append(c.Events, plan.CalendarEvent{Kind: plan.PourEvent, Day: "2026-05-13", Places: []int{1, 2, 3}, Melts: []int{1}, Done: true})
	for range 10 {
		c.Events = append(c.Events, plan.CalendarEvent{Kind: plan.SittingEvent, Day: "2026-05-20", From: time.Date(2026, 5, 20, 18, 0, 0, 0, zone), To: time.Date(2026, 5, 20, 22, 0, 0, 0, zone),
			Burns: []plan.PlannedBurn{{Place: 1, Number: 1, Bench: 3}, {Place: 2, Number: 1, Bench: 1}, {Place: 3, Number: 2, Bench: 2}}})
	}
	name := func(p int) string { return map[int]string{1: "14-A"}[p] }
	p := newCalendarPart(c, name, v)
	if len(p.Past) != 1 || len(p.Next) != firstDays || len(p.Later) != 2 || p.LaterTo != "and two more" {
		t.Errorf("%d past, %d next, %d later, %q", len(p.Past), len(p.Next), len(p.Later), p.LaterTo)
	}
	if got := p.Next[0]; got.What != "Light at 18:00, out by 22:00" || got.More != "On the bench 1: candle 2, burn 1; 2: candle 3, burn 2; 3: 14-A, burn 1" || got.Day != "Wed 20 May" {
		t.Errorf("got %+v", got)
	}
	if onDay("tomorrow") != "tomorrow" || onDay("Mon 1 Jun") != "on Mon 1 Jun" {
		t.Error("a day in a sentence")
	}
	if got := sittingText([]plan.PlannedBurn{{Place: 1, Number: 2, Bench: 2}, {Place: 2, Number: 2, Bench: 1}}, name); got != "Burn 2. On the bench 1: candle 2; 2: 14-A" {
		t.Errorf("got %q", got)
	}
	if p.Lede != "Done on Mon 1 Jun at the earliest, with two evenings at the bench." || p.Left[0] != "Place 4: No evening is free." {
		t.Errorf("got %q and %q", p.Lede, p.Left)
	}
	c.Unproven = true
	if got := newCalendarPart(c, name, v).Lede; got != "Done on Mon 1 Jun, with two evenings at the bench." {
		t.Errorf("what is not proven: %q", got)
	}
	if got := newCalendarPart(plan.Calendar{Zone: zone}, name, v).Lede; got != "Nothing is left to burn." {
		t.Errorf("got %q", got)
	}
}

// The bench names the next day of a round with all that falls on it; a round
// with nothing ahead is not there.
func TestTheBenchNamesTheNextDayOfARound(t *testing.T) {
	t.Parallel()
	c := plan.Calendar{Zone: time.UTC, Events: []plan.CalendarEvent{
		{Kind: plan.PourEvent, Day: "2026-05-10", Melts: []int{1}, Places: []int{1}, Done: true},
		{Kind: plan.SetEvent, Day: "2026-05-16", Places: []int{1}},
		{Kind: plan.PourEvent, Day: "2026-05-16", Melts: []int{2}, Places: []int{2}},
		{Kind: plan.PourEvent, Day: "2026-05-18", Melts: []int{3}, Places: []int{3}},
	}}
	p := BenchPage{}
	p.ShowRounds([]RoundAhead{{Round: journal.TestRound{Meta: journal.Meta{ID: 7}, Question: "Which rung?"}, Calendar: c}, {Calendar: plan.Calendar{Zone: time.UTC}}},
		View{Now: time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC), Zone: time.UTC})
	want := []ui.Item{{Text: "Which rung?", Href: "/rounds/7", When: "Sat 16 May", More: "Look at the set candles: place 1; Pour melt 2: one candle"}}
	if d := cmp.Diff(want, p.Rounds); d != "" {
		t.Error(d)
	}
}

func TestWhatARoundCanTell(t *testing.T) {
	t.Parallel()
	r := journal.TestRound{Copies: 2, Factors: journal.RoundFactors{Vessels: []journal.ID{1}}}
	naming := []plan.Naming{{Candles: 1, First: 0.6, Rounds: 1500}, {Candles: 2, First: 0.7, Near: 0.9, Named: 0.4, Rounds: 1500}}
	contrast := plan.Contrast{Factor: plan.ByLoad, Power: plan.Power{Units: 1, FromMelt: false, Chances: []plan.PowerChance{{Difference: 0.05, Chance: 0.2, Wanted: 9, Enough: true}}}}
	var p RoundPlan
	p.ShowTells(RoundTells{Burns: 4, Chances: [][]plan.Naming{naming}, Contrasts: []plan.Contrast{contrast}}, r, roundShelf(), View{Units: quantity.Metric})
	text := strings.Join(p.Tells, "\n") + p.TellNote
	for _, want := range []string{"in Pebble tumbler", "0.60 with one candle and 0.70 with two candles of each", "named as sure in about 0.40", "takes 9 candles of each", "cannot be told from one between the two melts", "what the program starts with"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q does not say %q", text, want)
		}
	}
}
