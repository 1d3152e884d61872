package stats

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// labels reads one named column of a reference file as text.
func labels(t *testing.T, file, name string) []string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("read %s: %d rows, %v", file, len(rows), err)
	}
	at := slices.Index(rows[0], name)
	if at < 0 {
		t.Fatalf("read %s: no column %q in %v", file, name, rows[0])
	}
	var out []string
	for _, row := range rows[1:] {
		out = append(out, row[at])
	}
	return out
}

// grouped parts values by their labels, in the order of first appearance.
func grouped[T any](values []T, labels []string) (groups [][]T) {
	at := map[string]int{}
	for i, l := range labels {
		if _, ok := at[l]; !ok {
			at[l] = len(groups)
			groups = append(groups, nil)
		}
		groups[at[l]] = append(groups[at[l]], values[i])
	}
	return groups
}

// TestOneWay holds the analysis against NIST StRD, analysis of variance, and the
// components against R 4.2.2 (mean squares of anova(lm(y ~ group))). The values
// of SmLs07 lie near 1e12 and are rounded as they are read, so that no more than
// three digits can be met: R itself gives F 20.99965.
func TestOneWay(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		file              string
		groups, n         int
		between, within   float64
		f, r2, sd         float64
		variance, icc     float64 // as R prints them; 0 where none is at hand
		tolerance, tolVar float64
	}{
		{"strd_sirstv.csv", 5, 25, 5.11462616000000e-02, 2.16636560000000e-01, 1.18046237440255, 1.90999039051129e-01, 1.04076068334656e-01, 3.9094748e-04, .03483518678, 1e-9, 1e-7},
		{"strd_atmwtag.csv", 2, 48, 3.63834187500000e-09, 1.04951729166667e-08, 1.59467335677930e+01, 2.57426544538321e-01, 1.51048314446410e-05, 1.42091081e-10, .3837737392, 1e-8, 1e-7},
		{"strd_smls04.csv", 9, 189, 1.68, 1.80, 21, 4.82758620689655e-01, 0.1, 0, 0, 1e-8, 0},
		{"strd_smls07.csv", 9, 189, 1.68, 1.80, 21, 4.82758620689655e-01, 0.1, 0, 0, 1e-3, 0},
	} {
		t.Run(c.file, func(t *testing.T) {
			t.Parallel()
			a, err := OneWay(grouped(column(t, c.file, "y"), labels(t, c.file, "group")))
			if err != nil {
				t.Fatal(err)
			}
			if a.N != c.n || a.Groups != c.groups || a.BetweenDF != c.groups-1 || a.WithinDF != c.n-c.groups || len(a.Warnings) != 0 {
				t.Errorf("got %+v", a)
			}
			within(t, "between SS", a.BetweenSS, c.between, c.tolerance)
			within(t, "within SS", a.WithinSS, c.within, c.tolerance)
			within(t, "F", a.F, c.f, c.tolerance)
			within(t, "R2", a.R2, c.r2, c.tolerance)
			within(t, "pooled sd", a.WithinSD, c.sd, c.tolerance)
			if c.icc != 0 {
				within(t, "between variance", a.BetweenVariance, c.variance, c.tolVar)
				within(t, "ICC(1)", a.ICC, c.icc, c.tolVar)
			}
		})
	}
}

// TestDyes: F and p of R 4.2.2, anova(lm(Yield ~ Batch)), for the data Dyestuff
// (Davies 1947) and Dyestuff2 (Box & Tiao 1973).
func TestDyes(t *testing.T) {
	t.Parallel()
	a, err := OneWay(grouped(column(t, "dyestuff.csv", "Yield"), labels(t, "dyestuff.csv", "Batch")))
	if err != nil || a.BetweenVariance <= 0 {
		t.Fatalf("got %+v, %v", a, err)
	}
	apart(t, "F", a.F, 4.59827, 5e-6)
	apart(t, "p", a.P, 0.0043975, 5e-8)
	apart(t, "mean", a.Mean, 1527.5, 1e-9)
	within(t, "between SS", a.BetweenSS, 56357.5, 1e-12)
	a, err = OneWay(grouped(column(t, "dyestuff2.csv", "Yield"), labels(t, "dyestuff2.csv", "Batch")))
	if err != nil || a.BetweenVariance != 0 || a.ICC != 0 || len(a.Warnings) != 1 {
		t.Fatalf("groups that differ less than chance: got %+v, %v", a, err)
	}
	apart(t, "F", a.F, 0.55777, 5e-6)
	apart(t, "p", a.P, 0.7311, 5e-5)
}

// TestUnevenGroups works unbalanced components by hand: groups 1 3, 6 and
// 10 12 14 have means 2, 6, 12 and scatter 2 + 0 + 8 on 3 degrees; the grand
// mean is 46/6, so between SS is 2(17/3)^2 + (5/3)^2 + 3(13/3)^2 = 1110/9 on 2;
// the typical size is (6 - 14/6)/2 = 11/6.
func TestUnevenGroups(t *testing.T) {
	t.Parallel()
	a, err := OneWay([][]float64{{1, 3}, {}, {6}, {10, 12, 14}})
	if err != nil || a.N != 6 || a.Groups != 3 || a.BetweenDF != 2 || a.WithinDF != 3 {
		t.Fatalf("got %+v, %v", a, err)
	}
	between, rest := 1110.0/18, 10.0/3
	within(t, "between SS", a.BetweenSS, 1110.0/9, 1e-12)
	within(t, "within SS", a.WithinSS, 10, 1e-12)
	within(t, "between variance", a.BetweenVariance, (between-rest)*6/11, 1e-12)
	within(t, "ICC(1)", a.ICC, (between-rest)/(between+5.0/6*rest), 1e-12)
}

