package throw

import (
	"encoding/csv"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// reference reads columns of a file of numbers as rows.
func reference(t *testing.T, file string, names ...string) [][]float64 {
	t.Helper()
	f, err := os.Open("../../testdata/reference/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]float64
	for _, line := range lines[1:] {
		var row []float64
		for _, name := range names {
			v, err := strconv.ParseFloat(line[slices.Index(lines[0], name)], 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		rows = append(rows, row)
	}
	return rows
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s is %.10g, want %.10g", what, got, want)
	}
}

// Hollander & Wolfe, Nonparametric Statistical Methods, 1973, p. 140: 22
// players round first base in three ways. Rank sums 53, 47 and 32, chi-squared
// 11.1428571 corrected for ties, p 0.00380504 (published values from memory,
// recomputed with R 4.2.2 friedman.test); W = chi-squared / (22 * 2) = 0.25325.
func TestRoundingFirstBase(t *testing.T) {
	t.Parallel()
	rows := reference(t, "friedman_rounding.csv", "roundout", "narrow", "wide")
	c := Compare(rows)
	if c.Outcome != Compared || c.Complete != 22 || c.Candles != 3 || c.Indicative || !c.Differ() {
		t.Fatalf("got %+v", c)
	}
	near(t, "chi-squared", c.Test.Chi2, 11.1428571429, 1e-8)
	near(t, "p", c.Test.P, 0.00380504, 1e-8)
	near(t, "W", c.Agreement.W, 11.1428571429/44, 1e-8)
	// 1.96 sqrt(22*3*4/6) = 13.0009: 53 and 47 lie above 32 by more, not apart
	// from each other.
	near(t, "least difference", c.LSD, 1.96*math.Sqrt(44), 1e-12)
	if d := cmp.Diff([]Pair{{0, 2}, {1, 2}}, c.Apart); d != "" {
		t.Errorf("pairs told apart (-want +got)\n%s", d)
	}
	// Two noses who left one out change no rank, and are counted.
	more := Compare(append(slices.Clone(rows), []float64{5.1, Missing, 5.3}, []float64{Missing, Missing, 5}))
	if more.Test.Chi2 != c.Test.Chi2 || more.Complete != 22 || more.Incomplete != 2 {
		t.Errorf("with two incomplete noses: %+v", more)
	}
}

// Siegel, Nonparametric Statistics, 1956, chapter 9: three executives rank six
// applicants, W .16 (from memory; .161904762 recomputed). Three judgements are
// indicative only, and no candle is told apart.
func TestThreeExecutives(t *testing.T) {
	t.Parallel()
	rows := reference(t, "kendall_w_siegel.csv", "X1", "X2", "X3", "X4", "X5", "X6")
	c := Compare(rows)
	near(t, "W", c.Agreement.W, 0.161904762, 1e-9)
	if !c.Indicative || c.Differ() || c.LSD != 0 || c.Apart != nil {
		t.Errorf("got %+v", c)
	}
}

// ASTM E544-18 asks for eight judgements at least: seven are indicative only,
// eight are not.
func TestEightJudgementsAreEnough(t *testing.T) {
	t.Parallel()
	for n, indicative := range map[int]bool{7: true, 8: false, 9: false} {
		rows := slices.Repeat([][]float64{{3, 1, 5}}, n)
		if c := Compare(rows); c.Complete != n || c.Indicative != indicative {
			t.Errorf("%d judgements: %+v", n, c)
		}
	}
}

// The worked value of 12 assessors and 4 products is 12.40 (ISO 8587's formula,
// from memory).
func TestLeastDifference(t *testing.T) {
	t.Parallel()
	near(t, "least difference", LeastDifference(12, 4), 12.40, 0.005)
}

// R's quantile(1:10) gives 3.25, 5.5 and 7.75, quantile(1:9) 3, 5 and 7 (its
// default, type 7; from memory).
func TestSummaries(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		x                 []float64
		low, median, high float64
	}{
		{[]float64{10, 1, 9, 2, 8, 3, 7, 4, 6, 5}, 3.25, 5.5, 7.75},
		{[]float64{1, 2, 3, 4, 5, 6, 7, 8, 9, Missing}, 3, 5, 7},
		{[]float64{4}, 4, 4, 4},
	} {
		s := Summarise(c.x)
		if s.Low != c.low || s.Median != c.median || s.High != c.high {
			t.Errorf("%v: %+v", c.x, s)
		}
	}
	none := Summarise([]float64{Missing})
	if none.N != 0 || !math.IsNaN(none.Median) || !math.IsNaN(none.Min) {
		t.Errorf("no scores come to %+v", none)
	}
	if low, high, whole := Summarise([]float64{1, 5, 2, 2}).Spread(); low != 1 || high != 5 || !whole {
		t.Errorf("four scores spread from %v to %v (%v)", low, high, whole)
	}
	if low, high, whole := Summarise([]float64{0, 2, 3, 4, 5}).Spread(); low != 2 || high != 4 || whole {
		t.Errorf("five scores spread from %v to %v (%v)", low, high, whole)
	}
}

func TestWhatCannotBeCompared(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		rows [][]float64
		want Outcome
	}{
		"nobody":                 {nil, OneCandle},
		"one candle":             {[][]float64{{3}, {4}}, OneCandle},
		"one nose":               {[][]float64{{3, 4}}, FewNoses},
		"one complete nose":      {[][]float64{{3, 4}, {3, Missing}}, FewNoses},
		"all alike":              {[][]float64{{3, 3}, {4, 4}}, NoneDiffer},
		"two noses, two candles": {[][]float64{{3, 4}, {2, 4}}, Compared},
	} {
		if got := Compare(c.rows); got.Outcome != c.want || got.Differ() {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// Whatever the scores are, figures are finite and W lies between 0 and 1.
func TestComparisonsAreFinite(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(1, 6).Draw(t, "candles")
		one := rapid.SampledFrom([]float64{0, 1, 2, 3, 4, 5, Missing})
		rows := rapid.SliceOfN(rapid.SliceOfN(one, k, k), 0, 9).Draw(t, "rows")
		c := Compare(rows)
		for _, v := range []float64{c.Test.Chi2, c.Test.P, c.Agreement.W, c.LSD, c.Alpha} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%v is not finite: %+v", v, c)
			}
		}
		if c.Agreement.W < 0 || c.Agreement.W > 1 || c.Test.P < 0 || c.Test.P > 1 {
			t.Fatalf("out of range: %+v", c)
		}
	})
}

