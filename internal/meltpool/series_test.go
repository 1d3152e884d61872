package meltpool_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

type reading = meltpool.Reading

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

// The order of the readings does not matter, and the input is left alone.
func TestSeriesProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		rs := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) reading {
			return reading{quantity.Hours(rapid.Float64Range(0.01, 5).Draw(t, "hour")), rapid.Float64Range(0, 1).Draw(t, "ratio"), rapid.Bool().Draw(t, "full")}
		}), 1, 8).Draw(t, "readings")
		kept := slices.Clone(rs)
		other := rapid.Permutation(rs).Draw(t, "shuffled")
		one, two := meltpool.FullWindow(rs), meltpool.FullWindow(other)
		if one != two || one.From > one.To {
			t.Fatalf("order matters: %+v, %+v", one, two)
		}
		if d := cmp.Diff(kept, rs); d != "" {
			t.Fatal("input was changed: " + d)
		}
	})
}
