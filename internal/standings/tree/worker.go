package tree

import (
	"math"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// worker works out series one after the other with paper of its own.
type worker struct {
	*model
	kept          burnShelf // nil when nothing is kept
	raw, one, two grid.Sheet
	byBurn        []grid.Sheet     // a candle, for each spread of burns
	bySpread      []grid.Sheet     // a pairing, for each spread
	tables        *meltpool.Tables // of the last vessel
	place         place
	ahead         map[aheadKey]*ahead
	pairs         []grid.Sheet   // each pairing, for one spread
	messages      [][]grid.Sheet // what each says to the line, by the series' rate, for each irregularity
	rows          [][]float64
	buf           []float64
	joint         joint
}

// place is what tables of readings depend on.
type place struct {
	wall  meltpool.Wall
	ruler quantity.Millimetres
}

// newWorker hands out paper, used before or new.
func (m *model) newWorker(kept burnShelf) *worker {
	w, ok := m.paper.Get().(*worker)
	if !ok {
		w = &worker{model: m, byBurn: make([]grid.Sheet, len(m.Burn)), bySpread: make([]grid.Sheet, len(m.spreads)), ahead: map[aheadKey]*ahead{}}
	}
	w.kept = kept
	return w
}

// done gives the paper back.
func (w *worker) done() {
	w.kept, w.tables, w.place = nil, nil, place{}
	w.paper.Put(w)
}

// tablesOf are the tables of readings for a series' vessel and ruler.
func (w *worker) tablesOf(s Series) *meltpool.Tables {
	if at := (place{s.Wall, s.Ruler}); w.place != at {
		w.place, w.tables = at, meltpool.NewTables(s.Wall, meltpool.Eye{Ruler: s.Ruler, Error: w.Error, Slip: w.Slip})
	}
	return w.tables
}

// likelihood puts how likely a burn's readings are into w.raw.
func (w *worker) likelihood(s Series, b Burn, shape int) {
	var key burnKey
	if w.kept != nil {
		key = keyOf(s, b, shape)
		if k := w.kept.find(key); k != nil {
			w.raw.Unfold(k)
			return
		}
	}
	w.tablesOf(s).Burn(&w.raw, b, meltpool.Curve(w.Shapes[shape].Value), w.Rate)
	if w.kept != nil {
		w.kept.put(key, &w.raw)
	}
}

// candle puts one candle into w.byBurn: the product of its burns, each spread
// by what tells burns apart and mixed over its own rate.
func (w *worker) candle(s Series, bs []Burn, shape int, on mask) {
	for i := range w.byBurn {
		w.byBurn[i].Flat()
	}
	for _, b := range bs {
		w.likelihood(s, b, shape)
		for i, k := range w.burn {
			if !w.burnNeeded(i, on) {
				continue
			}
			w.one.Spread(&w.raw, k)
			w.two.Mix(&w.one, w.toBurn)
			w.byBurn[i].Times(&w.two)
		}
	}
	for i := range w.byBurn {
		w.byBurn[i].Trim()
	}
}

func (m *model) burnNeeded(burn int, on mask) bool {
	for i, x := range m.spreads {
		if on[i] && x.burn == burn {
			return true
		}
	}
	return false
}

// pairing works out one pairing for every live spread; nil for the others.
func (w *worker) pairing(s Series, p Pairing, shape int, on mask) []*grid.Kept {
	for i := range w.bySpread {
		w.bySpread[i].Flat()
	}
	for _, c := range p.Candles {
		w.candle(s, c, shape, on)
		for i, x := range w.spreads {
			if on[i] {
				w.one.Spread(&w.byBurn[x.burn], w.model.candle[x.candle])
				w.bySpread[i].Times(&w.one)
			}
		}
	}
	out := make([]*grid.Kept, len(w.spreads))
	for i := range out {
		if on[i] {
			w.bySpread[i].Trim()
			out[i] = w.bySpread[i].Keep()
		}
	}
	return out
}

// part is one series under one shape.
type part struct {
	on       mask
	pairs    [][]*grid.Kept // for each pairing and spread
	evidence []float64      // natural logarithm, for each cell
}

// part works out a series under a shape for the live spreads.
func (w *worker) part(s Series, shape int, on mask) *part {
	p := &part{on: on, evidence: make([]float64, len(w.cells))}
	for _, x := range s.Pairings {
		var pairs []*grid.Kept
		if x.Tested() {
			pairs = w.pairing(s, x, shape, on)
		}
		p.pairs = append(p.pairs, pairs)
	}
	for i := range p.evidence {
		p.evidence[i] = math.Inf(-1)
	}
	for i, live := range on {
		if live {
			w.weighLine(s, p, i)
		}
	}
	return p
}
