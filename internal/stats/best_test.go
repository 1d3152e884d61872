package stats

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// highest is the chance of the highest value: that of the lowest with all signs
// turned.
func highest(t *testing.T, means, sds []float64) []float64 {
	t.Helper()
	turned := make([]float64, len(means))
	for i, m := range means {
		turned[i] = -m
	}
	p, err := ChanceLowestNormal(turned, sds)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestNormalBest: R 4.2.2 by quadrature and again by mvtnorm 1.1-3; the first is
// Phi(1), the next two have closed forms.
func TestNormalBest(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ means, sds, want []float64 }{
		{[]float64{0, .5}, []float64{.3, .4}, []float64{.1586552539, .8413447461}},
		{[]float64{0, 0, 0}, []float64{1, 1, 1}, []float64{1. / 3, 1. / 3, 1. / 3}},
		{[]float64{0, 0, 0}, []float64{1, 1, 2}, []float64{.3012081912, .3012081912, .3975836177}},
		{[]float64{1, .8, .2}, []float64{.3, .5, 1}, []float64{.5104477493, .3062919030, .1832603477}},
		{[]float64{.6, .5, .4, .1, -.2}, []float64{.2, .3, .1, .4, .6}, []float64{.46958222675, .32022903401, .06105715525, .07852302564, .07060855835}},
	} {
		p := highest(t, c.means, c.sds)
		for i := range p {
			apart(t, fmt.Sprintf("%v, %v: chance of %d", c.means, c.sds, i), p[i], c.want[i], 1e-7)
		}
		apart(t, "sum", floats.Sum(p), 1, 1e-12)
	}
}

// TestBechhofer: the least distance h of the best from k - 1 equal others, all
// of deviation 1, at which it is picked with a stated chance (Bechhofer, Ann.
// Math. Stat. 25:16-39, 1954, table I). Published to four places from memory,
// recomputed with R 4.2.2 to six.
func TestBechhofer(t *testing.T) {
	t.Parallel()
	chances := []float64{0.90, 0.95, 0.99}
	for _, row := range []struct {
		k    int
		h    [3]float64
		four [3]float64
	}{
		{2, [3]float64{1.812388, 2.326174, 3.289953}, [3]float64{1.8124, 2.3262, 3.2900}},
		{3, [3]float64{2.2302, 2.710103, 3.617298}, [3]float64{2.2302, 2.7101, 3.6173}},
		{4, [3]float64{2.451569, 2.916227, 3.796956}, [3]float64{2.4516, 2.9162, 3.7970}},
		{5, [3]float64{2.599704, 3.055173, 3.919584}, [3]float64{2.5997, 3.0552, 3.9196}},
		{10, [3]float64{2.982927, 3.418179, 4.245557}, [3]float64{2.9829, 3.4182, 4.2456}},
	} {
		for i, want := range chances {
			picked := func(h float64) float64 {
				means, sds := make([]float64, row.k), make([]float64, row.k)
				means[0] = h
				for r := range sds {
					sds[r] = 1
				}
				return highest(t, means, sds)[0]
			}
			if low, high := picked(row.h[i]-1e-6), picked(row.h[i]+1e-6); low > want || high < want {
				t.Errorf("k %d, %v: %v and %v a millionth about %v", row.k, want, low, high, row.h[i])
			}
			if low, high := picked(row.four[i]-6e-5), picked(row.four[i]+6e-5); low > want || high < want {
				t.Errorf("k %d, %v: %v and %v about %v as printed", row.k, want, low, high, row.four[i])
			}
		}
	}
}

func TestBestOfTwo(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		means := rapid.SliceOfN(rapid.Float64Range(-5, 5), 2, 2).Draw(t, "means")
		powers := rapid.SliceOfN(rapid.Float64Range(-9, 3), 2, 2).Draw(t, "powers")
		a, b := math.Pow(10, powers[0]), math.Pow(10, powers[1])
		want := distuv.UnitNormal.CDF((means[1] - means[0]) / math.Hypot(a, b))
		p, err := ChanceLowestNormal(means, []float64{a, b})
		if err != nil || math.Abs(p[0]-want) > 1e-9 || math.Abs(p[1]-(1-want)) > 1e-9 {
			t.Fatalf("got %v, want %v, %v", p, want, err)
		}
	})
}

