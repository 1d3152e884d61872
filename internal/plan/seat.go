package plan

import "rimward/internal/journal"

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
