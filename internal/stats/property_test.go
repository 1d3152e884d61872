package stats

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// weighing is a series of weighings that a scale to a tenth of a gram could
// give, at different times.
func weighing(t *rapid.T) (x, y []float64) {
	times := rapid.SliceOfNDistinct(rapid.IntRange(0, 300), 3, 12, rapid.ID[int]).Draw(t, "minutes")
	for _, m := range times {
		x = append(x, float64(m)/60)
		y = append(y, float64(rapid.IntRange(1000, 3000).Draw(t, "tenths"))/10)
	}
	return x, y
}

// fitted fits a line that must exist.
func fitted(t *rapid.T, x, y []float64) Line {
	l, err := FitLine(x, y, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// mapped applies f to every value.
func mapped(x []float64, f func(float64) float64) []float64 {
	out := make([]float64, len(x))
	for i, v := range x {
		out[i] = f(v)
	}
	return out
}

// same fails unless two numbers agree to a millionth of the size of things.
func same(t *rapid.T, what string, got, want, size float64) {
	if !(math.Abs(got-want) <= 1e-6*math.Max(size, 1e-3)) {
		t.Fatalf("%s: got %v, want %v", what, got, want)
	}
}

func TestLineMovesWithItsPoints(t *testing.T) {
	t.Parallel()
	t.Run("a shift leaves slope, scatter and bend alone", rapid.MakeCheck(func(t *rapid.T) {
		x, y := weighing(t)
		by := rapid.Float64Range(-1e4, 1e4).Draw(t, "by")
		l := fitted(t, x, y)
		up := fitted(t, x, mapped(y, func(v float64) float64 { return v + by }))
		later := fitted(t, mapped(x, func(v float64) float64 { return v + by }), y)
		same(t, "intercept, y shifted", up.Intercept, l.Intercept+by, math.Abs(l.Intercept)+math.Abs(by))
		same(t, "intercept, x shifted", later.Intercept, l.Intercept-l.Slope*by, math.Abs(l.Slope*by)+math.Abs(l.Intercept))
		for _, m := range []Line{up, later} {
			same(t, "slope", m.Slope, l.Slope, math.Abs(l.Slope)+l.SlopeSE)
			same(t, "se", m.SlopeSE, l.SlopeSE, l.SlopeSE)
			same(t, "residual sd", m.ResidualSD, l.ResidualSD, l.ResidualSD)
			same(t, "bend", m.Bend, l.Bend, 1)
		}
	}))
	t.Run("a scale scales them", rapid.MakeCheck(func(t *rapid.T) {
		x, y := weighing(t)
		by := rapid.Float64Range(0.01, 100).Draw(t, "by")
		times := func(v float64) float64 { return v * by }
		l, tall, wide := fitted(t, x, y), fitted(t, x, mapped(y, times)), fitted(t, mapped(x, times), y)
		same(t, "slope, y scaled", tall.Slope, l.Slope*by, math.Abs(l.Slope*by)+l.SlopeSE*by)
		same(t, "slope, x scaled", wide.Slope, l.Slope/by, math.Abs(l.Slope/by)+l.SlopeSE/by)
		same(t, "low end", tall.SlopeLow, l.SlopeLow*by, math.Abs(l.SlopeLow*by)+l.SlopeSE*by)
		same(t, "R2", tall.R2, l.R2, 1)
		same(t, "bend, y scaled", tall.Bend, l.Bend, 1)
		same(t, "bend, x scaled", wide.Bend, l.Bend, 1)
	}))
	t.Run("the order of points does not matter", rapid.MakeCheck(func(t *rapid.T) {
		x, y := weighing(t)
		order := rapid.Permutation(indices(len(x))).Draw(t, "order")
		var px, py []float64
		for _, i := range order {
			px, py = append(px, x[i]), append(py, y[i])
		}
		l, m := fitted(t, x, y), fitted(t, px, py)
		same(t, "slope", m.Slope, l.Slope, math.Abs(l.Slope)+l.SlopeSE)
		same(t, "intercept", m.Intercept, l.Intercept, math.Abs(l.Intercept))
		same(t, "bend", m.Bend, l.Bend, 1)
	}))
	t.Run("more confidence is a wider interval about the slope", rapid.MakeCheck(func(t *rapid.T) {
		x, y := weighing(t)
		l := fitted(t, x, y)
		wide, err := FitLine(x, y, 0.99)
		if err != nil || wide.SlopeLow > l.SlopeLow || wide.SlopeHigh < l.SlopeHigh || l.SlopeLow > l.Slope || l.SlopeHigh < l.Slope {
			t.Fatalf("got %v to %v within %v to %v, %v", l.SlopeLow, l.SlopeHigh, wide.SlopeLow, wide.SlopeHigh, err)
		}
		if l.R2 < -1e-12 || l.R2 > 1 || l.Bend < 0 || l.Bend > 1 {
			t.Fatalf("got R2 %v, p of a bend %v", l.R2, l.Bend)
		}
	}))
}

func indices(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func TestSummaryMovesWithItsValues(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Float64Range(-1e3, 1e3), 2, 30).Draw(t, "x")
		by, scale := rapid.Float64Range(-1e6, 1e6).Draw(t, "by"), rapid.Float64Range(0.01, 100).Draw(t, "scale")
		s, up := Summarise(x), Summarise(mapped(x, func(v float64) float64 { return v + by }))
		big := Summarise(mapped(x, func(v float64) float64 { return v * scale }))
		mixed := Summarise(rapid.Permutation(x).Draw(t, "order"))
		same(t, "mean, shifted", up.Mean, s.Mean+by, math.Abs(s.Mean)+math.Abs(by))
		same(t, "sd, shifted", up.SD, s.SD, s.SD)
		same(t, "mean, scaled", big.Mean, s.Mean*scale, 1e3*scale)
		same(t, "sd, scaled", big.SD, s.SD*scale, s.SD*scale)
		same(t, "mean, in another order", mixed.Mean, s.Mean, 1e3)
		same(t, "sd, in another order", mixed.SD, s.SD, s.SD)
		if s.Min > s.Mean+1e-9 || s.Max < s.Mean-1e-9 || mixed.Min != s.Min || mixed.Max != s.Max {
			t.Fatalf("got %+v", s)
		}
	})
}

// TestIntervalsCoverAtTheirStatedRate draws straight burns with normal noise
// from a fixed seed: nineteen of twenty intervals hold the true value, and one
// line in twenty is called bent that is not.
func TestIntervalsCoverAtTheirStatedRate(t *testing.T) {
	t.Parallel()
	const rounds = 4000
	const rate, mass = -6.3, 182.0
	random := rand.New(rand.NewPCG(1, 2))
	var slopes, means, bends float64
	for range rounds {
		var x, y []float64
		for i := range 6 {
			x, y = append(x, float64(i)), append(y, mass+rate*float64(i)+random.NormFloat64())
		}
		l, err := FitLine(x, y, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		if l.SlopeLow <= rate && rate <= l.SlopeHigh {
			slopes++
		}
		if unsteady(l) {
			bends++
		}
		var sample []float64
		for range 3 {
			sample = append(sample, rate+random.NormFloat64())
		}
		if low, high, ok := Summarise(sample).MeanInterval(0.95); ok && low <= rate && rate <= high {
			means++
		}
	}
	// Four standard errors of a share of one in twenty: 4 sqrt(0.05 x 0.95 / 4000).
	const slack = 0.0138
	apart(t, "slopes held", slopes/rounds, 0.95, slack)
	apart(t, "means held", means/rounds, 0.95, slack)
	apart(t, "straight lines called bent", bends/rounds, BendLimit, slack)
}
