package page_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	oracle "github.com/emersion/go-ical"
	"github.com/google/go-cmp/cmp"

	"rimward/internal/ical"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/web/page"
)

func roundDays(t *testing.T, pourOn string, poured *time.Time) (plan.Calendar, journal.TestRound) {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	r := journal.TestRound{Question: "Which rung, at 8 %?", Days: journal.RoundDays{
		PourOn: pourOn, Start: "18:00", Hours: 4, PerEvening: 1, BenchPlaces: 2, Burns: 2,
		Weekdays: []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday},
	}}
	r.ID, r.Version, r.Created = 3, 2, time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC)
	cure := quantity.Days(14)
	in := plan.CalendarInput{Now: time.Date(2026, 3, 2, 8, 0, 0, 0, time.UTC), Zone: zone, Days: r.Days, Pace: plan.Usual()}
	for n := 1; n <= 2; n++ {
		in.Candles = append(in.Candles, plan.CalendarCandle{Place: n, Melt: n, Group: 1, Benches: []int{3 - n}, Cure: journal.Range[quantity.Days]{Low: &cure}, PouredAt: poured})
	}
	c := plan.NewCalendar(in)
	if len(c.Problems) > 0 {
		t.Fatal(c.Problems)
	}
	return c, r
}

// taken is a day and a bit after the round was written.
var taken = page.Taken{Revision: 40, Now: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)}

func code(place int) string {
	if place == 2 {
		return "14-C"
	}
	return ""
}

func TestRoundEvents(t *testing.T) {
	t.Parallel()
	c, r := roundDays(t, "2026-03-14", nil)
	got := page.RoundEvents(c, r, taken, code)
	var lines []string
	for _, e := range got {
		from := e.Start.Format("2 Jan 15:04")
		if e.WholeDays {
			from = e.Start.Format("2 Jan")
		}
		lines = append(lines, from+" "+e.Summary)
	}
	want := []string{"14 Mar Pour 2 candles", "15 Mar Look at the tops of 2 candles", "28 Mar Cured and ready: 2 candles",
		"28 Mar 18:00 Light 2 candles", "29 Mar 18:00 Light 2 candles"}
	if d := cmp.Diff(want, lines); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff("Which rung, at 8 %?\nCandles 1 and 2 (14-C)\n2 melts: 1 and 2", got[0].Detail); d != "" {
		t.Error(d)
	}
	if want := "Bench place 1: candle 2 (14-C), burn 1, 4 h 00\nBench place 2: candle 1, burn 1, 4 h 00\n"; !strings.Contains(got[3].Detail, want) {
		t.Errorf("%s", got[3].Detail)
	}
	if !strings.Contains(got[3].Detail, "Never leave a burning candle.") {
		t.Error("no caution beside a sitting")
	}
}

// An independent reader finds 18:00 in Berlin as 17:00 UTC before and 16:00 UTC
// after the clocks change on 29 March 2026 (IANA time zone database).
func TestRoundEventsReadByAnother(t *testing.T) {
	t.Parallel()
	c, r := roundDays(t, "2026-03-14", nil)
	var b bytes.Buffer
	if err := ical.Write(&b, ical.Calendar{Name: r.Question, Stamp: r.Created, Events: page.RoundEvents(c, r, taken, code)}); err != nil {
		t.Fatal(err)
	}
	read, err := oracle.NewDecoder(&b).Decode()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]string{}
	for _, e := range read.Events() {
		uid, _ := e.Props.Text(oracle.PropUID)
		at, err := e.DateTimeStart(time.UTC)
		if err != nil || seen[uid] != "" {
			t.Error(uid, err)
		}
		seen[uid] = at.Format("2 Jan 15:04")
	}
	const round = "round-3-20260301T080000Z-"
	want := map[string]string{
		round + "pour-1@rimward": "14 Mar 00:00", round + "set-1@rimward": "15 Mar 00:00", round + "ready-1@rimward": "28 Mar 00:00",
		round + "burn-1-1@rimward": "28 Mar 17:00", round + "burn-1-2@rimward": "29 Mar 16:00",
	}
	if d := cmp.Diff(want, seen); d != "" {
		t.Error(d)
	}
}

// A calendar program that reads the file again moves what it knows: the same
// thing keeps its name when it falls on another day.
func TestRoundEventsKeepTheirNames(t *testing.T) {
	t.Parallel()
	uids := func(pourOn string) (out []string) {
		c, r := roundDays(t, pourOn, nil)
		for _, e := range page.RoundEvents(c, r, taken, code) {
			out = append(out, e.UID)
		}
		return out
	}
	if d := cmp.Diff(uids("2026-03-14"), uids("2026-04-20")); d != "" {
		t.Error(d)
	}
}

func TestRoundEventsOfWhatIsPoured(t *testing.T) {
	t.Parallel()
	at := time.Date(2026, 2, 27, 10, 0, 0, 0, time.UTC)
	c, r := roundDays(t, "2026-02-27", &at)
	if e := page.RoundEvents(c, r, taken, code)[0]; e.Summary != "Poured: 2 candles" || e.Sequence != 41 {
		t.Errorf("%+v", e)
	}
}

// A day that goes by without a word moves the days too.
func TestTheSequenceRisesWithTheDays(t *testing.T) {
	t.Parallel()
	c, r := roundDays(t, "2026-03-14", nil)
	last := -1
	for _, at := range []page.Taken{{}, {Revision: 1}, {Revision: 1, Now: r.Created.AddDate(0, 0, 1)}, {Revision: 2, Now: r.Created.AddDate(0, 0, 1)}, {Revision: 2, Now: r.Created.AddDate(0, 0, 2)}} {
		got := page.RoundEvents(c, r, at, code)[0].Sequence
		if got <= last {
			t.Errorf("%d comes after %d", got, last)
		}
		last = got
	}
}
