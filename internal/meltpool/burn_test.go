package meltpool_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"testing"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

var (
	glass = meltpool.Wall{Width: 80, Target: 80 / 25.4}
	eye   = meltpool.Eye{Ruler: 1, Error: 1.5, Slip: 0.01}
)

// phi is the normal distribution function by way of the error function.
func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// chance is how likely a reading is when the pool is d mm wide, as the method
// states it.
func chance(w meltpool.Wall, e meltpool.Eye, r meltpool.Reading, d float64) float64 {
	wall, step, s := float64(w.Width), float64(e.Ruler), float64(e.Error)
	p := phi((d - wall + step/2) / s)
	if !r.Full {
		y := r.Ratio * wall
		p = phi((y+step/2-d)/s) - phi((y-step/2-d)/s)
	}
	return (1-e.Slip)*p + e.Slip*step/wall
}

// opened is 1 - exp(-(kt)^c).
func opened(k, t, c float64) float64 { return 1 - math.Exp(-math.Pow(k*t, c)) }

// direct is the same burn without tables, at one rate and log width.
func direct(w meltpool.Wall, e meltpool.Eye, rs []meltpool.Reading, c, k, width float64) float64 {
	l := 1.0
	for _, r := range rs {
		d := 0.0
		if r.Hour > 0 {
			d = float64(w.Width) * math.Exp(width) * opened(k, float64(r.Hour), c) / opened(k, float64(w.Target), c)
		}
		l *= chance(w, e, r, d)
	}
	return l
}

func at(hour, mm float64, w meltpool.Wall) meltpool.Reading {
	return meltpool.Reading{Hour: quantity.Hours(hour), Ratio: mm / float64(w.Width)}
}

func full(hour float64) meltpool.Reading {
	return meltpool.Reading{Hour: quantity.Hours(hour), Full: true}
}

// value is a sheet's value at a point, by its own scale.
func value(s *grid.Sheet, j, i int) float64 { return s.Row(j)[i] * math.Exp(s.Log) }

// The tables read along straight lines between log widths 0.00125 apart: of a
// bell with the eye's deviation that costs at most an eighth of the step over
// the deviation, squared; below a thousandth up to 100 mm.
func TestBurnAgainstTheFormula(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		w    meltpool.Wall
		e    meltpool.Eye
		rs   []meltpool.Reading
	}{
		{"nothing yet", glass, eye, []meltpool.Reading{at(1, 0, glass)}},
		{"hardly anything", glass, eye, []meltpool.Reading{at(0.5, 3, glass)}},
		{"half way", glass, eye, []meltpool.Reading{at(1, 40, glass)}},
		{"just below the wall", glass, eye, []meltpool.Reading{at(2, 79, glass)}},
		{"beyond the wall and not full", glass, eye, []meltpool.Reading{at(2, 84, glass)}},
		{"full", glass, eye, []meltpool.Reading{full(2)}},
		{"full at once", glass, eye, []meltpool.Reading{full(0.05)}},
		{"full after a day", glass, eye, []meltpool.Reading{full(24)}},
		{"at lighting", glass, eye, []meltpool.Reading{at(0, 0, glass)}},
		{"full at lighting", glass, eye, []meltpool.Reading{full(0)}},
		{"a burn", glass, eye, []meltpool.Reading{at(1, 45, glass), at(2, 63, glass), at(3, 74, glass), full(4)}},
		{"a small glass", meltpool.Wall{Width: 20, Target: 0.8}, eye, []meltpool.Reading{at(0.4, 9, meltpool.Wall{Width: 20}), full(1)}},
		{"a large bowl in sixteenths", meltpool.Wall{Width: 400, Target: 4}, meltpool.Eye{Ruler: 25.4 / 16, Error: 1.5, Slip: 0.01}, []meltpool.Reading{at(1, 190, meltpool.Wall{Width: 400}), at(4, 330, meltpool.Wall{Width: 400})}},
		{"a bowl read to the nearest 5 mm", meltpool.Wall{Width: 200, Target: 4}, meltpool.Eye{Ruler: 5, Error: 4, Slip: 0.05}, []meltpool.Reading{at(1, 95, meltpool.Wall{Width: 200}), full(3)}},
	} {
		for _, curve := range []float64{0.7, 1, 1.2} {
			t.Run(fmt.Sprintf("%s, exponent %g", c.name, curve), func(t *testing.T) {
				t.Parallel()
				s := new(grid.Sheet)
				meltpool.NewTables(c.w, c.e).Burn(s, c.rs, meltpool.Curve(curve), 0.9)
				top, worst := 0.0, 0.0
				for j := range grid.Rates {
					k := math.Exp(grid.LogRate(j, 0.9))
					for i := range grid.Widths {
						want := direct(c.w, c.e, c.rs, curve, k, grid.Width(i))
						top, worst = max(top, want), max(worst, math.Abs(value(s, j, i)-want))
					}
				}
				step := 0.00125 * float64(c.w.Width/c.e.Error)
				if within := float64(len(c.rs)) * max(1e-3, step*step/8); !(worst < within*top) {
					t.Errorf("off by %.2g of the largest value, more than %.2g", worst/top, within)
				}
			})
		}
	}
}