// TestBestOfThreeEqualMeans: the chance that two normal differences are both
// below 0 is 1/4 + asin(rho)/2 pi (Sheppard 1899, from memory), whatever the
// deviations.
func TestBestOfThreeEqualMeans(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		powers := rapid.SliceOfN(rapid.Float64Range(-6, 6), 3, 3).Draw(t, "powers")
		mean := rapid.Float64Range(-100, 100).Draw(t, "mean")
		s := mapped(powers, func(v float64) float64 { return math.Pow(10, v) })
		p, err := ChanceLowestNormal([]float64{mean, mean, mean}, s)
		if err != nil {
			t.Fatal(err)
		}
		for i := range s {
			rho := s[i] / math.Hypot(s[i], s[(i+1)%3]) * s[i] / math.Hypot(s[i], s[(i+2)%3])
			if want := 0.25 + math.Asin(rho)/(2*math.Pi); math.Abs(p[i]-want) > 1e-7 {
				t.Fatalf("sds %v: got %v, want %v", s, p[i], want)
			}
		}
	})
}

// candidates draws means and deviations of a few candidates, some certain.
func candidates(t *rapid.T) (means, sds []float64) {
	for range rapid.IntRange(1, 8).Draw(t, "candidates") {
		means = append(means, float64(rapid.IntRange(-20, 20).Draw(t, "mean"))/10)
		sds = append(sds, rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.01, 3), rapid.Float64Range(1e-9, 1e-6)).Draw(t, "sd"))
	}
	return means, sds
}

// TestChancesOfNormals: chances add up to 1 and depend neither on the order of
// candidates nor on the unit and origin of their values.
func TestChancesOfNormals(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		means, sds := candidates(t)
		order := rapid.Permutation(indices(len(means))).Draw(t, "order")
		var m, s []float64
		for _, i := range order {
			m, s = append(m, means[i]*8+4), append(s, sds[i]*8)
		}
		p, err := ChanceLowestNormal(means, sds)
		q, err2 := ChanceLowestNormal(m, s)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		if math.Abs(floats.Sum(p)-1) > 1e-9 {
			t.Fatalf("%v, %v: chances %v add up to %v", means, sds, p, floats.Sum(p))
		}
		for k, i := range order {
			if math.Abs(q[k]-p[i]) > 1e-9 || p[i] < 0 {
				t.Fatalf("%v, %v: got %v, and moved %v", means, sds, p, q)
			}
		}
	})
}

func TestCertainAndUnusableCandidates(t *testing.T) {
	t.Parallel()
	phi := distuv.UnitNormal.CDF
	for _, c := range []struct{ means, sds, want []float64 }{
		{[]float64{3}, []float64{2}, []float64{1}},
		{[]float64{3}, []float64{0}, []float64{1}},
		{[]float64{3, 4}, []float64{0, 0}, []float64{1, 0}},
		{[]float64{3, 3, 4}, []float64{0, 0, 0}, []float64{0.5, 0.5, 0}},
		{[]float64{0, 1}, []float64{0, 1}, []float64{phi(1), phi(-1)}},
		{[]float64{0, 0, 1}, []float64{0, 0, 1}, []float64{phi(1) / 2, phi(1) / 2, phi(-1)}},
		{[]float64{0, 1, 1}, []float64{0, 1, 1}, []float64{phi(1) * phi(1), (1 - phi(1)*phi(1)) / 2, (1 - phi(1)*phi(1)) / 2}},
		{[]float64{1e308, -1e308}, []float64{1e308, 1e308}, []float64{phi(-math.Sqrt2), phi(math.Sqrt2)}},
		{[]float64{1e-308, -1e-308}, []float64{1e-308, 1e-308}, []float64{phi(-math.Sqrt2), phi(math.Sqrt2)}},
		{[]float64{1e9, 1e9 + 1}, []float64{1, 1e-4}, []float64{phi(1), phi(-1)}},
	} {
		p, err := ChanceLowestNormal(c.means, c.sds)
		if err != nil {
			t.Fatal(err)
		}
		for i := range p {
			apart(t, fmt.Sprintf("%v, %v: chance of %d", c.means, c.sds, i), p[i], c.want[i], 1e-8)
		}
	}
	if p, err := ChanceLowestNormal(nil, nil); !errors.Is(err, ErrTooFew) {
		t.Errorf("none: got %v, %v", p, err)
	}
	for _, c := range [][2][]float64{{{1}, {}}, {{1, math.NaN()}, {1, 1}}, {{1, 2}, {1, math.Inf(1)}}, {{1, 2}, {1, -1}}, {{math.Inf(-1), 2}, {1, 1}}} {
		if p, err := ChanceLowestNormal(c[0], c[1]); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %v, %v", c, p, err)
		}
	}
}

