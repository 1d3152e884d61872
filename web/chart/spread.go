package chart

import (
	"cmp"
	"math"
	"slices"
)

// apartBy is the distance that names beside each other keep.
const apartBy = lineHigh + 0.5

// spread says at which height each name should stand so that names of marks
// that are near each other keep their order and their distance, and are
// together as near to their marks as can be (least squares, by pooling
// neighbours that are out of order). Marks without a name are nil.
func spread(marks []*point) []float64 {
	out := make([]float64, len(marks))
	var order []int
	for i, m := range marks {
		if m != nil {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(marks[a].x, marks[b].x) })
	for len(order) > 0 {
		n := 1
		for n < len(order) && marks[order[n]].x-marks[order[n-1]].x < 40 {
			n++
		}
		spreadColumn(marks, order[:n], out)
		order = order[n:]
	}
	return out
}

// pool is a run of names that stand at even distances.
type pool struct {
	sum, n float64
}

// spreadColumn spreads the names of marks that stand about above each other.
func spreadColumn(marks []*point, column []int, out []float64) {
	slices.SortStableFunc(column, func(a, b int) int { return cmp.Compare(marks[a].y, marks[b].y) })
	var pools []pool
	for i, m := range column {
		pools = append(pools, pool{marks[m].y - float64(i)*apartBy, 1})
		for k := len(pools) - 1; k > 0 && pools[k].sum/pools[k].n < pools[k-1].sum/pools[k-1].n; k-- {
			pools[k-1] = pool{pools[k-1].sum + pools[k].sum, pools[k-1].n + pools[k].n}
			pools = pools[:k]
		}
	}
	i := 0
	for _, p := range pools {
		for range int(math.Round(p.n)) {
			out[column[i]] = p.sum/p.n + float64(i)*apartBy
			i++
		}
	}
}
