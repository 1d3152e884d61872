package plan

import "rimward/internal/journal"

// Spec is what a round is drawn from.
type Spec struct {
	Factors     journal.RoundFactors
	Copies      int   // candles of each cell; each copy of all cells is a block
	BenchPlaces int   // candles that can be lit together
	Seed        int64 // the same seed draws the same plan
	PerMelt     int   // candles that one melt can fill; 0: as many as there are, below 0: not even one
	OwnMelts    bool  // every copy is poured from a melt of its own
	// Square asks for a Latin square: as many copies as cells, one copy to an
	// evening, and every cell once at every place.
	Square bool
	// Ladders are the ladders of the wicks, for what is warned of; a wick that
	// is missing is not looked at.
	Ladders map[journal.ID]journal.ID
}

// Draw puts the candles of a round in order, or says why it cannot.
//
// Melts: candles of one load and one pour temperature share a melt. A copy is
// not split between two melts of its kind if a melt can hold it, and copies
// are shared out evenly among the melts that are needed. Pouring goes through
// the copies in order; within what is poured for one run of copies the order of
// the melts, and within a melt the order of each copy's candles, are drawn.
//
// Evenings: whole copies are lit together, as many as the bench holds, shared
// out evenly, those poured first first. Their places are rows of a Latin
// square, so that a cell comes to another place in every copy. A copy that the
// bench cannot hold is lit in the order of a draw of its own, cut into groups
// that are as even as they can be.
func Draw(s Spec) ([]journal.RoundPlace, []Problem) {
	if ps := Problems(s); len(ps) > 0 {
		return nil, ps
	}
	places := s.pour(newDice(s.Seed, forOrder))
	s.seat(places, newDice(s.Seed, forBench))
	return places, nil
}

// pour are the places in order of pouring.
func (s Spec) pour(d dice) []journal.RoundPlace {
	var out []journal.RoundPlace
	kinds, melt := kinds(Cells(s.Factors)), 0
	for _, copies := range s.runs(len(kinds[0])) {
		var melts [][]journal.RoundPlace
		for _, kind := range kinds {
			melts = append(melts, s.melts(kind, copies, d)...)
		}
		for _, m := range d.order(len(melts)) {
			melt++
			for _, p := range melts[m] {
				p.Number, p.Melt = len(out)+1, melt
				out = append(out, p)
			}
		}
	}
	return out
}

// kinds are cells by what they can be poured from.
func kinds(cells []Cell) [][]Cell {
	var out [][]Cell
next:
	for _, c := range cells {
		for i := range out {
			if out[i][0].SameMelt(c) {
				out[i] = append(out[i], c)
				continue next
			}
		}
		out = append(out, []Cell{c})
	}
	return out
}

// runs are the copies, counted from 1, that share the melts of their kinds.
func (s Spec) runs(cells int) [][]int {
	together := s.Copies
	switch {
	case s.OwnMelts || s.PerMelt > 0 && s.PerMelt < cells:
		together = 1
	case s.PerMelt > 0:
		together = min(s.PerMelt/cells, s.Copies)
	}
	return evenRuns(s.Copies, shares(s.Copies, together))
}

// melts are the candles of some copies of one kind by melt.
func (s Spec) melts(kind []Cell, copies []int, d dice) [][]journal.RoundPlace {
	var all []journal.RoundPlace
	for _, copy := range copies {
		for _, i := range d.order(len(kind)) {
			all = append(all, kind[i].place(copy))
		}
	}
	if s.PerMelt == 0 || len(all) <= s.PerMelt {
		return [][]journal.RoundPlace{all}
	}
	var out [][]journal.RoundPlace
	for _, run := range evenRuns(len(all), shares(len(all), s.PerMelt)) {
		out = append(out, all[run[0]-1:run[len(run)-1]])
	}
	return out
}

// shares is how many shares of at most so many a number is parted into.
func shares(n, most int) int { return (n + most - 1) / most }

// evenRuns parts the numbers 1 to n into runs whose lengths differ by at most
// one, the longer ones first.
func evenRuns(n, parts int) [][]int {
	out := make([][]int, parts)
	next := 1
	for i := range out {
		for range (n + parts - 1 - i) / parts {
			out[i] = append(out[i], next)
			next++
		}
	}
	return out
}
