package plan_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/plan"
)

// A group's candles stand as drawn at first, and over as many burns as there
// are candles each stands once at every place: sittings and places are both
// blocks (Fisher, The Design of Experiments, 1935, from memory).
func TestBenchTurnsAreBalanced(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := anySpec(t)
		places := draw(t, s)
		turns := plan.BenchTurns(places, s.Seed)
		groups := map[int][][]int{}
		for i, p := range places {
			if turns[i][0] != p.Bench {
				t.Fatalf("place %d stands at %d first, drawn for %d", p.Number, turns[i][0], p.Bench)
			}
			groups[p.Evening] = append(groups[p.Evening], turns[i])
		}
		for evening, rows := range groups {
			if why := latin(rows); why != "" {
				t.Fatalf("group %d: %s: %v", evening, why, rows)
			}
		}
	})
}

// latin says why some rows are no Latin square of the numbers from 1.
func latin(rows [][]int) string {
	n := len(rows)
	for i, row := range rows {
		if len(row) != n {
			return "it is not square"
		}
		var across, down []int
		for k := range n {
			across, down = append(across, row[k]), append(down, rows[k][i])
		}
		slices.Sort(across)
		slices.Sort(down)
		for k := range n {
			if across[k] != k+1 || down[k] != k+1 {
				return "something comes twice"
			}
		}
	}
	return ""
}

// A Latin square of groups and places is one at every burn: each cell once at
// every place over the groups' first burns, over their second ones, and so on.
func TestBenchTurnsKeepASquare(t *testing.T) {
	t.Parallel()
	for seed := range int64(30) {
		s := spec(1, 4, 0, 0)
		s.Copies, s.Square, s.Seed = 4, true, seed
		places := draw(t, s)
		turns := plan.BenchTurns(places, seed)
		for burn := range 4 {
			seen := map[string]bool{}
			for i, p := range places {
				seen[fmt.Sprint(p.Wick, "at", turns[i][burn])] = true
				seen[fmt.Sprint(p.Evening, "has", turns[i][burn])] = true
			}
			if len(seen) != 32 {
				t.Fatalf("seed %d, burn %d: %d of 32", seed, burn+1, len(seen))
			}
		}
	}
}

// Whatever was drawn by hand or cut short keeps its places.
func TestBenchTurnsOfOddGroups(t *testing.T) {
	t.Parallel()
	got := plan.BenchTurns([]journal.RoundPlace{{Evening: 1, Bench: 2}, {Evening: 1, Bench: 5}, {Evening: 2, Bench: 1}, {Bench: 1}}, 3)
	if fmt.Sprint(got) != "[[2] [5] [1] [1]]" {
		t.Error(got)
	}
}

// A burn that slips to a later day stands where it would have stood.
func TestBenchTurnsStayWhenDaysMove(t *testing.T) {
	t.Parallel()
	s := spec(1, 3, 0, 0)
	s.Copies, s.BenchPlaces = 1, 3
	places := draw(t, s)
	in := poured(roundOf(3), monday.AddDate(0, 0, -20))
	in.Days.BenchPlaces, in.Days.Burns, in.Together = 3, 4, true
	for i, turns := range plan.BenchTurns(places, s.Seed) {
		in.Candles[i].Group, in.Candles[i].Benches = places[i].Evening, turns
	}
	benches := func(c plan.Calendar) map[string]int {
		out := map[string]int{}
		for _, x := range c.Sittings {
			for _, b := range x.Burns {
				out[fmt.Sprint(b.Place, ".", b.Number)] = b.Bench
			}
		}
		return out
	}
	was := benches(planned(t, in))
	if len(was) != 12 || was["1.1"] == was["1.2"] && was["2.1"] == was["2.2"] {
		t.Errorf("nobody moves: %v", was)
	}
	in.Now = in.Now.AddDate(0, 0, 3)
	out := in.Now.Add(-36 * time.Hour)
	for i := range in.Candles {
		in.Candles[i].Burns, in.Candles[i].LastOut = 1, &out
	}
	in.Days.Burns, in.Days.Away = 3, []string{"2026-03-06"}
	for burn, at := range benches(planned(t, in)) {
		if was[burn] != at {
			t.Errorf("burn %s moved from %d to %d", burn, was[burn], at)
		}
	}
}
