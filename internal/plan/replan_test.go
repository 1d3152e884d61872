package plan_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/plan"
)

func TestCalendarOfALatePour(t *testing.T) {
	t.Parallel()
	in := roundOf(1)
	in.Now = monday.AddDate(0, 0, 3)
	in.Days.Away = []string{"2026-03-05"}
	c := planned(t, in)
	want := []string{"03-06 pour 1 late", "03-07 set check 1", "03-13 ready 1", "03-13 sitting 18:00-22:00 1.1@1", "03-14 sitting 18:00-22:00 1.2@1"}
	if d := cmp.Diff(want, said(c)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"The pour of Monday 2 March 2026 is late: the days are counted as if it were poured on Friday 6 March 2026."}, c.Notes); d != "" {
		t.Error(d)
	}
	in = roundOf(1)
	in.Days.Away = []string{"2026-03-02"} // chosen by the person: only said
	if c := planned(t, in); len(c.Notes) != 1 || c.Events[0].Day != "2026-03-02" {
		t.Error(c.Notes, said(c))
	}
	in = roundOf(1)
	in.Now = monday.Add(11 * time.Hour) // poured tonight, an hour too late for the sitting a week on
	if c := planned(t, in); c.Events[0].Late || c.Sittings[0].Day != "2026-03-10" {
		t.Error(said(c))
	}
}

// Waiting does not undo that a candle was lit before it was cured.
func TestCalendarOfACandleLitEarly(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(2), monday.AddDate(0, 0, -2))
	out := monday.Add(-9 * time.Hour)
	in.Candles[0].Burns, in.Candles[0].LastOut = 1, &out
	c := planned(t, in)
	if c.Sittings[0].Day != "2026-03-02" || c.Sittings[0].Burns[0].Place != 1 || c.Sittings[1].Day != "2026-03-07" {
		t.Error(said(c))
	}
}

func TestCalendarCountsWhatHasHappened(t *testing.T) {
	t.Parallel()
	at := time.Date(2026, 2, 20, 10, 0, 0, 0, time.UTC)
	out := time.Date(2026, 3, 2, 17, 0, 0, 0, time.UTC)
	in := roundOf(5)
	for i := range in.Candles[:4] {
		in.Candles[i].PouredAt = &at
	}
	in.Days.PourOn, in.Days.BenchPlaces = "2026-03-05", 9
	in.Now = out.Add(30 * time.Minute)
	in.Candles[0].Burns, in.Candles[0].LastOut = 1, &out // warm until 19:00
	in.Candles[1].LitAt = &out                           // lit until 21:00, warm until 23:00
	in.Candles[2].Over = true
	c := planned(t, in)
	want := []string{
		"02-20 pour 1 2 3 4 done", "02-27 ready 4 done", "03-02 set check 4 late", "03-02 sitting 18:00-22:00 4.1@1",
		"03-03 sitting 18:00-22:00 1.2@1 2.2@2 4.2@3", "03-05 pour 5", "03-06 set check 5", "03-12 ready 5",
		"03-12 sitting 18:00-22:00 5.1@1", "03-13 sitting 18:00-22:00 5.2@1",
	}
	if d := cmp.Diff(want, said(c)); d != "" {
		t.Error(d)
	}
}

// A candle that is lit holds its place on the bench.
func TestCalendarLeavesLitCandlesTheirPlaces(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(3), monday.AddDate(0, 0, -20))
	lit := time.Date(2026, 3, 2, 17, 30, 0, 0, time.UTC)
	in.Now, in.Candles[2].LitAt, in.Candles[2].Benches = lit, &lit, []int{1}
	if c := planned(t, in); len(c.Sittings[0].Burns) != 1 || c.Sittings[0].Burns[0].Bench != 2 {
		t.Error(said(c))
	}
}

func TestCalendarBeginsNothingInThePast(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ now, first string }{
		{"17:59", "02 18:00"}, {"18:00", "02 18:00"}, {"18:20", "02 18:20"}, {"19:00", "02 19:00"}, {"19:01", "03 18:00"},
	} {
		in := poured(roundOf(1), monday.AddDate(0, 0, -20))
		in.Now, _ = time.Parse("2006-01-02 15:04", "2026-03-02 "+c.now)
		if got := planned(t, in).Sittings[0].From.Format("02 15:04"); got != c.first {
			t.Errorf("at %s: %s", c.now, got)
		}
		in.Now = in.Now.Add(time.Second)
		if k := planned(t, in); k.Sittings[0].From.Before(in.Now) || k.Sittings[0].From.Second() != 0 {
			t.Errorf("a second after %s: %v", c.now, k.Sittings[0].From)
		}
	}
}

