package stats

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// TestDyestuff: data of Davies 1947. Published values 42.00, 49.51 and 319.6543
// from memory, recomputed with R 4.2.2 and lme4 1.1-31,
// lmer(Yield ~ 1 + (1 | Batch)).
func TestDyestuff(t *testing.T) {
	t.Parallel()
	c, err := GroupComponents(grouped(column(t, "dyestuff.csv", "Yield"), labels(t, "dyestuff.csv", "Batch")))
	if err != nil {
		t.Fatal(err)
	}
	within(t, "mean", c.Mean, 1527.5, 1e-9)
	within(t, "se of the mean", c.MeanSE, 19.3834122, 1e-5)
	within(t, "sd of batches", c.GroupSD, 42.000595, 1e-5)
	within(t, "sd within", c.WithinSD, 49.510100, 1e-5)
	within(t, "criterion", c.Criterion, 319.654276842, 1e-9)
	if c.N != 30 || c.Groups != 6 || c.Subgroups != 0 || c.SubgroupSD != 0 || len(c.Warnings) != 0 {
		t.Errorf("got %+v", c)
	}
}

// TestDyestuff2: the same by lme4 for made-up data whose batches differ less
// than chance (Box & Tiao 1973): the least criterion lies on the edge.
func TestDyestuff2(t *testing.T) {
	t.Parallel()
	c, err := GroupComponents(grouped(column(t, "dyestuff2.csv", "Yield"), labels(t, "dyestuff2.csv", "Batch")))
	if err != nil {
		t.Fatal(err)
	}
	if c.GroupSD != 0 || len(c.Warnings) != 1 {
		t.Errorf("got %+v", c)
	}
	within(t, "sd within", c.WithinSD, 3.715684274, 1e-9)
}

// TestPastes: lme4 1.1-31 in R 4.2.2, lmer(strength ~ 1 + (1 | batch) + (1 |
// sample)), data of Davies & Goldsmith 1972: two assays of three casks of ten
// batches, as burns of candles of pairings.
func TestPastes(t *testing.T) {
	t.Parallel()
	c, err := NestedComponents(pastes(t))
	if err != nil {
		t.Fatal(err)
	}
	within(t, "mean", c.Mean, 60.0533333333, 1e-9)
	within(t, "sd of batches", c.GroupSD, 1.28736474, 1e-5)
	within(t, "sd of casks", c.SubgroupSD, 2.90407781, 1e-5)
	within(t, "sd within", c.WithinSD, 0.82340752, 1e-5)
	within(t, "criterion", c.Criterion, 246.990745853, 1e-9)
	if c.N != 60 || c.Groups != 10 || c.Subgroups != 30 || len(c.Warnings) != 0 {
		t.Errorf("got %+v", c)
	}
}

func pastes(t *testing.T) (nested [][][]float64) {
	t.Helper()
	batch, cask := labels(t, "pastes.csv", "batch"), labels(t, "pastes.csv", "cask")
	values := grouped(column(t, "pastes.csv", "strength"), batch)
	for i, casks := range grouped(cask, batch) {
		nested = append(nested, grouped(values[i], casks))
	}
	return nested
}

// drawn draws nested values with chosen deviations; sizes vary unless even.
func drawn(seed uint64, sds [3]float64, groups int, even bool) (nested [][][]float64) {
	random := rand.New(rand.NewPCG(seed, 3))
	size := func() int {
		if even {
			return 3
		}
		return 1 + random.IntN(4)
	}
	for range groups {
		var g [][]float64
		a := random.NormFloat64() * sds[0]
		for range size() {
			var s []float64
			b := random.NormFloat64() * sds[1]
			for range size() {
				s = append(s, 60+a+b+random.NormFloat64()*sds[2])
			}
			g = append(g, s)
		}
		nested = append(nested, g)
	}
	return nested
}

