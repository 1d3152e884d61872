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
	sh := needs.Shelf{Taken: k.taken, Wax: k.waxes[r.Wax], Vessels: k.vessels, Wicks: k.wicks, Step: set.ScaleStep, Melter: set.Melter}
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

// MeltFills is how many candles of a round one melt fills at most: as many as
// somebody says or, where nobody does, as the studio's melter holds; 0 for all.
func MeltFills(r journal.TestRound, said *int, k Known, set journal.Settings) int {
	if said != nil {
		return *said
	}
	return needs.PerMelt(r.Factors, k.NeedsShelf(r, set))
}

// RoundSpec is what a round is drawn from.
func RoundSpec(r journal.TestRound, k Known) plan.Spec {
	s := plan.Spec{Factors: r.Factors, Copies: r.Copies, BenchPlaces: r.Days.BenchPlaces, Seed: r.Seed,
		PerMelt: r.Drawn.PerMelt, OwnMelts: r.Drawn.OwnMelts, Square: r.Drawn.Square, Ladders: map[journal.ID]journal.ID{}}
	for _, w := range r.Factors.Wicks {
		s.Ladders[w.Wick] = k.wicks[w.Wick].Ladder
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
