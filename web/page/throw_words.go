package page

import (
	"math"
	"strconv"
	"strings"

	"rimward/internal/quantity"
	"rimward/internal/stats"
	"rimward/internal/throw"
)

// agreeing are our own words for Kendall's W, no source.
var agreeing = []struct {
	under float64
	word  string
}{{0.2, "hardly agree"}, {0.4, "agree a little"}, {0.6, "agree moderately"}, {0.8, "agree well"}, {math.Inf(1), "agree closely"}}

func agreeWord(w float64) string {
	for _, a := range agreeing {
		if w < a.under {
			return a.word
		}
	}
	return ""
}

// comparisonWords says what the comparison found; rows are in its order.
func comparisonWords(c throw.Comparison, rows []ResultRow) []string {
	switch c.Outcome {
	case throw.OneCandle:
		return []string{"One candle by itself: there is nothing to compare it with. Smell two or more in one go to see whether they differ."}
	case throw.FewNoses:
		return []string{"Not enough yet to compare them: that takes two noses who each score every candle; so far " + counted(c.Complete, "nose has", "noses have") + "."}
	case throw.NoneDiffer:
		return []string{"Every nose scored all candles alike, so nothing sets them apart."}
	}
	w, p := quantity.Number(c.Agreement.W, 2), quantity.Chance(c.Test.P).String()
	if !c.Differ() {
		return []string{"The noses show no more agreement than chance would give (W " + w + ", p " + p + "), so the candles cannot be told apart yet. More noses may settle it."}
	}
	words := "The noses " + agreeWord(c.Agreement.W) + " (W " + w + "); the candles differ more than chance would make them (p " + p + ")."
	return []string{words, toldApart(c, rows)}
}

// toldApart says which candles can be told apart.
func toldApart(c throw.Comparison, rows []ResultRow) string {
	if len(c.Apart) == 0 {
		return "No two of them are far enough apart to say which."
	}
	lower, order := map[int][]string{}, []int{}
	for _, x := range c.Apart {
		if lower[x.Higher] == nil {
			order = append(order, x.Higher)
		}
		lower[x.Higher] = append(lower[x.Higher], rows[x.Lower].Candle)
	}
	var parts []string
	for _, i := range order {
		parts = append(parts, rows[i].Candle+" ranks above "+listed(lower[i]))
	}
	s := capital(strings.Join(parts, "; ")) + "."
	if len(c.Apart) < c.Candles*(c.Candles-1)/2 {
		s += " No other pair can be told apart."
	}
	return s
}

// comparisonDoubts says what is to be doubted about it.
func comparisonDoubts(c throw.Comparison, noses int) []string {
	var out []string
	judgements := noses
	if c.Outcome != throw.OneCandle {
		judgements = c.Complete
	}
	if judgements < stats.EnoughJudgements {
		out = append(out, "Indicative only: "+figured(judgements, "judgement", "judgements")+". ASTM E544 asks for at least "+strconv.Itoa(stats.EnoughJudgements)+" independent ones.")
	}
	if c.Incomplete > 0 && c.Outcome != throw.OneCandle {
		out = append(out, capital(counted(c.Incomplete, "nose", "noses"))+" left a candle out. Those scores count in the medians, not in the comparison.")
	}
	if c.Outcome == throw.Compared {
		out = append(out, "Ranking can show that candles differ, not by how much (ISO 8587).")
	}
	return out
}

// throwMethod says how the result was worked out, with its sources.
func throwMethod(c throw.Comparison) []string {
	out := []string{
		"The scale runs from 0, none, to 5, very strong (the simple scale of perfumery textbooks). It is one of words, so the middle score (median) is shown and no average. The spread is the middle half of the scores, or all of them where there are fewer than " + strconv.Itoa(throw.FewForQuartiles) + ".",
		"At least eight independent judgements are asked for by ASTM E544-18. ISO 8587:2006 ranks samples with 12 to 15 chosen assessors. Fewer are still worth having, as a hint.",
	}
	if c.Outcome == throw.Compared {
		out = append(out,
			"The comparison gives each nose’s scores ranks, equal scores sharing the mean of theirs, and asks how often chance would spread the rank sums as far: Friedman’s test with the correction for ties ("+
				"chi-squared "+quantity.Number(c.Test.Chi2, 2)+", "+figured(c.Test.DF, "degree", "degrees")+" of freedom, p "+quantity.Number(c.Test.P, 4)+", "+figured(c.Complete, "nose", "noses")+"). The p rests on an approximation that is rough for a few noses and candles.",
			"How far noses agree is Kendall’s W, from 0, not at all, to 1, wholly; our own words stand for it: under 0.2 hardly, 0.4 a little, 0.6 moderately, 0.8 well, above that closely. No word stands for it where the test finds nothing: noses who guess come to a W of 1 over their number on average.")
		if c.AlphaKnown {
			out = append(out, "Over all scores, incomplete noses too, Krippendorff’s alpha on an ordinal scale is "+quantity.Number(c.Alpha, 2)+" (1: noses agree wholly; 0: no more than by chance). It asks for equal scores, W only for an equal order.")
		}
	}
	if c.Differ() {
		out = append(out, "Two candles are told apart where their rank sums lie "+quantity.Number(c.LSD, 1)+" or more apart: 1.96 times the root of n k (k + 1) / 6, for n noses and k candles (the least significant difference of ISO 8587, from memory). It is looked at only where the test itself finds a difference.")
	}
	return append(out, "Three-digit random codes, a balanced order for each nose and blind scoring follow ISO 13299 (read in an extract); the order is Williams’ design of 1949.")
}
