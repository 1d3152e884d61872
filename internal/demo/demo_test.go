package demo_test

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/demo"
	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

// An evening in early summer, and a night just after the clocks went back
// there (the last Sunday of October; European Union Directive 2000/84/EC, from
// memory).
var (
	evening = time.Date(2026, 6, 17, 18, 7, 31, 0, time.UTC)
	autumn  = time.Date(2026, 10, 25, 2, 40, 0, 0, time.UTC)
)

func lisbon(t *testing.T) *time.Location {
	t.Helper()
	z, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func seasons(t *testing.T) map[string]demo.Season {
	t.Helper()
	return map[string]demo.Season{
		"seed 1, evening":  demo.NewSeason(1, evening, lisbon(t)),
		"seed 2, night":    demo.NewSeason(2, autumn, lisbon(t)),
		"seed 3, morning":  demo.NewSeason(3, evening.Add(-11*time.Hour), time.UTC),
		"seed 40, evening": demo.NewSeason(40, evening, lisbon(t)),
	}
}

func TestSeasonIsAsLargeAsItSays(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		candles, burns, checks := s.Counts()
		for _, c := range []struct {
			what           string
			got, low, high int
		}{{"candles", candles, 55, 70}, {"burns", burns, 320, 420}, {"checks", checks, 1200, 1600}} {
			if c.got < c.low || c.got > c.high {
				t.Errorf("%s: %d %s, want %d to %d", name, c.got, c.what, c.low, c.high)
			}
		}
	}
}

func TestSameSeedGivesTheSameSeason(t *testing.T) {
	t.Parallel()
	a, b := demo.NewSeason(7, evening, lisbon(t)), demo.NewSeason(7, evening, lisbon(t))
	if d := cmp.Diff(a, b); d != "" {
		t.Errorf("two seasons of one seed differ:\n%s", d)
	}
	if c := demo.NewSeason(8, evening, lisbon(t)); cmp.Equal(a, c) {
		t.Error("another seed gives the same season")
	}
}

func TestEventsComeInOrderAndNoneAfterNow(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		for i, e := range s.Events {
			if i > 0 && e.At.Before(s.Events[i-1].At) {
				t.Fatalf("%s: event %d comes before the one before it", name, i)
			}
		}
	}
	for h := range 24 {
		now := evening.Add(time.Duration(h) * time.Hour)
		if last := demo.NewSeason(uint64(h), now, time.UTC).Events; last[len(last)-1].At.After(now) {
			t.Errorf("the season of %s goes on after it", now)
		}
	}
}

// The ledger holds every rule of the journal's nouns and every doubt of a
// burn, at the moment of writing.
func TestSeasonKeepsTheJournalsRules(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		l := fill(t, s)
		candles, burns, checks := s.Counts()
		got := []int{len(l.candles), len(l.burns), len(l.checks) - len(l.withdrawn)}
		if d := cmp.Diff([]int{candles, burns, checks}, got); d != "" {
			t.Errorf("%s: counts and journal differ:\n%s", name, d)
		}
		if l.corrected[journal.NounCheck] != 1 || len(l.withdrawn) != 1 {
			t.Errorf("%s: %d checks corrected and %d withdrawn, want one each", name, l.corrected[journal.NounCheck], len(l.withdrawn))
		}
	}
}

func TestFiveCandlesAreLitNow(t *testing.T) {
	t.Parallel()
	for name, moment := range map[string]time.Time{"evening": evening, "night": autumn} {
		l := fill(t, demo.NewSeason(1, moment, lisbon(t)))
		sittings, late := map[journal.ID]int{}, 0
		for _, log := range l.logs() {
			b := log.OpenBurn()
			if b == nil {
				continue
			}
			sittings[*b.Burn.Sitting]++
			due := plan.Next(b.Burn, b.Checks, log.Vessel.Target(), moment)
			if due.Late > 0 {
				late++
				if due.Late > 15*time.Minute {
					t.Errorf("%s: the check is %s late, want a little", name, due.Late)
				}
			}
		}
		var sizes []int
		for _, n := range sittings {
			sizes = append(sizes, n)
		}
		if len(sizes) != 2 || min(sizes[0], sizes[1]) != 1 || max(sizes[0], sizes[1]) != 4 {
			t.Errorf("%s: sittings of %v candles are lit, want four and one", name, sizes)
		}
		if late != 1 {
			t.Errorf("%s: %d checks are late, want one", name, late)
		}
	}
}

