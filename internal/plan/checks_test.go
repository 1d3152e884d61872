package plan_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

func ptr[T any](v T) *T { return &v }

var lit = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)

// at is a moment some hours and minutes after lighting.
func at(h, m int) time.Time {
	return lit.Add(time.Duration(h)*time.Hour + time.Duration(m)*time.Minute)
}

func checksAt(ts ...time.Time) []journal.Check {
	var cs []journal.Check
	for i, t := range ts {
		cs = append(cs, journal.Check{Meta: journal.Meta{ID: journal.ID(i + 1)}, At: t})
	}
	return cs
}

func TestSlots(t *testing.T) {
	t.Parallel()
	const hourly, half = "hourly check", "half the target hour"
	for _, c := range []struct {
		name   string
		target quantity.Hours
		want   []plan.Slot
	}{
		{"half lies between", 3, []plan.Slot{{Hour: 1, Why: hourly}, {Hour: 1.5, Why: half}, {Hour: 2, Why: hourly}, {Hour: 3, Why: hourly}, {Hour: 4, Why: hourly}}},
		{"half is an hour", 4, []plan.Slot{{Hour: 1, Why: hourly}, {Hour: 2, Why: hourly + " and " + half}, {Hour: 3, Why: hourly}, {Hour: 4, Why: hourly}}},
		{"a quarter from an hour: one check", 2.5, []plan.Slot{{Hour: 1, Why: hourly + " and " + half}, {Hour: 2, Why: hourly}, {Hour: 3, Why: hourly}, {Hour: 4, Why: hourly}}},
		{"further than a quarter: two checks", 2.6, []plan.Slot{{Hour: 1, Why: hourly}, {Hour: 1.3, Why: half}, {Hour: 2, Why: hourly}, {Hour: 3, Why: hourly}, {Hour: 4, Why: hourly}}},
		{"half before the first hour", 1.2, []plan.Slot{{Hour: 0.6, Why: half}, {Hour: 1, Why: hourly}, {Hour: 2, Why: hourly}, {Hour: 3, Why: hourly}, {Hour: 4, Why: hourly}}},
		{"half after the longest burn", 10, []plan.Slot{{Hour: 1, Why: hourly}, {Hour: 2, Why: hourly}, {Hour: 3, Why: hourly}, {Hour: 4, Why: hourly}}},
		{"no target", 0, []plan.Slot{{Hour: 1, Why: hourly}, {Hour: 2, Why: hourly}, {Hour: 3, Why: hourly}, {Hour: 4, Why: hourly}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, plan.Usual().Slots(c.target)); d != "" {
				t.Error(d)
			}
		})
	}
	t.Run("at a studio's own pace", func(t *testing.T) {
		p := plan.PaceOf(safety.NewLimits(map[string]float64{"check_every": 0.5, "longest_burn": 1.5}))
		want := []plan.Slot{{Hour: 0.5, Why: "check every 30 min"}, {Hour: 1, Why: "check every 30 min"}, {Hour: 1.5, Why: "check every 30 min and half the target hour"}}
		if d := cmp.Diff(want, p.Slots(3)); d != "" {
			t.Error(d)
		}
	})
	t.Run("a tiny interval does not ask without end", func(t *testing.T) {
		p := plan.PaceOf(safety.NewLimits(map[string]float64{"check_every": 1e-9}))
		if n := len(p.Slots(3)); n < 90 || n > 97 {
			t.Errorf("%d slots", n)
		}
	})
}

