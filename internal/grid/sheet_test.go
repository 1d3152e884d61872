package grid_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"rimward/internal/grid"
)

// dense is a sheet written out in full, with nothing left out or cut off.
type dense [grid.Rates][grid.Widths]float64

// hill is a bell over rate and log width: what a burn that was read well says.
func hill(rate, width, sd float64) func(j, i int) float64 {
	return func(j, i int) float64 {
		a, b := (float64(j)-rate)/2.5, (grid.Width(i)-width)/sd
		return math.Exp(-(a*a + b*b) / 2)
	}
}

// cliff is a step up in the log width: what a pool that was found full says.
func cliff(width, sd, least float64) func(j, i int) float64 {
	return func(_, i int) float64 {
		return least + (1-least)/(1+math.Exp(-(grid.Width(i)-width)/sd))
	}
}

func sheetOf(f func(j, i int) float64) (*grid.Sheet, *dense) {
	s, d := new(grid.Sheet), new(dense)
	s.Open()
	for j := range d {
		for i := range d[j] {
			d[j][i] = f(j, i)
			s.Row(j)[i] = d[j][i]
		}
	}
	s.Trim()
	return s, d
}

func (d *dense) max() float64 {
	top := 0.0
	for j := range d {
		for _, v := range d[j] {
			top = max(top, v)
		}
	}
	return top
}

// same compares a sheet with one written out in full, within a share of the
// largest value.
func same(t *testing.T, s *grid.Sheet, d *dense, within float64) {
	t.Helper()
	top := d.max()
	for j := range d {
		for i, want := range d[j] {
			if got := s.Row(j)[i] * math.Exp(s.Log); !(math.Abs(got-want) <= within*top) {
				t.Fatalf("rate %d, width %d: %g, want %g within %g of the largest", j, i, got, want, within)
			}
		}
	}
}

// exact is as near as sums of a few hundred numbers come, Cut included.
const exact = 1e-11

func TestSheet(t *testing.T) {
	t.Parallel()
	shapes := map[string]func(j, i int) float64{
		"a bell in the middle":   hill(9, 0.1, 0.03),
		"a bell at the edge":     hill(2, -0.97, 0.05),
		"a full pool":            cliff(0.02, 0.02, 1e-3),
		"a full pool, no slips":  cliff(0.3, 0.01, 0),
		"a far slope, very high": func(j, i int) float64 { return 1e180 * hill(15, 0.6, 0.2)(j, i) },
	}
	for name, f := range shapes {
		t.Run(name+" is kept as written", func(t *testing.T) {
			t.Parallel()
			s, d := sheetOf(f)
			same(t, s, d, exact)
		})
		t.Run(name+" is spread as by a matrix", func(t *testing.T) {
			t.Parallel()
			for _, sd := range []float64{0.025, 0.065, 0.12} {
				s, d := sheetOf(f)
				got := new(grid.Sheet)
				got.Spread(s, grid.NewKernel(sd))
				// Four standard deviations hold all but 6.3e-5 of a normal
				// density (common tables); what is beyond goes to the rest.
				same(t, got, matrix(d, sd), 1.3e-4)
			}
		})
		t.Run(name+" is mixed as by a matrix", func(t *testing.T) {
			t.Parallel()
			for _, sd := range []float64{0.05, 0.12, 0.5} {
				s, d := sheetOf(f)
				tr := grid.NewTransition(sd)
				got, want := new(grid.Sheet), new(dense)
				got.Mix(s, tr)
				for j := range want {
					for i := range want[j] {
						for k := range grid.Rates {
							want[j][i] += tr.At(j, k) * d[k][i]
						}
					}
				}
				same(t, got, want, exact)
			}
		})
	}
}

// matrix is N(x_i; x_j, sd²) dx, all of it, times what is spread.
func matrix(d *dense, sd float64) *dense {
	out := new(dense)
	for j := range d {
		for i := range d[j] {
			for k, v := range d[j] {
				z := (grid.Width(i) - grid.Width(k)) / sd
				out[j][i] += math.Exp(-z*z/2) / (sd * math.Sqrt(2*math.Pi)) * grid.WidthStep * v
			}
		}
	}
	return out
}

