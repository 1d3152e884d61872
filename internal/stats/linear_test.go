package stats

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// rowsOf turns columns of a file into rows.
func rowsOf(columns ...[]float64) [][]float64 {
	out := make([][]float64, len(columns[0]))
	for i := range out {
		for _, c := range columns {
			out[i] = append(out[i], c[i])
		}
	}
	return out
}

func longley(t *testing.T) ([][]float64, []float64) {
	var columns [][]float64
	for _, name := range []string{"GNP.deflator", "GNP", "Unemployed", "Armed.Forces", "Population", "Year"} {
		columns = append(columns, column(t, "longley.csv", name))
	}
	return rowsOf(columns...), column(t, "longley.csv", "Employed")
}

// Estimates: NIST StRD, linear regression, data set Longley (Longley, J. Am.
// Stat. Assoc. 62:819-841, 1967), with thousands divided out as in R's data set
// longley; lm in R 4.2.2 agrees to 11 digits. Standard errors, residual
// standard deviation and R2 are the certified ones, from memory, scaled
// likewise; the inflation factors are those often printed for these data, from
// memory.
func TestFitLinearLongley(t *testing.T) {
	t.Parallel()
	x, y := longley(t)
	l, err := FitLinear(x, y, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "intercept", l.Intercept, -3482.25863459582, 1e-9)
	within(t, "its se", l.InterceptSE, 890.420383607373, 1e-9)
	within(t, "residual sd", l.ResidualSD, 0.304854073561965, 1e-9)
	within(t, "R2", l.R2, 0.995479004577296, 1e-10)
	for k, want := range []struct{ b, se, vif float64 }{
		{.0150618722713733, .0849149257747669, 135.53}, {-.0358191792925910, .0334910077722432, 1788.51},
		{-.0202022980381683, .00488399681651699, 33.62}, {-.0103322686717359, .00214274163161675, 3.59},
		{-.0511041056535807, .226073200069370, 399.15}, {1.82915146461355, .455478499142212, 758.98},
	} {
		within(t, fmt.Sprint("coefficient ", k), l.Coef[k].Estimate, want.b, 1e-9)
		within(t, fmt.Sprint("se ", k), l.Coef[k].SE, want.se, 1e-9)
		apart(t, fmt.Sprint("vif ", k), l.Coef[k].VIF, want.vif, 0.005)
	}
	// t of 9 degrees of freedom at 95 %, handbook table: 2.262.
	within(t, "interval", (l.Coef[5].High-l.Coef[5].Low)/2/l.Coef[5].SE, 2.262, 2e-4)
	if l.DF != 9 || l.N != 16 || l.Groups != 1 {
		t.Errorf("%+v", l)
	}
}

// With one variable it is the straight line of Norris (NIST StRD).
func TestFitLinearIsTheLine(t *testing.T) {
	t.Parallel()
	x, y := column(t, "strd_norris.csv", "x"), column(t, "strd_norris.csv", "y")
	l, err := FitLinear(rowsOf(x), y, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "slope", l.Coef[0].Estimate, 1.00211681802045, 1e-10)
	within(t, "se", l.Coef[0].SE, 0.429796848199937e-03, 1e-9)
	within(t, "intercept", l.Intercept, -0.262323073774029, 1e-9)
	within(t, "residual sd", l.ResidualSD, 0.884796396144373, 1e-9)
}

// Group means and differences within them must come to the same as a column
// for each group (the theorem of Frisch and Waugh).
func TestFitWithinIsColumnsForGroups(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 2))
	var group []int
	var x, dummies [][]float64
	var y []float64
	for i := range 30 {
		g, a, b := i%4, rng.NormFloat64(), rng.NormFloat64()
		group, x, y = append(group, 7*g), append(x, []float64{a, b}), append(y, float64(g)+2*a-b+rng.NormFloat64())
		row := []float64{a, b, 0, 0, 0}
		if g > 0 {
			row[1+g] = 1
		}
		dummies = append(dummies, row)
	}
	one, err1 := FitWithin(group, x, y, 0.8)
	all, err2 := FitLinear(dummies, y, 0.8)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	for k := range 2 {
		within(t, "estimate", one.Coef[k].Estimate, all.Coef[k].Estimate, 1e-10)
		within(t, "low", one.Coef[k].Low, all.Coef[k].Low, 1e-10)
	}
	if one.DF != all.DF || !math.IsNaN(one.Intercept) {
		t.Errorf("%d and %d degrees of freedom", one.DF, all.DF)
	}
}

