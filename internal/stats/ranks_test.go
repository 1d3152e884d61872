package stats

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// table reads named columns of a reference file as rows.
func table(t *testing.T, file string, names ...string) (rows [][]float64) {
	t.Helper()
	for _, name := range names {
		for i, v := range column(t, file, name) {
			if i == len(rows) {
				rows = append(rows, nil)
			}
			rows[i] = append(rows[i], v)
		}
	}
	return rows
}

// TestMidRanks: Siegel, Nonparametric Statistics, 1956, gives tied observations
// the mean of the ranks they would have had (from memory).
func TestMidRanks(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ x, want []float64 }{
		{nil, []float64{}},
		{[]float64{7}, []float64{1}},
		{[]float64{3, 1, 2}, []float64{3, 1, 2}},
		{[]float64{2, 5, 2, 2}, []float64{2, 4, 2, 2}},
		{[]float64{5, 5, 1, 1}, []float64{3.5, 3.5, 1.5, 1.5}},
		{[]float64{math.Inf(1), 0, math.Inf(-1)}, []float64{3, 2, 1}},
	} {
		got, err := MidRanks(c.x)
		if d := cmp.Diff(c.want, got); err != nil || d != "" {
			t.Errorf("%v: %v, (-want +got)\n%s", c.x, err, d)
		}
	}
	if r, err := MidRanks([]float64{1, math.NaN()}); err == nil {
		t.Errorf("what is no number ranks as %v", r)
	}
}

// TestRounding: Hollander & Wolfe, Nonparametric Statistical Methods, 1973, p.
// 140, 22 players round first base in three ways. Published values from memory,
// recomputed with R 4.2.2 friedman.test.
func TestRounding(t *testing.T) {
	t.Parallel()
	r, err := Friedman(table(t, "friedman_rounding.csv", "roundout", "narrow", "wide"))
	if err != nil {
		t.Fatal(err)
	}
	if r.Judges != 22 || r.Samples != 3 || r.DF != 2 || len(r.Warnings) != 0 || !slices.Equal(r.RankSums, []float64{53, 47, 32}) {
		t.Errorf("got %+v", r)
	}
	within(t, "chi2", r.Chi2, 11.14285714, 1e-8)
	within(t, "p", r.P, 0.003805040776, 1e-8)
}

// TestApplicants: Siegel, Nonparametric Statistics, 1956, chapter 9, three
// judges and six applicants, W .16. Published value from memory, recomputed with
// R 4.2.2.
func TestApplicants(t *testing.T) {
	t.Parallel()
	rows := table(t, "kendall_w_siegel.csv", "X1", "X2", "X3", "X4", "X5", "X6")
	c, err := KendallW(rows)
	if err != nil {
		t.Fatal(err)
	}
	apart(t, "W in print", c.W, 0.16, 5e-3)
	within(t, "W", c.W, 0.161904761905, 1e-8)
	within(t, "chi2", c.Chi2, 2.42857142857, 1e-8)
	if c.Judges != 3 || c.Samples != 6 || c.S != 25.5 || c.DF != 5 {
		t.Errorf("got %+v", c)
	}
	if !slices.Equal(c.Warnings, []string{"fewer than eight judgements: indicative only"}) {
		t.Errorf("three judges carry %q", c.Warnings)
	}
	if r, err := Friedman(rows); err != nil || !slices.Equal(r.RankSums, []float64{8, 14, 11, 11, 11, 8}) {
		t.Errorf("got %+v, %v", r, err)
	}
}

// TestAnxiety: three raters of twenty subjects with many ties, R 4.2.2 with the
// package irr, kendall(correct = TRUE) and friedman.test.
func TestAnxiety(t *testing.T) {
	t.Parallel()
	var raters [][]float64
	for _, name := range []string{"rater1", "rater2", "rater3"} {
		raters = append(raters, column(t, "anxiety.csv", name))
	}
	c, err := KendallW(raters)
	r, err2 := Friedman(raters)
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	within(t, "W", c.W, 0.539656876, 1e-8)
	within(t, "chi2 of W", c.Chi2, 30.7604419294, 1e-8)
	within(t, "p of W", c.P, 0.0428834731269, 1e-8)
	within(t, "chi2", r.Chi2, 30.7604419294, 1e-8)
	within(t, "p", r.P, 0.0428834731269, 1e-8)
	if c.DF != 19 || r.DF != 19 {
		t.Errorf("got %d and %d degrees", c.DF, r.DF)
	}
}

