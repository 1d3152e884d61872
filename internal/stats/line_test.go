package stats

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

// unsteady reports whether the line carries the warning of a bend.
func unsteady(l Line) bool {
	return slices.ContainsFunc(l.Warnings, func(w string) bool { return strings.HasPrefix(w, "not steady") })
}

// TestNorris holds the fit against the certified values of NIST StRD, data set
// Norris (36 points, calibration of ozone monitors). The limits of the slope
// are from R 4.2.2, confint(lm(y ~ x)).
func TestNorris(t *testing.T) {
	t.Parallel()
	x, y := column(t, "strd_norris.csv", "x"), column(t, "strd_norris.csv", "y")
	l, err := FitLine(x, y, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "slope", l.Slope, 1.00211681802045, 1e-10)
	within(t, "intercept", l.Intercept, -0.262323073774029, 1e-10)
	within(t, "se of the slope", l.SlopeSE, 0.429796848199937e-03, 1e-9)
	within(t, "se of the intercept", l.InterceptSE, 0.232818234301152, 1e-9)
	within(t, "residual sd", l.ResidualSD, 0.884796396144373, 1e-9)
	within(t, "R2", l.R2, 0.999993745883712, 1e-12)
	apart(t, "lower limit of the slope", l.SlopeLow, 1.001243365736, 1e-9)
	apart(t, "upper limit of the slope", l.SlopeHigh, 1.002990270305, 1e-9)
	if l.N != 36 || !l.HasInterval || l.Level != 0.95 {
		t.Errorf("got n %d, interval %v at %v", l.N, l.HasInterval, l.Level)
	}
	if len(l.Warnings) != 0 {
		t.Errorf("a calibration line that NIST certifies as straight carries %q (p of a bend %v)", l.Warnings, l.Bend)
	}
}

// The masses of a small candle weighed every ten minutes (a worked example in
// the Pearson study guide to general, organic and biological chemistry,
// "Candle mass loss").
var (
	candleMinutes = []float64{0, 10, 20, 30, 40, 50}
	candleGrams   = []float64{9.66, 9.22, 8.88, 8.61, 8.40, 8.20}
)

