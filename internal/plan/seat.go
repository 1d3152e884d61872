package plan

import (
	"slices"

	"rimward/internal/journal"
)

// seat gives every place its evening group and its place on the bench.
func (s Spec) seat(places []journal.RoundPlace, d dice) {
	cells := Cells(s.Factors)
	at := func(cell, copy int) *journal.RoundPlace {
		for i, p := range places {
			if p.Copy == copy && CellOf(p).Same(cells[cell]) {
				return &places[i]
			}
		}
		return nil
	}
	if len(cells) <= s.BenchPlaces {
		s.seatWhole(len(cells), at, d)
		return
	}
	s.seatParts(len(cells), at, d)
}

// seatWhole lights whole copies together.
func (s Spec) seatWhole(cells int, at func(cell, copy int) *journal.RoundPlace, d dice) {
	together := s.BenchPlaces / cells
	if s.Square {
		together = 1
	}
	var rows [][]int
	for evening, copies := range evenRuns(s.Copies, shares(s.Copies, together)) {
		for part, i := range d.order(len(copies)) {
			if len(rows) == 0 {
				rows = d.square(cells)
			}
			for cell, bench := range rows[0] {
				p := at(cell, copies[i])
				p.Evening, p.Bench = evening+1, part*cells+bench+1
			}
			rows = rows[1:]
		}
	}
}

// seatParts lights copies that the bench cannot hold.
func (s Spec) seatParts(cells int, at func(cell, copy int) *journal.RoundPlace, d dice) {
	var all []*journal.RoundPlace
	for copy := 1; copy <= s.Copies; copy++ {
		for _, cell := range d.order(cells) {
			all = append(all, at(cell, copy))
		}
	}
	for evening, run := range evenRuns(len(all), shares(len(all), s.BenchPlaces)) {
		for i, bench := range d.order(len(run)) {
			p := all[run[i]-1]
			p.Evening, p.Bench = evening+1, bench+1
		}
	}
}

// SittingPlaces is where n candles that are lit together stand in each of
// their sittings: for every sitting the place, from 0, of each candle. Sittings
// and places are both blocks: over any n sittings from the first, or from a
// whole multiple of n, every candle stands once at every place. It is empty
// below one candle or one sitting.
func SittingPlaces(n, sittings int, seed int64) [][]int {
	if n < 1 || sittings < 1 {
		return nil
	}
	d, out := newDice(seed, forSitting), [][]int{}
	for len(out) < sittings {
		out = append(out, d.square(n)...)
	}
	return out[:sittings:sittings]
}

// BenchTurns is where each place of a round stands on the bench at its first,
// second … burn, and from the start again. At its first burn it stands as it
// was drawn. From then on an evening group changes places by SittingPlaces, so
// that over as many burns as it has candles each stands once at every place.
// Groups of one size change alike: what was balanced over groups at their first
// burn, as in a Latin square, stays so at every other. A group whose places are
// not those from 1 up to its size, each once, stays where it is.
func BenchTurns(places []journal.RoundPlace, seed int64) [][]int {
	size := map[int]int{}
	for _, p := range places {
		size[p.Evening]++
	}
	out := make([][]int, len(places))
	for i, p := range places {
		out[i] = []int{p.Bench}
		n := size[p.Evening]
		if p.Evening < 1 || !fills(places, p.Evening, n) {
			continue
		}
		rows := SittingPlaces(n, n, seed)
		column := slices.Index(rows[0], p.Bench-1)
		for _, row := range rows[1:] {
			out[i] = append(out[i], row[column]+1)
		}
	}
	return out
}

// fills reports whether an evening group takes the places from 1 to n, each
// once.
func fills(places []journal.RoundPlace, evening, n int) bool {
	taken := map[int]bool{}
	for _, p := range places {
		if p.Evening == evening && p.Bench >= 1 && p.Bench <= n {
			taken[p.Bench] = true
		}
	}
	return len(taken) == n
}
