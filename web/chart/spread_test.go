package chart

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func TestNamesAreSpreadAboutTheirMarks(t *testing.T) {
	t.Parallel()
	// By hand: names keep 15.5 apart, and a crowded run stays centred on the
	// mean of its marks.
	for _, c := range []struct {
		name  string
		marks []*point
		want  []float64
	}{
		{"far apart stay where they are", []*point{{9, 10}, {9, 50}}, []float64{10, 50}},
		{"two at one place part evenly", []*point{{9, 40}, {9, 40}}, []float64{32.25, 47.75}},
		{"three in any order", []*point{{9, 52}, {9, 50}, {9, 51}}, []float64{66.5, 35.5, 51}},
		{"at other hours there is room", []*point{{9, 40}, {90, 40}}, []float64{40, 40}},
		{"a burn without a name", []*point{nil, {9, 40}}, []float64{0, 40}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			if diff := cmp.Diff(c.want, spread(c.marks)); diff != "" {
				t.Errorf("heights (-want +got):\n%s", diff)
			}
		})
	}
}

func TestSpreadKeepsDistanceAndMean(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var marks []*point
		before := 0.0
		for range rapid.IntRange(1, 9).Draw(t, "n") {
			y := rapid.Float64Range(0, 300).Draw(t, "y")
			before += y
			marks = append(marks, &point{9, y})
		}
		got, after := spread(marks), 0.0
		for i, a := range got {
			after += a
			for j, b := range got[:i] {
				if math.Abs(a-b) < apartBy-1e-6 {
					t.Fatalf("names %d and %d stand %g apart", j, i, math.Abs(a-b))
				}
				if (marks[i].y-marks[j].y)*(a-b) < 0 {
					t.Fatalf("names %d and %d have changed places", j, i)
				}
			}
		}
		if math.Abs(before-after) > 1e-6 {
			t.Fatalf("the mean has moved by %g", after-before)
		}
	})
}
