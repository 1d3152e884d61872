package standings

import (
	"slices"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// burnRow reads one burn: its widths, and from them the width at the target
// hour. Records that were withdrawn must be gone already.
func burnRow(l journal.BurnLog, v journal.Vessel, ruler quantity.Millimetres) BurnRow {
	row := BurnRow{Burn: l.Burn.ID, Number: l.Burn.Number, LitAt: l.Burn.LitAt}
	rs := row.readings(l, v, ruler)
	if row.Why = whyBurnOut(l); row.Why != "" {
		return row
	}
	row.Full = meltpool.FullWindow(rs)
	row.TooSoon = row.Full.TooSoon(v.Target())
	e, ok, why := meltpool.AtHour(rs, v.Target())
	if !ok {
		row.Why = why
		if l.Burn.Lit() {
			row.Why += "; it is still lit"
		}
		return row
	}
	row.Used, row.Ratio, row.How = true, e.Ratio, e.How
	return row
}

// readings turns the checks that measured a width into readings, and notes
// those that are kept out.
func (r *BurnRow) readings(l journal.BurnLog, v journal.Vessel, ruler quantity.Millimetres) []meltpool.Reading {
	var rs []meltpool.Reading
	for _, c := range inOrder(l.Checks) {
		ratio, oneAxis, ok := meltpool.Reach(vesselOf(v), c.WidthA, c.WidthB, c.Full)
		if !ok {
			continue
		}
		if why := whyCheckOut(c, l.Burn); why != "" {
			r.LeftOut = append(r.LeftOut, LeftOut{c.ID, c.At, why})
			continue
		}
		r.OneAxis = r.OneAxis || oneAxis
		rs = append(rs, meltpool.Reading{
			Hour: quantity.Hours(c.At.Sub(l.Burn.LitAt).Hours()), Ratio: ratio,
			Full: meltpool.IsFull(vesselOf(v), c.WidthA, c.WidthB, c.Full, ruler),
		})
	}
	return rs
}

// whyBurnOut says why a whole burn is kept out; "" when it is not.
func whyBurnOut(l journal.BurnLog) string {
	switch {
	case l.Burn.Draught == journal.DraughtStrong:
		return "it burned in a strong draught"
	case l.Burn.Ending == journal.PutOutUnsafe && len(l.Checks) == 0:
		return "it was put out for safety before the first check"
	}
	return ""
}

// whyCheckOut says why one reading is kept out; "" when it is not.
func whyCheckOut(c journal.Check, b journal.Burn) string {
	switch {
	case c.LeftOut:
		return "left out by hand"
	case b.OutAt != nil && c.At.After(*b.OutAt):
		return "read after the flame was out"
	}
	return ""
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
