// Package label lays labels out on sheets of paper: how many of a size fit, and
// which comes where. It knows lengths and counts alone: what stands on a label
// and how it is drawn is for others to say.
package label

import "math"

// Size is a size of label. Labels touch each other, so that one cut parts two.
type Size struct {
	Key           string
	Width, Height float64 // mm
	Round         bool    // to be cut, or punched, as a disc
}

// Paper is a size of paper.
type Paper struct {
	Key, Name     string
	Width, Height float64 // mm
}

// Sizes are the sizes of labels, the usual one first.
var Sizes = []Size{
	{"38x21", 38, 21, false},
	{"25", 25, 25, true},
	{"63x38", 63, 38, false},
}

// Papers are the papers: A4 of ISO 216, and Letter of ANSI/ASME Y14.1, 8.5 in
// by 11 in.
var Papers = []Paper{{"a4", "A4", 210, 297}, {"letter", "Letter", 215.9, 279.4}}

// Edge is what is left free on each side, mm: what home printers do not reach
// (chosen by us).
const Edge = 8.0

// SizeOf is the size of a key; the usual one where there is none such.
func SizeOf(key string) Size {
	for _, s := range Sizes {
		if s.Key == key {
			return s
		}
	}
	return Sizes[0]
}

// PaperOf is the paper of a key; A4 where there is none such.
func PaperOf(key string) Paper {
	for _, p := range Papers {
		if p.Key == key {
			return p
		}
	}
	return Papers[0]
}

// Grid is how many labels stand side by side on a sheet, and how many rows of
// them.
type Grid struct{ Columns, Rows int }

// Each is how many labels a sheet holds.
func (g Grid) Each() int { return g.Columns * g.Rows }

// Fit is the grid of a size on a paper.
func Fit(s Size, p Paper) Grid {
	return Grid{int(math.Floor((p.Width - 2*Edge) / s.Width)), int(math.Floor((p.Height - 2*Edge) / s.Height))}
}

// None marks a place on a sheet that stays empty.
const None = -1

// Lay puts n labels on sheets from the start-th place of the first one, counted
// from 1 row by row: sheets of rows of places, each the number of its label
// from 0, or None. A start outside the sheet is its nearest place.
func (g Grid) Lay(n, start int) [][][]int {
	if n <= 0 {
		return nil
	}
	skipped := min(max(start, 1), g.Each()) - 1
	var sheets [][][]int
	for at := 0; at < skipped+n; at++ {
		if at%g.Each() == 0 {
			sheets = append(sheets, g.blank())
		}
		if at >= skipped {
			in := at % g.Each()
			sheets[len(sheets)-1][in/g.Columns][in%g.Columns] = at - skipped
		}
	}
	return sheets
}

// blank is a sheet with nothing on it.
func (g Grid) blank() [][]int {
	rows := make([][]int, g.Rows)
	for r := range rows {
		for range g.Columns {
			rows[r] = append(rows[r], None)
		}
	}
	return rows
}
