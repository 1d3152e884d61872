package standings

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// mostProblems is how many problems of a sheet are named; whoever sees twenty
// mends the cause.
const mostProblems = 20

// SheetProblem is one thing in a sheet that cannot be read, and what to do.
type SheetProblem struct {
	Line   int    // counted from 1; 0 for the whole sheet
	Column string // its name; "" for the whole line
	Text   string
}

// String writes the problem with its place.
func (p SheetProblem) String() string {
	switch {
	case p.Line == 0:
		return p.Text
	case p.Column == "":
		return "line " + strconv.Itoa(p.Line) + ": " + p.Text
	}
	return "line " + strconv.Itoa(p.Line) + ", " + p.Column + ": " + p.Text
}

// SheetError is a sheet that cannot be read, with its first problems in order
// of the lines.
type SheetError struct {
	Problems []SheetProblem
	More     int // problems beyond those
}

// Lines are the problems in words, one by one.
func (e *SheetError) Lines() []string {
	var out []string
	for _, p := range e.Problems {
		out = append(out, p.String())
	}
	if e.More > 0 {
		out = append(out, "and "+many(e.More, "more problem"))
	}
	return out
}

// Error is all of it, a line for each problem.
func (e *SheetError) Error() string { return strings.Join(e.Lines(), "\n") }

// sheetProblems gathers what is wrong with a sheet.
type sheetProblems struct {
	list []SheetProblem
	more int
}

func (ps *sheetProblems) add(line int, column, format string, args ...any) {
	if len(ps.list) == mostProblems {
		ps.more++
		return
	}
	ps.list = append(ps.list, SheetProblem{line, column, fmt.Sprintf(format, args...)})
}

func (ps *sheetProblems) err() error {
	if len(ps.list) == 0 {
		return nil
	}
	slices.SortStableFunc(ps.list, func(a, b SheetProblem) int { return cmp.Compare(a.Line, b.Line) })
	return &SheetError{ps.list, ps.more}
}

// longestQuote is how much of a cell is repeated in a problem.
const longestQuote = 40

// quoted is what stood in a cell.
func quoted(cell string) string {
	if rs := []rune(cell); len(rs) > longestQuote {
		cell = string(rs[:longestQuote]) + "…"
	}
	return strconv.Quote(cell)
}
