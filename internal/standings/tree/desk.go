package tree

import (
	"context"
	"crypto/sha256"
	"math"
	"sync"
)

// Desk works out series and keeps what it will need again: a series whose
// readings have not changed is not worked out twice. It may be used by several
// goroutines.
type Desk struct {
	m    *model
	all  bool // keep every cell and shape, however light
	mu   sync.Mutex
	done map[[sha256.Size]byte]*state
	kept *keptBurns
}

// state is what is known of one series.
type state struct {
	series Series
	glance [][]float64 // for each shape and spread of burns; nil when not needed
	parts  []*part     // for each shape; nil when it carries no weight
}

// NewDesk is an empty desk for a prior.
func NewDesk(p Prior) *Desk {
	return &Desk{m: newModel(p), done: map[[sha256.Size]byte]*state{}, kept: newKeptBurns(keptBytes)}
}

// NewExactDesk is a desk that leaves nothing out, however light: slower, and
// the same to half a hundredth in any chance.
func NewExactDesk(p Prior) *Desk {
	d := NewDesk(p)
	d.all = true
	return d
}

// How a desk goes about a large journal.
const (
	keptBytes = 24 << 20 // memory for the likelihoods of burns
	fewSeries = 8        // up to here, burns that are worked out are kept
	// fewBurns is how many burns there must be before a first glance is worth
	// its while; with fewer hardly anything can be left out.
	fewBurns = 400
	// A first glance leaves out what explains the candles so much worse, in
	// log likelihood, plus so much for each candle: the ladders can not make
	// up for it.
	glanceMargin, glanceCandle = 30.0, 0.05
)

// Weighed is a set of series with the weights that they give to what they
// share. It does not change.
type Weighed struct {
	m      *model
	states []*state
	parts  [][]*part // for each series and shape
	cells  [][]float64
	shapes []float64
}

// Weigh works out what is new among the series and gives all that they share
// its weight. The order of the series does not matter. It returns early with
// the context's error when that is done.
func (d *Desk) Weigh(ctx context.Context, series []Series) (*Weighed, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	w := &Weighed{m: d.m, states: d.take(series)}
	on, err := d.alive(ctx, w.states)
	if err != nil {
		return nil, err
	}
	if err := d.fill(ctx, w.states, on); err != nil {
		return nil, err
	}
	evidence := d.gather(w)
	w.cells, w.shapes = d.m.weigh(evidence, d.all)
	return w, nil
}

// take finds the states of the series and forgets all others.
func (d *Desk) take(series []Series) []*state {
	was := d.done
	d.done = map[[sha256.Size]byte]*state{}
	var out []*state
	for _, s := range series {
		key := seriesKey(s)
		st := d.done[key]
		if st == nil {
			st = was[key]
		}
		if st == nil {
			st = &state{series: s, parts: make([]*part, len(d.m.Shapes))}
		}
		d.done[key] = st
		out = append(out, st)
	}
	return out
}

// alive says, for each shape, which spreads of burns are worth working out.
func (d *Desk) alive(ctx context.Context, states []*state) ([]alive, error) {
	burns, candles := 0, 0
	for _, st := range states {
		burns, candles = burns+st.series.burns(), candles+st.series.candles()
	}
	if d.all || burns < fewBurns {
		return d.m.everything(), nil
	}
	if err := d.glance(ctx, states); err != nil {
		return nil, err
	}
	return d.m.within(states, glanceMargin+glanceCandle*float64(candles)), nil
}

func (m *model) everything() []alive {
	var out []alive
	for range m.Shapes {
		on := make(alive, len(m.Burn))
		for i := range on {
			on[i] = true
		}
		out = append(out, on)
	}
	return out
}

// within keeps what comes within a margin of the best at first glance.
func (m *model) within(states []*state, margin float64) []alive {
	sums, best := make([][]float64, len(m.Shapes)), math.Inf(-1)
	for shape := range m.Shapes {
		sums[shape] = make([]float64, len(m.Burn))
		for i := range m.Burn {
			for _, st := range states {
				sums[shape][i] += st.glance[shape][i]
			}
			best = max(best, sums[shape][i])
		}
	}
	var out []alive
	for shape := range m.Shapes {
		on := make(alive, len(m.Burn))
		for i := range on {
			on[i] = sums[shape][i] >= best-margin
		}
		out = append(out, on)
	}
	return out
}

// glance looks at every series that was not looked at before.
func (d *Desk) glance(ctx context.Context, states []*state) error {
	var fresh []*state
	for _, st := range states {
		if st.glance == nil {
			st.glance = make([][]float64, len(d.m.Shapes))
			fresh = append(fresh, st)
		}
	}
	return d.share(ctx, len(fresh)*len(d.m.Shapes), d.keptFor(len(fresh)), func(w *worker, n int) {
		st, shape := fresh[n/len(d.m.Shapes)], n%len(d.m.Shapes)
		st.glance[shape] = w.glance(st.series, shape)
	})
}

// keptFor is where the likelihoods of burns are kept: nowhere when a whole
// journal is worked out.
func (d *Desk) keptFor(series int) *keptBurns {
	if series > fewSeries {
		return nil
	}
	return d.kept
}

// fill works out the parts that are missing.
func (d *Desk) fill(ctx context.Context, states []*state, on []alive) error {
	type gap struct {
		st    *state
		shape int
	}
	var gaps []gap
	for _, st := range states {
		for shape := range d.m.Shapes {
			if !st.parts[shape].covers(on[shape]) {
				gaps = append(gaps, gap{st, shape})
			}
		}
	}
	return d.share(ctx, len(gaps), d.keptFor(len(gaps)/len(d.m.Shapes)), func(w *worker, n int) {
		g := gaps[n]
		g.st.parts[g.shape] = w.part(g.st.series, g.shape, on[g.shape])
	})
}

// covers reports whether a part was worked out for all that is live.
func (p *part) covers(on alive) bool {
	for i := range on {
		if on[i] && (p == nil || !p.on[i]) {
			return false
		}
	}
	return true
}

// gather adds up how well all series are explained, for each shape and cell,
// as far as it was worked out.
func (d *Desk) gather(w *Weighed) [][]float64 {
	out := make([][]float64, len(d.m.Shapes))
	w.parts = make([][]*part, len(w.states))
	for i, st := range w.states {
		w.parts[i] = append([]*part(nil), st.parts...)
	}
	for shape := range out {
		out[shape] = make([]float64, len(d.m.cells))
		for _, parts := range w.parts {
			for k := range out[shape] {
				if parts[shape] == nil {
					out[shape][k] = math.Inf(-1)
				} else {
					out[shape][k] += parts[shape].evidence[k]
				}
			}
		}
	}
	return out
}

// Shapes is the weight of each shape of the growth curve.
func (w *Weighed) Shapes() []float64 { return append([]float64(nil), w.shapes...) }
