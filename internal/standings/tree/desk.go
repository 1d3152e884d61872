package tree

import (
	"context"
	"crypto/sha256"
	"slices"
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
	place  [sha256.Size]byte // what it is, whatever was read
	parts  []*part           // for each shape; nil when it carries no weight
}

// NewDesk is an empty desk for a prior.
func NewDesk(p Prior) *Desk {
	return &Desk{m: newModel(p), done: map[[sha256.Size]byte]*state{}, kept: newKeptBurns(keptBytes)}
}

// Prior is what the desk believes before the first burn.
func (d *Desk) Prior() Prior { return d.m.Prior }

// How a desk goes about a large journal.
const (
	keptBytes = 24 << 20 // memory for the likelihoods of burns
	fewSeries = 8        // up to here, burns that are worked out are kept
)

// Weighed is what a set of series says of what they share. It does not change,
// and may be used by several goroutines.
type Weighed struct {
	m      *model
	kept   *keptBurns
	parts  map[[sha256.Size]byte][]*part // for each series, by shape
	cells  [][]float64                   // weight, for each shape and cell
	shapes []float64
}

// Weigh works out what is new among the series and gives all that they share
// its weight. The order of the series does not matter. It returns early with
// the context's error when that is done.
func (d *Desk) Weigh(ctx context.Context, series []Series) (*Weighed, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	states := d.take(series)
	on, err := d.live(ctx, states)
	if err != nil {
		return nil, err
	}
	if err := d.fill(ctx, states, on); err != nil {
		return nil, err
	}
	w := &Weighed{m: d.m, kept: d.kept, parts: map[[sha256.Size]byte][]*part{}}
	for key, st := range d.done {
		w.parts[key] = slices.Clone(st.parts)
	}
	w.cells, w.shapes = d.m.weigh(d.m.gather(states, on), d.all)
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
			s.mid = s.middle()
			st = &state{series: s, place: placeKey(s), parts: make([]*part, len(d.m.Shapes))}
		}
		d.done[key] = st
		out = append(out, st)
	}
	return out
}

// keptFor is where the likelihoods of burns are kept: nowhere when a whole
// journal is worked out.
func (d *Desk) keptFor(series int) burnShelf {
	if series > fewSeries {
		return nil
	}
	return d.kept
}

// fill works out what is live and missing.
func (d *Desk) fill(ctx context.Context, states []*state, on []mask) error {
	type gap struct {
		st    *state
		shape int
	}
	var gaps []gap
	seen := map[*state]bool{} // settings may hold the same readings
	for _, st := range states {
		if seen[st] {
			continue
		}
		seen[st] = true
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

// Shapes is the weight of each shape of the growth curve.
func (w *Weighed) Shapes() []float64 { return slices.Clone(w.shapes) }
