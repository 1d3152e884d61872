package grid_test

import (
	"fmt"
	"math"
	"testing"

	"rimward/internal/grid"
)

// bell is a normal density on the grid.
func bell(mean, sd float64) *grid.Line {
	var l grid.Line
	for i := range l {
		z := (grid.Width(i) - mean) / sd
		l[i] = math.Exp(-z*z/2) / (sd * math.Sqrt(2*math.Pi)) * grid.WidthStep
	}
	return &l
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g within %g", what, got, want, within)
	}
}

func TestGrid(t *testing.T) {
	t.Parallel()
	near(t, "first width", grid.Width(0), -1, 0)
	near(t, "middle width", grid.Width(100), 0, 0)
	near(t, "last width", grid.Width(grid.Widths-1), 1, 0)
	near(t, "middle rate", grid.LogRate(9, 0.9), math.Log(0.9), 1e-15)
	near(t, "first rate", grid.LogRate(0, 0.9), math.Log(0.9)-1.35, 1e-12)
	near(t, "last rate", grid.LogRate(18, 0.9), math.Log(0.9)+1.35, 1e-12)
}

func TestPriorsAddUp(t *testing.T) {
	t.Parallel()
	for _, sd := range []float64{1e-6, 0.1, 0.4, 30} {
		t.Run(fmt.Sprintf("sd %g", sd), func(t *testing.T) {
			t.Parallel()
			near(t, "widths", grid.Normal(sd).Sum(), 1, 1e-12)
			sum, tr := 0.0, grid.NewTransition(sd)
			rate := grid.RatePrior(sd)
			for j := range rate {
				sum += rate[j]
				row := 0.0
				for i := range rate {
					row += tr.At(j, i)
				}
				near(t, fmt.Sprintf("transition row %d", j), row, 1, 1e-12)
			}
			near(t, "rates", sum, 1, 1e-12)
			through := 0.0
			for _, v := range tr.Through(rate) {
				through += v
			}
			near(t, "rates one transition on", through, 1, 1e-12)
		})
	}
	t.Run("a wide prior is flat", func(t *testing.T) {
		t.Parallel()
		near(t, "ratio", grid.Normal(1e6)[0]/grid.Normal(1e6)[100], 1, 1e-9)
	})
}

// Variances add: what was normal with 0.3 is normal with 0.5 after a deviation
// of 0.4. Rates are cut off three deviations from the middle, which a hundredth
// allows for.
func TestTransitionsAddVariance(t *testing.T) {
	t.Parallel()
	got := grid.NewTransition(0.24).Through(grid.RatePrior(0.32))
	for j, want := range grid.RatePrior(0.4) {
		near(t, fmt.Sprintf("rate %d", j), got[j], want, 2e-3)
	}
}

// 1.281552 and 1.644854 standard deviations leave 10 % and 5 % of a normal
// distribution above them (NIST/SEMATECH e-Handbook, table 1.3.6.7.1).
func TestQuantilesOfNormals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ mean, sd float64 }{{0, 0.05}, {-0.338, 0.0863}, {0.25, 0.15}, {0.403, 0.02}} {
		l := bell(c.mean, c.sd)
		mean, sd := l.Moments()
		near(t, "mean", mean, c.mean, 1e-5)
		near(t, "sd", sd, c.sd, 1e-4*c.sd+1e-6)
		for share, z := range map[float64]float64{0.05: -1.644854, 0.1: -1.281552, 0.5: 0, 0.9: 1.281552, 0.95: 1.644854} {
			// straight lines within steps of a hundredth err by up to
			// step²/8 times the slope of the density, over the density
			near(t, fmt.Sprintf("quantile %g of N(%g, %g)", share, c.mean, c.sd), l.Quantile(share), c.mean+z*c.sd, 1.25e-5*1.7/c.sd+1e-6)
		}
		above := l.Above()
		for _, z := range []float64{-2, -1, 0, 0.3, 1, 2} {
			want := math.Erfc(z/math.Sqrt2) / 2
			near(t, fmt.Sprintf("above %g sd", z), above.At(c.mean+z*c.sd), want, 0.03*math.Pow(grid.WidthStep/c.sd, 2)+1e-6)
		}
	}
}

func TestAboveAtTheEnds(t *testing.T) {
	t.Parallel()
	above := bell(0, 0.2).Above()
	near(t, "far below", above.At(-7), above[0], 0)
	near(t, "no number", above.At(math.NaN()), above[0], 0)
	near(t, "minus infinity", above.At(math.Inf(-1)), above[0], 0)
	near(t, "far above", above.At(7), 0, 0)
	near(t, "plus infinity", above.At(math.Inf(1)), 0, 0)
	near(t, "last edge", above.At(1.005), 0, 1e-12)
	near(t, "within the last step", above.At(1), above[grid.Widths-1]/2, 1e-15)
}

