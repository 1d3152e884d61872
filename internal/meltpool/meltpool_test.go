package meltpool_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

func mm(v float64) *quantity.Millimetres { m := quantity.Millimetres(v); return &m }

var tumbler = meltpool.Vessel{Length: 76.2, Width: 76.2}

func near(t *testing.T, name string, got, want, tol float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > tol {
		t.Errorf("%s: got %v, want %v (within %v)", name, got, want, tol)
	}
}

// A pool of 60 mm in a vessel of 76.2 mm covers 78.7 % of the width: 60/76.2 =
// 0.78740 (worked by hand).
func TestReachOfRoundPool(t *testing.T) {
	t.Parallel()
	ratio, oneAxis, ok := meltpool.Reach(tumbler, mm(60), mm(60), false)
	if !ok || oneAxis {
		t.Fatalf("ok %v, one axis %v", ok, oneAxis)
	}
	near(t, "width", ratio, 0.7874, 5e-5)
}

func TestReach(t *testing.T) {
	t.Parallel()
	oval := meltpool.Vessel{Length: 120, Width: 80}
	for _, c := range []struct {
		name    string
		v       meltpool.Vessel
		a, b    *quantity.Millimetres
		full    bool
		ratio   float64
		oneAxis bool
		ok      bool
	}{
		// 90/120 = 0.75 and 40/80 = 0.5: sqrt(0.375) = 0.612372.
		{"two axes of an oval: geometric mean", oval, mm(90), mm(40), false, 0.612372, false, true},
		{"length alone stands for both", oval, mm(90), nil, false, 0.75, true, true},
		{"width alone stands for both", oval, nil, mm(40), false, 0.5, true, true},
		{"a full pool is the wall, whatever was measured", oval, mm(90), nil, true, 1, false, true},
		{"a full pool needs no width", oval, nil, nil, true, 1, false, true},
		{"never wider than the vessel", oval, mm(121), mm(80), false, 1, false, true},
		{"no pool at all is a reading", oval, mm(0), mm(0), false, 0, false, true},
		{"nothing measured", oval, nil, nil, false, 0, false, false},
		{"a vessel without width", meltpool.Vessel{}, mm(3), mm(3), false, 0, false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			ratio, oneAxis, ok := meltpool.Reach(c.v, c.a, c.b, c.full)
			if oneAxis != c.oneAxis || ok != c.ok {
				t.Errorf("one axis %v, ok %v", oneAxis, ok)
			}
			near(t, "ratio", ratio, c.ratio, 1e-6)
		})
	}
}

func TestIsFull(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		a, b  *quantity.Millimetres
		tick  bool
		ruler quantity.Millimetres
		want  bool
	}{
		{"ticked", nil, nil, true, 1, true},
		{"both half a step below the wall", mm(75.7), mm(75.7), false, 1, true},
		{"both just further from it", mm(75.6), mm(75.6), false, 1, false},
		{"one of two short", mm(76), mm(75), false, 1, false},
		{"the other of two short", mm(75), mm(76), false, 1, false},
		{"one axis at the wall stands for both", mm(76), nil, false, 1, true},
		{"one axis short of it", nil, mm(75), false, 1, false},
		{"a coarser ruler", mm(75.45), mm(75.45), false, 25.4 / 16, true},
		{"nothing measured", nil, nil, false, 1, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := meltpool.IsFull(tumbler, c.a, c.b, c.tick, c.ruler); got != c.want {
				t.Errorf("got %v", got)
			}
		})
	}
}

// Swapping the axes together with the vessel's sides, and measuring in another
// unit, change nothing.
func TestReachProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		l, w := rapid.Float64Range(10, 500).Draw(t, "l"), rapid.Float64Range(10, 500).Draw(t, "w")
		a, b := rapid.Float64Range(0, 500).Draw(t, "a"), rapid.Float64Range(0, 500).Draw(t, "b")
		v := meltpool.Vessel{Length: quantity.Millimetres(l), Width: quantity.Millimetres(w)}
		turned := meltpool.Vessel{Length: v.Width, Width: v.Length}
		scaled := meltpool.Vessel{Length: v.Length * 25.4, Width: v.Width * 25.4}
		one, _, _ := meltpool.Reach(v, mm(a), mm(b), false)
		two, _, _ := meltpool.Reach(turned, mm(b), mm(a), false)
		three, _, _ := meltpool.Reach(scaled, mm(a*25.4), mm(b*25.4), false)
		if math.Abs(one-two) > 1e-12 || math.Abs(one-three) > 1e-12 || one < 0 || one > 1 {
			t.Fatalf("%v, turned %v, scaled %v", one, two, three)
		}
	})
}
