package standings

import (
	"slices"

	"rimward/internal/standings/tree"
)

// series puts what is believed of a stack's rungs together with what else is
// known of them, and in order.
func (w *Weighed) series(s *Stack, r tree.Report) Series {
	x := Series{Key: s.Key(), Ladder: s.Ladder, Wicks: s.Wicks, Warnings: slices.Clone(s.Warnings)}
	x.Candles, x.Burns = s.counts()
	for i, rung := range s.Rungs {
		p := pairing(s, rung, r.Rungs[i], r.Burns[i])
		if rung.burned() {
			x.Pairings = append(x.Pairings, p)
		} else {
			x.Guesses = append(x.Guesses, p)
		}
	}
	rank(x.Pairings)
	mark(x.Pairings)
	tested := x.Tested()
	for i := range x.Guesses {
		x.Guesses[i].Warnings = guessWarnings(tested)
	}
	x.Warnings = append(x.Warnings, lackOfFit(x.Pairings)...)
	x.Advice = advise(x)
	return x
}

// Tested counts the rungs that burns speak for.
func (x Series) Tested() int {
	n := 0
	for _, p := range x.Pairings {
		if p.Enough() {
			n++
		}
	}
	return n
}

// pairing is one rung with its figures and its doubts.
func pairing(s *Stack, r Rung, f tree.Figures, fits [][]tree.BurnFit) Pairing {
	p := Pairing{Vessel: s.Vessel, Wick: r.Wick, Ladder: s.Ladder, Wicks: s.Wicks, Figures: f,
		Faults: r.Faults, Hard: r.Hard, Ended: r.Ended, Rows: beside(r.Rows, fits)}
	p.AtLeast = p.Tested
	for _, c := range p.Rows {
		p.AllBurns += len(c.Burns)
		if n := len(c.used()); n > 0 {
			p.Candles, p.Burns = p.Candles+1, p.Burns+n
		}
		p.AtLeast = p.AtLeast && !c.sawRim()
	}
	p.NotYet = p.notYet()
	p.Warnings = append(p.warnings(), slipWarnings(p.Rows)...)
	if w := mixed(r.Settings); w != "" {
		p.Warnings = append(p.Warnings, w)
	}
	return p
}

// sawRim reports whether any reading that counts was short of the wall.
func (c CandleRow) sawRim() bool {
	for _, b := range c.Burns {
		for _, r := range b.Readings {
			if b.Used() && !r.Full {
				return true
			}
		}
	}
	return false
}

// beside sets each burn that counts beside its fitted curve.
func beside(rows []CandleRow, fits [][]tree.BurnFit) []CandleRow {
	out := slices.Clone(rows)
	for i, c := range out {
		if len(c.used()) == 0 {
			continue
		}
		out[i].Burns = slices.Clone(c.Burns)
		n := 0
		for k := range out[i].Burns {
			if out[i].Burns[k].Used() {
				out[i].Burns[k].Fit = fits[0][n]
				n++
			}
		}
		fits = fits[1:]
	}
	return out
}
