package standings

import (
	"cmp"
	"math"
	"slices"
)

// rank gives the pairings that have enough their place and then puts them in
// the order they are shown in: ranked ones, those below the line, those
// without enough.
//
// The place goes by how far the mean width at the target hour is from the
// wall, to a tenth of a per cent of the inner width; ties by fewer faults a
// burn, then by name, then by the number of wicks.
func rank(ps []Pairing) {
	slices.SortStableFunc(ps, comparePairings)
	place := 0
	for i := range ps {
		if ps[i].Enough() {
			place++
			ps[i].Rank = place
		}
	}
	slices.SortStableFunc(ps, func(a, b Pairing) int { return cmp.Compare(zone(a), zone(b)) })
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
		cmp.Compare(faultsABurn(a), faultsABurn(b)),
		cmp.Compare(a.Ladder.Name, b.Ladder.Name),
		cmp.Compare(a.Wick.Rung, b.Wick.Rung),
		cmp.Compare(a.Wick.Label, b.Wick.Label),
		cmp.Compare(a.Wicks, b.Wicks),
		cmp.Compare(a.Wick.ID, b.Wick.ID))
}

// missSteps is the distance from a full pool in tenths of a per cent of the
// inner width; beyond all others when there is not enough yet.
func missSteps(p Pairing) float64 {
	if !p.Enough() {
		return math.Inf(1)
	}
	return math.Round(math.Abs(*p.Ratio-1) * 1000)
}

// faultsABurn is how many faults a burn showed on average, each over the burns
// that were looked at for it.
func faultsABurn(p Pairing) float64 {
	sum := 0.0
	for _, f := range p.Faults {
		sum += float64(f.Burns) / float64(f.Of)
	}
	return sum
}
