package stats

import (
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// diagnoses is the table of Fleiss 1971.
func diagnoses(t *testing.T) (counts [][]int) {
	t.Helper()
	for _, row := range table(t, "fleiss1971.csv", "depression", "personality", "schizophrenia", "neurosis", "other") {
		var c []int
		for _, v := range row {
			c = append(c, int(v))
		}
		counts = append(counts, c)
	}
	return counts
}

// TestDiagnoses: Fleiss, Psychol. Bull. 76:378-382, 1971, thirty patients, six
// judgements each, five classes, kappa .430. Published value from memory,
// recomputed with R 4.2.2, package irr, kappam.fleiss(detail = TRUE).
func TestDiagnoses(t *testing.T) {
	t.Parallel()
	a, err := FleissKappa(diagnoses(t))
	if err != nil {
		t.Fatal(err)
	}
	apart(t, "kappa in print", a.Kappa, 0.430, 5e-4)
	within(t, "kappa", a.Kappa, 0.4302445201, 1e-8)
	within(t, "z", a.Z, 17.651830583, 1e-8)
	if a.Subjects != 30 || a.Raters != 6 || len(a.Classes) != 5 || len(a.Warnings) != 0 {
		t.Fatalf("got %+v", a)
	}
	for i, want := range [][2]float64{{0.245, 5.192}, {0.245, 5.192}, {0.520, 11.031}, {0.471, 9.994}, {0.566, 12.009}} {
		apart(t, "kappa of a class", a.Classes[i].Kappa, want[0], 5e-4)
		apart(t, "z of a class", a.Classes[i].Z, want[1], 5e-4)
	}
	var chance float64
	for _, c := range a.Classes {
		chance += c.Share * c.Share
	}
	within(t, "agreement by chance", chance, 0.219938271605, 1e-10)
}

// observers is the table of Krippendorff; missing cells are NaN.
func observers(t *testing.T) (ratings [][]float64) {
	t.Helper()
	for unit := 1; unit <= 12; unit++ {
		for j, cell := range labels(t, "krippendorff_c.csv", "X"+strconv.Itoa(unit)) {
			if j == len(ratings) {
				ratings = append(ratings, nil)
			}
			v := math.NaN()
			if cell != "" {
				var err error
				if v, err = strconv.ParseFloat(cell, 64); err != nil {
					t.Fatal(err)
				}
			}
			ratings[j] = append(ratings[j], v)
		}
	}
	return ratings
}

// TestObservers: Krippendorff 1980 and 2011, four observers and twelve units, of
// which one was judged once only: .743, .815, .849, .797. Published values from
// memory, recomputed with R 4.2.2, package irr, kripp.alpha.
func TestObservers(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		scale       Scale
		print, want float64
	}{{Nominal, 0.743, 0.7434210526}, {Ordinal, 0.815, 0.8153875038}, {Interval, 0.849, 0.8491071429}, {Ratio, 0.797, 0.7974027747}} {
		r, err := KrippendorffAlpha(observers(t), c.scale)
		if err != nil {
			t.Fatal(err)
		}
		apart(t, "alpha in print", r.Alpha, c.print, 5e-4)
		within(t, "alpha", r.Alpha, c.want, 1e-8)
		// 2011: the one value of the twelfth unit cannot be paired, which leaves 40 of 41.
		if r.Units != 11 || r.Values != 40 || r.LeftOut != 1 || !slices.Equal(r.Warnings, []string{"judged once only and left out: 1"}) {
			t.Errorf("got %+v", r)
		}
	}
}

// TestKappaAndAlpha: with nothing missing the nominal alpha is the kappa
// corrected for the number of judgements n, 1 - alpha = (1 - kappa)(n - 1)/n
// (Krippendorff 2011, from memory).
func TestKappaAndAlpha(t *testing.T) {
	t.Parallel()
	counts := diagnoses(t)
	ratings := make([][]float64, 6)
	for _, row := range counts {
		j := 0
		for class, n := range row {
			for range n {
				ratings[j] = append(ratings[j], float64(class))
				j++
			}
		}
	}
	a, err := FleissKappa(counts)
	r, err2 := KrippendorffAlpha(ratings, Nominal)
	if err != nil || err2 != nil {
		t.Fatal(err, err2)
	}
	within(t, "1 - alpha", 1-r.Alpha, (1-a.Kappa)*179/180, 1e-12)
}

