package compare_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// ratios writes the pools of a cell as shares in hundredths, -1 where the
// place is empty.
func ratios(c compare.PoolCell) (out []int) {
	for _, p := range c.Pools {
		if p.N == 0 {
			out = append(out, -1)
			continue
		}
		out = append(out, int(100*p.Ratio+0.5))
	}
	return out
}

func TestPoolsStandByHour(t *testing.T) {
	t.Parallel()
	a := candle("A", 6, nil, burn(width(0.98, 45), width(1.53, 55), width(2.03, 61), full(3)), burn(width(1, 46)))
	b := candle("B", 7, nil, burn(width(1.1, 50), width(3.1, 80)))
	got := compare.PoolsOf(unjudged(a, b), 1)
	if d := cmp.Diff([]quantity.Hours{1, 1.5, 2, 3}, got.Hours); d != "" {
		t.Fatal(d)
	}
	want := [][][]int{{{45, 55, 61, 100}, {50, -1, -1, 80}}, {{46, -1, -1, -1}, {-1, -1, -1, -1}}}
	for i, row := range got.Burns {
		for k, c := range row.Cells {
			if d := cmp.Diff(want[i][k], ratios(c)); d != "" {
				t.Errorf("burn %d, column %d:\n%s", row.Number, k, d)
			}
		}
	}
	if c := got.Burns[1].Cells; c[0].Burned != 1 || c[1].Burned != 0 {
		t.Errorf("lit %d and %d times", c[0].Burned, c[1].Burned)
	}
}

// Two checks in one place: the nearer stays, and the other is counted. Where
// there are many half hours, whole hours are shown.
func TestPlacesAreShared(t *testing.T) {
	t.Parallel()
	a := candle("A", 6, nil, burn(width(1.9, 60), width(2.05, 61)))
	got := compare.PoolsOf(unjudged(a, a), 1)
	if c := got.Burns[0].Cells[0]; c.More != 1 || c.Pools[0].Ratio != 0.61 || c.Pools[0].Check == nil {
		t.Errorf("%+v", c)
	}
	var cs []journal.Check
	for i := 1; i <= 7; i++ {
		cs = append(cs, width(float64(i)/2, 40+float64(i)))
	}
	many := compare.PoolsOf(unjudged(candle("A", 6, nil, burn(cs...)), a), 1)
	if d := cmp.Diff([]quantity.Hours{1, 2, 3, 4}, many.Hours); d != "" {
		t.Error(d)
	}
	if c := many.Burns[0].Cells[0]; c.More != 3 {
		t.Errorf("%d checks found no place, want 3", c.More)
	}
}

// A pairing's pool is the middle of its candles, a full one counted as the
// wall; readings left out by hand do not count in it, nor do those in a strong
// draught or after the flame was out. A candle shows all of its own.
func TestPoolsOfAPairing(t *testing.T) {
	t.Parallel()
	left := leftOut(width(1, 20))
	windy := candle("D", 6, func(l *journal.CandleLog) { l.Burns[0].Burn.Draught = journal.DraughtStrong }, burn(width(1, 10), width(2, 10)))
	short := candle("E", 6, func(l *journal.CandleLog) { l.Burns[0].Burn.OutAt = ptr(lit.Add(30 * time.Minute)) }, burn(width(1, 10), width(2, 10)))
	logs := []journal.CandleLog{candle("A", 6, nil, burn(width(1, 40), width(2, 60))), candle("B", 6, nil, burn(width(1, 50), full(2))), candle("C", 6, nil, burn(left, width(2, 70))), windy, short}
	p := compare.OfPairing(*pairings(t, logs...)[6], logs)
	c := compare.PoolsOf([]compare.Side{p, p}, 1).Burns[0].Cells[0]
	one, two := c.Pools[0], c.Pools[1]
	if one.N != 2 || one.Ratio != 0.45 || one.Low != 0.4 || one.High != 0.5 || one.Check != nil {
		t.Errorf("at one hour %+v", one)
	}
	if two.N != 3 || two.Ratio != 0.7 || two.High != 1 || two.Full != 1 || c.Burned != 5 || c.More != 0 {
		t.Errorf("at two hours %+v of %d", two, c.Burned)
	}
	own := compare.PoolsOf(unjudged(logs[2], logs[3]), 1).Burns[0].Cells
	if a, b := own[0].Pools[0], own[1].Pools[0]; a.Ratio != 0.2 || a.Check == nil || !a.Check.LeftOut || b.Ratio != 0.1 {
		t.Errorf("candles by themselves: %+v, %+v", a, b)
	}
}
