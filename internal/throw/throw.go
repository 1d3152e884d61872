// Package throw works out what noses make of candles: the codes and the order
// in which candles are smelled, the middle and the spread of their scores, and
// whether several noses tell several candles apart and agree about it.
//
// It is handed plain scores, one row a nose and one column a candle, and knows
// nothing of candles, of storage or of the clock; chance comes in by
// parameter. It refuses to call a score a size: on a scale of words the order
// counts, so it works with middles and ranks, and doubling the load does not
// double a score (intensity grows as a power of the concentration; perfumery
// textbooks).
package throw

import (
	"errors"
	"math"
	"slices"

	"rimward/internal/stats"
)

// Missing stands for a score that was not given.
var Missing = math.NaN()

// Summary is the middle and the spread of some scores.
type Summary struct {
	N        int
	Median   float64 // NaN when N is 0
	Low      float64 // the middle half of the scores runs from Low
	High     float64 // to High; both are NaN when N is 0
	Min, Max float64 // NaN when N is 0
}

// FewForQuartiles is the number of scores below which the middle half says
// little and the whole range is shown (our choice, no source).
const FewForQuartiles = 5

// Summarise finds the middle and the spread of scores; missing ones do not
// count. Quartiles lie on straight lines between neighbours (type 7 of Hyndman
// & Fan, Am. Stat. 50:361-365, 1996).
func Summarise(scores []float64) Summary {
	x := slices.DeleteFunc(slices.Clone(scores), math.IsNaN)
	slices.Sort(x)
	s := Summary{N: len(x), Median: quantile(x, 0.5), Low: quantile(x, 0.25), High: quantile(x, 0.75), Min: Missing, Max: Missing}
	if len(x) > 0 {
		s.Min, s.Max = x[0], x[len(x)-1]
	}
	return s
}

// Spread is how far the scores lie apart: the middle half, or of fewer than
// FewForQuartiles the whole range.
func (s Summary) Spread() (low, high float64, whole bool) {
	if s.N < FewForQuartiles {
		return s.Min, s.Max, true
	}
	return s.Low, s.High, false
}

// quantile reads a share of values that are in order.
func quantile(x []float64, share float64) float64 {
	if len(x) == 0 {
		return Missing
	}
	at := share * float64(len(x)-1)
	i := int(at)
	if i == len(x)-1 {
		return x[i]
	}
	return x[i] + (at-float64(i))*(x[i+1]-x[i])
}

// Outcome says whether scores can be compared, and if not, what is missing.
type Outcome int

// What can become of a comparison.
const (
	Compared   Outcome = iota
	OneCandle          // there is nothing to compare it with
	FewNoses           // fewer than two noses scored every candle
	NoneDiffer         // every nose scored all candles alike
)

// Likely is the chance below which candles are said to differ more than by
// chance (the usual 5 %).
const Likely = 0.05

// Comparison is what several noses make of several candles.
type Comparison struct {
	Outcome    Outcome
	Candles    int
	Complete   int // noses that scored every candle, on whom the ranks rest
	Incomplete int // noses that left a candle out
	Test       stats.RankTest
	Agreement  stats.Concordance
	// LSD is how far two rank sums must lie apart to be told apart, and Apart
	// the pairs that do; both only where the test itself says that candles
	// differ.
	LSD   float64
	Apart []Pair
	// Alpha is Krippendorff's alpha on an ordinal scale over all scores,
	// incomplete noses too; AlphaKnown is false where it cannot be had.
	Alpha      float64
	AlphaKnown bool
	Indicative bool // fewer than eight judgements: stats.EnoughJudgements
}

// Pair is two candles, by their column, that noses tell apart: the higher
// ranked first.
type Pair struct{ Higher, Lower int }

// Differ reports whether the candles differ more than by chance.
func (c Comparison) Differ() bool { return c.Outcome == Compared && c.Test.P < Likely }

// Compare holds the scores of several candles against each other: one row a
// nose, one column a candle, Missing where a nose left one out. Ranks rest on
// complete rows alone: Friedman's test and Kendall's W, both corrected for
// ties; see package stats for their sources.
func Compare(rows [][]float64) Comparison {
	candles, complete := completeRows(rows)
	n := len(complete)
	c := Comparison{Outcome: outcome(candles, n), Candles: candles, Complete: n, Incomplete: len(rows) - n, Indicative: n < stats.EnoughJudgements}
	if c.Outcome == Compared {
		c.rank(complete)
	}
	if c.Outcome == Compared {
		c.agree(rows)
	}
	return c
}

// completeRows finds how many candles there are, and the rows that leave none
// out.
func completeRows(rows [][]float64) (candles int, complete [][]float64) {
	for _, r := range rows {
		candles = max(candles, len(r))
		if !slices.ContainsFunc(r, math.IsNaN) {
			complete = append(complete, r)
		}
	}
	return candles, complete
}

// rank tests whether candles differ, and tells apart those that do.
func (c *Comparison) rank(complete [][]float64) {
	var err error
	if c.Test, err = stats.Friedman(complete); errors.Is(err, stats.ErrTooFew) {
		c.Outcome = NoneDiffer
		return
	}
	c.Agreement, _ = stats.KendallW(complete) // fails only where Friedman does
	if c.Differ() {
		c.LSD = LeastDifference(c.Complete, c.Candles)
		c.Apart = apart(c.Test.RankSums, c.LSD)
	}
}

// agree finds how far all noses agree, incomplete ones too.
func (c *Comparison) agree(rows [][]float64) {
	if a, err := stats.KrippendorffAlpha(rows, stats.Ordinal); err == nil {
		c.Alpha, c.AlphaKnown = a.Alpha, true
	}
}

func outcome(candles, complete int) Outcome {
	switch {
	case candles < 2:
		return OneCandle
	case complete < 2:
		return FewNoses
	}
	return Compared
}

// LeastDifference is the least significant difference of two rank sums at 5 %
// for so many noses and candles: 1.96 sqrt(n k (k+1)/6), in ranks (ISO 8587,
// from memory). It takes no account of ties, which makes it too wide, nor of
// how many pairs are looked at, which makes it too narrow.
func LeastDifference(noses, candles int) float64 {
	n, k := float64(noses), float64(candles)
	return 1.96 * math.Sqrt(n*k*(k+1)/6)
}

// apart lists the pairs whose rank sums differ by the least difference, the
// highest first.
func apart(sums []float64, least float64) []Pair {
	order := make([]int, len(sums))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if sums[a] > sums[b] {
			return -1
		}
		if sums[a] < sums[b] {
			return 1
		}
		return a - b
	})
	var out []Pair
	for i, high := range order {
		for _, low := range order[i+1:] {
			if sums[high]-sums[low] >= least {
				out = append(out, Pair{high, low})
			}
		}
	}
	return out
}