func TestMoved(t *testing.T) {
	t.Parallel()
	in := roundOf(3)
	old := planned(t, in)
	in.Days.PourOn, in.Days.Away = "2026-03-03", []string{"2026-03-12"}
	want := []plan.Move{
		{Kind: plan.PourEvent, Places: []int{1, 2, 3}, From: "2026-03-02", To: "2026-03-03"},
		{Kind: plan.SetEvent, Places: []int{1, 2, 3}, From: "2026-03-03", To: "2026-03-04"},
		{Kind: plan.ReadyEvent, Places: []int{1, 2, 3}, From: "2026-03-09", To: "2026-03-10"},
		{Kind: plan.SittingEvent, Places: []int{1, 2}, Burn: 1, From: "2026-03-09", To: "2026-03-10"},
		{Kind: plan.SittingEvent, Places: []int{3}, Burn: 1, From: "2026-03-10", To: "2026-03-11"},
		{Kind: plan.SittingEvent, Places: []int{1}, Burn: 2, From: "2026-03-10", To: "2026-03-11"},
		{Kind: plan.SittingEvent, Places: []int{2, 3}, Burn: 2, From: "2026-03-11", To: "2026-03-13"},
	}
	if d := cmp.Diff(want, plan.Moved(old, planned(t, in))); d != "" {
		t.Error(d)
	}
	in.Days.Away = nil
	for _, m := range plan.Moved(old, planned(t, poured(in, monday.AddDate(0, 0, 1)))) {
		if m.Kind == plan.PourEvent {
			t.Errorf("what has happened moves: %+v", m)
		}
	}
	gone := roundOf(3)
	gone.Candles[0].Over = true
	for _, m := range plan.Moved(planned(t, gone), planned(t, poured(roundOf(3), monday))) {
		if m.Kind == plan.PourEvent {
			t.Errorf("what has happened is new: %+v", m)
		}
	}
	if ms := plan.Moved(old, old); ms != nil {
		t.Errorf("nothing moved: %+v", ms)
	}
	if ms := plan.Moved(old, plan.NewCalendar(plan.CalendarInput{})); ms != nil {
		t.Errorf("nothing can be compared: %+v", ms)
	}
}

// An evening is missed: what was planned for it moves, what was burned does
// not, what is new is named.
func TestMovedByAMissedEvening(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(2), monday.AddDate(0, 0, -20))
	old := planned(t, in)
	out := time.Date(2026, 3, 2, 22, 0, 0, 0, time.UTC)
	in.Now = time.Date(2026, 3, 3, 23, 0, 0, 0, time.UTC)
	in.Candles[0].Burns, in.Candles[0].LastOut = 1, &out
	in.Days.Burns = 3
	want := []plan.Move{
		{Kind: plan.SittingEvent, Places: []int{2}, Burn: 1, From: "2026-03-02", To: "2026-03-04"},
		{Kind: plan.SittingEvent, Places: []int{1}, Burn: 2, From: "2026-03-03", To: "2026-03-04"},
		{Kind: plan.SittingEvent, Places: []int{2}, Burn: 2, From: "2026-03-03", To: "2026-03-05"},
		{Kind: plan.SittingEvent, Places: []int{1}, Burn: 3, To: "2026-03-05"},
		{Kind: plan.SittingEvent, Places: []int{2}, Burn: 3, To: "2026-03-06"},
	}
	if d := cmp.Diff(want, plan.Moved(old, planned(t, in))); d != "" {
		t.Error(d)
	}
	// How long the second burns is not known.
	in.Days.Burns, in.Candles[0].Lasts, in.Candles[0].LitHours = 0, 8, 4
	want = []plan.Move{
		{Kind: plan.SittingEvent, Places: []int{2}, Burn: 1, From: "2026-03-02"},
		{Kind: plan.SittingEvent, Places: []int{2}, Burn: 2, From: "2026-03-03"},
		{Kind: plan.SittingEvent, Places: []int{1}, Burn: 2, From: "2026-03-03", To: "2026-03-04"},
	}
	if d := cmp.Diff(want, plan.Moved(old, planned(t, in))); d != "" {
		t.Error(d)
	}
}

func TestTonight(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(3), monday.AddDate(0, 0, -20))
	c := planned(t, in)
	for _, k := range []struct {
		at   string
		want string
	}{{"2026-03-02 09:00", "1.1"}, {"2026-03-02 21:59", "1.1"}, {"2026-03-02 22:00", ""}, {"2026-03-03 00:00", "1.2"}, {"2026-03-01 12:00", ""}, {"2026-03-05 12:00", ""}} {
		at, err := time.Parse("2006-01-02 15:04", k.at)
		if err != nil {
			t.Fatal(err)
		}
		s, is := c.Tonight(at)
		if is != (k.want != "") || is && s.Key != "burn-"+k.want[:1]+"-"+k.want[2:] {
			t.Errorf("%s: %v %+v", k.at, is, s)
		}
	}
	if _, is := (plan.Calendar{}).Tonight(monday); is {
		t.Error("a sitting out of nothing")
	}
}
