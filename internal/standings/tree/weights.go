package tree

import "math"

// What is left out when weights are given: cells below a share of the best of
// their shape, and shapes below a share of the whole. Leaving them out costs
// at most half a hundredth in any chance.
const (
	leastCell  = 0.015
	leastShape = 0.01
)

// weigh gives every shape and cell its weight: how well it explains all series
// together, times what was believed of it before. The result has a row for
// each shape, all rows adding up to 1, and the weight of each shape before any
// was left out.
func (m *model) weigh(evidence [][]float64, all bool) (cells [][]float64, shapes []float64) {
	var total logSum
	logs := make([][]float64, len(m.Shapes))
	sums := make([]float64, len(m.Shapes))
	for i, shape := range m.Shapes {
		var sum logSum
		logs[i] = make([]float64, len(m.cells))
		for k, c := range m.cells {
			logs[i][k] = evidence[i][k] + c.log
			sum.add(logs[i][k])
		}
		sums[i] = sum.value() + math.Log(shape.Weight)
		total.add(sums[i])
	}
	if math.IsInf(total.value(), -1) {
		return m.weigh(m.unheard(), all) // the readings say nothing that can be told apart
	}
	for i := range m.Shapes {
		share := math.Exp(sums[i] - total.value())
		shapes = append(shapes, share)
		cells = append(cells, m.cellWeights(logs[i], share, all))
	}
	spreadOut(cells)
	return cells, shapes
}

// cellWeights are the weights of one shape's cells.
func (m *model) cellWeights(logs []float64, share float64, all bool) []float64 {
	out := make([]float64, len(logs))
	if share == 0 || !all && !(share >= leastShape) {
		return out
	}
	best, sum := math.Inf(-1), 0.0
	for _, l := range logs {
		best = max(best, l)
	}
	for k, l := range logs {
		if v := math.Exp(l - best); all || v >= leastCell {
			out[k] = v
			sum += v
		}
	}
	for k := range out {
		out[k] *= share / sum
	}
	return out
}

// spreadOut makes all weights add up to 1.
func spreadOut(cells [][]float64) {
	sum := 0.0
	for _, row := range cells {
		for _, v := range row {
			sum += v
		}
	}
	for _, row := range cells {
		for k := range row {
			row[k] /= sum
		}
	}
}

// unheard is evidence that says nothing.
func (m *model) unheard() [][]float64 {
	out := make([][]float64, len(m.Shapes))
	for i := range out {
		out[i] = make([]float64, len(m.cells))
	}
	return out
}
