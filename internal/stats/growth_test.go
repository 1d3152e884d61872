package stats

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// grown fits a curve that must exist.
func grown(t rapid.TB, x, y []float64) Growth {
	t.Helper()
	g, err := FitGrowth(x, y, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// squares is what a curve leaves over, straight from its formula.
func squares(x, y []float64, plateau, rate float64) (sum float64) {
	for i := range x {
		sum += math.Pow(y[i]-plateau*(1-math.Exp(-rate*x[i])), 2)
	}
	return sum
}

// TestCertifiedGrowth holds the fit against the certified values of NIST StRD,
// nonlinear regression, Misra1a (Misra, D., 1978, dental research) and BoxBOD
// (Box, Hunter & Hunter, Statistics for Experimenters, 1978, pp. 483-487).
func TestCertifiedGrowth(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		file                                      string
		n, df                                     int
		plateau, plateauSE, rate, rateSE, rss, sd float64
	}{
		{"strd_misra1a.csv", 14, 12, 2.3894212918e+02, 2.7070075241e+00, 5.5015643181e-04, 7.2668688436e-06, 1.2455138894e-01, 1.0187876330e-01},
		{"strd_boxbod.csv", 6, 4, 2.1380940889e+02, 1.2354515176e+01, 5.4723748542e-01, 1.0455993237e-01, 1.1680088766e+03, 1.7088072423e+01},
	} {
		t.Run(c.file, func(t *testing.T) {
			t.Parallel()
			g := grown(t, column(t, c.file, "x"), column(t, c.file, "y"))
			within(t, "plateau", g.Plateau, c.plateau, 1e-10)
			within(t, "rate", g.Rate, c.rate, 1e-10)
			within(t, "se of the plateau", g.PlateauSE, c.plateauSE, 1e-9)
			within(t, "se of the rate", g.RateSE, c.rateSE, 1e-9)
			within(t, "RSS", g.RSS, c.rss, 1e-10)
			within(t, "residual sd", g.ResidualSD, c.sd, 1e-9)
			within(t, "slope at 0", g.Start, c.plateau*c.rate, 1e-10)
			if g.N != c.n || g.DF != c.df || !g.HasPlateau || !g.HasRate || !g.HasSE || !g.HasLimits || len(g.Warnings) != 0 {
				t.Errorf("got %+v", g)
			}
		})
	}
}

// TestGrowthCovariance: BoxBOD by R 4.2.2, vcov(nls(...)), which stopped at seven
// digits, and confint(nls(...)), which draws a spline through the profile: the
// plateau's limits come within 1e-4, the rate's within 3e-3 of what the profile
// itself says (next test).
func TestGrowthCovariance(t *testing.T) {
	t.Parallel()
	g := grown(t, column(t, "strd_boxbod.csv", "x"), column(t, "strd_boxbod.csv", "y"))
	within(t, "variance of the plateau", g.PlateauVar, 152.634107764656, 1e-5)
	within(t, "covariance", g.Covar, -0.942805156205, 1e-5)
	within(t, "variance of the rate", g.RateVar, 0.0109327712583, 1e-5)
	within(t, "lower plateau", g.PlateauLow, 180.976905372326, 1e-4)
	within(t, "upper plateau", g.PlateauHigh, 258.5806224542, 1e-4)
	within(t, "lower rate", g.RateLow, 0.303290149306, 3e-3)
	within(t, "upper rate", g.RateHigh, 1.0733458959, 3e-3)
}

// TestGrowthLimitsByTheirMeaning works the limits of BoxBOD a second way, by
// plain formula and fine steps: at each limit of one number, whatever the other,
// the least sum of squares is RSS (1 + t^2 / df) (Bates & Watts, Nonlinear
// Regression Analysis, 1988, ch. 6, from memory; t of 4 df 2.776445105, any
// table).
func TestGrowthLimitsByTheirMeaning(t *testing.T) {
	t.Parallel()
	x, y := column(t, "strd_boxbod.csv", "x"), column(t, "strd_boxbod.csv", "y")
	g := grown(t, x, y)
	const certified, student = 1.1680088766e+03, 2.776445105
	bound := certified * (1 + student*student/4)
	for _, plateau := range []float64{g.PlateauLow, g.PlateauHigh} {
		least := math.Inf(1)
		for rate := 0.1; rate < 3; rate += 1e-5 {
			least = math.Min(least, squares(x, y, plateau, rate))
		}
		within(t, "least at a plateau", least, bound, 1e-7)
	}
	for _, rate := range []float64{g.RateLow, g.RateHigh} {
		least := math.Inf(1)
		for plateau := 150.0; plateau < 300; plateau += 1e-3 {
			least = math.Min(least, squares(x, y, plateau, rate))
		}
		within(t, "least at a rate", least, bound, 1e-7)
	}
}

func TestGrowthWithoutAPlateau(t *testing.T) {
	t.Parallel()
	const none = "no plateau seen: the points rise along a straight line or steeper"
	t.Run("a straight line has a slope and no plateau", func(t *testing.T) {
		t.Parallel()
		g := grown(t, []float64{1, 2, 3, 4}, []float64{2, 4, 6, 8})
		if g.HasPlateau || g.HasLimits || g.HasSE || !math.IsInf(g.Plateau, 1) || g.Rate != 0 || g.Start != 2 || g.At(10) != 20 || g.At(0) != 0 {
			t.Errorf("got %+v", g)
		}
		if !slices.Equal(g.Warnings, []string{none}) {
			t.Errorf("got warnings %q", g.Warnings)
		}
	})
	t.Run("so has what rises ever faster", func(t *testing.T) {
		t.Parallel()
		// The slope of least squares through the origin: (1 + 8 + 27 + 64) / (1 + 4 + 9 + 16).
		g := grown(t, []float64{0, 1, 2, 3, 4}, []float64{0, 1, 4, 9, 16})
		if g.HasPlateau || g.HasLimits || !slices.Contains(g.Warnings, none) {
			t.Errorf("got %+v", g)
		}
		within(t, "slope", g.Start, 100.0/30, 1e-14)
	})
	t.Run("a hint of a bend has a plateau without upper limit", func(t *testing.T) {
		t.Parallel()
		g := grown(t, []float64{1, 2, 3, 4}, []float64{1, 2.1, 2.9, 4.05})
		if !g.HasPlateau || g.HasLimits || !math.IsInf(g.PlateauHigh, 1) || g.RateLow != 0 || math.IsInf(g.PlateauLow, 0) || g.PlateauLow <= 4 {
			t.Errorf("got %+v", g)
		}
		if !slices.Equal(g.Warnings, []string{"the plateau has no upper limit: the points could still lie on a straight line"}) {
			t.Errorf("got warnings %q", g.Warnings)
		}
	})
}

// TestGrowthWithoutARate: level points are their own mean, with the limits of a
// mean: 3.0, 3.1, 2.9 and 3.0 have RSS 0.02; t of 2 df is 4.302653 (any table), s
// is 0.1, so the rate is open and the plateau may stray at least 0.1 x 4.302653 /
// 2 from 3.
func TestGrowthWithoutARate(t *testing.T) {
	t.Parallel()
	g := grown(t, []float64{1, 2, 3, 4}, []float64{3, 3.1, 2.9, 3})
	apart(t, "plateau", g.Plateau, 3, 1e-12)
	apart(t, "RSS", g.RSS, 0.02, 1e-12)
	apart(t, "lower plateau", g.PlateauLow, 3-4.302653*0.05, 1e-6)
	if g.HasRate || g.HasSE || !g.HasPlateau || !g.HasLimits || !math.IsInf(g.Rate, 1) || !math.IsInf(g.RateHigh, 1) || g.PlateauHigh < 3+4.302653*0.05 {
		t.Errorf("got %+v", g)
	}
	if g.At(0) != 0 || g.At(1) != g.Plateau {
		t.Errorf("the curve goes from %v to %v", g.At(0), g.At(1))
	}
	if !slices.Equal(g.Warnings, []string{"level from the first point on: how fast it rose is not known"}) {
		t.Errorf("got warnings %q", g.Warnings)
	}
	g = grown(t, []float64{1, 2, 3}, []float64{7, 7, 7})
	if g.HasRate || g.Plateau != 7 || g.RSS != 0 || !(math.Abs(g.PlateauLow-7) < 1e-9 && math.Abs(g.PlateauHigh-7) < 1e-9) {
		t.Errorf("equal points: got %+v", g)
	}
}

// TestGrowthWithAnOpenRate: 2.7, 3.1, 2.9 and 3.1 about their mean 2.95 have RSS
// 0.11, within RSS (1 + t^2 / df) = 0.0314 x (1 + 4.302653^2 / 2) = 0.322 of the
// curve (t of 2 df from any table): they could have been level all along.
func TestGrowthWithAnOpenRate(t *testing.T) {
	t.Parallel()
	g := grown(t, []float64{1, 2, 3, 4}, []float64{2.7, 3.1, 2.9, 3.1})
	apart(t, "RSS", g.RSS, 0.0314, 5e-5)
	if !g.HasRate || !g.HasLimits || !math.IsInf(g.RateHigh, 1) || math.IsInf(g.Rate, 1) {
		t.Errorf("got %+v", g)
	}
	if !slices.Equal(g.Warnings, []string{"the rate has no upper limit: the rise may have been over before the first point"}) {
		t.Errorf("got warnings %q", g.Warnings)
	}
}

func TestGrowthOfLittle(t *testing.T) {
	t.Parallel()
	t.Run("none, one, equal x and nothing have no curve", func(t *testing.T) {
		t.Parallel()
		for _, c := range [][2][]float64{{nil, nil}, {{1}, {2}}, {{3, 3}, {1, 2}}, {{0, 0, 3}, {0, 0, 2}}, {{1, 2, 3}, {0, 0, 0}}} {
			if _, err := FitGrowth(c[0], c[1], 0.95); !errors.Is(err, ErrTooFew) {
				t.Errorf("%v: got error %v", c, err)
			}
		}
	})
	t.Run("two points are met and have no interval", func(t *testing.T) {
		t.Parallel()
		// 1, then 1.5: half of what is left is made up in each hour, so 2 is the end.
		g := grown(t, []float64{1, 2}, []float64{1, 1.5})
		within(t, "plateau", g.Plateau, 2, 1e-12)
		within(t, "rate", g.Rate, math.Ln2, 1e-12)
		if g.DF != 0 || g.HasSE || g.HasLimits || g.ResidualSD != 0 || !slices.Equal(g.Warnings, []string{"two points only: no interval yet"}) {
			t.Errorf("got %+v", g)
		}
	})
	t.Run("what cannot be is an error of the caller", func(t *testing.T) {
		t.Parallel()
		good := []float64{1, 2, 3}
		for _, c := range []struct {
			x, y  []float64
			level float64
			says  string
		}{
			{good, []float64{1, 2}, 0.95, "3 x and 2 y"}, {[]float64{1, 2, math.NaN()}, good, 0.95, "not finite"},
			{good, []float64{1, 2, math.Inf(-1)}, 0.95, "not finite"}, {[]float64{-1, 2, 3}, good, 0.95, "below 0"},
			{good, good, 1, "level"}, {good, good, math.NaN(), "level"}, {[]float64{1e200, 2e200, 3e200}, good, 0.95, "a largest value of 3e+200"},
			{good, []float64{1, 2, 1e200}, 0.95, "a largest value of 1e+200"}, {[]float64{1e-12, 2, 3}, good, 0.95, "too far apart"},
			{good, []float64{1e-200, 2e-200, 0}, 0.95, "2e-200"},
		} {
			if g, err := FitGrowth(c.x, c.y, c.level); err == nil || errors.Is(err, ErrTooFew) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%v, %v, %v: got %+v, %v", c.x, c.y, c.level, g, err)
			}
		}
	})
	t.Run("whatever the points, no number is NaN and each limit is on its side", func(t *testing.T) {
		t.Parallel()
		rapid.Check(t, func(t *rapid.T) {
			n := rapid.IntRange(2, 8).Draw(t, "n")
			x := rapid.SliceOfN(rapid.Float64Range(0, 10), n, n).Draw(t, "x")
			y := rapid.SliceOfN(rapid.Float64Range(-10, 10), n, n).Draw(t, "y")
			g, err := FitGrowth(x, y, 0.95)
			if err != nil {
				return
			}
			for _, v := range []float64{g.Plateau, g.Rate, g.Start, g.RSS, g.ResidualSD, g.PlateauSE, g.RateSE, g.Covar, g.At(1)} {
				if math.IsNaN(v) {
					t.Fatalf("got %+v", g)
				}
			}
			slack := 1e-6 * math.Abs(g.Plateau)
			if !(g.RateLow <= g.Rate && g.Rate <= g.RateHigh) || g.HasPlateau && !(g.PlateauLow <= g.Plateau+slack && g.Plateau <= g.PlateauHigh+slack) {
				t.Fatalf("got %+v", g)
			}
		})
	})
}

