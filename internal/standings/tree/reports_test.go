package tree_test

import (
	"math"
	"slices"
	"testing"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.6g, want %.6g within %.3g", what, got, want, within)
	}
}

// tell weighs series together on a desk and has them all reported.
func tell(t testing.TB, d *tree.Desk, ss ...tree.Series) []tree.Report {
	t.Helper()
	w, err := d.Weigh(t.Context(), ss)
	if err != nil {
		t.Fatal(err)
	}
	rs, err := w.Reports(t.Context(), ss...)
	if err != nil {
		t.Fatal(err)
	}
	return rs
}

// alone are the figures of one series by itself, nothing left out.
func alone(t testing.TB, p tree.Prior, s tree.Series) []tree.Figures {
	t.Helper()
	return tell(t, tree.NewExactDesk(p), s)[0].Rungs
}

// glass is a vessel with a ladder in it, whose ruler has whole millimetres.
func glass(d float64, ps ...tree.Pairing) tree.Series {
	return tree.Series{
		Wall:  meltpool.Wall{Width: quantity.Millimetres(d), Target: quantity.Hours(min(d/25.4, 4))},
		Ruler: 1, Pairings: ps,
	}
}

func mm(d, hour, width float64) meltpool.Reading {
	return meltpool.Reading{Hour: quantity.Hours(hour), Ratio: width / d}
}

func full(hour float64) meltpool.Reading {
	return meltpool.Reading{Hour: quantity.Hours(hour), Full: true}
}

func only(v float64) []tree.Weighted { return []tree.Weighted{{Value: v, Weight: 1}} }

// apart is the largest difference between two sets of figures: in chances and
// log widths, and in widths in mm.
func apart(a, b []tree.Figures) (share, width float64) {
	for i := range a {
		x, y := a[i], b[i]
		for _, d := range [][2]float64{
			{x.Theta, y.Theta}, {x.ThetaSD, y.ThetaSD}, {x.Never, y.Never}, {x.FullByTarget, y.FullByTarget},
			{x.FullBeforeHalf, y.FullBeforeHalf}, {x.OnTarget, y.OnTarget}, {x.Short, y.Short}, {x.Soon, y.Soon}, {x.Closest, y.Closest},
		} {
			share = max(share, math.Abs(d[0]-d[1]))
		}
		for _, d := range [][2]float64{
			{x.Width.P10, y.Width.P10}, {x.Width.P50, y.Width.P50}, {x.Width.P90, y.Width.P90},
			{x.Next.P10, y.Next.P10}, {x.Next.P50, y.Next.P50}, {x.Next.P90, y.Next.P90},
		} {
			width = max(width, math.Abs(d[0]-d[1]))
		}
	}
	if len(a) != len(b) {
		return math.Inf(1), math.Inf(1)
	}
	return share, width
}

// deep copies a series, so that it can be changed.
func deep(s tree.Series) tree.Series {
	s.Pairings = slices.Clone(s.Pairings)
	for i := range s.Pairings {
		cs := slices.Clone(s.Pairings[i].Candles)
		for j := range cs {
			cs[j] = slices.Clone(cs[j])
			for k := range cs[j] {
				cs[j][k] = slices.Clone(cs[j][k])
			}
		}
		s.Pairings[i].Candles = cs
	}
	return s
}