// TestCandle: the guide calls this line straight; its intervals fall from 2.64
// to 1.20 g/h. The numbers are least squares by hand from the guide's data
// (t of 4 df 2.77645, any table of Student's t).
func TestCandle(t *testing.T) {
	t.Parallel()
	l, err := FitLine(candleMinutes, candleGrams, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	apart(t, "slope in g/min", l.Slope, -0.0286571, 5e-8)
	apart(t, "burn rate in g/h", -60*l.Slope, 1.71943, 5e-6)
	apart(t, "intercept in g", l.Intercept, 9.544762, 5e-7)
	apart(t, "R2", l.R2, 0.975213, 5e-7)
	apart(t, "se in g/min", l.SlopeSE, 0.00228434, 5e-9)
	apart(t, "lower limit in g/h", -60*l.SlopeHigh, 1.339, 5e-4)
	apart(t, "upper limit in g/h", -60*l.SlopeLow, 2.100, 5e-4)
	if !unsteady(l) {
		t.Errorf("rates that fall by half pass as steady (p of a bend %v)", l.Bend)
	}
}

// TestBendOfTheCandle works the chance of a bend a second way: orthogonal
// polynomials for six equal steps (Fisher & Yates, Statistical Tables: linear
// -5 -3 -1 1 3 5, squared 5 -1 -4 -4 -1 5, from memory) and the closed form of
// Student's t with 3 degrees of freedom.
func TestBendOfTheCandle(t *testing.T) {
	t.Parallel()
	dot := func(a, b []float64) (s float64) {
		for i := range a {
			s += a[i] * b[i]
		}
		return s
	}
	ones, linear, squared := []float64{1, 1, 1, 1, 1, 1}, []float64{-5, -3, -1, 1, 3, 5}, []float64{5, -1, -4, -4, -1, 5}
	rss := dot(candleGrams, candleGrams)
	for _, c := range [][]float64{ones, linear, squared} {
		rss -= math.Pow(dot(c, candleGrams), 2) / dot(c, c)
	}
	ratio := dot(squared, candleGrams) / math.Sqrt(dot(squared, squared)) / math.Sqrt(rss/3)
	u := math.Abs(ratio) / math.Sqrt(3)
	want := 1 - 2/math.Pi*(u/(1+u*u)+math.Atan(u))
	l, err := FitLine(candleMinutes, candleGrams, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "p of a bend", l.Bend, want, 1e-6)
}

func TestFewPoints(t *testing.T) {
	t.Parallel()
	t.Run("none, one and equal times have no line", func(t *testing.T) {
		t.Parallel()
		for _, c := range [][2][]float64{{nil, nil}, {{1}, {2}}, {{3, 3, 3}, {1, 2, 3}}} {
			if _, err := FitLine(c[0], c[1], 0.95); !errors.Is(err, ErrTooFew) {
				t.Errorf("%v: got error %v, want ErrTooFew", c, err)
			}
		}
	})
	t.Run("two points have a slope and no interval", func(t *testing.T) {
		t.Parallel()
		l, err := FitLine([]float64{0, 4}, []float64{182, 156}, 0.95)
		if err != nil || l.Slope != -6.5 || l.Intercept != 182 || l.HasInterval || l.SlopeLow != 0 || l.SlopeHigh != 0 || l.Bend != 1 {
			t.Errorf("got %+v, %v", l, err)
		}
		if !slices.Equal(l.Warnings, []string{"two points only: no interval yet"}) {
			t.Errorf("got warnings %q", l.Warnings)
		}
	})
	t.Run("three points have an interval and cannot show a bend", func(t *testing.T) {
		t.Parallel()
		// y = 0, 0, 3 at x = 0, 1, 2: slope 1.5, residuals .5 -1 .5, so RSS 1.5, sd of the slope sqrt(1.5/2);
		// t of 1 df at 95 % is 12.7062 (any table).
		l, err := FitLine([]float64{0, 1, 2}, []float64{0, 0, 3}, 0.95)
		if err != nil || !l.HasInterval || l.Bend != 1 || len(l.Warnings) != 0 {
			t.Fatalf("got %+v, %v", l, err)
		}
		within(t, "half-width", (l.SlopeHigh-l.SlopeLow)/2, 12.7062*math.Sqrt(0.75), 1e-5)
	})
	t.Run("a mass that never changes has slope nothing", func(t *testing.T) {
		t.Parallel()
		l, err := FitLine([]float64{0, 1, 2, 3, 4}, []float64{180, 180, 180, 180, 180}, 0.95)
		if err != nil || l.Slope != 0 || l.SlopeSE != 0 || l.SlopeLow != 0 || l.SlopeHigh != 0 || l.R2 != 1 || unsteady(l) {
			t.Errorf("got %+v, %v", l, err)
		}
	})
	t.Run("two times only cannot show a bend", func(t *testing.T) {
		t.Parallel()
		if l, err := FitLine([]float64{0, 0, 4, 4}, []float64{182, 183, 156, 158}, 0.95); err != nil || l.Bend != 1 || unsteady(l) {
			t.Errorf("got %+v, %v", l, err)
		}
	})
	t.Run("lengths that differ are an error of the caller", func(t *testing.T) {
		t.Parallel()
		if _, err := FitLine([]float64{0, 1}, []float64{1}, 0.95); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("got error %v", err)
		}
	})
	t.Run("what is not finite is an error of the caller", func(t *testing.T) {
		t.Parallel()
		for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			if l, err := FitLine([]float64{0, 1, bad}, []float64{1, 2, 3}, 0.95); err == nil || errors.Is(err, ErrTooFew) {
				t.Errorf("x %v: got %+v", bad, l)
			}
			if l, err := FitLine([]float64{0, 1, 2}, []float64{1, bad, 3}, 0.95); err == nil || errors.Is(err, ErrTooFew) {
				t.Errorf("y %v: got %+v", bad, l)
			}
		}
	})
}

func TestStraightPointsAreSteadyWhateverTheirRounding(t *testing.T) {
	t.Parallel()
	for n := 4; n <= 12; n++ {
		for step := 1; step < 300; step++ {
			var x, y []float64
			for i := range n {
				x, y = append(x, float64(i)/3), append(y, 182.4-float64(i)*float64(step)*0.07)
			}
			if l, err := FitLine(x, y, 0.95); err != nil || unsteady(l) {
				t.Errorf("%d points, step %d: exactly straight points are called %q (p %v), %v", n, step, l.Warnings, l.Bend, err)
			}
		}
	}
}

func TestACleanBendIsNotSteady(t *testing.T) {
	t.Parallel()
	var x, y []float64
	for i := range 6 {
		x, y = append(x, float64(i)), append(y, float64(i*i))
	}
	if l, err := FitLine(x, y, 0.95); err != nil || !unsteady(l) {
		t.Errorf("a parabola without noise passes as steady (p %v), %v", l.Bend, err)
	}
}
