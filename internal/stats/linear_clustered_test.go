package stats

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// twoSides are rows of 0 and 1 with values about, each in a cluster of its own.
func twoSides(sides ...[]float64) (x [][]float64, y []Censored, cluster []int) {
	for side, values := range sides {
		for _, v := range values {
			x, y, cluster = append(x, []float64{float64(side)}), append(y, Censored{v, v}), append(cluster, len(cluster))
		}
	}
	return x, y, cluster
}

// With clusters of one row, CR2 is HC2, which for the difference of two means is
// the variance of Welch (Biometrika 34:28-35, 1947), and its degrees of freedom
// are Welch's for equal spreads (Imbens & Kolesár, Rev. Econ. Stat. 98:701-712,
// 2016, sec. 2; from memory).
func TestClustersOfOneAreWelch(t *testing.T) {
	t.Parallel()
	a, b := []float64{4.17, 5.58, 5.18, 6.11, 4.50, 4.61}, []float64{6.31, 5.12, 5.54}
	x, y, cluster := twoSides(a, b)
	l, err := FitClustered(make([]int, 9), x, y, cluster, 7, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	n, m := 6.0, 3.0
	df := math.Pow(1/n+1/m, 2) / (1/(n*n*(n-1)) + 1/(m*m*(m-1)))
	within(t, "estimate", l.Coef[0].Estimate, mean(b)-mean(a), 1e-9)
	within(t, "error", l.Coef[0].SE, math.Sqrt(variance(a)/n+variance(b)/m), 1e-8)
	within(t, "degrees of freedom", l.Coef[0].DF, df, 1e-8)
	within(t, "high", l.Coef[0].High-l.Coef[0].Estimate, tQuantileOf(0.8, df)*l.Coef[0].SE, 1e-8)
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x / float64(len(v))
	}
	return sum
}

func variance(v []float64) float64 {
	sum, m := 0.0, mean(v)
	for _, x := range v {
		sum += (x - m) * (x - m) / float64(len(v)-1)
	}
	return sum
}

// Clusters of one size that a variable belongs to whole count as their means, a
// level for each row of a cluster or not: 24 rows in two sides of three
// clusters have 4 degrees of freedom, not 19.
func TestWholeClustersCountAsTheirMeans(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(3, 3))
	var group, cluster []int
	var x [][]float64
	var y []Censored
	means := make([][]float64, 2)
	for c := range 6 {
		of := make([]float64, 4)
		own := rng.NormFloat64()
		for i := range of {
			of[i] = own + 0.3*rng.NormFloat64()
			group, cluster, x = append(group, i), append(cluster, c), append(x, []float64{float64(c % 2)})
			y = append(y, Censored{of[i] + float64(i), of[i] + float64(i)})
		}
		means[c%2] = append(means[c%2], mean(of))
	}
	l, err := FitClustered(group, x, y, cluster, 24-5, 0.8)
	if err != nil {
		t.Fatal(err)
	}
	within(t, "estimate", l.Coef[0].Estimate, mean(means[1])-mean(means[0]), 1e-8)
	within(t, "error", l.Coef[0].SE, math.Sqrt(variance(means[0])/3+variance(means[1])/3), 1e-7)
	within(t, "degrees of freedom", l.Coef[0].DF, 4, 1e-7)
}

// A cluster alone on its side leaves nothing over to judge it by, however many
// rows it has and however many clusters the other side has.
func TestOneClusterAloneCannotJudge(t *testing.T) {
	t.Parallel()
	for _, size := range []int{1, 4} {
		x, y, cluster := twoSides([]float64{1, 1.1, 0.8, 1.2}, []float64{2, 2.2, 1.9, 2.3})
		for i := range cluster {
			if cluster[i] = i / size; i >= 4 {
				cluster[i] = 9
			}
		}
		l, err := FitClustered(make([]int, 8), x, y, cluster, 6, 0.8)
		if err != nil || l.Coef[0].DF != 0 || !math.IsNaN(l.Coef[0].SE) || !math.IsNaN(l.Coef[0].Low) {
			t.Errorf("%+v, %v", l.Coef, err)
		}
	}
}

func TestFitClusteredRefuses(t *testing.T) {
	t.Parallel()
	x, y, cluster := twoSides([]float64{1, 1.1, 0.8}, []float64{2, 2.2, 1.9})
	if _, err := FitClustered(make([]int, 6), x, y, cluster[1:], 4, 0.8); err == nil {
		t.Error("a value without a cluster")
	}
	if _, err := FitClustered(make([]int, 6), x, y, cluster, 0, 0.8); !errors.Is(err, ErrTooFew) {
		t.Error(err)
	}
}

// The fit that the pages use gives the certified estimates of Longley's data
// too (NIST StRD, linear regression, thousands divided out; see
// TestFitLinearLongley), each row a cluster of its own.
func TestFitClusteredLongley(t *testing.T) {
	t.Parallel()
	x, y := longley(t)
	exact, cluster := make([]Censored, len(y)), make([]int, len(y))
	for i := range y {
		exact[i], cluster[i] = Censored{y[i], y[i]}, i
	}
	l, err := FitClustered(make([]int, len(y)), x, exact, cluster, 9, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	for k, want := range []float64{.0150618722713733, -.0358191792925910, -.0202022980381683, -.0103322686717359, -.0511041056535807, 1.82915146461355} {
		within(t, fmt.Sprint("coefficient ", k), l.Coef[k].Estimate, want, 1e-5)
	}
	within(t, "residual sd", l.ResidualSD, 0.304854073561965, 1e-5)
}
