package influence

import (
	"math"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/stats"
)

// inside compares, for a factor that may differ from candle to candle of a pour,
// only candles of one pour and pairing: there, candles differ by chances of
// their own alone, and all that belongs to the pour cancels (the subplots of a
// split-plot trial; Yates, J. R. Statist. Soc. Suppl. 2:181-247, 1935; from
// memory). It answers where enough of the factor's variation lies inside pours,
// which is settled by how the candles were made and not by what they did.
func (x *inquiry) inside(f Factor) (Effect, bool) {
	cs := x.withinPours()
	group, rows := x.byPour(cs, f)
	if len(cs) == 0 || spread(group, rows) < own*own*x.spread(f) {
		return Effect{}, false
	}
	told := slices.DeleteFunc(slices.Clone(cs), func(c Candle) bool { return !c.told() })
	df := len(told) - groups(group) - 1
	if df < LeastDF || len(stats.Dependences(group, rows, own)) > 0 {
		return Effect{}, false
	}
	l, err := stats.FitCensored(group, rows, widths(cs), df, Level)
	if err != nil {
		return Effect{}, false
	}
	e := Effect{Factor: f, Inside: true}.with(l.Coef[0])
	e.countInside(cs)
	return e, true
}

// bench is the candles of one pour in one pairing.
type bench struct {
	stratum Stratum
	pour    journal.ID
}

func (c Candle) bench() bench { return bench{c.Stratum, c.Pour} }

// withinPours are the candles that have another of their pour and pairing, and
// one among them with an upper end.
func (x *inquiry) withinPours() []Candle {
	size, held := map[bench]int{}, map[bench]bool{}
	for _, c := range x.cs {
		size[c.bench()]++
		held[c.bench()] = held[c.bench()] || !math.IsInf(c.Width.High, 1)
	}
	return slices.DeleteFunc(slices.Clone(x.cs), func(c Candle) bool { return size[c.bench()] < 2 || !held[c.bench()] })
}

// byPour numbers the pours in their pairings, and lists a factor.
func (x *inquiry) byPour(cs []Candle, f Factor) (group []int, rows [][]float64) {
	at := map[bench]int{}
	for _, c := range cs {
		if _, ok := at[c.bench()]; !ok {
			at[c.bench()] = len(at)
		}
		group, rows = append(group, at[c.bench()]), append(rows, []float64{c.Values[f]})
	}
	return group, rows
}

func groups(group []int) int {
	seen := map[int]bool{}
	for _, g := range group {
		seen[g] = true
	}
	return len(seen)
}

// spread is a factor's sum of squares within pairings.
func (x *inquiry) spread(f Factor) float64 {
	at := places(x.cs)
	var group []int
	var rows [][]float64
	for _, c := range x.cs {
		group, rows = append(group, at[c.Stratum]), append(rows, []float64{c.Values[f]})
	}
	return spread(group, rows)
}

// spread is the sum of squares within groups.
func spread(group []int, rows [][]float64) float64 {
	n, sum, total := map[int]float64{}, map[int]float64{}, 0.0
	for i, g := range group {
		n[g], sum[g] = n[g]+1, sum[g]+rows[i][0]
	}
	for i, g := range group {
		d := rows[i][0] - sum[g]/n[g]
		total += d * d
	}
	return total
}

// countInside says where the factor varied within a pour.
func (e *Effect) countInside(cs []Candle) {
	values := map[bench][]float64{}
	for _, c := range cs {
		values[c.bench()] = append(values[c.bench()], c.Values[e.Factor])
	}
	cs = slices.DeleteFunc(cs, func(c Candle) bool { vs := values[c.bench()]; return slices.Min(vs) == slices.Max(vs) })
	e.count(cs)
}