// TestFineHistograms: in fine bins the two forms agree.
func TestFineHistograms(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.IntRange(1, 10).Draw(t, "candidates")
		var hists [][]float64
		means := rapid.SliceOfN(rapid.Float64Range(-2, 2), k, k).Draw(t, "means")
		sds := rapid.SliceOfN(rapid.Float64Range(0.2, 1), k, k).Draw(t, "sds")
		const bins, from, to = 1200, -8.0, 8.0
		for p := range k {
			n := distuv.Normal{Mu: means[p], Sigma: sds[p]}
			h := make([]float64, bins)
			for i := range h {
				low := from + (to-from)*float64(i)/bins
				h[i] = n.CDF(low+(to-from)/bins) - n.CDF(low)
			}
			hists = append(hists, h)
		}
		want, err := ChanceLowestNormal(means, sds)
		if err != nil {
			t.Fatal(err)
		}
		got := ChanceLowest(hists)
		for p := range got {
			if math.Abs(got[p]-want[p]) > 1e-3 {
				t.Fatalf("means %v, sds %v: got %v, want %v", means, sds, got, want)
			}
		}
	})
}

// slow is the same chance by its definition: sum over bins of h_p times the
// product of 1 - H_r + h_r/2 over the others.
func slow(hists [][]float64) []float64 {
	out := make([]float64, len(hists))
	for p, h := range hists {
		for i := range h {
			v := h[i]
			for r, other := range hists {
				if r != p {
					v *= 1 - floats.Sum(other[:i+1]) + other[i]/2
				}
			}
			out[p] += v
		}
	}
	floats.Scale(1/floats.Sum(out), out)
	return out
}

func TestHistograms(t *testing.T) {
	t.Parallel()
	t.Run("as by definition", rapid.MakeCheck(func(t *rapid.T) {
		bins := rapid.IntRange(1, 20).Draw(t, "bins")
		var hists [][]float64
		for range rapid.IntRange(1, 10).Draw(t, "candidates") {
			h := make([]float64, bins)
			for i := range h {
				h[i] = float64(rapid.IntRange(0, 3).Draw(t, "weight"))
			}
			h[rapid.IntRange(0, bins-1).Draw(t, "peak")]++
			floats.Scale(1/floats.Sum(h), h)
			hists = append(hists, h)
		}
		want, got := slow(hists), ChanceLowest(hists)
		for p := range want {
			same(t, "chance", got[p], want[p], 1)
		}
		same(t, "sum", floats.Sum(got), 1, 1)
	}))
	t.Run("by hand", func(t *testing.T) {
		t.Parallel()
		for _, c := range []struct {
			hists [][]float64
			want  []float64
		}{
			{[][]float64{{1}}, []float64{1}},
			{[][]float64{{0, 1, 0}, {0, 1, 0}, {0, 1, 0}}, []float64{1. / 3, 1. / 3, 1. / 3}},
			{[][]float64{{1, 0}, {0, 1}}, []float64{1, 0}},
			{[][]float64{{0, 1}, {1, 0}, {0, 1}}, []float64{0, 1, 0}},
			// The second is lower with 1/2, higher with 1/4 and in the same bin with 1/4.
			{[][]float64{{0, 1, 0}, {.5, .25, .25}}, []float64{.375, .625}},
		} {
			got := ChanceLowest(c.hists)
			if len(got) != len(c.want) {
				t.Fatalf("%v: got %v", c.hists, got)
			}
			for p := range got {
				apart(t, "chance", got[p], c.want[p], 1e-12)
			}
		}
	})
	t.Run("what is no probability has no chances", func(t *testing.T) {
		t.Parallel()
		for _, h := range [][][]float64{nil, {}, {{}}, {{}, {}}, {{1}, {0, 1}}, {{0, 0}}, {{0}, {0}}, {{1, -1}, {0, 1}}, {{1, math.NaN()}, {0, 1}}, {{math.Inf(1)}}, {{1}, {math.Inf(1)}}} {
			if got := ChanceLowest(h); got != nil {
				t.Errorf("%v: got %v", h, got)
			}
		}
	})
}

// tenOfTwoHundred is the comparison that is worked most often.
func tenOfTwoHundred() (hists [][]float64) {
	for p := range 10 {
		h := make([]float64, 200)
		for i := range h {
			h[i] = math.Exp(-math.Pow(float64(i-60-8*p)/25, 2))
		}
		floats.Scale(1/floats.Sum(h), h)
		hists = append(hists, h)
	}
	return hists
}

func TestHistogramsAllocateTheirResultOnly(t *testing.T) {
	hists := tenOfTwoHundred()
	if n := testing.AllocsPerRun(20, func() { ChanceLowest(hists) }); n > 1 {
		t.Errorf("got %v allocations a run", n)
	}
}

func BenchmarkChanceLowest(b *testing.B) {
	hists := tenOfTwoHundred()
	for b.Loop() {
		ChanceLowest(hists)
	}
}