// TestEightJudges: ASTM E544-18 asks for at least eight independent judgements.
func TestEightJudges(t *testing.T) {
	t.Parallel()
	var rows [][]float64
	for n := 1; n < 12; n++ {
		rows = append(rows, []float64{1, 2, float64(n % 3)})
		r, err := Friedman(rows)
		if n == 1 {
			if !errors.Is(err, ErrTooFew) {
				t.Errorf("one judge: got %+v, %v", r, err)
			}
			continue
		}
		if err != nil || (len(r.Warnings) == 1) != (n < 8) {
			t.Errorf("%d judges carry %q, %v", n, r.Warnings, err)
		}
	}
}

func TestPanelsOfTooLittle(t *testing.T) {
	t.Parallel()
	for _, s := range [][][]float64{nil, {{}}, {{1, 2}}, {{}, {}}, {{1}, {2}}, {{3, 3}, {4, 4}}} {
		if r, err := Friedman(s); !errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", s, r, err)
		}
		if c, err := KendallW(s); !errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", s, c, err)
		}
	}
	for _, s := range [][][]float64{{{1, 2}, {1, math.NaN()}}, {{1, 2}, {1, 2, 3}}, {{1, 2}, nil}} {
		if r, err := Friedman(s); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", s, r, err)
		}
		if c, err := KendallW(s); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", s, c, err)
		}
	}
}

// scored draws a panel's scores on a scale of 0 to 5; one judge at least tells
// two samples apart.
func scored(t *rapid.T) (rows [][]float64) {
	samples := rapid.IntRange(2, 6).Draw(t, "samples")
	for range rapid.IntRange(2, 12).Draw(t, "judges") {
		var row []float64
		for range samples {
			row = append(row, float64(rapid.IntRange(0, 5).Draw(t, "score")))
		}
		rows = append(rows, row)
	}
	rows[0][0], rows[0][1] = 0, 5
	return rows
}

func TestRanksOnlyKnowOrder(t *testing.T) {
	t.Parallel()
	t.Run("bent scores, other judges' order and other samples' order change nothing", rapid.MakeCheck(func(t *rapid.T) {
		rows := scored(t)
		order := rapid.Permutation(indices(len(rows[0]))).Draw(t, "samples' order")
		var moved [][]float64
		for i, row := range rapid.Permutation(rows).Draw(t, "judges' order") {
			var r []float64
			for _, j := range order {
				r = append(r, math.Exp(row[j])+float64(i))
			}
			moved = append(moved, r)
		}
		a, err := KendallW(rows)
		b, err2 := KendallW(moved)
		f, err3 := Friedman(moved)
		if err != nil || err2 != nil || err3 != nil {
			t.Fatal(err, err2, err3)
		}
		same(t, "W", b.W, a.W, 1)
		same(t, "chi2", f.Chi2, a.Chi2, a.Chi2)
		same(t, "p", f.P, a.P, 1)
		if a.W < 0 || a.W > 1 || !(a.P >= 0 && a.P <= 1) {
			t.Fatalf("got %+v", a)
		}
	}))
	t.Run("without ties both are the short formulae", rapid.MakeCheck(func(t *rapid.T) {
		// Siegel 1956: chi2 = 12/(b k (k+1)) sum R^2 - 3 b (k+1); W = 12 S/(m^2 (n^3 - n)) (from memory).
		k := rapid.IntRange(2, 7).Draw(t, "samples")
		var rows [][]float64
		for range rapid.IntRange(2, 10).Draw(t, "judges") {
			rows = append(rows, make([]float64, k))
			for i, v := range rapid.Permutation(indices(k)).Draw(t, "ranking") {
				rows[len(rows)-1][i] = float64(v)
			}
		}
		r, err := Friedman(rows)
		c, err2 := KendallW(rows)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		b, n, squares := float64(len(rows)), float64(k), 0.0
		for _, s := range r.RankSums {
			squares += s * s
		}
		same(t, "chi2", r.Chi2, 12/(b*n*(n+1))*squares-3*b*(n+1), r.Chi2)
		same(t, "W", c.W, 12*c.S/(b*b*(n*n*n-n)), 1)
	}))
	t.Run("judges of one mind agree wholly, tied or not", func(t *testing.T) {
		t.Parallel()
		for _, row := range [][]float64{{1, 2, 3}, {1, 1, 3, 3, 9}} {
			c, err := KendallW([][]float64{row, row, row, row})
			if err != nil || math.Abs(c.W-1) > 1e-12 {
				t.Errorf("%v: got %+v, %v", row, c, err)
			}
		}
	})
}
