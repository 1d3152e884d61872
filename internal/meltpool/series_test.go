package meltpool_test

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

type reading = meltpool.Reading

// Every line is worked by hand in its comment.
func TestAtHour(t *testing.T) {
	t.Parallel()
	growing := []reading{{Hour: 1, Ratio: 0.5}, {Hour: 2, Ratio: 0.7}, {Hour: 4, Ratio: 0.9}}
	for _, c := range []struct {
		name string
		rs   []reading
		hour quantity.Hours
		want meltpool.Estimate
	}{
		{"at a check", growing, 2, meltpool.Estimate{Ratio: 0.7, How: meltpool.AtCheck}},
		{"between two checks", growing, 3, meltpool.Estimate{Ratio: 0.8, How: meltpool.Between}},         // half of 0.7 .. 0.9
		{"a quarter of the way", growing, 2.5, meltpool.Estimate{Ratio: 0.75, How: meltpool.Between}},    // 0.7 + 0.25 x 0.2
		{"before the first check", growing, 0.5, meltpool.Estimate{Ratio: 0.25, How: meltpool.FromNone}}, // half of 0 .. 0.5
		{"out of order", []reading{growing[2], growing[0], growing[1]}, 3, meltpool.Estimate{Ratio: 0.8, How: meltpool.Between}},
		{"up to a full pool", []reading{{Hour: 2, Ratio: 0.8}, {Hour: 3, Full: true}}, 2.5, meltpool.Estimate{Ratio: 0.9, How: meltpool.Between}}, // half of 0.8 .. 1
		{"full counts as the wall though it was read narrower", []reading{{Hour: 3, Ratio: 0.97, Full: true}}, 3, meltpool.Estimate{Ratio: 1, How: meltpool.AtCheck}},
		{"after a full pool", []reading{{Hour: 2, Full: true}}, 3, meltpool.Estimate{Ratio: 1, How: meltpool.FullEre}},
		{"shortly after the last check", []reading{{Hour: 2.85, Ratio: 0.9}}, 3, meltpool.Estimate{Ratio: 0.9, How: meltpool.Held}}, // 9 min
		{"of two at one hour the widest", []reading{{Hour: 3, Ratio: 0.8}, {Hour: 3, Full: true}}, 3, meltpool.Estimate{Ratio: 1, How: meltpool.AtCheck}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok, why := meltpool.AtHour(c.rs, c.hour)
			if !ok || why != "" || got.How != c.want.How {
				t.Errorf("got %+v, ok %v, why %q", got, ok, why)
			}
			near(t, "ratio", got.Ratio, c.want.Ratio, 1e-12)
		})
	}
}

func TestAtHourRefuses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		rs   []reading
		why  string
	}{
		{"without readings", nil, "no width was measured"},
		{"past a last reading that was not full", []reading{{Hour: 2, Ratio: 0.9}}, "the last width was read at 2 h 00, before the target hour of 3 h 00"},
		{"eleven minutes past it", []reading{{Hour: 3 - 11.0/60, Ratio: 0.9}}, "the last width was read at 2 h 49, before the target hour of 3 h 00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, ok, why := meltpool.AtHour(c.rs, 3)
			if ok || why != c.why || got != (meltpool.Estimate{}) {
				t.Errorf("got %+v, ok %v, why %q", got, ok, why)
			}
		})
	}
}

func TestFullWindow(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		rs   []reading
		want meltpool.Window
	}{
		{"nothing was read", nil, meltpool.Window{Never: true}},
		{"between two checks", []reading{{Hour: 1, Ratio: .5}, {Hour: 2, Ratio: .8}, {Hour: 3, Full: true}, {Hour: 4, Full: true}}, meltpool.Window{Seen: true, From: 2, To: 3}},
		{"full at the first check", []reading{{Hour: 1, Full: true}}, meltpool.Window{Seen: true, From: 0, To: 1}},
		{"never", []reading{{Hour: 2, Ratio: .8}, {Hour: 1, Ratio: .5}}, meltpool.Window{Seen: true, Never: true, From: 2, To: 2}},
		{"read narrower afterwards", []reading{{Hour: 2, Full: true}, {Hour: 3, Ratio: .98}}, meltpool.Window{Seen: true, From: 0, To: 2}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, meltpool.FullWindow(c.rs)); d != "" {
				t.Error(d)
			}
		})
	}
}

func TestTooSoon(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		to   quantity.Hours
		want bool
	}{
		{"full at half the hour", 1.5, true},
		{"ten minutes later", 1.5 + 10.0/60, true},
		{"eleven minutes later", 1.5 + 11.0/60, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := (meltpool.Window{Seen: true, To: c.to}).TooSoon(3); got != c.want {
				t.Errorf("got %v", got)
			}
		})
	}
	if (meltpool.Window{Seen: true, Never: true, To: 1}).TooSoon(3) || (meltpool.Window{}).TooSoon(3) {
		t.Error("a pool that was never full is never too soon")
	}
}

// The order of the readings does not matter, the width lies within the
// readings around it, and the input is left alone.
func TestSeriesProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		rs := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) reading {
			return reading{quantity.Hours(rapid.Float64Range(0.01, 5).Draw(t, "hour")), rapid.Float64Range(0, 1).Draw(t, "ratio"), rapid.Bool().Draw(t, "full")}
		}), 1, 8).Draw(t, "readings")
		hour := quantity.Hours(rapid.Float64Range(0.01, 5).Draw(t, "at"))
		kept := slices.Clone(rs)
		other := rapid.Permutation(rs).Draw(t, "shuffled")
		one, ok, _ := meltpool.AtHour(rs, hour)
		two, ok2, _ := meltpool.AtHour(other, hour)
		if one != two || ok != ok2 || meltpool.FullWindow(rs) != meltpool.FullWindow(other) {
			t.Fatalf("order matters: %+v %v, %+v %v", one, ok, two, ok2)
		}
		if math.IsNaN(one.Ratio) || one.Ratio < 0 || one.Ratio > 1 {
			t.Fatalf("ratio %v", one.Ratio)
		}
		if d := cmp.Diff(kept, rs); d != "" {
			t.Fatal("input was changed: " + d)
		}
	})
}
