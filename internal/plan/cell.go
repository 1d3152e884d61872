package plan

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Cell is one combination of what the candles of a round differ in.
type Cell struct {
	Vessel journal.ID
	Wick   journal.ID
	Wicks  int                // of it, in one vessel
	Load   *quantity.Fraction // nil: no fragrance
	PourAt *quantity.Celsius  // nil: as the wax's guidance says
}

// Cells are all combinations of a round's factors, by vessel, then wick, then
// load, then pour temperature, each in the order they were given: the last of
// them changes quickest.
func Cells(f journal.RoundFactors) []Cell {
	var out []Cell
	for _, v := range f.Vessels {
		for _, w := range f.Wicks {
			for _, l := range levels(f.Loads) {
				for _, t := range levels(f.PourAts) {
					out = append(out, Cell{Vessel: v, Wick: w.Wick, Wicks: w.Wicks, Load: l, PourAt: t})
				}
			}
		}
	}
	return out
}

// levels are pointers to values, or one nil where there are none.
func levels[T any](vs []T) []*T {
	if len(vs) == 0 {
		return []*T{nil}
	}
	var out []*T
	for _, v := range vs {
		out = append(out, &v)
	}
	return out
}

// CellOf is the cell that a place belongs to.
func CellOf(p journal.RoundPlace) Cell {
	return Cell{Vessel: p.Vessel, Wick: p.Wick, Wicks: p.Wicks, Load: p.Load, PourAt: p.PourAt}
}

// Same reports whether two cells are alike in everything.
func (c Cell) Same(o Cell) bool {
	return c.Vessel == o.Vessel && c.Wick == o.Wick && c.Wicks == o.Wicks && c.SameMelt(o)
}

// SameMelt reports whether candles of two cells can be poured from one melt:
// their load and pour temperature are alike.
func (c Cell) SameMelt(o Cell) bool { return alike(c.Load, o.Load) && alike(c.PourAt, o.PourAt) }

func alike[T comparable](a, b *T) bool {
	return a == nil && b == nil || a != nil && b != nil && *a == *b
}

// place is the cell as a place of a round, without its numbers.
func (c Cell) place(copy int) journal.RoundPlace {
	return journal.RoundPlace{Copy: copy, Vessel: c.Vessel, Wick: c.Wick, Wicks: c.Wicks, Load: c.Load, PourAt: c.PourAt}
}
