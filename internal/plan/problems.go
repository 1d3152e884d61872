package plan

import (
	"fmt"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Problem is why a round cannot be drawn: a sentence beside a field.
type Problem struct{ Field, Says string }

// mostCopies is the most candles of each cell; the journal's own rule.
const mostCopies = 12

// Problems says what keeps a round from being drawn; none when it can be.
func Problems(s Spec) []Problem {
	var ps []Problem
	add := func(bad bool, field, says string) {
		if bad {
			ps = append(ps, Problem{field, says})
		}
	}
	f := s.Factors
	add(len(f.Vessels) == 0, "vessels", "Choose at least one vessel.")
	add(len(f.Wicks) == 0, "wicks", "Choose at least one wick.")
	add(repeats(f.Vessels), "vessels", "Choose every vessel once.")
	add(repeats(f.Wicks), "wicks", "Choose every wick once.")
	add(repeats(f.Loads), "loads", "Write every load once.")
	add(repeats(f.PourAts), "pour_ats", "Write every pour temperature once.")
	add(slices.ContainsFunc(f.Wicks, noWicks), "wicks", "A candle needs at least one wick.")
	add(slices.ContainsFunc(f.Loads, badLoad), "loads", "A load lies between 0 and 50 %.")
	add(slices.ContainsFunc(f.PourAts, badPour), "pour_ats", "A pour temperature lies between 20 °C and 200 °C (68 °F and 392 °F).")
	add(s.Copies < 1 || s.Copies > mostCopies, "copies", fmt.Sprintf("Between 1 and %d candles of each.", mostCopies))
	add(s.BenchPlaces < 1, "bench_places", "The bench needs at least one place.")
	add(s.PerMelt < 0, "melter", "The melter is smaller than one candle.")
	if len(ps) > 0 {
		return ps
	}
	return s.sizeProblems()
}

// sizeProblems are those of a round whose parts are right.
func (s Spec) sizeProblems() []Problem {
	cells := count(s.Factors)
	switch n := cells * s.Copies; {
	case cells == 1:
		return []Problem{{"wicks", "All candles would be alike, and there would be nothing to compare. Choose a second wick, vessel, load or pour temperature."}}
	case n > journal.MostPlaces:
		return []Problem{{"copies", fmt.Sprintf("This would be %d candles; a round has at most %d.", n, journal.MostPlaces)}}
	}
	if s.Square && s.Copies != cells {
		return []Problem{{"copies", fmt.Sprintf("A Latin square of %d cells needs %d candles of each.", cells, cells)}}
	}
	if s.Square && s.BenchPlaces < cells {
		return []Problem{{"bench_places", fmt.Sprintf("A Latin square of %d cells needs %d places on the bench.", cells, cells)}}
	}
	return nil
}

// count is how many cells there are, without making them.
func count(f journal.RoundFactors) int {
	return len(f.Vessels) * len(f.Wicks) * max(len(f.Loads), 1) * max(len(f.PourAts), 1)
}

func repeats[T comparable](vs []T) bool {
	seen := map[T]bool{}
	for _, v := range vs {
		if seen[v] {
			return true
		}
		seen[v] = true
	}
	return false
}

func noWicks(w journal.RoundWick) bool { return w.Wicks < 1 }

func badLoad(l quantity.Fraction) bool { return !(l >= 0 && l <= 0.5) }

func badPour(t quantity.Celsius) bool { return !(t >= 20 && t <= 200) }
