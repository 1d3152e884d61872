package tree

import (
	"math"

	"rimward/internal/grid"
	"rimward/internal/meltpool"
)

// worker works out series one after the other with paper of its own.
type worker struct {
	*model
	kept          *keptBurns // nil when nothing is kept
	raw, one, two grid.Sheet
	byBurn        []grid.Sheet // a candle, for each spread of burns
	bySpread      []grid.Sheet // a pairing, for each spread
	tables        map[place]*meltpool.Tables
	ahead         map[aheadKey]*ahead
	messages      [][]grid.Sheet // for each pairing and irregularity, by the series' rate
}

// place is what tables of readings depend on.
type place struct{ wall, ruler float64 }

func (m *model) newWorker(kept *keptBurns) *worker {
	return &worker{
		model: m, kept: kept, byBurn: make([]grid.Sheet, len(m.Burn)), bySpread: make([]grid.Sheet, len(m.spreads)),
		tables: map[place]*meltpool.Tables{}, ahead: map[aheadKey]*ahead{},
	}
}

// alive says which spreads of burns are still worth working out.
type alive []bool

// tablesOf are the tables of readings for a series' vessel and ruler.
func (w *worker) tablesOf(s Series) *meltpool.Tables {
	at := place{float64(s.Wall.Width), float64(s.Ruler)}
	t := w.tables[at]
	if t == nil {
		t = meltpool.NewTables(s.Wall, meltpool.Eye{Ruler: s.Ruler, Error: w.Error, Slip: w.Slip})
		w.tables[at] = t
	}
	return t
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
	w.tablesOf(s).Burn(&w.raw, b, s.Wall.Target, meltpool.Curve(w.Shapes[shape].Value), w.Rate)
	if w.kept != nil {
		w.kept.put(key, w.raw.Keep())
	}
}

// candle puts one candle into w.byBurn: the product of its burns, each spread
// by what tells burns apart and mixed over its own rate.
func (w *worker) candle(s Series, bs []Burn, shape int, on alive) {
	for i := range w.byBurn {
		w.byBurn[i].Flat()
	}
	for _, b := range bs {
		w.likelihood(s, b, shape)
		for i, k := range w.burn {
			if on[i] {
				w.one.Spread(&w.raw, k)
				w.two.Mix(&w.one, w.toBurn)
				w.byBurn[i].Times(&w.two)
			}
		}
	}
}

// pairing works out one pairing for every live spread; nil for the others.
func (w *worker) pairing(s Series, p Pairing, shape int, on alive) []*grid.Kept {
	for i := range w.bySpread {
		w.bySpread[i].Flat()
	}
	for _, c := range p.Candles {
		w.candle(s, c, shape, on)
		for i, x := range w.spreads {
			if on[x.burn] {
				w.one.Spread(&w.byBurn[x.burn], w.model.candle[x.candle])
				w.bySpread[i].Times(&w.one)
			}
		}
	}
	out := make([]*grid.Kept, len(w.spreads))
	for i, x := range w.spreads {
		if on[x.burn] {
			out[i] = w.bySpread[i].Keep()
		}
	}
	return out
}

// glance is how well each spread of burns explains the candles of a series
// when nothing joins them: a cheap first look that lets most of the rest be
// left undone in a large journal.
func (w *worker) glance(s Series, shape int) []float64 {
	out, all := make([]float64, len(w.Burn)), make(alive, len(w.Burn))
	for i := range all {
		all[i] = true
	}
	for _, p := range s.Pairings {
		for _, c := range p.Candles {
			w.candle(s, c, shape, all)
			for i := range out {
				out[i] += w.byBurn[i].LogMean(w.pairRate, w.level)
			}
		}
	}
	return out
}

// part is one series under one shape.
type part struct {
	on       alive
	pairs    [][]*grid.Kept // for each pairing and spread
	evidence []float64      // natural logarithm, for each cell
}

// part works out a series under a shape as far as the spreads are live.
func (w *worker) part(s Series, shape int, on alive) *part {
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
	for i, x := range w.spreads {
		if on[x.burn] {
			w.weighLine(s, p, i)
		}
	}
	return p
}
