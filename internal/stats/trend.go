package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Trend is whether values rise or fall along several rows at once, by their
// order alone.
type Trend struct {
	N int // values in rows of two or more
	// Score is how many more pairs of a row rise than fall; Variance is that of
	// the score if the order of each row were chance.
	Score, Variance float64
	// P is the two-sided chance of a score so far from 0 if the order were
	// chance, by the normal curve with a correction of one; 1 where nothing can
	// be told.
	P float64
}

// TrendWithin adds up Mann's test against a trend over rows, each in its own
// order, ties allowed (Mann, Econometrica 13:245-259, 1945; summed as in
// Hirsch, Slack & Smith, Water Resources Research 18:107-121, 1982; from
// memory). Values of different rows are not compared.
func TrendWithin(rows [][]float64) Trend {
	t := Trend{P: 1}
	for _, row := range rows {
		if len(row) < 2 {
			continue
		}
		t.N += len(row)
		for i, early := range row {
			for _, late := range row[i+1:] {
				t.Score += sign(late - early)
			}
		}
		t.Variance += scoreVariance(row)
	}
	if t.Variance > 0 {
		z := math.Max(math.Abs(t.Score)-1, 0) / math.Sqrt(t.Variance)
		t.P = math.Min(1, 2*distuv.UnitNormal.Survival(z))
	}
	return t
}

func sign(v float64) float64 {
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// scoreVariance is the variance of one row's score, less that of its ties.
func scoreVariance(row []float64) float64 {
	part := func(n int) float64 { return float64(n * (n - 1) * (2*n + 5)) }
	sum, sorted := part(len(row)), slices.Sorted(slices.Values(row))
	for from := 0; from < len(sorted); {
		to := from
		for to < len(sorted) && sorted[to] == sorted[from] {
			to++
		}
		sum -= part(to - from)
		from = to
	}
	return sum / 18
}