func TestBurn(t *testing.T) {
	t.Parallel()
	burn := func(rs ...meltpool.Reading) *grid.Sheet {
		s := new(grid.Sheet)
		meltpool.NewTables(glass, eye).Burn(s, rs, 1, 0.9)
		return s
	}
	t.Run("an absurd reading is a slip, not the end", func(t *testing.T) {
		t.Parallel()
		// 5 mm after full: whatever the width, at least one of both is a
		// slip, worth 0.01 · 1 mm / 80 mm.
		s := burn(full(2), at(3, 5, glass))
		least := math.Inf(1)
		for i := range grid.Widths {
			least = min(least, value(s, 9, i))
		}
		if floor := 0.01 / 80; !(least > floor*floor*0.999) {
			t.Errorf("least %g, want no less than %g", least, floor*floor)
		}
		if got, want := value(s, 9, 190), 0.01/80*(0.99+0.01/80); math.Abs(got-want) > 1e-6*want {
			t.Errorf("wide pools %g, want %g", got, want)
		}
	})
	t.Run("order does not matter", func(t *testing.T) {
		t.Parallel()
		rs := []meltpool.Reading{at(1, 45, glass), at(2, 63, glass), at(3, 74, glass), full(4)}
		a := burn(rs...)
		slices.Reverse(rs)
		b := burn(rs...)
		for j := range grid.Rates {
			for i := range grid.Widths {
				if math.Abs(value(a, j, i)-value(b, j, i)) > 1e-15 {
					t.Fatalf("rate %d, width %d: %g and %g", j, i, value(a, j, i), value(b, j, i))
				}
			}
		}
	})
	t.Run("a full reading does not look at its width", func(t *testing.T) {
		t.Parallel()
		r := full(2)
		r.Ratio = 0.3
		if *burn(full(2)) != *burn(r) {
			t.Error("two answers")
		}
	})
	t.Run("ten thousand readings keep their sum of logarithms", func(t *testing.T) {
		t.Parallel()
		s := burn(slices.Repeat([]meltpool.Reading{at(2, 60, glass)}, 10_000)...)
		j, i, best := 0, 0, 0.0
		for a := range grid.Rates {
			for b := range grid.Widths {
				if v := direct(glass, eye, []meltpool.Reading{at(2, 60, glass)}, 1, math.Exp(grid.LogRate(a, 0.9)), grid.Width(b)); v > best {
					j, i, best = a, b, v
				}
			}
		}
		// Straight lines cost up to a thousandth of each reading.
		if want := 10_000 * math.Log(best); math.Abs(s.Log-want) > 10 || s.Row(j)[i] < 1e-5 {
			t.Errorf("log %g, want %g; %g at its best", s.Log, want, s.Row(j)[i])
		}
	})
	t.Run("tables serve another curve and centre", func(t *testing.T) {
		t.Parallel()
		rs := []meltpool.Reading{at(1, 45, glass), full(3)}
		used, s := meltpool.NewTables(glass, eye), new(grid.Sheet)
		for _, c := range []struct{ curve, centre float64 }{{1, 0.9}, {0.7, 0.9}, {0.7, 0.5}, {1, 0.9}} {
			used.Burn(s, rs, meltpool.Curve(c.curve), c.centre)
			want := new(grid.Sheet)
			meltpool.NewTables(glass, eye).Burn(want, rs, meltpool.Curve(c.curve), c.centre)
			if *s != *want {
				t.Errorf("curve %g, centre %g: not what new tables say", c.curve, c.centre)
			}
		}
	})
}

// Fits is the chance at a share of the width, slips aside: the reading's own
// width is the likeliest, and full and not full make one.
func TestFits(t *testing.T) {
	t.Parallel()
	tab := meltpool.NewTables(glass, eye)
	for _, share := range []float64{0, 0.3, 0.7, 0.99, 1, 1.1} {
		d := share * 80
		near(t, "full", tab.Fits(full(2), share), phi((d-79.5)/1.5), 1e-12)
		near(t, "60 mm", tab.Fits(at(2, 60, glass), share), phi((60.5-d)/1.5)-phi((59.5-d)/1.5), 1e-12)
		sum := tab.Fits(full(2), share)
		for mm := -20; mm <= 79; mm++ {
			sum += tab.Fits(at(2, float64(mm), glass), share)
		}
		near(t, "all that can be read", sum, 1, 1e-12)
	}
}

// Misra1a of the NIST Statistical Reference Datasets is this curve with
// exponent 1: y = b1 (1 - exp(-b2 x)). With the certified parameters the
// certified sum of squares must come out.
func TestOpenedAgainstMisra1a(t *testing.T) {
	t.Parallel()
	f, err := os.Open("../../testdata/reference/strd_misra1a.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(s string) float64 {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	rss := 0.0
	for _, row := range rows[1:] {
		r := number(row[0]) - 2.3894212918e+02*meltpool.Curve(1).Opened(math.Log(5.5015643181e-04), quantity.Hours(number(row[1])))
		rss += r * r
	}
	near(t, "sum of squares", rss, 1.2455138894e-01, 1e-9)
}

func TestOpened(t *testing.T) {
	t.Parallel()
	// At kt = 1 every such curve has opened by 1 - 1/e = 0.632121, whatever
	// its exponent: the characteristic life of a Weibull distribution
	// (NIST/SEMATECH e-Handbook, 8.1.6.2).
	for _, c := range []meltpool.Curve{0.6, 0.85, 1, 1.3} {
		near(t, "at kt = 1", c.Opened(math.Log(0.5), 2), 0.632121, 1e-6)
		near(t, "at lighting", c.Opened(0, 0), 0, 0)
		near(t, "before lighting", c.Opened(0, -1), 0, 0)
		near(t, "ahead of itself", c.Ahead(-0.3, 2, 2), 0, 0)
		near(t, "ahead of half", c.Ahead(math.Log(0.9), 3, 1.5), math.Log(opened(0.9, 3, float64(c))/opened(0.9, 1.5, float64(c))), 1e-12)
	}
}