// dense is the criterion by its definition, from the whole covariance matrix
// (Searle, Casella & McCulloch, Variance Components, 1992, chapter 6, from
// memory): log |V| + log |X'V^-1 X| + r'V^-1 r + (n - 1) log 2 pi.
func dense(nested [][][]float64, mean float64, sds [3]float64) float64 {
	var y []float64
	var at [][2]int
	for i, g := range nested {
		for j, s := range g {
			for _, v := range s {
				y, at = append(y, v-mean), append(at, [2]int{i, j})
			}
		}
	}
	n := len(y)
	v, ones := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for i := range n {
		ones.SetVec(i, 1)
		for j := range i + 1 {
			var c float64
			if at[i][0] == at[j][0] {
				c += sds[0] * sds[0]
			}
			if at[i] == at[j] {
				c += sds[1] * sds[1]
			}
			if i == j {
				c += sds[2] * sds[2]
			}
			v.SetSym(i, j, c)
		}
	}
	var chol mat.Cholesky
	chol.Factorize(v)
	var vy, v1 mat.VecDense
	r := mat.NewVecDense(n, y)
	_ = chol.SolveVecTo(&vy, r)
	_ = chol.SolveVecTo(&v1, ones)
	return chol.LogDet() + math.Log(mat.Dot(ones, &v1)) + mat.Dot(r, &vy) + float64(n-1)*math.Log(2*math.Pi)
}

// TestUnevenComponents holds unbalanced data against the criterion worked from
// the whole matrix: it is the one reported and no lower anywhere near.
func TestUnevenComponents(t *testing.T) {
	t.Parallel()
	zeros := 0
	for seed := range uint64(40) {
		nested := drawn(seed, [3]float64{float64(seed % 4), float64(seed/4) / 4, 1}, 3+int(seed%5), false)
		c, err := NestedComponents(nested)
		if err != nil {
			continue // too little was drawn
		}
		sds := [3]float64{c.GroupSD, c.SubgroupSD, c.WithinSD}
		least := dense(nested, c.Mean, sds)
		within(t, "criterion", c.Criterion, least, 1e-9)
		for i := range sds {
			if sds[i] == 0 {
				zeros++
			}
			for _, by := range []float64{0.5, 0.9, 0.999, 1.001, 1.1, 2} {
				near := sds
				near[i] *= by
				if sds[i] == 0 {
					near[i] = by * 0.1
				}
				if dense(nested, c.Mean, near) < least-1e-9 {
					t.Errorf("seed %d: %v is likelier than %v", seed, near, sds)
				}
			}
		}
	}
	if zeros < 5 {
		t.Errorf("only %d estimates lay on the edge: the edge went untried", zeros)
	}
}

// TestEvenComponents: for balanced data whose moments are not below 0, restricted
// likelihood gives those of the analysis of variance (Searle, Casella &
// McCulloch, Variance Components, 1992, section 3.8, from memory); below 0 it
// pools the strata.
func TestEvenComponents(t *testing.T) {
	t.Parallel()
	for seed := range uint64(40) {
		var groups [][]float64
		for _, g := range drawn(seed, [3]float64{0.4, 0, 1}, 6, true) {
			groups = append(groups, g[0])
		}
		a, err := OneWay(groups)
		c, err2 := GroupComponents(groups)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		rest := a.WithinSD
		if a.F <= 1 {
			rest = math.Sqrt((a.BetweenSS + a.WithinSS) / float64(a.N-1))
		}
		apart(t, "group sd", c.GroupSD, math.Sqrt(a.BetweenVariance), 1e-5)
		apart(t, "sd within", c.WithinSD, rest, 1e-5)
		within(t, "mean", c.Mean, a.Mean, 1e-12)
		if (a.F <= 1) != (c.GroupSD == 0) {
			t.Errorf("seed %d: F %v and a group sd of %v", seed, a.F, c.GroupSD)
		}
	}
}

func TestComponentsMoveWithTheirValues(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		nested := drawn(rapid.Uint64Range(0, 1000).Draw(t, "seed"), [3]float64{1, 1, 1}, 5, true)
		by, scale := rapid.Float64Range(-1e4, 1e4).Draw(t, "by"), rapid.Float64Range(0.01, 100).Draw(t, "scale")
		var moved [][][]float64
		for _, i := range rapid.Permutation(indices(len(nested))).Draw(t, "order") {
			var g [][]float64
			for _, s := range nested[i] {
				g = append(g, mapped(s, func(v float64) float64 { return scale*v + by }))
			}
			moved = append(moved, g)
		}
		a, err := NestedComponents(nested)
		b, err2 := NestedComponents(moved)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		same(t, "mean", b.Mean, a.Mean*scale+by, 60*scale+math.Abs(by))
		same(t, "group sd", b.GroupSD, a.GroupSD*scale, 10*scale)
		same(t, "subgroup sd", b.SubgroupSD, a.SubgroupSD*scale, 10*scale)
		same(t, "sd within", b.WithinSD, a.WithinSD*scale, 10*scale)
		same(t, "criterion", b.Criterion, a.Criterion+2*float64(a.N-1)*math.Log(scale), 10)
	})
}

