package standings

import (
	"slices"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// burnRow reads one burn of the journal: which of its checks count. Records
// that were withdrawn must be gone already.
func burnRow(l journal.BurnLog, v journal.Vessel, ruler quantity.Millimetres) BurnRow {
	row := BurnRow{Burn: l.Burn.ID, Number: l.Burn.Number, LitAt: l.Burn.LitAt}
	row.take(l, v, ruler)
	row.settle(journal.WidthsCount(l), l.Burn.Lit(), v.Target())
	return row
}

// settle says why the burn does not count, or when its pool met the wall.
func (r *BurnRow) settle(why string, lit bool, target quantity.Hours) {
	if r.Why = why; why != "" {
		return
	}
	if len(r.Readings) == 0 {
		r.Why = "no width was read"
		if lit {
			r.Why = "no width was read yet; it is still lit"
		}
		return
	}
	r.Full = meltpool.FullWindow(r.Readings)
	r.TooSoon = r.Full.TooSoon(target)
}

// take turns the checks that measured a width into readings, and notes those
// that are kept out.
func (r *BurnRow) take(l journal.BurnLog, v journal.Vessel, ruler quantity.Millimetres) {
	for _, c := range inOrder(l.Checks) {
		ratio, oneAxis, ok := meltpool.Reach(vesselOf(v), c.WidthA, c.WidthB, c.Full)
		if !ok {
			continue
		}
		if why := journal.ReadingCounts(l.Burn, c); why != "" {
			r.LeftOut = append(r.LeftOut, LeftOut{c.ID, c.At, why})
			continue
		}
		full := meltpool.IsFull(vesselOf(v), c.WidthA, c.WidthB, c.Full, ruler)
		r.OneAxis = r.OneAxis || oneAxis
		r.Readings = append(r.Readings, meltpool.Reading{Hour: quantity.Hours(c.At.Sub(l.Burn.LitAt).Hours()), Ratio: ratio, Full: full})
		r.overWall = r.overWall || overWall(c, v, ruler)
	}
}

// overWall reports a width beyond the vessel's by more than half a step of the
// ruler. It counts as full.
func overWall(c journal.Check, v journal.Vessel, ruler quantity.Millimetres) bool {
	over := func(pool *quantity.Millimetres, inner quantity.Millimetres) bool {
		return pool != nil && *pool > inner+ruler/2
	}
	return over(c.WidthA, v.Length()) || over(c.WidthB, v.InnerWidth)
}

// vesselOf is the vessel as the geometry of pools sees it.
func vesselOf(v journal.Vessel) meltpool.Vessel {
	m := meltpool.Vessel{Outline: meltpool.Ellipse, Length: v.Length(), Width: v.InnerWidth}
	if v.Shape == journal.Rectangular {
		m.Outline = meltpool.Rectangle
	}
	return m
}

// inOrder sorts the checks that count by time.
func inOrder(checks []journal.Check) []journal.Check {
	cs := slices.DeleteFunc(slices.Clone(checks), func(c journal.Check) bool { return c.IsGone() })
	slices.SortStableFunc(cs, func(a, b journal.Check) int { return a.At.Compare(b.At) })
	return cs
}
