package tree_test

import (
	"context"
	"errors"
	"strconv"
	"sync"
	"testing"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// alike compares reports within a tolerance of chances and log widths, and one
// of widths in mm.
func alike(t *testing.T, got, want []tree.Report, share, width float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d reports, want %d", len(got), len(want))
	}
	for i := range want {
		s, w := apart(got[i].Rungs, want[i].Rungs)
		near(t, "series "+strconv.Itoa(i)+", chances and log widths apart", s, 0, share)
		near(t, "series "+strconv.Itoa(i)+", widths apart", w, 0, width)
	}
}

func TestDeskIsUsedAgain(t *testing.T) {
	t.Parallel()
	ss := season(3, 4).series
	d := tree.NewDesk(tree.Default())
	first := tell(t, d, ss...)
	t.Run("for the same readings", func(t *testing.T) {
		alike(t, tell(t, d, ss...), first, 0, 0)
		alike(t, tell(t, tree.NewDesk(tree.Default()), ss...), first, 1e-12, 1e-9)
	})
	t.Run("for a check more", func(t *testing.T) {
		more := append([]tree.Series{}, ss...)
		more[1] = deep(ss[1])
		c := more[1].Pairings[0].Candles[0]
		c[0] = append(c[0], meltpool.Reading{Hour: 5, Full: true})
		got := tell(t, d, more...)
		alike(t, got, tell(t, tree.NewDesk(tree.Default()), more...), 1e-12, 1e-9)
		if s, _ := apart(got[1].Rungs, first[1].Rungs); s == 0 {
			t.Error("the check more changed nothing")
		}
		if s, _ := apart(got[0].Rungs, first[0].Rungs); s == 0 {
			t.Error("the other series did not hear of it")
		}
	})
	t.Run("for fewer series and for all again", func(t *testing.T) {
		alike(t, tell(t, d, ss[2:]...), tell(t, tree.NewDesk(tree.Default()), ss[2:]...), 1e-12, 1e-9)
		alike(t, tell(t, d, ss...), first, 1e-12, 1e-9)
	})
	t.Run("for a series that was not weighed", func(t *testing.T) {
		w, err := d.Weigh(t.Context(), ss)
		if err != nil {
			t.Fatal(err)
		}
		other := season(77, 1).series[0]
		rs, err := w.Reports(t.Context(), other)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range rs[0].Rungs {
			sound(t, other, f)
		}
	})
	t.Run("for nothing", func(t *testing.T) {
		if rs := tell(t, d); len(rs) != 0 {
			t.Errorf("%d reports", len(rs))
		}
	})
}

// Leaving out what carries little weight costs at most half a hundredth.
func TestDeskLeavesOutLittle(t *testing.T) {
	t.Parallel()
	t.Run("of eight series", func(t *testing.T) {
		t.Parallel()
		ss := season(12, 8).series
		alike(t, tell(t, tree.NewDesk(tree.Default()), ss...), tell(t, tree.NewExactDesk(tree.Default()), ss...), 5e-3, 0.3)
	})
	t.Run("of the hand-made cases", func(t *testing.T) {
		t.Parallel()
		for _, g := range readGolden(t) {
			s := g.series(t)
			got := tell(t, tree.NewDesk(tree.Default()), s)[0]
			for _, f := range got.Rungs {
				a := g.Answers[strconv.Itoa(f.Rung)]
				near(t, g.Case+", theta", f.Theta, a.Theta, 5e-3)
				near(t, g.Case+", sd", f.ThetaSD, a.SD, 5e-3)
				near(t, g.Case+", full", f.FullByTarget, a.Full, 5e-3)
				near(t, g.Case+", on target", f.OnTarget, a.Target, 5e-3)
				near(t, g.Case+", miss", f.Miss(), a.Miss, 5e-3)
				if a.Closest != nil {
					near(t, g.Case+", closest", f.Closest, *a.Closest, 5e-3)
				}
			}
		}
	})
	t.Run("of a journal so large that it is sampled", func(t *testing.T) {
		t.Parallel()
		ss := journal(2, 76)
		if _, burns, _ := count(ss); burns < 3000 {
			t.Fatalf("only %d burns", burns)
		}
		d := tree.NewDesk(tree.Default())
		told := func(d *tree.Desk) []tree.Report {
			w, err := d.Weigh(t.Context(), ss)
			if err != nil {
				t.Fatal(err)
			}
			rs, err := w.Reports(t.Context(), ss[3], ss[40], ss[69])
			if err != nil {
				t.Fatal(err)
			}
			return rs
		}
		alike(t, told(d), told(tree.NewExactDesk(tree.Default())), 5e-3, 0.3)
		// What was left out is looked at again when it is no longer hopeless.
		alike(t, tell(t, d, ss[40:44]...), tell(t, tree.NewDesk(tree.Default()), ss[40:44]...), 1e-12, 1e-9)
	})
}