func TestComponentsOfTooLittle(t *testing.T) {
	t.Parallel()
	for _, g := range [][][]float64{nil, {{}}, {{1}}, {{1, 2, 3}}, {{1}, {2}, {3}}, {{5, 5}, {5, 5}}, {{5, 5}, {6, 6}}} {
		if c, err := GroupComponents(g); !errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", g, c, err)
		}
	}
	for _, g := range [][][][]float64{
		nil, {nil, {nil, {}}}, {{{1}}}, {{{1, 2}, {3, 4}}}, // one group
		{{{1, 2}}, {{3, 5}}},         // one subgroup a group
		{{{1}, {2}}, {{3}, {4}}},     // one value a subgroup
		{{{1, 1}, {2}}, {{3}, {4}}},  // values that repeat exactly
		{{{2, 2}, {2}}, {{2}, {2}}},  // all equal
		{{{2, 2}, {}}, {{}, {2, 3}}}, // nothing in the second subgroups
	} {
		if c, err := NestedComponents(g); !errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v, %v", g, c, err)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		if c, err := GroupComponents([][]float64{{1, 2}, {3, bad}}); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v", bad, c)
		}
		if c, err := NestedComponents([][][]float64{{{1, 2}, {2}}, {{3, bad}}}); err == nil || errors.Is(err, ErrTooFew) {
			t.Errorf("%v: got %+v", bad, c)
		}
	}
	t.Run("what lies on the edge is told", func(t *testing.T) {
		t.Parallel()
		for _, c := range []struct {
			nested          [][][]float64
			group, subgroup bool // beyond 0
			warnings        int
		}{
			{[][][]float64{{{1, 3}, {3, 1}}, {{11, 13}, {13, 11}}, {{22, 24}, {22, 24}}, {{31, 33}, {33, 31}}, {{0, 2}, {2, 0}}}, true, false, 1},
			{[][][]float64{{{1, 2}, {11, 12}}, {{2, 1}, {12, 11}}, {{1, 2}, {12, 11}}, {{1, 2}, {11, 12}}, {{1, 2}, {11, 12}}}, false, true, 1},
			{[][][]float64{{{1, 2}, {1, 2}}, {{2, 1}, {2, 1}}, {{1, 2}, {2, 1}}, {{1, 2}, {1, 2}}, {{1, 2}, {1, 2}}}, false, false, 2},
		} {
			got, err := NestedComponents(c.nested)
			if err != nil || (got.GroupSD > 0) != c.group || (got.SubgroupSD > 0) != c.subgroup || len(got.Warnings) != c.warnings {
				t.Errorf("%v: got %+v, %v", c.nested, got, err)
			}
		}
	})
	t.Run("two groups are called rough", func(t *testing.T) {
		t.Parallel()
		c, err := NestedComponents([][][]float64{{{1, 2}, {4, 6}}, {{13, 14}, {11, 10}}})
		if err != nil || len(c.Warnings) != 1 || !(c.GroupSD > 0) || !(c.WithinSD > 0) {
			t.Errorf("got %+v, %v", c, err)
		}
	})
	t.Run("huge, tiny and barely scattered values keep their proportions", func(t *testing.T) {
		t.Parallel()
		base := [][]float64{{1, 2}, {5, 7}, {11, 10}}
		want, err := GroupComponents(base)
		if err != nil {
			t.Fatal(err)
		}
		for _, unit := range []float64{1e-250, 1e250} {
			c, err := GroupComponents([][]float64{mapped(base[0], func(v float64) float64 { return v * unit }),
				mapped(base[1], func(v float64) float64 { return v * unit }), mapped(base[2], func(v float64) float64 { return v * unit })})
			if err != nil {
				t.Fatal(err)
			}
			within(t, "group sd", c.GroupSD/unit, want.GroupSD, 1e-6)
			within(t, "sd within", c.WithinSD/unit, want.WithinSD, 1e-6)
		}
		c, err := GroupComponents([][]float64{{1, 1 + 1e-9}, {2, 2}, {4, 4 - 1e-9}})
		if err != nil {
			t.Fatal(err)
		}
		// By moments: scatter within 1e-18 on 3 degrees; means 1, 2 and 4 vary by 7/3.
		within(t, "group sd", c.GroupSD, math.Sqrt(7.0/3), 1e-6)
		within(t, "sd within", c.WithinSD, 1e-9/math.Sqrt(3), 1e-5)
	})
}
