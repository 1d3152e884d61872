package plan_test

import (
	"fmt"
	"math/bits"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

// The rest is between two burns of one candle: other candles follow at once.
func TestOtherCandlesFollowAtOnce(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(4), monday.AddDate(0, 0, -20))
	in.Days.PerEvening, in.Days.Hours, in.Days.Burns = 2, 2, 1
	c := planned(t, in)
	if d := cmp.Diff([]string{"03-02 sitting 18:00-20:00 1.1@1 2.1@2", "03-02 sitting 20:00-22:00 3.1@1 4.1@2"}, said(c)[2:]); d != "" {
		t.Error(d)
	}
	in.Days.PerEvening, in.Candles = 3, poured(roundOf(6), monday.AddDate(0, 0, -20)).Candles
	c = planned(t, in)
	if d := cmp.Diff([]string{"03-02 sitting 18:00-20:00 1.1@1 2.1@2", "03-02 sitting 20:00-22:00 3.1@1 4.1@2", "03-02 sitting 22:00-00:00 5.1@1 6.1@2"}, said(c)[2:]); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"Candles that were put out stay where they are until they are solid: those that follow at once are lit beside them."}, c.Notes); d != "" {
		t.Error(d)
	}
}

// A candle that is lit twice in an evening rests between, and others burn
// meanwhile: at most two at a time in 18-20, 20-22 and 22-24.
func TestOthersBurnWhileACandleRests(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(3), monday.AddDate(0, 0, -20))
	in.Days.PerEvening, in.Days.Hours, in.Days.BenchPlaces = 3, 2, 1
	in.Days.Burns, in.Candles = 2, in.Candles[:2]
	want := []string{"03-02 sitting 18:00-20:00 1.1@1", "03-02 sitting 20:00-22:00 2.1@1", "03-02 sitting 22:00-00:00 1.2@1", "03-03 sitting 18:00-20:00 2.2@1"}
	if d := cmp.Diff(want, said(planned(t, in))[2:]); d != "" {
		t.Error(d)
	}
}

// What is lit already keeps its place: two more wait until it is out.
func TestSecondSittingWaitsForAPlace(t *testing.T) {
	t.Parallel()
	in := poured(roundOf(3), monday.AddDate(0, 0, -20))
	in.Days.PerEvening, in.Days.Hours, in.Days.Burns = 2, 2, 1
	in.Now = time.Date(2026, 3, 2, 19, 45, 0, 0, time.UTC)
	lit := in.Now.Add(-15 * time.Minute)
	in.Candles[0].LitAt = &lit
	if d := cmp.Diff([]string{"03-02 sitting 21:30-23:30 2.1@1 3.1@2"}, said(planned(t, in))[2:]); d != "" {
		t.Error(d)
	}
}

// No plan with two sittings an evening finishes earlier: every time of the
// second sitting by half hours, and every choice of candles, is tried.
func TestNoPlanOfTwoSittingsFinishesEarlier(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		lasts := rapid.SampledFrom([]int{2, 3, 4, 5, 6}).Draw(t, "half hours")
		in := plan.CalendarInput{Now: monday, Zone: time.UTC, Pace: plan.Usual(), Days: journal.RoundDays{
			PourOn: "2026-03-02", Start: "18:00", Hours: quantity.Hours(lasts) / 2, PerEvening: 2,
			BenchPlaces: rapid.IntRange(1, 3).Draw(t, "bench"), Weekdays: everyDay,
		}}
		b := bruteSittings{lasts: lasts, bench: in.Days.BenchPlaces, known: map[string]int{}}
		var state []bruteCandle
		for n := 1; n <= rapid.IntRange(1, 4).Draw(t, "candles"); n++ {
			burns, ready := rapid.IntRange(1, 3).Draw(t, "burns"), rapid.IntRange(-9, 60).Draw(t, "ready")
			at := time.Date(2026, 3, 2, 18, 0, 0, 0, time.UTC).Add(time.Duration(ready)*30*time.Minute).AddDate(0, 0, -9)
			in.Candles = append(in.Candles, plan.CalendarCandle{
				Place: n, PouredAt: &at, SetChecked: true, Lasts: quantity.Hours(burns) * in.Days.Hours, Cure: cures(9), Group: rapid.IntRange(0, 2).Draw(t, "group"),
			})
			state = append(state, bruteCandle{burns, ready})
		}
		c := plan.NewCalendar(in)
		if want := plan.Day("2026-03-01").Add(b.fewest(state, 0)); c.Finish != want {
			t.Errorf("finishes on %s, and could on %s: %v", c.Finish, want, said(c))
		}
	})
}

// bruteSittings counts in half hours from the first evening's start.
type bruteSittings struct {
	lasts, bench int
	known        map[string]int
}

type bruteCandle struct{ left, ready int }

// fewest is the least number of evenings until every candle is burned.
func (b bruteSittings) fewest(state []bruteCandle, evening int) int {
	left := 0
	for _, c := range state {
		left += c.left
	}
	if left == 0 {
		return 0
	}
	if evening > 14 {
		return 1000
	}
	state = append([]bruteCandle(nil), state...)
	for i := range state {
		state[i].ready = max(state[i].ready, evening*48)
	}
	key := fmt.Sprint(evening, state)
	if n, is := b.known[key]; is {
		return n
	}
	best := 1000
	for first := range 1 << len(state) {
		one, can := b.light(state, first, evening*48)
		if !can {
			continue
		}
		best = min(best, 1+b.fewest(one, evening+1))
		for at := evening*48 + b.lasts; at <= evening*48+12-b.lasts; at++ { // over by midnight, six hours on
			if at > evening*48+b.lasts+4 {
				break // nobody waits longer than for the rest of what was lit first
			}
			for second := 1; second < 1<<len(state); second++ {
				if two, can := b.light(one, second, at); can {
					best = min(best, 1+b.fewest(two, evening+1))
				}
			}
		}
	}
	b.known[key] = best
	return best
}

// light lights some candles at once; each then rests for two hours.
func (b bruteSittings) light(state []bruteCandle, chosen, at int) ([]bruteCandle, bool) {
	out := append([]bruteCandle(nil), state...)
	for i := range out {
		if chosen>>i&1 == 0 {
			continue
		}
		if out[i].left == 0 || out[i].ready > at {
			return nil, false
		}
		out[i] = bruteCandle{out[i].left - 1, at + b.lasts + 4}
	}
	return out, bits.OnesCount(uint(chosen)) <= b.bench
}
