package tree

import (
	"bytes"
	"context"
	"math"
	"slices"
)

// mask says which spreads are worth working out.
type mask []bool

// A large journal is not worked out whole for every shape and spread. A sample
// of its series is, and what explains the sample so much worse than the best
// that the rest could not make up for it is left out for the rest. The sample
// depends on what the series are and not on what was read in them, so that a
// check more does not change it.
const (
	sampleBurns  = 1000 // the sample has at least so many burns
	largeJournal = 3000 // burns from which a sample is taken
	// hopeless is how far behind, in log likelihood, leaves out: e to its
	// power is 10²⁶.
	hopeless = 60.0
)

// live says, for each shape, which spreads are worth working out.
func (d *Desk) live(ctx context.Context, states []*state) ([]mask, error) {
	on := d.m.everything()
	burns := 0
	for _, st := range states {
		burns += st.series.burns()
	}
	if d.all || burns < largeJournal {
		return on, nil
	}
	sample := sampled(states)
	if err := d.fill(ctx, sample, on); err != nil {
		return nil, err
	}
	return d.m.within(d.m.gather(sample, on), hopeless), nil
}

func (m *model) everything() []mask {
	var out []mask
	for range m.Shapes {
		out = append(out, slices.Repeat(mask{true}, len(m.spreads)))
	}
	return out
}

// sampled takes series in an order of their own until there are enough burns.
func sampled(states []*state) []*state {
	sorted := slices.Clone(states)
	slices.SortStableFunc(sorted, func(a, b *state) int { return bytes.Compare(a.place[:], b.place[:]) })
	burns := 0
	for i, st := range sorted {
		if burns += st.series.burns(); burns >= sampleBurns {
			return sorted[:i+1]
		}
	}
	return sorted
}

// within keeps the spreads that come within a margin of the best of all.
func (m *model) within(evidence [][]float64, margin float64) []mask {
	best := make([][]float64, len(m.Shapes))
	top := math.Inf(-1)
	for shape := range best {
		best[shape] = slices.Repeat([]float64{math.Inf(-1)}, len(m.spreads))
		for k, c := range m.cells {
			best[shape][c.spread] = max(best[shape][c.spread], evidence[shape][k])
			top = max(top, evidence[shape][k])
		}
	}
	var out []mask
	for shape := range best {
		on := make(mask, len(m.spreads))
		for i, v := range best[shape] {
			on[i] = v >= top-margin
		}
		out = append(out, on)
	}
	return out
}

// gather adds up how well all series are explained, for each shape and cell
// that is live.
func (m *model) gather(states []*state, on []mask) [][]float64 {
	out := make([][]float64, len(m.Shapes))
	for shape := range out {
		out[shape] = make([]float64, len(m.cells))
		for k, c := range m.cells {
			if !on[shape][c.spread] {
				out[shape][k] = math.Inf(-1)
				continue
			}
			for _, st := range states {
				out[shape][k] += st.parts[shape].evidence[k]
			}
		}
	}
	return out
}

// covers reports whether a part was worked out for all that is live.
func (p *part) covers(on mask) bool {
	for i := range on {
		if on[i] && (p == nil || !p.on[i]) {
			return false
		}
	}
	return true
}