// Two settings may hold the very same readings, or both none yet; several pages
// may ask at once. It is the race detector that fails here.
func TestDeskServesSeveralAtOnce(t *testing.T) {
	t.Parallel()
	ss := season(3, 2).series
	ss = append(ss, ss[0], glass(80), glass(80))
	d := tree.NewDesk(tree.Default())
	w, err := d.Weigh(t.Context(), ss)
	if err != nil {
		t.Fatal(err)
	}
	var group sync.WaitGroup
	for range 4 {
		group.Go(func() {
			rs, err := w.Reports(t.Context(), ss...)
			if err != nil {
				t.Error(err)
				return
			}
			if s, _ := apart(rs[0].Rungs, rs[2].Rungs); s > 1e-12 {
				t.Errorf("the same readings, %g apart", s)
			}
		})
		group.Go(func() {
			if _, err := d.Weigh(t.Context(), ss[:2]); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
	p := tree.Default()
	p.Shapes = only(1)
	alike(t, tell(t, tree.NewDesk(p), ss[0], ss[0])[:1], tell(t, tree.NewDesk(p), ss[0], deep(ss[0]))[1:], 1e-12, 1e-9)
}

func TestDeskStopsWhenToldTo(t *testing.T) {
	t.Parallel()
	ctx, stop := context.WithCancel(t.Context())
	stop()
	d, ss := tree.NewDesk(tree.Default()), season(3, 2).series
	if _, err := d.Weigh(ctx, ss); !errors.Is(err, context.Canceled) {
		t.Fatalf("weigh: %v", err)
	}
	alike(t, tell(t, d, ss...), tell(t, tree.NewDesk(tree.Default()), ss...), 1e-12, 1e-9)
	w, err := d.Weigh(t.Context(), ss)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Reports(ctx, ss...); !errors.Is(err, context.Canceled) {
		t.Fatalf("report: %v", err)
	}
}

// Two vessels of one width may have different target hours: neither hears of
// the other's.
func TestTargetHoursAreKeptApart(t *testing.T) {
	t.Parallel()
	early := single(80, 2, [][]tree.Burn{{{{Hour: 1, Ratio: 0.6}, {Hour: 2, Ratio: 0.8}}}})
	late := single(80, 4, [][]tree.Burn{{{{Hour: 1, Ratio: 0.6}, {Hour: 2, Ratio: 0.8}}}})
	d := tree.NewDesk(tree.Default())
	both, err := d.Weigh(t.Context(), []tree.Series{early, late})
	if err != nil {
		t.Fatal(err)
	}
	got, err := both.Reports(t.Context(), early, late)
	if err != nil {
		t.Fatal(err)
	}
	if a, b := got[0].Rungs[0].Width.P50, got[1].Rungs[0].Width.P50; !(a < b-3) {
		t.Errorf("%.1f mm at 2 h, %.1f mm at 4 h", a, b)
	}
}

// single is a series of a single rung.
func single(mm, target float64, candles [][]tree.Burn) tree.Series {
	return tree.Series{Wall: meltpool.Wall{Width: quantity.Millimetres(mm), Target: quantity.Hours(target)}, Ruler: 1, Pairings: []tree.Pairing{{Rung: 1, Candles: candles}}}
}