func TestAgreementOfTooLittle(t *testing.T) {
	t.Parallel()
	for _, c := range [][][]int{nil, {{}}, {{2, 1}}, {{}, {}}, {{1, 0}, {0, 1}}, {{0, 0}, {0, 0}}, {{3, 0}, {3, 0}}} {
		if a, err := FleissKappa(c); !errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", c, a, err)
		}
	}
	for _, c := range [][][]int{{{2, 1}, {2, 2}}, {{2, 1}, {3}}, {{2, 1}, {4, -1}}, {{2, -1}, {1, 0}}} {
		if a, err := FleissKappa(c); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", c, a, err)
		}
	}
	none := math.NaN()
	for scale := Nominal; scale <= Ratio; scale++ {
		for _, x := range [][][]float64{nil, {{}}, {{1, 2, 3}}, {{1, none}, {none, 2}}, {{3, 3}, {3, 3}}, {{0, 0}, {0, 0}}, {{none}, {none}}, {{1, 1, 5}, {1, 1}}} {
			if r, err := KrippendorffAlpha(x, scale); !errors.Is(err, ErrTooFew) {
				t.Errorf("scale %d, %v: got %+v, %v", scale, x, r, err)
			}
		}
		if r, err := KrippendorffAlpha([][]float64{{1, 2}, {1, math.Inf(1)}}, scale); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("scale %d: got %+v, %v", scale, r, err)
		}
		for _, unit := range []float64{1, 1e-300, 1e300} {
			r, err := KrippendorffAlpha([][]float64{{1 * unit, 2 * unit, 0}, {1 * unit, 2 * unit, 0}}, scale)
			if err != nil || r.Alpha != 1 || len(r.Warnings) != 1 || !strings.HasPrefix(r.Warnings[0], "fewer than ten") {
				t.Errorf("scale %d, unit %v: got %+v, %v", scale, unit, r, err)
			}
		}
	}
	if r, err := KrippendorffAlpha([][]float64{{1, -2}, {1, 2}}, Ratio); err == nil {
		t.Errorf("a ratio below 0: got %+v", r)
	}
	for _, scale := range []Scale{-1, 4} {
		if r, err := KrippendorffAlpha([][]float64{{1, 2}, {1, 2}}, scale); err == nil {
			t.Errorf("scale %d: got %+v", scale, r)
		}
	}
	t.Run("a class that nobody chose has no kappa", func(t *testing.T) {
		t.Parallel()
		a, err := FleissKappa([][]int{{3, 0, 0}, {0, 3, 0}})
		if err != nil || a.Kappa != 1 || a.Classes[2].Known || !a.Classes[0].Known || a.Classes[0].Kappa != 1 || len(a.Warnings) != 1 {
			t.Errorf("got %+v, %v", a, err)
		}
	})
}

func TestAlphaKeepsToItsScale(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		scale Scale
		bend  func(float64) float64
	}{
		"names may be exchanged":           {Nominal, func(v float64) float64 { return float64(int(v)*3%7) - 9 }},
		"an order may be bent":             {Ordinal, math.Exp},
		"an interval may move and stretch": {Interval, func(v float64) float64 { return 31 - 2.5*v }},
		"a ratio may stretch":              {Ratio, func(v float64) float64 { return 40 * v }},
	} {
		t.Run(name, rapid.MakeCheck(func(t *rapid.T) {
			units := rapid.IntRange(2, 8).Draw(t, "units")
			var ratings, moved [][]float64
			for range rapid.IntRange(2, 5).Draw(t, "judges") {
				var row []float64
				for range units {
					v := float64(rapid.IntRange(-1, 6).Draw(t, "value"))
					if v < 0 {
						v = math.NaN()
					}
					row = append(row, v)
				}
				ratings = append(ratings, row)
			}
			ratings[0][0], ratings[1][0] = 1, 3 // something to tell apart
			for _, i := range rapid.Permutation(indices(len(ratings))).Draw(t, "order") {
				row := mapped(ratings[i], func(v float64) float64 {
					if math.IsNaN(v) {
						return v
					}
					return c.bend(v)
				})
				slices.Reverse(row)
				moved = append(moved, row)
			}
			a, err := KrippendorffAlpha(ratings, c.scale)
			b, err2 := KrippendorffAlpha(moved, c.scale)
			if err != nil || err2 != nil {
				t.Fatal(err, err2)
			}
			same(t, "alpha", b.Alpha, a.Alpha, 1)
			if !(a.Alpha <= 1) {
				t.Fatalf("got %+v", a)
			}
		}))
	}
}
