package stats

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// MidRanks ranks values from 1, the smallest, upwards; equal values share the
// mean of the ranks they take up. It returns an error for what is not a number.
func MidRanks(x []float64) ([]float64, error) {
	if slices.ContainsFunc(x, math.IsNaN) {
		return nil, errors.New("rank values: a value is not a number")
	}
	order := make([]int, len(x))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(x[a], x[b]) })
	ranks := make([]float64, len(x))
	for from := 0; from < len(x); {
		to := from + 1
		for to < len(x) && x[order[to]] == x[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			ranks[i] = float64(from+1+to) / 2
		}
		from = to
	}
	return ranks, nil
}

// EnoughJudgements is the number of independent judgements below which a
// comparison is only indicative (ASTM E544-18 asks for at least eight).
const EnoughJudgements = 8

// RankTest is Friedman's test of whether judges rank some samples apart. As ISO
// 8587 says of ranking, it can show that samples differ and not by how much.
type RankTest struct {
	Judges, Samples int
	RankSums        []float64 // of the samples
	Chi2            float64   // corrected for ties
	DF              int
	P               float64 // chance of a Chi2 at least this large if nobody could tell the samples apart
	Warnings        []string
}

// Friedman tests scores, one row a judge and one column a sample, by Friedman's
// ranks with the correction for ties (Friedman, J. Am. Stat. Assoc. 32:675-701,
// 1937; Hollander & Wolfe, Nonparametric Statistical Methods, 1973, chapter 7).
// It returns ErrTooFew below two judges or two samples, or when every judge
// scores all samples alike.
func Friedman(scores [][]float64) (RankTest, error) {
	p, err := panelOf(scores)
	if err != nil {
		return RankTest{}, fmt.Errorf("test ranks: %w", err)
	}
	t := RankTest{Judges: p.judges, Samples: p.samples, RankSums: p.sums, DF: p.samples - 1, Warnings: p.doubts()}
	t.Chi2 = float64(t.DF) * p.apart() / p.spread
	t.P = distuv.ChiSquared{K: float64(t.DF)}.Survival(t.Chi2)
	return t, nil
}

// Concordance is Kendall's coefficient: how far judges agree in their ranking,
// from 0, not at all, to 1, wholly.
type Concordance struct {
	Judges, Samples int
	W               float64 // corrected for ties
	S               float64 // sum of squares of the rank sums about their mean
	Chi2            float64
	DF              int
	P               float64 // chance of a W at least this large if judges ranked at random
	Warnings        []string
}

// KendallW measures the agreement of judges, one row a judge and one column a
// sample, with the correction for ties (Kendall & Babington Smith, Ann. Math.
// Stat. 10:275-287, 1939; Siegel, Nonparametric Statistics, 1956, chapter 9). It
// returns ErrTooFew where Friedman does.
func KendallW(scores [][]float64) (Concordance, error) {
	p, err := panelOf(scores)
	if err != nil {
		return Concordance{}, fmt.Errorf("measure concordance: %w", err)
	}
	c := Concordance{Judges: p.judges, Samples: p.samples, S: p.apart(), DF: p.samples - 1, Warnings: p.doubts()}
	c.W = min(1, c.S/(float64(p.judges)*p.spread))
	c.Chi2 = float64(p.judges*c.DF) * c.W
	c.P = distuv.ChiSquared{K: float64(c.DF)}.Survival(c.Chi2)
	return c, nil
}

// panel is a table of scores by its ranks.
type panel struct {
	judges, samples int
	sums            []float64 // of the ranks of each sample
	// spread is the sum of squares of all ranks about the middle rank: for each
	// judge of n samples a twelfth of n^3 - n, less a twelfth of t^3 - t for
	// every tie of t, which is all the correction for ties there is.
	spread float64
}

// panelOf ranks each judge's scores.
func panelOf(scores [][]float64) (panel, error) {
	if len(scores) < 2 || len(scores[0]) < 2 {
		return panel{}, ErrTooFew
	}
	p := panel{judges: len(scores), samples: len(scores[0]), sums: make([]float64, len(scores[0]))}
	middle := float64(p.samples+1) / 2
	for _, row := range scores {
		if len(row) != p.samples {
			return panel{}, errors.New("judges scored different numbers of samples")
		}
		ranks, err := MidRanks(row)
		if err != nil {
			return panel{}, err
		}
		for i, r := range ranks {
			p.sums[i] += r
			p.spread += (r - middle) * (r - middle)
		}
	}
	if p.spread == 0 {
		return panel{}, ErrTooFew
	}
	return p, nil
}

// apart is the sum of squares of the rank sums about their mean.
func (p panel) apart() (s float64) {
	mean := float64(p.judges) * float64(p.samples+1) / 2
	for _, r := range p.sums {
		s += (r - mean) * (r - mean)
	}
	return s
}

// doubts says in words what is to be doubted about so small a panel.
func (p panel) doubts() []string {
	if p.judges < EnoughJudgements {
		return []string{"fewer than eight judgements: indicative only"}
	}
	return nil
}