func TestEveryStateIsOnTheBench(t *testing.T) {
	t.Parallel()
	colds := 0
	for h := range 24 {
		now := evening.Add(time.Duration(h) * time.Hour)
		seen, cold := map[journal.State]int{}, 0
		newest := now.Add(-1000 * time.Hour)
		for _, log := range fill(t, demo.NewSeason(1, now, lisbon(t))).logs() {
			seen[log.Life().StateAt(now)]++
			if log.Pour.At.After(newest) {
				newest = log.Pour.At
			}
			for _, b := range log.Burns {
				if b.Burn.OutAt != nil && b.Burn.MassAfter == nil {
					cold++
				}
			}
		}
		for _, s := range []journal.State{journal.Curing, journal.Ready, journal.Resting, journal.LitNow, journal.IsSpent} {
			if seen[s] == 0 {
				t.Errorf("at %s no candle is %s", now, s)
			}
		}
		if age := now.Sub(newest); age < 24*time.Hour || age > 48*time.Hour {
			t.Errorf("at %s the newest pour is %s old, want a day to set", now, age)
		}
		if cold > 0 {
			colds++
		}
		if cold > 16 {
			t.Errorf("at %s %d burns were not weighed, want only the last evenings'", now, cold)
		}
	}
	if colds < 8 {
		t.Errorf("only %d of 24 moments have a burn that waits for the scale", colds)
	}
}

// A candle gains nothing: it is lit no heavier than it was put back on the
// shelf. 13 mm (1/2 in) of wax is the usual place to stop (candle advice, as
// read in a secondary source). Single wicks of candles burn 2.6 to 7.3 g/h in
// published tests (Fire Sci. & Eng. 30(3):104-109, 2016, and an abstract on
// ultrafine particles); the season's stated band is 4 to 9.
func TestMassFallsUntilTheWaxIsSpent(t *testing.T) {
	t.Parallel()
	for name, s := range seasons(t) {
		for _, log := range fill(t, s).logs() {
			was := quantity.Grams(math.Inf(1))
			for _, b := range log.Burns {
				if *b.Burn.MassBefore > was {
					t.Errorf("%s: %s burn %d is lit at %g g after %g g", name, log.Candle.Code(), b.Burn.Number, *b.Burn.MassBefore, was)
				}
				if b.Burn.MassAfter == nil {
					continue
				}
				was = *b.Burn.MassAfter
				if r, _ := b.Burn.Rate(); float64(r)/float64(log.Candle.Wicks) < 3.7 || float64(r)/float64(log.Candle.Wicks) > 9.3 {
					t.Errorf("%s: %s burns %.1f g/h on %d wicks", name, log.Candle.Code(), r, log.Candle.Wicks)
				}
				if b.Burn.Ending == journal.Spent {
					expectThirteen(t, log, was)
				}
			}
		}
	}
}

func expectThirteen(t *testing.T, log journal.CandleLog, mass quantity.Grams) {
	t.Helper()
	area := math.Pi / 4 * float64(log.Vessel.InnerWidth) * float64(log.Vessel.Length())
	if log.Vessel.Shape == journal.Rectangular {
		area *= 4 / math.Pi
	}
	height := float64(mass-*log.Vessel.EmptyMass) / float64(*log.Wax.SolidDensity) * 1000 / area
	if height < 12.5 || height > 14.5 {
		t.Errorf("%s is spent with %.1f mm of wax, want about 13", log.Candle.Code(), height)
	}
}

func TestSittingsBeginInStudioHours(t *testing.T) {
	t.Parallel()
	zone := lisbon(t)
	for _, b := range fill(t, demo.NewSeason(2, autumn, zone)).burns {
		if b.OutAt == nil {
			continue
		}
		l := b.LitAt.In(zone)
		clock := l.Hour()*60 + l.Minute()
		from, to := 17*60, 18*60+30
		if d := l.Weekday(); d == time.Saturday || d == time.Sunday {
			from, to = 13*60, 16*60
		}
		if clock < from || clock > to {
			t.Errorf("a sitting begins on %s", l.Format("Monday 15:04"))
		}
	}
}

