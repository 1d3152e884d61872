package tree

import (
	"cmp"
	"context"
	"slices"
)

// Report is what a series says.
type Report struct {
	Rungs []Figures // in the order of the series' pairings
	// Across is the chance of each tested rung of being the closest of all the
	// series that were asked for together.
	Across []float64
	// Burns are the burns of each rung, by candle, beside the curves that fit
	// them best under the heaviest shape.
	Burns [][][]BurnFit
}

// Reports tells what series say, given what all that were weighed together say
// of what they share, and compares them with each other. A series that was not
// among those is worked out for it.
func (w *Weighed) Reports(ctx context.Context, series ...Series) ([]Report, error) {
	series = slices.Clone(series) // middle rungs are filled in
	parts, err := w.partsOf(ctx, series)
	if err != nil {
		return nil, err
	}
	outcomes, err := w.outcomes(ctx, series, parts)
	if err != nil {
		return nil, err
	}
	out := make([]Report, len(series))
	var all [][]misses
	for i := range series {
		var ms []misses
		for _, o := range outcomes[i] {
			ms = append(ms, o.misses...)
		}
		all = append(all, ms)
	}
	err = shareOut(ctx, len(series), func() *worker { return w.m.newWorker(w.kept.only()) }, func(paper *worker, i int) {
		out[i] = w.report(paper, series[i], outcomes[i], all[i])
	})
	if len(series) > 0 {
		for i, chances := range closest(all...) {
			out[i].Across = chances
		}
	}
	return out, err
}

// report puts one series together.
func (w *Weighed) report(paper *worker, s Series, outcomes []outcome, ms []misses) Report {
	var r Report
	chances := closest(ms)[0]
	best := slices.MaxFunc(outcomes, func(a, b outcome) int { return cmp.Compare(w.shapes[a.shape], w.shapes[b.shape]) })
	for k := range s.Pairings {
		f := paper.figuresOf(s, k, outcomes)
		if k < len(chances) {
			f.Closest = chances[k]
		}
		r.Rungs = append(r.Rungs, f)
		r.Burns = append(r.Burns, paper.fit(s, k, best))
	}
	return r
}

// partsOf finds the parts of series, for each shape with weight, and works out
// those that are missing. It fills in the series' middle rungs.
func (w *Weighed) partsOf(ctx context.Context, series []Series) ([][]*part, error) {
	shapes := len(w.m.Shapes)
	out := make([][]*part, len(series))
	for i := range series {
		series[i].mid = series[i].middle()
		out[i] = make([]*part, shapes)
		if known := w.parts[seriesKey(series[i])]; known != nil {
			copy(out[i], known)
		}
	}
	err := shareOut(ctx, len(series)*shapes, func() *worker { return w.m.newWorker(w.kept) }, func(p *worker, n int) {
		i, shape := n/shapes, n%shapes
		on := w.weighty(shape)
		if on != nil && !out[i][shape].covers(on) {
			out[i][shape] = p.part(series[i], shape, on)
		}
	})
	return out, err
}

// weighty are the spreads that carry weight under a shape; nil when none does.
func (w *Weighed) weighty(shape int) mask {
	var on mask
	for k, v := range w.cells[shape] {
		if v > 0 {
			if on == nil {
				on = make(mask, len(w.m.spreads))
			}
			on[w.m.cells[k].spread] = true
		}
	}
	return on
}

// outcomes works out what the series believe, shape by shape.
func (w *Weighed) outcomes(ctx context.Context, series []Series, parts [][]*part) ([][]outcome, error) {
	shapes := len(w.m.Shapes)
	out := make([][]outcome, len(series))
	found := make([]outcome, len(series)*shapes)
	err := shareOut(ctx, len(found), func() *worker { return w.m.newWorker(nil) }, func(p *worker, n int) {
		i, shape := n/shapes, n%shapes
		if w.weighty(shape) != nil {
			found[n] = p.posterior(series[i], parts[i][shape], shape, w.cells[shape])
		}
	})
	for n, o := range found {
		if w.weighty(n%shapes) != nil {
			out[n/shapes] = append(out[n/shapes], o)
		}
	}
	return out, err
}
