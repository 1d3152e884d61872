package standings

import (
	"cmp"
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
)

// sheetStacks sorts the lines of a sheet into series, each in an order of its
// own, so that that of the lines does not matter.
func sheetStacks(lines []*sheetLine, vessels map[string]journal.Vessel, ruler quantity.Millimetres) []*Stack {
	var out []*Stack
	for _, ls := range parted(lines, seriesKey) {
		out = append(out, sheetStack(ls, vessels[ls[0].vessel], ruler))
	}
	slices.SortFunc(out, func(a, b *Stack) int {
		return cmp.Or(cmp.Compare(a.Vessel.Name, b.Vessel.Name), cmp.Compare(a.Ladder.Name, b.Ladder.Name))
	})
	return out
}

// sheetStack gathers one series. Beside the rungs that were burned it has
// those between them and one more at either end.
func sheetStack(lines []*sheetLine, v journal.Vessel, ruler quantity.Millimetres) *Stack {
	s := &Stack{Vessel: v, Ladder: journal.Ladder{Name: lines[0].series}, Wicks: 1, Ruler: ruler}
	var shelf []journal.Wick
	if lines[0].rung == nil {
		s.Rungs = []Rung{sheetRung(journal.Wick{}, lines, v, ruler)}
	} else {
		for _, ls := range parted(lines, func(l *sheetLine) int { return *l.rung }) {
			s.Rungs = append(s.Rungs, sheetRung(sheetWick(*ls[0].rung), ls, v, ruler))
		}
		shelf = around(s.Rungs)
	}
	s.sort(shelf)
	return s
}

// sheetWick is a rung that has no label but its number.
func sheetWick(rung int) journal.Wick { return journal.Wick{Rung: rung, Label: strconv.Itoa(rung)} }

// around are the wicks from below the lowest rung to above the highest.
func around(rungs []Rung) []journal.Wick {
	byRung := func(a, b Rung) int { return cmp.Compare(a.Wick.Rung, b.Wick.Rung) }
	var out []journal.Wick
	for r := slices.MinFunc(rungs, byRung).Wick.Rung - 1; r <= slices.MaxFunc(rungs, byRung).Wick.Rung+1; r++ {
		out = append(out, sheetWick(r))
	}
	return out
}

// sheetRung gathers the candles of one wick.
func sheetRung(w journal.Wick, lines []*sheetLine, v journal.Vessel, ruler quantity.Millimetres) Rung {
	r := Rung{Wick: w}
	for _, ls := range parted(lines, func(l *sheetLine) string { return l.candle }) {
		r.Rows = append(r.Rows, sheetCandle(ls, v, ruler))
	}
	slices.SortFunc(r.Rows, func(a, b CandleRow) int { return compareNaturally(a.Name, b.Name) })
	if f := tooSoon(r.Rows); f.Burns > 0 {
		r.Faults = append(r.Faults, f)
	}
	return r
}

// sheetCandle gathers the burns of one candle.
func sheetCandle(lines []*sheetLine, v journal.Vessel, ruler quantity.Millimetres) CandleRow {
	burns := parted(lines, func(l *sheetLine) string { return l.burn })
	slices.SortFunc(burns, func(a, b []*sheetLine) int { return compareNaturally(a[0].burn, b[0].burn) })
	row := CandleRow{Name: lines[0].candle}
	for i, n := range burnNumbers(burns) {
		row.Burns = append(row.Burns, sheetBurn(n, burns[i], v, ruler))
	}
	return row
}

// burnNumbers are the numbers of a candle's burns: as they were written, where
// all of them are whole numbers; their places where not.
func burnNumbers(burns [][]*sheetLine) []int {
	var written, places []int
	for i, ls := range burns {
		places = append(places, i+1)
		if n, err := strconv.Atoi(ls[0].burn); err == nil && n > 0 && !slices.Contains(written, n) {
			written = append(written, n)
		}
	}
	if len(written) == len(burns) {
		return written
	}
	return places
}

// sheetBurn reads one burn as one of the journal's would be.
func sheetBurn(number int, lines []*sheetLine, v journal.Vessel, ruler quantity.Millimetres) BurnRow {
	byHour := func(a, b *sheetLine) int { return cmp.Compare(a.hour, b.hour) }
	row := BurnRow{Number: number, jumbled: !slices.IsSortedFunc(lines, byHour)}
	for _, l := range lines {
		ratio, _, _ := meltpool.Reach(vesselOf(v), l.width, l.width, l.full)
		full := meltpool.IsFull(vesselOf(v), l.width, l.width, l.full, ruler)
		row.Readings = append(row.Readings, meltpool.Reading{Hour: l.hour, Ratio: ratio, Full: full})
		row.overWall = row.overWall || overWall(journal.Check{WidthA: l.width}, v, ruler)
	}
	slices.SortFunc(row.Readings, func(a, b meltpool.Reading) int {
		return cmp.Or(cmp.Compare(a.Hour, b.Hour), compareBools(a.Full, b.Full), cmp.Compare(a.Ratio, b.Ratio))
	})
	row.settle("", false, v.Target())
	return row
}

func compareBools(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}