func TestFitLinearRefuses(t *testing.T) {
	t.Parallel()
	y := []float64{1, 2, 3, 5}
	for name, c := range map[string]struct {
		x    [][]float64
		want error
	}{
		"a sum of others":    {[][]float64{{1, 2, 3}, {2, 0, 2}, {0, 5, 5}, {4, 1, 5}}, ErrTooFew},
		"twice another":      {[][]float64{{1, 2}, {2, 4}, {3, 6}, {5, 10}}, ErrDependent},
		"no change":          {[][]float64{{0.1}, {0.1}, {0.1}, {0.1}}, ErrDependent},
		"nothing left":       {[][]float64{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0, 0, 0}}, ErrTooFew},
		"nothing but a line": {[][]float64{{1}, {2}, {3}, {5}}, nil},
	} {
		if _, err := FitLinear(c.x, y, 0.8); !errors.Is(err, c.want) {
			t.Errorf("%s: %v, want %v", name, err, c.want)
		}
	}
	if _, err := FitLinear([][]float64{{1}, {math.NaN()}}, []float64{1, 2}, 0.8); err == nil {
		t.Error("took what is no number")
	}
	if _, err := FitLinear([][]float64{{1}}, []float64{1, 2}, 0.8); err == nil {
		t.Error("took more y than x")
	}
}

func TestDependencesNameTheirPartners(t *testing.T) {
	t.Parallel()
	x := [][]float64{{1, 3, 2.1, 7}, {2, 1, 3.9, 7}, {3, 2, 6.1, 7}, {4, 5, 7.9, 7}, {5, 1, 10.1, 7}}
	group := make([]int, len(x))
	got := Dependences(group, x, 0.1)
	if len(got) != 2 || got[0].Column != 2 || len(got[0].On) != 1 || got[0].On[0] != 0 || got[1].Column != 3 || got[1].On != nil {
		t.Errorf("%+v", got)
	}
	// Within groups of one row nothing varies.
	if got := Dependences([]int{0, 1, 2, 3, 4}, x, 0.1); len(got) != 4 {
		t.Errorf("%+v", got)
	}
}

