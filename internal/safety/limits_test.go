package safety_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

func TestLimits(t *testing.T) {
	t.Parallel()
	t.Run("every limit has a name, a source, a status and a number", func(t *testing.T) {
		seen := map[string]bool{}
		for _, l := range safety.Table() {
			if l.Key == "" || l.Name == "" || l.Source == "" || l.Status == "" || l.Kind == "" || l.Default <= 0 || seen[l.Key] {
				t.Errorf("%+v", l)
			}
			seen[l.Key] = true
			if v, ok := defaults.Value(l.Key); !ok || v != l.Default || defaults.Source(l.Key) == "" || defaults.Changed(l.Key) {
				t.Errorf("%s: %v, %v", l.Key, v, ok)
			}
		}
	})
	t.Run("a changed limit holds and says so", func(t *testing.T) {
		lim := safety.NewLimits(map[string]float64{"flame_hard": 60})
		if lim.FlameHard() != 60 || lim.Source("flame_hard") != "set in this studio" || lim.FlameTall() != 51 {
			t.Errorf("%v, %q", lim.FlameHard(), lim.Source("flame_hard"))
		}
		fs := safety.OfCheck(journal.Check{Flame: ptr(quantity.Millimetres(61))}, glass, lim, quantity.Metric)
		if d := cmp.Diff([]string{"hard: flame over the limit NOW"}, rules(fs)); d != "" {
			t.Error(d)
		}
	})
	t.Run("what is no limit is passed over", func(t *testing.T) {
		lim := safety.NewLimits(map[string]float64{"flame_hard": 0, "flame_tall": math.NaN(), "rest": -1, "wax_left": math.Inf(1), "nonsense": 3})
		if lim.FlameHard() != 75 || lim.FlameTall() != 51 || lim.Rest() != 1 || lim.WaxLeft() != 13 {
			t.Error("a default was lost")
		}
		if _, ok := lim.Value("nonsense"); ok {
			t.Error("an unknown key has a value")
		}
	})
	t.Run("every limit can be changed and is then read", func(t *testing.T) {
		for i, l := range safety.Table() {
			want := float64(100 + i)
			if v, _ := safety.NewLimits(map[string]float64{l.Key: want}).Value(l.Key); v != want {
				t.Errorf("%s: %v", l.Key, v)
			}
		}
	})
}

// The accessors read the limit they are named for. Every limit gets a number
// of its own, and each accessor must find its own.
func TestAccessors(t *testing.T) {
	t.Parallel()
	own := map[string]float64{}
	for i, l := range safety.Table() {
		own[l.Key] = float64(200 + i)
	}
	l := safety.NewLimits(own)
	low, high := l.RateBand()
	cool, warm := l.RoomBand()
	for key, got := range map[string]float64{
		"flame_hard": float64(l.FlameHard()), "flame_tall": float64(l.FlameTall()), "flame_smoke": float64(l.FlameSmoke()),
		"wall_hot": float64(l.WallHot("glass")), "wall_stop": float64(l.WallStopIn(glass.Vessel)),
		"metal_hot": float64(l.WallHot(journal.Metal)), "metal_stop": float64(l.WallStopIn(tin.Vessel)),
		"longest_burn": float64(l.LongestBurn()), "check_every": float64(l.CheckEvery()), "rest": float64(l.Rest()),
		"rest_advised": float64(l.RestAdvised()), "after_smoke": float64(l.AfterSmoke()), "wax_left": float64(l.WaxLeft()),
		"trim": float64(l.Trim()), "trim_most": float64(l.TrimMost()), "pool_deep": float64(l.PoolDeep()),
		"pool_very_deep": float64(l.PoolVeryDeep()), "rate_low": float64(low), "rate_high": float64(high),
		"room_cool": float64(cool), "room_warm": float64(warm),
	} {
		if got != own[key] {
			t.Errorf("%s: got %v, want %v", key, got, own[key])
		}
		delete(own, key)
	}
	if len(own) > 0 {
		t.Errorf("no accessor was tried for %v", own)
	}
}