func TestCodesAreDifferentAndSayNothing(t *testing.T) {
	t.Parallel()
	for seed := range uint64(200) {
		rng := rand.New(rand.NewPCG(seed, 1))
		codes := Codes(12, rng.IntN)
		seen := map[string]bool{}
		for _, c := range codes {
			if len(c) != 3 || c[0] == c[1] && c[1] == c[2] || seen[c] {
				t.Fatalf("seed %d draws %v", seed, codes)
			}
			seen[c] = true
		}
	}
	if a, b := Codes(3, rand.New(rand.NewPCG(1, 1)).IntN), Codes(3, rand.New(rand.NewPCG(2, 1)).IntN); cmp.Equal(a, b) {
		t.Error("two draws give the same codes")
	}
}

// Williams (1949): over a whole design every cup stands equally often at every
// place, and equally often right after every other cup.
func TestOrdersAreBalanced(t *testing.T) {
	t.Parallel()
	for n := 1; n <= 12; n++ {
		noses := n
		if n%2 == 1 {
			noses = 2 * n
		}
		places, after := map[[2]int]int{}, map[[2]int]int{}
		for nose := range noses {
			order := Order(n, nose)
			for at, cup := range order {
				places[[2]int{at, cup}]++
				if at > 0 {
					after[[2]int{order[at-1], cup}]++
				}
			}
			if sorted := slices.Sorted(slices.Values(order)); sorted[0] != 0 || sorted[n-1] != n-1 || len(slices.Compact(sorted)) != n {
				t.Fatalf("nose %d of %d smells %v", nose, n, order)
			}
		}
		if len(places) != n*n || len(after) != n*(n-1) {
			t.Errorf("%d cups: %d places and %d successions", n, len(places), len(after))
		}
		for what, m := range map[string]map[[2]int]int{"places": places, "successions": after} {
			for k, v := range m {
				if v != noses/n {
					t.Errorf("%d cups, %s: %v comes %d times, want %d", n, what, k, v, noses/n)
				}
			}
		}
	}
	if Order(0, 0) != nil || Order(3, -1) != nil {
		t.Error("an order of nothing is something")
	}
}
