package standings

import (
	"cmp"
	"math"
	"slices"

	"rimward/internal/standings/tree"
)

// rank puts the pairings in the order they are shown in, those above the line,
// those below it, those without enough, and gives the first their places.
//
// The order goes by the miss, smallest first, to a tenth of closeness; ties by
// the chance of being on target, to a hundredth, then by fewer faults a burn,
// then by name.
func rank(ps []Pairing) {
	slices.SortStableFunc(ps, func(a, b Pairing) int { return cmp.Or(cmp.Compare(zone(a), zone(b)), comparePairings(a, b)) })
	for i := range ps {
		if ps[i].Enough() && !ps[i].BelowLine() {
			ps[i].Rank = i + 1
		}
	}
}

// zone is the part of the list that a pairing is shown in.
func zone(p Pairing) int {
	switch {
	case p.BelowLine():
		return 1
	case !p.Enough():
		return 2
	}
	return 0
}

func comparePairings(a, b Pairing) int {
	return cmp.Or(
		cmp.Compare(missSteps(a), missSteps(b)),
		cmp.Compare(chanceSteps(b), chanceSteps(a)),
		cmp.Compare(faultsABurn(a), faultsABurn(b)),
		cmp.Compare(a.Ladder.Name, b.Ladder.Name),
		cmp.Compare(a.Wick.Rung, b.Wick.Rung),
		cmp.Compare(a.Wick.Label, b.Wick.Label),
		cmp.Compare(a.Wick.ID, b.Wick.ID))
}

// missSteps is the miss in tenths of closeness; beyond all others when there
// is not enough yet.
func missSteps(p Pairing) float64 {
	if !p.Enough() {
		return math.Inf(1)
	}
	return math.Round(p.Miss() * 1000)
}

// chanceSteps is the chance on target in hundredths.
func chanceSteps(p Pairing) float64 { return math.Round(p.OnTarget * 100) }

// faultsABurn is how many faults a burn showed on average, each over the burns
// that were looked at for it.
func faultsABurn(p Pairing) float64 {
	sum := 0.0
	for _, f := range p.Faults {
		sum += float64(f.Burns) / float64(f.Of)
	}
	return sum
}

// SureEnough is the chance of being the closest from which a pairing is named
// as the closest; below it, the fewest that add up to it are in the running.
const SureEnough = 0.8

// mark marks what is still in the running: the fewest pairings above the line
// whose chances add up to SureEnough of all above it.
func mark(ps []Pairing) {
	var in []*Pairing
	sum := 0.0
	for i := range ps {
		if ps[i].Enough() && !ps[i].BelowLine() {
			in = append(in, &ps[i])
			sum += ps[i].Closest
		}
	}
	slices.SortStableFunc(in, func(a, b *Pairing) int { return cmp.Or(cmp.Compare(b.Closest, a.Closest), cmp.Compare(a.Rank, b.Rank)) })
	have := 0.0
	for _, p := range in {
		if have >= SureEnough*sum {
			return
		}
		p.Running = true
		have += p.Closest
	}
}

// across lists the chances of pairings over several series, likeliest first;
// those that hardly have one are left out.
func across(stacks []*Stack, reports []tree.Report) []Chance {
	var out []Chance
	for i, s := range stacks {
		for k, r := range s.Rungs {
			if k < len(reports[i].Across) && reports[i].Across[k] >= leastChance {
				name := Pairing{Ladder: s.Ladder, Wick: r.Wick}.Name() + wicksText(s.Wicks)
				if len(r.Hard) > 0 {
					name += " (below the line)"
				}
				out = append(out, Chance{name, reports[i].Across[k], r.Wick.ID, s.Wicks})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Chance) int { return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.Name, b.Name)) })
	return out
}

// leastChance is the chance from which a pairing is listed.
const leastChance = 0.01
