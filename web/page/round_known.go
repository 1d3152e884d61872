package page

import (
	"rimward/internal/journal"
	"rimward/internal/needs"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

// Vessel is a vessel of the shelf; an empty one when there is none.
func (k Known) Vessel(id journal.ID) journal.Vessel { return k.vessels[id] }

// CureOf is the cure that a wax's supplier states.
func (k Known) CureOf(wax journal.ID) journal.Range[quantity.Days] { return k.waxes[wax].CureDays }

// NeedsShelf is what the candles of a round are made from.
func (k Known) NeedsShelf(r journal.TestRound, set journal.Settings) needs.Shelf {
	sh := needs.Shelf{Wax: k.waxes[r.Wax], Vessels: k.vessels, Wicks: k.wicks, Step: set.ScaleStep, Melter: set.Melter}
	if r.Fragrance != nil {
		if f, ok := k.fragrances[*r.Fragrance]; ok {
			sh.Fragrance = &f
		}
	}
	return sh
}

// RungsAt are the wicks of a round with their places on their ladders.
func (k Known) RungsAt(r journal.TestRound) (out []plan.RungAt) {
	for _, w := range r.Factors.Wicks {
		x := k.wicks[w.Wick]
		out = append(out, plan.RungAt{Ladder: x.Ladder, Wicks: w.Wicks, Rung: x.Rung})
	}
	return out
}

// RoundSpec is what a round is drawn from. Where nobody says how many candles
// a melt fills, it is what the studio's melter holds.
func RoundSpec(r journal.TestRound, perMelt *int, square, ownMelts bool, k Known, set journal.Settings) plan.Spec {
	s := plan.Spec{Factors: r.Factors, Copies: r.Copies, BenchPlaces: r.Days.BenchPlaces, Seed: r.Seed, Square: square, OwnMelts: ownMelts, Ladders: map[journal.ID]journal.ID{}}
	for _, w := range r.Factors.Wicks {
		s.Ladders[w.Wick] = k.wicks[w.Wick].Ladder
	}
	if perMelt != nil {
		s.PerMelt = *perMelt
	} else {
		s.PerMelt = needs.PerMelt(r.Factors, k.NeedsShelf(r, set))
	}
	return s
}

// RoundField is the form's field for a field of a plan.
func RoundField(field string) string {
	switch field {
	case "wicks":
		return "rungs"
	case "melter":
		return "per_melt"
	}
	return field
}

// PlaceCodes names the places of a round by the codes of their candles.
func PlaceCodes(p *plan.RoundProgress) func(place int) string { return placeNamer(p) }

// PlannedSpec is what a kept round was drawn from, as its places show it: a
// melt fills as many candles as the largest that was planned.
func PlannedSpec(r journal.TestRound, k Known) plan.Spec {
	sizes := map[int]int{}
	most := 0
	for _, p := range r.Places {
		sizes[p.Melt]++
		most = max(most, sizes[p.Melt])
	}
	return RoundSpec(r, &most, false, false, k, journal.Settings{})
}
