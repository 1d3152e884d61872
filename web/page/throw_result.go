package page

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/stats"
	"rimward/internal/throw"
	"rimward/web/chart"
)

// ThrowResult is what the noses made of the candles, the strongest first.
type ThrowResult struct {
	Rows   []ResultRow
	Words  []string // what may be said of it
	Doubts []string
	Method []string // how it was worked out
}

// ResultRow is one candle.
type ResultRow struct {
	Candle, Href, What string
	Gone               bool   // it was withdrawn since, and counts no more
	Code               string // that it stood under; "" for an open smelling
	Median, Word       string
	Spread, N, Lit     string
	Notes              []string
	Out                string // where it is taken out of the smelling
	Dots               chart.Scores
	median, mean       float64
}

// newThrowResult works the result out; the codes must not be covered. Candles
// that were withdrawn since stand last and count in nothing.
func newThrowResult(l journal.SmellingLog) *ThrowResult {
	cups, gone := stillCounting(l)
	rows := scoreRows(l.Noses(), cups)
	r := &ThrowResult{}
	for i, c := range cups {
		r.Rows = append(r.Rows, resultRow(l.Smelling, c, column(rows, i)))
	}
	r.compare(rows)
	slices.SortStableFunc(r.Rows, func(a, b ResultRow) int {
		return cmp.Or(downwards(a.median, b.median), downwards(a.mean, b.mean))
	})
	all := scoreRows(l.Noses(), gone)
	for i, c := range gone {
		r.Rows = append(r.Rows, withdrawnRow(l.Smelling, c, column(all, i)))
	}
	if len(gone) > 0 {
		r.Doubts = append(r.Doubts, "Withdrawn since: "+listed(candleCodes(gone))+". The scores are kept, but they count in no rank and no comparison.")
	}
	return r
}

// compare says what the scores come to; the rows must still be in the order of
// their columns.
func (r *ThrowResult) compare(rows [][]float64) {
	if len(rows) == 0 {
		r.Words = []string{"No candle that still counts was scored, so there is nothing to compare."}
		return
	}
	c := throw.Compare(rows)
	r.Words, r.Doubts, r.Method = comparisonWords(c, r.Rows), comparisonDoubts(c, len(rows)), throwMethod(c)
}

// stillCounting parts the cups, in the order of their candles, into those that
// count and those whose candle or pour was withdrawn since.
func stillCounting(l journal.SmellingLog) (cups, gone []journal.CupLog) {
	for _, c := range slices.SortedFunc(slices.Values(SheetCups(l, 0)), byCandleCode) {
		if c.Made.Withdrawn() {
			gone = append(gone, c)
		} else {
			cups = append(cups, c)
		}
	}
	return cups, gone
}

func candleCodes(cups []journal.CupLog) (codes []string) {
	for _, c := range cups {
		codes = append(codes, c.Made.Candle.Code())
	}
	return codes
}

// downwards orders from high to low, what is not known last.
func downwards(a, b float64) int {
	if math.IsNaN(a) || math.IsNaN(b) {
		return cmp.Compare(b, a)
	}
	return cmp.Compare(b, a)
}

func byCandleCode(a, b journal.CupLog) int {
	x, y := a.Made.Candle, b.Made.Candle
	return cmp.Or(cmp.Compare(x.PourNumber, y.PourNumber), cmp.Compare(len(x.Letter), len(y.Letter)), strings.Compare(x.Letter, y.Letter))
}

// sortLabels puts labels in the order of the candles' own codes.
func sortLabels(rows []LabelRow, l journal.SmellingLog) {
	cups := slices.Clone(l.Cups)
	slices.SortFunc(cups, byCandleCode)
	place := map[string]int{}
	for i, c := range cups {
		place[c.Cup.Code] = i
	}
	slices.SortFunc(rows, func(a, b LabelRow) int { return place[a.Code] - place[b.Code] })
}

// scoreRows are the scores of cups: one row a nose, one column a cup. A nose
// that scored none of them has no row.
func scoreRows(noses []string, cups []journal.CupLog) [][]float64 {
	var rows [][]float64
	for _, n := range noses {
		var row []float64
		scored := false
		for _, c := range cups {
			v := throw.Missing
			if s := c.Of(n); s != nil {
				v, scored = float64(s.Score), true
			}
			row = append(row, v)
		}
		if scored {
			rows = append(rows, row)
		}
	}
	return rows
}

func column(rows [][]float64, i int) []float64 {
	var out []float64
	for _, r := range rows {
		if !math.IsNaN(r[i]) {
			out = append(out, r[i])
		}
	}
	return out
}

// withdrawnRow is a candle that counts no more: its scores, without a middle.
func withdrawnRow(s journal.Smelling, c journal.CupLog, scores []float64) ResultRow {
	r := resultRow(s, c, scores)
	r.Gone, r.Median, r.Word, r.Spread = true, "–", "withdrawn", "not counted"
	r.Dots = scoreDots(scores, math.NaN())
	return r
}

func resultRow(s journal.Smelling, c journal.CupLog, scores []float64) ResultRow {
	sum := throw.Summarise(scores)
	m := c.Made
	r := ResultRow{Candle: m.Candle.Code(), Href: "/candles/" + idText(m.Candle.ID), What: m.Vessel.Name + " · " + wicksText(m),
		Out: "/withdraw/cup/" + idText(c.Cup.ID), N: figured(sum.N, "nose", "noses"), Dots: scoreDots(scores, sum.Median), median: sum.Median, mean: stats.Summarise(scores).Mean}
	r.Median, r.Word, r.Spread = summaryTexts(sum)
	if s.Blind {
		r.Code = c.Cup.Code
	}
	if c.Cup.Minutes != nil {
		r.Lit = c.Cup.Minutes.String()
	}
	for _, x := range c.Scores {
		if !x.IsGone() && x.Note != "" {
			r.Notes = append(r.Notes, x.Nose+": "+x.Note)
		}
	}
	return r
}

// summaryTexts writes a middle with its word and how far the scores lie apart.
func summaryTexts(s throw.Summary) (median, word, spread string) {
	if s.N == 0 {
		return "–", "not smelled", ""
	}
	median = quantity.Score(s.Median)
	if s.Median == math.Trunc(s.Median) {
		word = journal.ThrowScale[int(s.Median)].Meaning
	} else {
		word = "between " + journal.ThrowScale[int(s.Median)].Meaning + " and " + journal.ThrowScale[int(s.Median)+1].Meaning
	}
	low, high, whole := s.Spread()
	switch {
	case s.N == 1:
		return median, word, "one score"
	case low == high && whole:
		return median, word, "all " + quantity.Score(low)
	case whole:
		return median, word, quantity.Score(low) + " to " + quantity.Score(high)
	case low == high:
		return median, word, "middle half all " + quantity.Score(low)
	}
	return median, word, "middle half " + quantity.Score(low) + " to " + quantity.Score(high)
}

// scoreDots draws a dot for each score.
func scoreDots(scores []float64, median float64) chart.Scores {
	counts := make([]int, journal.MostThrow+1)
	var texts []string
	sorted := slices.Sorted(slices.Values(scores))
	for _, s := range sorted {
		counts[int(s)]++
		texts = append(texts, quantity.Score(s))
	}
	title := "No scores"
	if len(texts) > 0 {
		title = "Scores " + strings.Join(texts, ", ")
	}
	if !math.IsNaN(median) {
		title += "; median " + quantity.Score(median)
	}
	return chart.NewScores(chart.ScoresSpec{Counts: counts, Median: median, Title: title})
}