// Tobin's durable goods: left-censored at 0. survreg of R's survival 3.5-3, and
// SciPy, gave the answers.
func TestFitCensoredTobin(t *testing.T) {
	t.Parallel()
	var y []Censored
	for _, v := range column(t, "tobin.csv", "durable") {
		if v == 0 {
			y = append(y, Censored{math.Inf(-1), 0})
		} else {
			y = append(y, Censored{v, v})
		}
	}
	l, err := FitCensored(make([]int, len(y)), rowsOf(column(t, "tobin.csv", "age"), column(t, "tobin.csv", "quant")), y, 7-3, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	stretch := math.Sqrt(float64(l.N-l.Open) / float64(l.DF))
	within(t, "intercept", l.Intercept, 15.1448663322, 1e-6)
	within(t, "its se", l.InterceptSE/stretch, 16.0794532024, 1e-6)
	within(t, "age", l.Coef[0].Estimate, -0.1290592839, 1e-6)
	within(t, "its se", l.Coef[0].SE/stretch, 0.2185835967, 1e-6)
	within(t, "quant", l.Coef[1].Estimate, -0.0455416629, 1e-6)
	within(t, "its se", l.Coef[1].SE/stretch, 0.0582541155, 1e-6)
	within(t, "spread", l.ResidualSD/stretch, 5.572539766, 1e-6)
	within(t, "log-likelihood", l.LogLikelihood, -28.94013320, 1e-8)
	if l.Open != 13 || l.DF != 7-3 {
		t.Errorf("%d open, %d degrees of freedom", l.Open, l.DF)
	}
}

// Without open values it is least squares, interval and all.
func TestFitCensoredIsLeastSquares(t *testing.T) {
	t.Parallel()
	x, y := longley(t)
	var exact []Censored
	group := make([]int, len(y))
	for i := range y {
		exact, group[i] = append(exact, Censored{y[i], y[i]}), i%2
	}
	a, err1 := FitWithin(group, x, y, 0.8)
	b, err2 := FitCensored(group, x, exact, a.DF, 0.8)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	for k := range x[0] {
		within(t, "estimate", b.Coef[k].Estimate, a.Coef[k].Estimate, 1e-6)
		within(t, "low", b.Coef[k].Low, a.Coef[k].Low, 1e-6)
		within(t, "high", b.Coef[k].High, a.Coef[k].High, 1e-6)
	}
	within(t, "spread", b.ResidualSD, a.ResidualSD, 1e-6)
	within(t, "log-likelihood", b.LogLikelihood, a.LogLikelihood, 1e-7)
}

// Values known between two ends: the same answer as survreg's lognormal fit of
// the cosmesis data with treatment as covariate (R, survival 3.5-3).
func TestFitCensoredBetweenEnds(t *testing.T) {
	t.Parallel()
	var x [][]float64
	var y []Censored
	for arm, name := range []string{"Rad", "RadChem"} {
		for _, v := range looks(t, "cosmesis.csv", name) {
			x, y = append(x, []float64{float64(arm)}), append(y, Censored{math.Log(v.Low), math.Log(v.High)})
		}
	}
	told := 0
	for _, v := range y {
		if !v.isOpen() {
			told++
		}
	}
	l, err := FitCensored(make([]int, len(y)), x, y, told-2, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	stretch := math.Sqrt(float64(told) / float64(told-2))
	within(t, "level", l.Intercept, 3.547874881, 1e-6)
	within(t, "treatment", l.Coef[0].Estimate, -0.421000456, 1e-6)
	within(t, "log spread", math.Log(l.ResidualSD/stretch), -0.125402887, 1e-6)
	within(t, "log-likelihood", l.LogLikelihood, -146.6223320, 1e-8)
}

func TestFitCensoredSaysWhenNothingHoldsIt(t *testing.T) {
	t.Parallel()
	over := math.Inf(1)
	full := []Censored{{1, 1}, {1.2, 1.2}, {0.9, 0.9}, {1.1, 1.1}, {0.7, over}, {0.8, over}, {0.9, over}, {1, over}}
	x := [][]float64{{0}, {1}, {0}, {1}, {0}, {1}, {0}, {1}}
	if _, err := FitCensored([]int{0, 0, 0, 0, 1, 1, 1, 1}, x, full, 2, 0.8); !errors.Is(err, ErrUnbounded) {
		t.Errorf("a group with open values alone: %v", err)
	}
	oneSide := [][]float64{{0}, {0}, {0}, {0}, {1}, {1}, {1}, {1}}
	if l, err := FitCensored(make([]int, 8), oneSide, full, 2, 0.8); !errors.Is(err, ErrUnbounded) {
		t.Errorf("open values alone on one side: %+v, %v", l.Coef, err)
	}
	if _, err := FitCensored(make([]int, 8), x, full, 2, 0.8); err != nil {
		t.Errorf("open values on both sides: %v", err)
	}
}

// The caller says how many degrees of freedom there are, and the interval is of
// those: with fewer, the same estimate has a wider interval.
func TestFitCensoredTakesItsDegreesOfFreedom(t *testing.T) {
	t.Parallel()
	x, y := [][]float64{{0}, {1}, {0}, {1}, {0}, {1}}, []Censored{{1, 1}, {2, 2.5}, {1.2, 1.2}, {2.2, 2.2}, {0.9, 1.3}, {2.4, 2.4}}
	group := make([]int, 6)
	for df := 1; df <= 4; df++ {
		l, err := FitCensored(group, x, y, df, 0.8)
		if err != nil || l.DF != df {
			t.Fatal(l, err)
		}
		within(t, "half", l.Coef[0].High-l.Coef[0].Estimate, tQuantile(0.8, df)*l.Coef[0].SE, 1e-12)
	}
	for _, df := range []int{0, 5} {
		if _, err := FitCensored(group, x, y, df, 0.8); !errors.Is(err, ErrTooFew) {
			t.Errorf("%d of 4 degrees of freedom: %v", df, err)
		}
	}
}