func TestTimes(t *testing.T) {
	t.Parallel()
	t.Run("is a product point by point", func(t *testing.T) {
		t.Parallel()
		s, d := sheetOf(hill(9, 0.1, 0.05))
		for _, f := range []func(j, i int) float64{cliff(0.05, 0.02, 1e-3), hill(7, 0, 0.08), hill(12, 0.2, 0.1)} {
			o, e := sheetOf(f)
			s.Times(o)
			for j := range d {
				for i := range d[j] {
					d[j][i] *= e[j][i]
				}
			}
		}
		same(t, s, d, exact)
	})
	t.Run("a flat sheet changes nothing", func(t *testing.T) {
		t.Parallel()
		s, d := sheetOf(hill(4, 0.3, 0.03))
		var flat grid.Sheet
		flat.Flat()
		s.Times(&flat)
		same(t, s, d, exact)
		flat.Times(s)
		same(t, &flat, d, exact)
	})
	t.Run("factors that contradict each other may come in any order", func(t *testing.T) {
		t.Parallel()
		a, _ := sheetOf(hill(9, -0.5, 0.03))
		b, _ := sheetOf(hill(9, 0.5, 0.03))
		for _, order := range [][]*grid.Sheet{{a, a, b}, {a, b, a}, {b, a, a}} {
			var s grid.Sheet
			s.Flat()
			for _, o := range order {
				s.Times(o)
			}
			s.Trim()
			near(t, "where two meet", s.Row(9)[50], 1, 1e-9)
			near(t, "where one stands", s.Row(9)[150], grid.Cut, 1e-20)
			near(t, "log", s.Log, math.Log(grid.Cut), 1e-9)
		}
	})
	t.Run("a thousand factors neither vanish nor overflow", func(t *testing.T) {
		t.Parallel()
		var s grid.Sheet
		s.Flat()
		o, _ := sheetOf(func(j, i int) float64 { return 1e-3 * hill(9, 0, 0.5)(j, i) })
		for range 1000 {
			s.Times(o)
		}
		if want := 1000 * math.Log(1e-3); math.Abs(s.Log-want) > 1e-6 || s.Row(9)[100] != 1 {
			t.Errorf("log %g, want %g; top %g, want 1", s.Log, want, s.Row(9)[100])
		}
	})
}

func TestTrim(t *testing.T) {
	t.Parallel()
	t.Run("keeps what is above the cut and floors the rest", func(t *testing.T) {
		t.Parallel()
		f := hill(9, 0, 0.02)
		s, _ := sheetOf(f)
		for j := range grid.Rates {
			lo, hi := s.Span(j)
			for i := range grid.Widths {
				within, v := lo <= i && i < hi, f(j, i)
				if within != (v > grid.Cut) {
					t.Fatalf("rate %d, width %d: value %g, within the span %v", j, i, v, within)
				}
				if got := s.Row(j)[i]; !(math.Abs(got-max(v, grid.Cut)) <= 1e-15) {
					t.Fatalf("rate %d, width %d: %g, want %g", j, i, got, max(v, grid.Cut))
				}
			}
			if empty(s, j) != (lo == hi) {
				t.Fatalf("rate %d: empty %v with a span from %d to %d", j, empty(s, j), lo, hi)
			}
		}
		if !empty(s, 0) == empty(s, 9) {
			t.Error("no row told apart")
		}
	})
	t.Run("a hole in a row counts as the cut", func(t *testing.T) {
		t.Parallel()
		s, _ := sheetOf(func(_, i int) float64 {
			if i > 90 && i < 110 {
				return 0
			}
			return 1
		})
		if got := s.Row(3)[100]; got != grid.Cut {
			t.Errorf("%g in the hole, want %g", got, grid.Cut)
		}
	})
	t.Run("nothing but zeros says nothing", func(t *testing.T) {
		t.Parallel()
		for _, v := range []float64{0, math.Inf(1)} {
			s, _ := sheetOf(func(int, int) float64 { return v })
			if !math.IsInf(s.Log, -1) || s.Row(0)[0] != 1 || !empty(s, 0) {
				t.Errorf("all %g: log %g, value %g", v, s.Log, s.Row(0)[0])
			}
		}
	})
	t.Run("reopening keeps the function", func(t *testing.T) {
		t.Parallel()
		s, d := sheetOf(hill(9, 0.1, 0.3))
		s.Reopen()
		for j := range d {
			for i := range d[j] {
				s.Row(j)[i] *= 3
				d[j][i] *= 3
			}
		}
		s.Trim()
		same(t, s, d, exact)
	})
}

// What is kept comes back bit by bit, in whatever was on the paper before.
func TestKeep(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(4, 2))
	paper := new(grid.Sheet)
	for range 20 {
		s, _ := sheetOf(hill(18*rng.Float64(), 2*rng.Float64()-1, 0.02+0.3*rng.Float64()))
		k := s.Keep()
		paper.Unfold(k)
		if *paper != *s {
			t.Fatal("what was unfolded is not what was kept")
		}
		held := 0
		for j := range grid.Rates {
			lo, hi := s.Span(j)
			held += hi - lo
		}
		if b := k.Bytes(); b < 8*held || b > 8*held+1000 {
			t.Errorf("%d bytes for %d values", b, held)
		}
	}
}

func empty(s *grid.Sheet, j int) bool {
	lo, hi := s.Span(j)
	return lo >= hi
}
