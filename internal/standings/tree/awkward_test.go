package tree_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/standings/tree"
)

// sound holds figures to what must be so whatever was read.
func sound(t *testing.T, s tree.Series, f tree.Figures) {
	t.Helper()
	d := float64(s.Wall.Width)
	for what, v := range map[string]float64{
		"theta": f.Theta, "sd": f.ThetaSD, "short": f.Short, "soon": f.Soon,
		"width 10": f.Width.P10, "width 50": f.Width.P50, "width 90": f.Width.P90,
		"next 10": f.Next.P10, "next 50": f.Next.P50, "next 90": f.Next.P90,
	} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("rung %d: %s is %g", f.Rung, what, v)
		}
	}
	for what, v := range map[string]float64{
		"never": f.Never, "full by the hour": f.FullByTarget, "full before half": f.FullBeforeHalf, "on target": f.OnTarget, "closest": f.Closest,
	} {
		if !(v >= 0 && v <= 1+1e-9) {
			t.Errorf("rung %d: a chance of %g %s", f.Rung, v, what)
		}
	}
	for what, p := range map[string]tree.Points{"width": f.Width, "next": f.Next, "hours": f.Full} {
		if !(0 < p.P10 && p.P10 <= p.P50 && p.P50 <= p.P90) {
			t.Errorf("rung %d: %s %v out of order", f.Rung, what, p)
		}
	}
	if !(f.ThetaSD >= 0 && f.Short >= 0 && f.Soon >= 0) {
		t.Errorf("rung %d: sd %g, short %g, soon %g", f.Rung, f.ThetaSD, f.Short, f.Soon)
	}
	near(t, "on target", f.OnTarget, f.FullByTarget-f.FullBeforeHalf, 1e-12)
	// A next pool wider than the wall at the hour is a full one.
	if f.Next.P10 > 1.01*d && f.FullByTarget < 0.89 || f.Next.P50 > 1.01*d && f.FullByTarget < 0.49 ||
		f.Next.P90 < 0.99*d && f.FullByTarget > 0.11 || f.Next.P50 < 0.99*d && f.FullByTarget > 0.51 {
		t.Errorf("rung %d: next pool %v mm in %g mm, but a chance of %.3f to be full", f.Rung, f.Next, d, f.FullByTarget)
	}
	band(t, f)
}

// band holds the drawn band to what must be so.
func band(t *testing.T, f tree.Figures) {
	t.Helper()
	before := tree.Points{}
	for i, p := range f.Band([]quantity.Hours{0, 0.1, 1, 3, 24}) {
		if !(p.P10 >= before.P10-1e-9 && p.P10 <= p.P50 && p.P50 <= p.P90) || math.IsInf(p.P90, 0) || i > 0 && p.P10 <= 0 {
			t.Errorf("rung %d: band %d is %v after %v", f.Rung, i, p, before)
		}
		before = p
	}
}

// curve is a burn read every hour, of a pool with a log width and a rate.
func curve(d, theta, rate float64, hours int) tree.Burn {
	wall := glass(d).Wall
	var b tree.Burn
	for h := 1; h <= hours; h++ {
		pool := d * math.Exp(theta+meltpool.Curve(1).Ahead(math.Log(rate), quantity.Hours(h), wall.Target))
		if pool >= d-0.5 {
			b = append(b, full(float64(h)))
		} else {
			b = append(b, mm(d, float64(h), math.Round(pool)))
		}
	}
	return b
}

func candles(cs ...[]tree.Burn) [][]tree.Burn { return cs }

func ladder(rungs int, slope float64) []tree.Pairing {
	var ps []tree.Pairing
	for r := range rungs {
		ps = append(ps, tree.Pairing{Rung: r, Candles: candles([]tree.Burn{curve(80, slope*float64(r-rungs/2), 0.9, 4)})})
	}
	return ps
}

