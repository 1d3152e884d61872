package demo

import (
	"math"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// truths are the candles of many seasons, by the rules the package states.
func truths(t *testing.T) []*lifeline {
	t.Helper()
	var all []*lifeline
	for seed := range uint64(30) {
		s := newStudio(seed, time.Date(2026, 6, 17, 18, 7, 0, 0, time.UTC), time.UTC, seasonPlan())
		s.live()
		all = append(all, s.candles...)
	}
	return all
}

// The spreads that the package's opening words state. With some 1,900 candles
// a standard deviation is known to about 1.6 %.
func TestSpreadsAreAsStated(t *testing.T) {
	t.Parallel()
	var strays, steps, burnLuck []float64
	s := newStudio(3, time.Date(2026, 6, 17, 0, 0, 0, 0, time.UTC), time.UTC, plan{})
	r := round{vessel: pebble, wax: meadow, ladder: larkspur, wicks: 1, load: 0.08}
	for seed := range uint64(400) {
		s.seed = seed
		low, high := s.pairing(r, 2), s.pairing(r, 7)
		steps = append(steps, (high.theta-low.theta)/5)
		strays = append(strays, math.Log(low.growth/0.9))
	}
	for _, c := range truths(t) {
		f := c.strike(journal.Burn{Draught: journal.DraughtNone}, 240, []int{60, 90, 120, 180, 240})
		if f.burn.Number > 1 {
			burnLuck = append(burnLuck, f.theta-c.theta)
		}
	}
	near(t, "step of a rung", stat.Mean(steps, nil), 0.07, 0.002)
	near(t, "spread of growth between pairings", stat.StdDev(strays, nil), 0.10, 0.012)
	near(t, "spread of burns", stat.StdDev(burnLuck, nil), 0.025, 0.002)
	near(t, "mean of burns", stat.Mean(burnLuck, nil), 0, 0.002)
}

// A wick that fits is full after half the target hour and before it: with
// k 0.9 and theta 0.13 in a vessel of 3 h, 1 - exp(-0.9 t) = exp(-0.13) x
// 0.9328 gives t = 1.90 h (worked by hand).
func TestPoolOfAFittingWickMeetsTheWallInTime(t *testing.T) {
	t.Parallel()
	f := &flame{candle: &lifeline{vessel: journal.Vessel{InnerWidth: 76.2}}, theta: 0.13, growth: 0.9}
	near(t, "reach at 1.90 h", f.reach(1.90), 1, 0.003)
	near(t, "reach at the target hour", f.reach(3), math.Exp(0.13), 1e-9)
	if f.reach(0) != 0 {
		t.Errorf("a candle that was just lit has a pool of %g", f.reach(0))
	}
}

func TestRulerRoundsAndStopsShortOfTheWall(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ share, slip, want float64 }{
		{0.5, 0, 38}, {0.5, 0.4, 38}, {0.5, 0.6, 39}, {0.5, -3, 35}, {0.99, 3, 75}, {1, -3, 76}, {1.3, 0, 76}, {0, 0, 4},
	} {
		if got := float64(*ruler(76, c.share, c.slip)); got != c.want {
			t.Errorf("share %g with a slip of %g mm reads %g mm, want %g", c.share, c.slip, got, c.want)
		}
	}
}

// Readings of pools well short of the wall stray from the truth by 1 mm and
// the rounding of a millimetre ruler (1/12 mm2, the variance of a uniform
// distribution).
func TestReadingsStrayByAMillimetre(t *testing.T) {
	t.Parallel()
	c := &lifeline{vessel: journal.Vessel{InnerWidth: 200}, rng: newStudio(5, time.Unix(0, 0), time.UTC, plan{}).stream(streamCandle, 1)}
	f := &flame{candle: c, theta: -0.4, growth: 0.9}
	var errs []float64
	for i := range 4000 {
		hours := 1 + 2*float64(i)/4000
		var check journal.Check
		f.readPool(&check, hours)
		errs = append(errs, float64(*check.WidthA)-200*f.reach(hours))
	}
	near(t, "mean error", stat.Mean(errs, nil), 0, 0.06)
	near(t, "spread of errors", stat.StdDev(errs, nil), math.Sqrt(1+1.0/12), 0.05)
}

// Too much wick makes taller flames, more carbon, more soot and hotter
// vessels; too little leaves wax on the wall (common practice, no source).
func TestSignsFollowTheWick(t *testing.T) {
	t.Parallel()
	weak, strong := signsOf(-0.2), signsOf(0.2)
	for sign := range weak {
		if sign == "wall wax" {
			if weak[sign] <= strong[sign] {
				t.Errorf("wall wax: %.2f with too little wick, %.2f with too much", weak[sign], strong[sign])
			}
		} else if weak[sign] >= strong[sign] {
			t.Errorf("%s: %.2f with too little wick, %.2f with too much", sign, weak[sign], strong[sign])
		}
	}
}

// signsOf averages the signs of many checks at an excess of wick.
func signsOf(excess float64) map[string]float64 {
	c := &lifeline{
		vessel: vessels()[pebble-1], excess: excess, filled: 250, wax: 150,
		rng: newStudio(5, time.Unix(0, 0), time.UTC, plan{}).stream(streamCandle, 1),
	}
	f := &flame{candle: c, theta: ideal + excess, growth: growth}
	f.burn.Room, f.burn.Number = p(quantity.Celsius(21)), 3
	sum := map[string]float64{}
	for range 300 {
		var k journal.Check
		f.readSigns(&k, 3)
		mushroom, _ := journal.Rank(journal.MushroomScale, k.Mushroom)
		soot, _ := journal.Rank(journal.SootScale, k.Soot)
		wall, _ := journal.Rank(journal.WallWaxScale, k.WallWax)
		sum["flame"] += float64(*k.Flame) / 300
		sum["mushrooming"] += float64(mushroom) / 300
		sum["soot"] += float64(soot) / 300
		sum["wall wax"] += float64(wall) / 300
		sum["heat"] += f.heat(3) / 300
	}
	return sum
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s is %.4f, want %.4f within %g", what, got, want, within)
	}
}