func TestGroupsTooFewOrTooWide(t *testing.T) {
	t.Parallel()
	for _, g := range [][][]float64{nil, {{}}, {{1}}, {{1, 2, 3}}, {{1}, {2}, {3}}, {{5, 5}, {5, 5}}, {{1, 2}, nil}} {
		if a, err := OneWay(g); !errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", g, a, err)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300} {
		if a, err := OneWay([][]float64{{1, 2}, {3, bad}}); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v", bad, a)
		}
	}
	if a, err := OneWay([][]float64{{-1.5e308, 2}, {3, 1.5e308}}); err == nil || errors.Is(err, ErrTooFew) {
		t.Errorf("values whose difference overflows: got %+v", a)
	}
	t.Run("values too small to be squared still compare", func(t *testing.T) {
		t.Parallel()
		a, err := OneWay([][]float64{{1e-200, 3e-200}, {6e-200, 8e-200}})
		if err != nil || math.Abs(a.F-12.5) > 1e-9 {
			t.Errorf("got %+v, %v", a, err)
		}
	})
	t.Run("no scatter within any group is told", func(t *testing.T) {
		t.Parallel()
		a, err := OneWay([][]float64{{0.1, 0.1, 0.1}, {0.3, 0.3, 0.3}})
		if err != nil || !math.IsInf(a.F, 1) || a.P != 0 || a.R2 != 1 || a.ICC != 1 || a.WithinSS != 0 || len(a.Warnings) != 1 {
			t.Errorf("got %+v, %v", a, err)
		}
	})
	t.Run("two repeats are called rough", func(t *testing.T) {
		t.Parallel()
		a, err := OneWay([][]float64{{1, 2}, {7, 8}})
		if err != nil || len(a.Warnings) != 1 {
			t.Errorf("got %+v, %v", a, err)
		}
	})
}

// someGroups draws groups of tenths, two or more of them with two values or more.
func someGroups(t *rapid.T, least int) (groups [][]float64) {
	for range rapid.IntRange(2, 6).Draw(t, "groups") {
		tenths := rapid.SliceOfN(rapid.IntRange(-500, 500), least, 6).Draw(t, "tenths")
		var g []float64
		for i, v := range tenths {
			g = append(g, float64(v)/10+0.01*float64(i))
		}
		groups = append(groups, g)
	}
	return groups
}

func TestAnovaMovesWithItsValues(t *testing.T) {
	t.Parallel()
	t.Run("shift, scale and order", rapid.MakeCheck(func(t *rapid.T) {
		groups := someGroups(t, 2)
		by, scale := rapid.Float64Range(-1e4, 1e4).Draw(t, "by"), rapid.Float64Range(0.01, 100).Draw(t, "scale")
		var moved [][]float64
		for _, i := range rapid.Permutation(indices(len(groups))).Draw(t, "order") {
			moved = append(moved, mapped(rapid.Permutation(groups[i]).Draw(t, "inner"), func(v float64) float64 { return scale*v + by }))
		}
		a, err := OneWay(groups)
		b, err2 := OneWay(moved)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		same(t, "mean", b.Mean, a.Mean*scale+by, scale*50+math.Abs(by))
		same(t, "between SS", b.BetweenSS, a.BetweenSS*scale*scale, a.BetweenSS*scale*scale)
		same(t, "within SS", b.WithinSS, a.WithinSS*scale*scale, a.WithinSS*scale*scale)
		same(t, "F", b.F, a.F, a.F)
		same(t, "p", b.P, a.P, 1)
		same(t, "ICC", b.ICC, a.ICC, 1)
		total := stat.Variance(slices.Concat(groups...), nil) * float64(a.N-1)
		same(t, "total SS", a.BetweenSS+a.WithinSS, total, total)
	}))
	t.Run("two groups are Student's test", rapid.MakeCheck(func(t *rapid.T) {
		g := someGroups(t, 2)[:2]
		a, err := OneWay(g)
		if err != nil {
			t.Fatal(err)
		}
		n, m := float64(len(g[0])), float64(len(g[1]))
		pooled := ((n-1)*stat.Variance(g[0], nil) + (m-1)*stat.Variance(g[1], nil)) / (n + m - 2)
		ratio := (stat.Mean(g[0], nil) - stat.Mean(g[1], nil)) / math.Sqrt(pooled*(1/n+1/m))
		same(t, "F", a.F, ratio*ratio, ratio*ratio)
		same(t, "p", a.P, 2*distuv.StudentsT{Sigma: 1, Nu: n + m - 2}.Survival(math.Abs(ratio)), 1)
	}))
}