func TestQuantileOfOnePoint(t *testing.T) {
	t.Parallel()
	var l grid.Line
	l[120] = 3
	near(t, "lower end", l.Quantile(0), 0.195, 1e-12)
	near(t, "middle", l.Quantile(0.5), 0.2, 1e-12)
	near(t, "upper end", l.Quantile(1), 0.205, 1e-12)
	mean, sd := l.Moments()
	near(t, "mean", mean, 0.2, 1e-12)
	near(t, "sd", sd, 0, 1e-12)
	var nothing grid.Line
	near(t, "of nothing", nothing.Quantile(0.5), 1, 0)
}

func TestSpan(t *testing.T) {
	t.Parallel()
	var l grid.Line
	l[50], l[51], l[52], l[60] = 1, 1e-13, 1, 1e-13
	if lo, hi := l.Span(); lo != 50 || hi != 53 {
		t.Errorf("from %d to %d, want 50 to 53", lo, hi)
	}
	near(t, "max", l.Max(), 1, 0)
}

// What is carried adds up to what it did, wherever it lay, and is wider by the
// deviation.
func TestCarry(t *testing.T) {
	t.Parallel()
	for _, sd := range []float64{0, 1e-6, 0.002, 0.004, 0.025, 0.08, 0.3} {
		for _, mean := range []float64{-0.99, -0.4, 0, 0.9, 1} {
			t.Run(fmt.Sprintf("sd %g about %g", sd, mean), func(t *testing.T) {
				t.Parallel()
				src := bell(mean, 0.06)
				var dst grid.Line
				grid.NewKernel(sd).Carry(&dst, src)
				near(t, "sum", dst.Sum(), src.Sum(), 1e-9)
			})
		}
	}
	t.Run("variances add", func(t *testing.T) {
		t.Parallel()
		var dst grid.Line
		grid.NewKernel(0.08).Carry(&dst, bell(0.1, 0.06))
		mean, sd := dst.Moments()
		near(t, "mean", mean, 0.1, 1e-9)
		// cut off at four deviations a normal loses 0.05 % of its own sd
		near(t, "sd", sd, 0.1, 5e-5)
	})
	t.Run("adds to what is there", func(t *testing.T) {
		t.Parallel()
		dst, src := *bell(0, 0.1), bell(0.2, 0.1)
		before := dst.Sum()
		grid.NewKernel(0.05).Carry(&dst, src)
		near(t, "sum", dst.Sum(), before+src.Sum(), 1e-9)
	})
}

// Onto goes over points or over the kernel; both are the same sum, and lose
// what leaves the line.
func TestOnto(t *testing.T) {
	t.Parallel()
	k := grid.NewKernel(0.05)
	weight := make([]float64, 2*k.Half()+1)
	k.Onto(weight, k.Half(), []float64{1})
	for _, n := range []int{1, 5, 41, 42, 150} {
		for _, at := range []int{-30, -3, 0, 60, 190, 230} {
			src := make([]float64, n)
			for i := range src {
				src[i] = 1 + math.Sin(float64(i))
			}
			got, want := make([]float64, grid.Widths), make([]float64, grid.Widths)
			k.Onto(got, at, src)
			for i, v := range src {
				for m, w := range weight {
					if to := at + i + m - k.Half(); to >= 0 && to < len(want) {
						want[to] += v * w
					}
				}
			}
			for i := range want {
				if math.Abs(got[i]-want[i]) > 1e-12 {
					t.Fatalf("%d points at %d: %g at %d, want %g", n, at, got[i], i, want[i])
				}
			}
		}
	}
}

func TestLineSums(t *testing.T) {
	t.Parallel()
	a, b := *bell(0, 0.1), bell(0.1, 0.1)
	// the integral of the product of N(0, s²) and N(0.1, s²) is a normal
	// density with 2s² at their distance
	near(t, "dot", a.Dot(b), math.Exp(-0.01/4/0.01)/(0.1*math.Sqrt2*math.Sqrt(2*math.Pi))*grid.WidthStep, 1e-9)
	a.AddScaled(2, b)
	near(t, "sum", a.Sum(), 3, 1e-9)
	a.Scale(0.5)
	near(t, "scaled", a.Sum(), 1.5, 1e-9)
}