// opening draws a curve and points about it.
func opening(t *rapid.T, noise float64) (x, y []float64, plateau, rate float64) {
	plateau, rate = rapid.Float64Range(20, 120).Draw(t, "plateau"), rapid.Float64Range(0.3, 2).Draw(t, "rate")
	looks := rapid.IntRange(4, 8).Draw(t, "looks")
	for h := 1; h <= looks; h++ {
		x = append(x, float64(h)/2)
		off := noise * rapid.Float64Range(-1, 1).Draw(t, "off")
		y = append(y, plateau*(1-math.Exp(-rate*float64(h)/2))+off)
	}
	return x, y, plateau, rate
}

func TestGrowthMovesWithItsPoints(t *testing.T) {
	t.Parallel()
	t.Run("a curve without scatter is found", rapid.MakeCheck(func(t *rapid.T) {
		x, y, plateau, rate := opening(t, 0)
		g := grown(t, x, y)
		same(t, "plateau", g.Plateau, plateau, plateau)
		same(t, "rate", g.Rate, rate, rate)
		same(t, "height at 3", g.At(3), plateau*(1-math.Exp(-3*rate)), plateau)
	}))
	t.Run("a scale scales it and the order does not matter", rapid.MakeCheck(func(t *rapid.T) {
		x, y, _, _ := opening(t, 2)
		wide, tall := rapid.Float64Range(0.01, 100).Draw(t, "wide"), rapid.Float64Range(0.01, 100).Draw(t, "tall")
		order := rapid.Permutation(indices(len(x))).Draw(t, "order")
		var px, py []float64
		for _, i := range order {
			px, py = append(px, x[i]*wide), append(py, y[i]*tall)
		}
		g, m := grown(t, x, y), grown(t, px, py)
		if g.HasLimits != m.HasLimits || g.HasRate != m.HasRate || g.HasPlateau != m.HasPlateau {
			t.Fatalf("got %+v and %+v", g, m)
		}
		if !g.HasPlateau {
			same(t, "slope", m.Start, g.Start*tall/wide, g.Start*tall/wide)
			return
		}
		same(t, "plateau", m.Plateau, g.Plateau*tall, g.Plateau*tall)
		same(t, "rate", m.Rate, g.Rate/wide, g.Rate/wide)
		same(t, "se of the plateau", m.PlateauSE, g.PlateauSE*tall, g.PlateauSE*tall)
		same(t, "se of the rate", m.RateSE, g.RateSE/wide, g.RateSE/wide)
		if g.HasLimits {
			same(t, "upper plateau", m.PlateauHigh, g.PlateauHigh*tall, g.PlateauHigh*tall)
			same(t, "lower plateau", m.PlateauLow, g.PlateauLow*tall, g.PlateauLow*tall)
		}
	}))
	t.Run("no curve near it leaves less", rapid.MakeCheck(func(t *rapid.T) {
		x, y, _, _ := opening(t, 5)
		g := grown(t, x, y)
		if !g.HasRate || !g.HasPlateau {
			return
		}
		plateau := g.Plateau * rapid.Float64Range(0.5, 2).Draw(t, "plateau by")
		rate := g.Rate * rapid.Float64Range(0.5, 2).Draw(t, "rate by")
		if left := squares(x, y, plateau, rate); left < g.RSS*(1-1e-9) {
			t.Fatalf("%v at rate %v leaves %v, the fit %v", plateau, rate, left, g.RSS)
		}
	}))
}
