package tree

import "slices"

// Believed is the prior with the weights that the journal leaves of it: of the
// shapes, the spreads from burn to burn and from candle to candle, and the
// slope and the irregularity of ladders. Everything else stays as it was.
func (w *Weighed) Believed() Prior {
	p := w.m.Prior
	p.Shapes, p.Burn, p.Candle = weightless(p.Shapes), weightless(p.Burn), weightless(p.Candle)
	p.Slope, p.Irregular = weightless(p.Slope), weightless(p.Irregular)
	for shape, row := range w.cells {
		for k, v := range row {
			c := w.m.cells[k]
			s := w.m.spreads[c.spread]
			p.Shapes[shape].Weight += v
			p.Burn[s.burn].Weight += v
			p.Candle[s.candle].Weight += v
			p.Slope[c.slope].Weight += v
			p.Irregular[c.irregular].Weight += v
		}
	}
	return p
}

// weightless are values whose weights are still to be found.
func weightless(ws []Weighted) []Weighted {
	out := slices.Clone(ws)
	for i := range out {
		out[i].Weight = 0
	}
	return out
}
