package plan

import "rimward/internal/journal"

// Structure is what a drawn plan has, counted from its places alone.
type Structure struct {
	Candles, Cells, Copies, Melts, Evenings, Benches int
	WholeMelts                                       bool // every copy of one load and temperature comes from one melt
	WholeEvenings                                    bool // every copy is lit in one evening group
	// Square: every cell stands once in every evening group and once at every
	// place, and there are as many of each.
	Square bool
}

// StructureOf counts what a plan has.
func StructureOf(places []journal.RoundPlace) Structure {
	var cells []Cell
	t := tally{}
	for _, p := range places {
		i := indexOf(&cells, CellOf(p))
		kind := kindIndex(cells, CellOf(p))
		t.add("cell", i)
		t.add("copy", p.Copy)
		t.add("melt", p.Melt)
		t.add("evening", p.Evening)
		t.add("bench", p.Bench)
		t.add("copy, kind, melt", p.Copy, kind, p.Melt)
		t.add("copy, kind", p.Copy, kind)
		t.add("copy, evening", p.Copy, p.Evening)
		t.add("cell, evening", i, p.Evening)
		t.add("cell, bench", i, p.Bench)
		t.add("evening, bench", p.Evening, p.Bench)
	}
	s := Structure{Candles: len(places), Cells: len(cells), Copies: len(t["copy"]), Melts: len(t["melt"]), Evenings: len(t["evening"]), Benches: len(t["bench"])}
	s.WholeMelts = len(t["copy, kind, melt"]) == len(t["copy, kind"])
	s.WholeEvenings = len(t["copy, evening"]) == s.Copies
	n := s.Cells
	s.Square = n > 1 && s.Candles == n*n && s.Evenings == n && s.Benches == n &&
		len(t["cell, evening"]) == n*n && len(t["cell, bench"]) == n*n && len(t["evening, bench"]) == n*n
	return s
}

// tally holds which values, or pairs of values, of some names occur.
type tally map[string]map[[3]int]bool

func (t tally) add(name string, values ...int) {
	var key [3]int
	copy(key[:], values)
	if t[name] == nil {
		t[name] = map[[3]int]bool{}
	}
	t[name][key] = true
}

// indexOf is where a cell stands in a list; it is added when it does not.
func indexOf(cells *[]Cell, c Cell) int {
	for i, o := range *cells {
		if o.Same(c) {
			return i
		}
	}
	*cells = append(*cells, c)
	return len(*cells) - 1
}

// kindIndex is the first cell of a list that shares a melt with one in it.
func kindIndex(cells []Cell, c Cell) int {
	for i, o := range cells {
		if o.SameMelt(c) {
			return i
		}
	}
	return -1
}