// 75 mm is the reference limit of a flame (EN 15493, as read in a secondary
// source): one burn stands above it and is put out.
func TestOneFlameIsPutOutAndOneDrowns(t *testing.T) {
	t.Parallel()
	for seed := range uint64(12) {
		l := fill(t, demo.NewSeason(seed, evening, time.UTC))
		ends := map[journal.Ending]int{}
		for _, b := range l.burns {
			ends[b.Ending]++
		}
		if ends[journal.PutOutUnsafe] != 1 || ends[journal.WentOut] != 1 {
			t.Errorf("seed %d: endings %v, want one put out for safety and one gone out", seed, ends)
		}
		for _, c := range l.checks {
			over, pool := c.Flame != nil && *c.Flame > 75, c.Has(journal.FlameOnPool)
			if over != pool {
				t.Errorf("seed %d: flame over 75 mm %t, on the pool %t", seed, over, pool)
			}
			if pool && l.burns[c.Burn].Ending != journal.PutOutUnsafe {
				t.Errorf("seed %d: fire on the pool, yet the burn ended %q", seed, l.burns[c.Burn].Ending)
			}
		}
	}
}

func TestStandingsTeachSomething(t *testing.T) {
	t.Parallel()
	l := fill(t, demo.NewSeason(1, evening, lisbon(t)))
	var logs []journal.CandleLog
	for _, log := range l.logs() {
		if log.Vessel.Name == "Pebble tumbler" && log.Wax.Name == "Meadow blend" && log.Fragrance.Name == "Fig and smoke" {
			logs = append(logs, log)
		}
	}
	opt := standings.Options{Ruler: 1, Limits: safety.NewLimits(nil), Units: quantity.Metric, Apart: journal.ByLoad}
	table, err := standings.Work(t.Context(), logs, opt, tree.Default())
	if err != nil {
		t.Fatal(err)
	}
	s := busiest(table)
	if first := s.Pairings[0]; first.Name() != "Larkspur 7" || first.BelowLine() || first.Closest < 0.8 {
		t.Errorf("%s leads with a chance of %.2f, want Larkspur 7", first.Name(), first.Closest)
	}
	if s.Advice.Step != standings.Settled {
		t.Errorf("advice: %s", s.Advice.Text)
	}
	var below []string
	for _, p := range s.Pairings {
		if p.BelowLine() {
			below = append(below, p.Name())
		}
		if p.Name() == "Larkspur 4" && p.FullByTarget > 0.3 {
			t.Error("the weakest wick is not clearly short of the wall")
		}
	}
	if d := cmp.Diff([]string{"Larkspur 9"}, below); d != "" {
		t.Errorf("below the line:\n%s", d)
	}
}

// busiest is the series with the most burns.
func busiest(t standings.Table) standings.Series {
	var out standings.Series
	for _, g := range t.Groups {
		for _, s := range g.Series {
			if s.Burns > out.Burns {
				out = s
			}
		}
	}
	return out
}

func TestTenYearsAreTenYears(t *testing.T) {
	t.Parallel()
	s := demo.TenYears(1, evening, time.UTC)
	candles, burns, checks := s.Counts()
	if candles < 2700 || candles > 3300 || burns < 19000 || burns > 23000 || checks < 75000 || checks > 88000 {
		t.Errorf("%d candles, %d burns, %d checks", candles, burns, checks)
	}
	if span := evening.Sub(s.Events[0].At); span < 3640*24*time.Hour {
		t.Errorf("it spans %s", span)
	}
	written := map[journal.ID]bool{}
	for _, e := range s.Events {
		switch x := e.Record.(type) {
		case journal.TestRound:
			written[x.ID] = true
		case journal.Candle:
			if x.Round != nil && !written[*x.Round] {
				t.Fatalf("candle %s belongs to round %d, which is not written", x.Code(), *x.Round)
			}
		}
	}
}
