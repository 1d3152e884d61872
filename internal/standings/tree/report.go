package tree

import "context"

// Report is what a series says.
type Report struct {
	Rungs []Figures // in the order of the series' pairings
	// Across is the chance of each tested rung of being the closest of all the
	// series that were asked for together.
	Across []float64
	// Shapes is the weight of each shape of the growth curve.
	Shapes []float64
}

// Reports tells what some of the series say, by their places among those that
// were weighed, and compares them.
func (w *Weighed) Reports(ctx context.Context, places ...int) ([]Report, error) {
	outcomes, err := w.outcomes(ctx, places)
	if err != nil {
		return nil, err
	}
	out := make([]Report, len(places))
	var all [][]misses
	for i := range places {
		var ms []misses
		for _, o := range outcomes[i] {
			ms = append(ms, o.misses...)
		}
		all = append(all, ms)
	}
	paper := w.m.newWorker(nil)
	defer paper.done()
	for i, at := range places {
		out[i] = w.report(paper, at, outcomes[i], all[i])
	}
	for i, chances := range closest(all...) {
		out[i].Across = chances
	}
	return out, nil
}

// report puts one series together.
func (w *Weighed) report(paper *worker, at int, outcomes []outcome, ms []misses) Report {
	r := Report{Shapes: w.Shapes()}
	chances := closest(ms)[0]
	s := w.states[at].series
	for k := range s.Pairings {
		f := paper.figuresOf(s, k, outcomes)
		if k < len(chances) {
			f.Closest = chances[k]
		}
		r.Rungs = append(r.Rungs, f)
	}
	return r
}

// outcomes works out what the series believe, shape by shape.
func (w *Weighed) outcomes(ctx context.Context, places []int) ([][]outcome, error) {
	shapes := len(w.m.Shapes)
	out := make([][]outcome, len(places))
	found := make([]outcome, len(places)*shapes)
	err := shareOut(ctx, len(places)*shapes, func() *worker { return w.m.newWorker(nil) }, func(p *worker, n int) {
		i, shape := n/shapes, n%shapes
		if w.shapeWeight(shape) > 0 {
			found[n] = p.posterior(w.states[places[i]].series, w.parts[places[i]][shape], shape, w.cells[shape])
		}
	})
	for n, o := range found {
		if o.rungs != nil {
			out[n/shapes] = append(out[n/shapes], o)
		}
	}
	return out, err
}

func (w *Weighed) shapeWeight(shape int) float64 {
	sum := 0.0
	for _, v := range w.cells[shape] {
		sum += v
	}
	return sum
}