// A target of 3 h: slots at 1 h, 1 h 30, 2 h, 3 h and 4 h.
func TestNext(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		checks []time.Time
		now    time.Time
		hour   quantity.Hours // 0: none
		late   time.Duration
	}{
		{"just lit", nil, at(0, 0), 1, 0},
		{"before the first", nil, at(0, 59), 1, 0},
		{"the first has come", nil, at(1, 0), 1, 0},
		{"the first is late", nil, at(1, 12), 1, 12 * time.Minute},
		{"met a quarter of an hour early", []time.Time{at(0, 45)}, at(0, 46), 1.5, 0},
		{"too early to meet it", []time.Time{at(0, 44)}, at(0, 50), 1, 0},
		{"too early, and now late", []time.Time{at(0, 44)}, at(1, 5), 1, 5 * time.Minute},
		{"met late", []time.Time{at(1, 10)}, at(1, 11), 1.5, 0},
		{"a check just before the half meets it, and nothing earlier is asked for", []time.Time{at(1, 20)}, at(1, 25), 2, 0},
		{"still so when the half has come", []time.Time{at(1, 20)}, at(1, 31), 2, 0},
		{"a missed one is passed over", nil, at(1, 30), 1.5, 0},
		{"three missed, one asked for", nil, at(3, 20), 3, 20 * time.Minute},
		{"nothing is asked for twice", []time.Time{at(1, 5), at(1, 35), at(2, 2)}, at(2, 30), 3, 0},
		{"the last", []time.Time{at(3, 0)}, at(3, 30), 4, 0},
		{"the last has come", []time.Time{at(3, 0)}, at(4, 0), 4, 0},
		{"everything met", []time.Time{at(3, 0), at(3, 50)}, at(3, 55), 0, 0},
		{"after the longest burn", nil, at(4, 1), 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := plan.Next(journal.Burn{LitAt: lit}, checksAt(c.checks...), 3, c.now)
			if c.hour == 0 {
				if got != (plan.Due{}) {
					t.Errorf("asks for %+v", got)
				}
				return
			}
			want := lit.Add(time.Duration(float64(c.hour) * float64(time.Hour)))
			if got.Hour != c.hour || got.Late != c.late || !got.At.Equal(want) || got.Why == "" {
				t.Errorf("got %+v, want hour %v, late %v", got, c.hour, c.late)
			}
		})
	}
	t.Run("a withdrawn check meets nothing", func(t *testing.T) {
		cs := checksAt(at(1, 0))
		cs[0].Gone = &lit
		if got := plan.Next(journal.Burn{LitAt: lit}, cs, 3, at(1, 5)); got.Hour != 1 {
			t.Errorf("got %+v", got)
		}
	})
	t.Run("a burn that is out asks for none", func(t *testing.T) {
		if got := plan.Next(journal.Burn{LitAt: lit, OutAt: ptr(at(1, 0))}, nil, 3, at(1, 30)); got != (plan.Due{}) {
			t.Errorf("got %+v", got)
		}
	})
}

// A check made now, less than a quarter of an hour before or any time after what is asked for,
// always moves the bench on; nothing later than the longest burn is asked for.
func TestNextMovesOn(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		target := quantity.Hours(rapid.Float64Range(0.3, 6).Draw(t, "target"))
		b := journal.Burn{LitAt: lit}
		var cs []journal.Check
		for now := lit; !now.After(at(5, 0)); now = now.Add(time.Duration(rapid.IntRange(1, 40).Draw(t, "minutes")) * time.Minute) {
			d := plan.Next(b, cs, target, now)
			if d.At.IsZero() {
				continue
			}
			if d.Hour > 4 || d.Late < 0 || now.After(at(4, 0)) {
				t.Fatalf("at %v: %+v", now, d)
			}
			if d.At.Sub(now) < 15*time.Minute-time.Second && rapid.Bool().Draw(t, "look") {
				cs = append(cs, journal.Check{At: now})
				if next := plan.Next(b, cs, target, now); !next.At.IsZero() && !next.At.After(d.At) {
					t.Fatalf("checked at %v for %+v, and it still asks for %+v", now, d, next)
				}
			}
		}
	})
}

func TestStopAndTarget(t *testing.T) {
	t.Parallel()
	b := journal.Burn{LitAt: lit}
	if got := plan.StopAt(b); !got.Equal(at(4, 0)) {
		t.Errorf("stop at %v", got)
	}
	if got := plan.TargetAt(b, 2.5); !got.Equal(at(2, 30)) {
		t.Errorf("target at %v", got)
	}
}

func TestExpectedShare(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		lit, target quantity.Hours
		want        float64
	}{{-1, 3, 0}, {0, 3, 0}, {0, 0, 0}, {0.75, 3, 0.25}, {3, 3, 1}, {4, 3, 1}, {1, 0, 1}} {
		if got := plan.ExpectedShare(c.lit, c.target); got != c.want {
			t.Errorf("%v of %v: got %v", c.lit, c.target, got)
		}
	}
}
