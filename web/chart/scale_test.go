package chart

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestTicksAreAsAHandWouldDivide(t *testing.T) {
	t.Parallel()
	// Divided by hand after the rule that 1, 2 and 5 times a power of ten make
	// readable axes (common practice, no source).
	for _, c := range []struct {
		name   string
		lo, hi float64
		n      int
		steps  []float64
		want   []float64
	}{
		{"tenths without the noise of 3 × 0.1", 0, 0.52, 6, nil, []float64{0, 0.1, 0.2, 0.3, 0.4, 0.5}},
		{"four hours", 0, 4, 6, nil, []float64{0, 1, 2, 3, 4}},
		{"a tumbler in millimetres", 0, 83.8, 5, nil, []float64{0, 20, 40, 60, 80}},
		{"masses that do not begin at zero", 305, 420, 5, nil, []float64{350, 400}},
		{"a tumbler in inches, by the ruler", 0, 3.3, 5, InchSteps, []float64{0, 1, 2, 3}},
		{"a tea light in inches, by quarters", 0, 1.1, 5, InchSteps, []float64{0, 0.25, 0.5, 0.75, 1}},
		{"six quarters are too many for five", 0, 1.3, 5, InchSteps, []float64{0, 0.5, 1}},
		{"inches past the ruler's steps", 0, 100, 5, InchSteps, []float64{0, 50, 100}},
		{"both sides of zero", -3, 3, 3, nil, []float64{-2, 0, 2}},
		{"no room for any", 0, 4, 0, nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			got := NewScale(c.lo, c.hi, 0, 100).Ticks(c.n, c.steps)
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("ticks of [%g, %g] (-want +got):\n%s", c.lo, c.hi, diff)
			}
		})
	}
}

func TestScaleWidensWhatHasNoLength(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ lo, hi, min, max float64 }{
		{5, 5, 4.5, 5.5},
		{3, 1, 1, 3},
		{math.NaN(), 2, 0, 1},
		{0, math.Inf(1), 0, 1},
		{-math.MaxFloat64, math.MaxFloat64, 0, 1},
	} {
		got := NewScale(c.lo, c.hi, 0, 1)
		if got.Min != c.min || got.Max != c.max {
			t.Errorf("NewScale(%g, %g) spans [%g, %g], want [%g, %g]", c.lo, c.hi, got.Min, got.Max, c.min, c.max)
		}
	}
}

// drawnScale is a scale over any readings that a chart takes.
func drawnScale(t *rapid.T) Scale {
	lo := rapid.Float64Range(-largest, largest).Draw(t, "lo")
	hi := rapid.Float64Range(-largest, largest).Draw(t, "hi")
	from := rapid.Float64Range(0, 300).Draw(t, "from")
	return NewScale(lo, hi, from, from+rapid.Float64Range(50, 900).Draw(t, "length"))
}

func TestUnmapUndoesMap(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawnScale(t)
		x := s.Min + rapid.Float64Range(0, 1).Draw(t, "share")*(s.Max-s.Min)
		tol := 1e-9 * math.Max(s.Max-s.Min, math.Max(math.Abs(s.Min), math.Abs(s.Max)))
		if got := s.Unmap(s.Map(x)); math.Abs(got-x) > tol {
			t.Fatalf("Unmap(Map(%g)) = %g", x, got)
		}
		if s.Map(s.Min) != s.From || math.Abs(s.Map(s.Max)-s.To) > 1e-9 {
			t.Fatalf("ends map to %g and %g, want %g and %g", s.Map(s.Min), s.Map(s.Max), s.From, s.To)
		}
	})
}

func TestTicksRiseEvenlyInsideTheScale(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawnScale(t)
		n := rapid.IntRange(2, 12).Draw(t, "n")
		ticks := s.Ticks(n, nil)
		if len(ticks) > n {
			t.Fatalf("%d ticks, at most %d wanted", len(ticks), n)
		}
		for i, v := range ticks {
			if !s.Inside(v) {
				t.Fatalf("tick %g outside [%g, %g]", v, s.Min, s.Max)
			}
			if i > 0 && v <= ticks[i-1] {
				t.Fatalf("ticks do not rise: %v", ticks)
			}
			if i > 1 && math.Abs((v-ticks[i-1])-(ticks[1]-ticks[0])) > 1e-6*(s.Max-s.Min) {
				t.Fatalf("ticks are not even: %v", ticks)
			}
		}
	})
}