func awkward() map[string]tree.Series {
	usual := curve(80, 0, 0.9, 4)
	with := func(d float64, cs ...[]tree.Burn) tree.Series {
		return glass(d, tree.Pairing{Rung: 3, Candles: cs}, tree.Pairing{Rung: 4})
	}
	at := func(target float64, s tree.Series) tree.Series {
		s.Wall.Target = quantity.Hours(target)
		return s
	}
	zero := tree.Burn{mm(80, 1, 0), mm(80, 2, 0), mm(80, 3, 0)}
	return map[string]tree.Series{
		"no pairings":                 glass(80),
		"pairings without candles":    glass(80, tree.Pairing{Rung: 1}, tree.Pairing{Rung: 2}),
		"candles without burns":       glass(80, tree.Pairing{Rung: 1, Candles: candles(nil, nil)}),
		"one check":                   with(80, []tree.Burn{{mm(80, 2, 60)}}),
		"one full check":              with(80, []tree.Burn{{full(2)}}),
		"all full":                    with(80, slices.Repeat([]tree.Burn{{full(1), full(2), full(3)}}, 6)),
		"all full at once":            with(80, slices.Repeat([]tree.Burn{{full(0.02)}}, 6)),
		"no pool ever":                with(80, slices.Repeat([]tree.Burn{zero}, 6)),
		"one candle":                  with(80, []tree.Burn{usual, usual}),
		"an empty candle beside one":  with(80, []tree.Burn{usual}, nil),
		"a rung missing":              glass(80, ladder(2, 0.07)[0], tree.Pairing{Rung: 4, Candles: candles([]tree.Burn{usual})}, tree.Pairing{Rung: 2}),
		"ten thousand checks":         with(80, []tree.Burn{slices.Repeat(usual, 2500)}),
		"a reading at lighting":       with(80, []tree.Burn{{mm(80, 0, 0), mm(80, 1, 40)}}),
		"half a glass at lighting":    with(80, []tree.Burn{{mm(80, 0, 40), full(0)}}),
		"hours out of order":          with(80, []tree.Burn{{full(4), mm(80, 1, 40), mm(80, 3, 70), mm(80, 2, 60)}}),
		"the same hour twice":         with(80, []tree.Burn{{mm(80, 2, 40), mm(80, 2, 70), mm(80, 2, 60)}}),
		"a pool that shrinks":         with(80, []tree.Burn{{full(1), mm(80, 2, 50), mm(80, 3, 20)}}),
		"after a week":                with(80, []tree.Burn{{mm(80, 170, 60)}}),
		"wider than the wall":         with(80, []tree.Burn{{mm(80, 2, 70), mm(80, 3, 84)}}),
		"fast against slow":           with(80, []tree.Burn{curve(80, -0.05, 0.3, 6)}, []tree.Burn{curve(80, -0.05, 3, 6)}),
		"narrow against wide":         with(80, []tree.Burn{curve(80, -0.8, 0.9, 6)}, []tree.Burn{curve(80, 0.8, 0.9, 6)}),
		"narrow against wide at once": with(80, []tree.Burn{curve(80, -0.8, 0.9, 6), curve(80, 0.8, 0.9, 6)}),
		"slow against fast, often": glass(80,
			tree.Pairing{Rung: 1, Candles: candles(slices.Repeat([]tree.Burn{curve(80, -0.1, 0.3, 6)}, 10))},
			tree.Pairing{Rung: 2, Candles: candles(slices.Repeat([]tree.Burn{curve(80, -0.1, 3, 6)}, 10))}),
		"a ladder upside down":        glass(80, ladder(8, -0.2)...),
		"thirty rungs, steep":         glass(80, ladder(30, 0.06)...),
		"rungs far apart":             glass(80, ladder(1, 0)[0], tree.Pairing{Rung: 200, Candles: candles([]tree.Burn{usual})}),
		"far rungs not tested":        glass(80, ladder(1, 0)[0], tree.Pairing{Rung: 40}, tree.Pairing{Rung: -40}, tree.Pairing{Rung: 1000}),
		"a target hour of minutes":    at(0.1, with(80, []tree.Burn{usual})),
		"a target hour late at night": at(8, with(80, []tree.Burn{usual})),
		"a thimble":                   with(20, []tree.Burn{curve(20, -0.1, 0.9, 3)}),
		"a thimble, no pool":          with(20, []tree.Burn{{mm(20, 1, 0)}}),
		"a trough":                    with(400, []tree.Burn{curve(400, -0.1, 0.9, 4)}),
	}
}

func TestAwkward(t *testing.T) {
	t.Parallel()
	for name, s := range awkward() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := tell(t, tree.NewExactDesk(tree.Default()), s)[0]
			if len(r.Rungs) != len(s.Pairings) || len(r.Burns) != len(s.Pairings) {
				t.Fatalf("%d rungs and %d fits for %d pairings", len(r.Rungs), len(r.Burns), len(s.Pairings))
			}
			for i, f := range r.Rungs {
				sound(t, s, f)
				fitted(t, fmt.Sprintf("rung %d", f.Rung), s.Pairings[i], r.Burns[i])
			}
		})
	}
}

// fitted holds the fitted curves to what must be so.
func fitted(t *testing.T, at string, p tree.Pairing, fits [][]tree.BurnFit) {
	t.Helper()
	for i, c := range p.Candles {
		for j, b := range c {
			f := fits[i][j]
			if math.IsNaN(f.Theta) || math.IsNaN(f.LogRate) || len(f.Checks) != len(b) {
				t.Errorf("%s, candle %d, burn %d: fitted %g at rate %g with %d checks", at, i, j, f.Theta, f.LogRate, len(f.Checks))
				continue
			}
			for k, x := range f.Checks {
				if math.IsNaN(float64(x.Width)) || math.IsInf(x.Residual, 0) || math.IsNaN(x.Residual) != b[k].Full {
					t.Errorf("%s, candle %d, burn %d, check %d: %+v", at, i, j, k, x)
				}
			}
		}
	}
}
