package compare_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// A candle's curve goes near its own readings, from nothing at lighting to
// where half of its burns were read, its range about its mean.
func TestCurveOfACandle(t *testing.T) {
	t.Parallel()
	s := judged(t, candle("A", 6, nil, reads(78), reads(82), burn(width(1, 54), width(2, 71))))
	c := compare.Curve(s[0], 4)
	if len(c) != 25 || c[0].Mid != 0 || c[24].Hour != 3 {
		t.Fatalf("%d points to %v h", len(c), c[len(c)-1].Hour)
	}
	for i, want := range map[int]float64{8: 54.7, 16: 71, 24: 80} { // the means of what was read at 1, 2 and 3 h
		if p := c[i]; math.Abs(p.Mid-want) > 2 || p.Low > p.Mid || p.High < p.Mid {
			t.Errorf("at %v h %+v, read %v", p.Hour, p, want)
		}
	}
	// One of three burns was read after 2 h: the curve ends there.
	short := burn(width(1, 54), width(2, 71))
	if c := compare.Curve(judged(t, candle("A", 6, nil, reads(78), short, short))[0], 4); len(c) != 17 || c[16].Hour != 2 {
		t.Errorf("a curve of %d points", len(c))
	}
	if none := compare.Curve(unjudged(candle("A", 6, nil))[0], 4); len(none) > 0 {
		t.Errorf("a candle that was never lit has the curve %v", none)
	}
	if full := compare.Curve(judged(t, candle("A", 6, nil, burn(full(1))))[0], 4); len(full) > 0 {
		t.Errorf("a candle that was only seen full has the curve %v", full)
	}
}

func TestCurveOfAPairing(t *testing.T) {
	t.Parallel()
	logs := []journal.CandleLog{candle("A", 6, nil, reads(78), reads(80)), candle("B", 6, nil, reads(79))}
	p := pairings(t, logs...)[6]
	c := compare.Curve(compare.OfPairing(*p, logs), 4)
	if len(c) != 32 || math.Abs(c[23].Mid-p.Next.P50) > 0.5 || math.Abs(c[23].Low-p.Next.P10) > 0.5 || !(c[31].Mid > c[23].Mid) {
		t.Errorf("%d points, at %v h %+v, next %+v", len(c), c[23].Hour, c[23], p.Next)
	}
	shut := []journal.CandleLog{candle("A", 9, nil, burn(full(1)))}
	for _, x := range compare.Curve(compare.OfPairing(*pairings(t, shut...)[9], shut), 1) {
		if x.Mid != x.Low || x.High != x.Low {
			t.Errorf("a lower bound with a range: %+v", x)
		}
	}
}

// Burns are joined end to end: two of one hour each, then readings an
// hour into the third stand at three hours.
func TestCourses(t *testing.T) {
	t.Parallel()
	seen := check(1, func(c *journal.Check) {
		c.Flame, c.Soot, c.LeftOut = ptr(quantity.Millimetres(22)), "thread", true
	})
	s := unjudged(candle("A", 6, nil, burned(6), burned(5), burn(seen)))[0]
	for n, want := range map[compare.CourseName][]compare.CoursePoint{
		compare.MassCourse:     {{Lit: 0, Burn: 1, Value: 100}, {Lit: 1, Burn: 1, Value: 94}, {Lit: 1, Burn: 2, Value: 100}, {Lit: 2, Burn: 2, Value: 95}},
		compare.FlameCourse:    {{Lit: 3, Burn: 3, Value: 22, LeftOut: true}},
		compare.SootCourse:     {{Lit: 3, Burn: 3, Value: 2, LeftOut: true}},
		compare.MushroomCourse: nil,
		compare.DepthCourse:    nil,
	} {
		if d := cmp.Diff(want, compare.Course(s, n)); d != "" {
			t.Errorf("%s (-want +got):\n%s", n, d)
		}
	}
}

// After a burn that has no end nobody knows how many hours came before the
// next: a course stops with it.
func TestACourseStopsAtABurnWithoutAnEnd(t *testing.T) {
	t.Parallel()
	s := unjudged(candle("A", 6, func(l *journal.CandleLog) { l.Burns[1].Burn.OutAt = nil }, burned(6), burned(5), burned(4)))[0]
	want := []compare.CoursePoint{{Lit: 0, Burn: 1, Value: 100}, {Lit: 1, Burn: 1, Value: 94}, {Lit: 1, Burn: 2, Value: 100}}
	if d := cmp.Diff(want, compare.Course(s, compare.MassCourse)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}
