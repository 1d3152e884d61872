package standings

import (
	"slices"

	"rimward/internal/meltpool"
	"rimward/internal/standings/tree"
)

// series puts what is believed of a stack's rungs together with what else is
// known of them, and in order.
func (w *Weighed) series(s *Stack, r tree.Report) Series {
	x := Series{Key: s.Key(), Setting: s.Setting(), Ladder: s.Ladder, Wicks: s.Wicks, Warnings: slices.Clone(s.Warnings)}
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
		x.Guesses[i].Warnings, x.Guesses[i].AtLeast = guessWarnings(tested), x.bounded()
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
	p.AtLeast, p.Slips = p.Tested, p.Tested && allSlips(p.Rows)
	for _, c := range p.Rows {
		p.AllBurns += len(c.Burns)
		if n := len(c.used()); n > 0 {
			p.Candles, p.Burns = p.Candles+1, p.Burns+n
		}
		p.AtLeast = p.AtLeast && !c.sawRim()
	}
	p.NotYet = p.notYet()
	p.Warnings = append(p.warnings(), slipWarnings(p.Rows)...)
	for _, w := range []string{mixed(r.Settings), earlyWarning(p.Rows)} {
		if w != "" {
			p.Warnings = append(p.Warnings, w)
		}
	}
	return p
}

// bounded reports whether no reading of any rung was short of the wall.
func (x Series) bounded() bool {
	n := 0
	for _, p := range x.Pairings {
		if p.Enough() && !p.AtLeast {
			return false
		}
		n += p.Burns
	}
	return n > 0
}

// allSlips reports whether every reading hardly fits its burn's curve.
func allSlips(rows []CandleRow) bool {
	n := 0
	for _, c := range rows {
		for _, b := range c.Burns {
			for _, f := range b.Fit.Checks {
				if n++; !f.Slip {
					return false
				}
			}
		}
	}
	return n > 0
}

// sawRim reports whether any reading that counts was short of the wall.
func (c CandleRow) sawRim() bool { return slices.ContainsFunc(c.Burns, BurnRow.SawRim) }

// SawRim reports whether any of the burn's readings that count was short of
// the wall.
func (b BurnRow) SawRim() bool {
	return b.Used() && slices.ContainsFunc(b.Readings, func(r meltpool.Reading) bool { return !r.Full })
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
