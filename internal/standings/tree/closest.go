package tree

import "rimward/internal/stats"

// closest finds the chance of each tested rung to be the closest of all, over
// one or several series that are compared: in each cell the rungs are taken to
// be independent. It returns the chances for each series and rung; those of
// rungs that were not tested are 0.
func closest(all ...[]misses) [][]float64 {
	out := make([][]float64, len(all))
	at := map[[2]int][]misses{}
	for i, ms := range all {
		for _, m := range ms {
			key := [2]int{m.shape, m.cell}
			at[key] = append(at[key], m)
			if out[i] == nil {
				out[i] = make([]float64, len(m.rungs))
			}
		}
	}
	for _, m := range all[0] {
		if same := at[[2]int{m.shape, m.cell}]; len(same) == len(all) {
			compare(same, m.weight, out)
		}
	}
	normalise(out)
	return out
}

// compare adds one cell's chances.
func compare(same []misses, weight float64, out [][]float64) {
	var hists [][]float64
	for _, m := range same {
		for _, h := range m.rungs {
			if h != nil {
				hists = append(hists, h[:])
			}
		}
	}
	chances := stats.ChanceLowest(hists)
	if chances == nil {
		return
	}
	for i, m := range same {
		for k, h := range m.rungs {
			if h != nil {
				out[i][k] += weight * chances[0]
				chances = chances[1:]
			}
		}
	}
}

func normalise(out [][]float64) {
	sum := 0.0
	for _, cs := range out {
		for _, c := range cs {
			sum += c
		}
	}
	if sum == 0 {
		return
	}
	for _, cs := range out {
		for k := range cs {
			cs[k] /= sum
		}
	}
}
