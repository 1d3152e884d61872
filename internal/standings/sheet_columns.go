package standings

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strings"
)

// The columns of a sheet.
const (
	colVessel = "vessel"
	colInner  = "inner_width_mm"
	colTarget = "target_hour"
	colSeries = "series"
	colRung   = "rung"
	colCandle = "candle"
	colBurn   = "burn"
	colHour   = "hour"
	colWidth  = "width_mm"
	colFull   = "full"
)

// sheetColumns are all of them, in the order they are named to people.
var sheetColumns = []string{colVessel, colInner, colTarget, colSeries, colRung, colCandle, colBurn, colHour, colWidth, colFull}

// sparedColumns may be missing.
var sparedColumns = []string{colTarget}

func columnList() string { return strings.Join(sheetColumns, ", ") }

// sheetRow is one line of a sheet, its cells by the names of the columns.
type sheetRow struct {
	line  int
	at    map[string]int // where each column stands
	cells []string
	comma bool // decimals may have a comma
}

// cell is what stands in a column, without the spaces around it.
func (r sheetRow) cell(column string) string {
	i, ok := r.at[column]
	if !ok || i >= len(r.cells) {
		return ""
	}
	return strings.TrimSpace(r.cells[i])
}

// blank reports whether nothing stands in the row.
func (r sheetRow) blank() bool {
	return !slices.ContainsFunc(r.cells, func(s string) bool { return strings.TrimSpace(s) != "" })
}

// tooLong reports whether something stands beyond the last named column.
func (r sheetRow) tooLong(columns int) bool {
	return len(r.cells) > columns && !sheetRow{cells: r.cells[columns:]}.blank()
}

// separator is what parts the columns, told from the first line that is not
// blank.
func separator(text []byte) rune {
	first, _, _ := bytes.Cut(bytes.TrimLeft(text, " \t\r\n"), []byte("\n"))
	if bytes.Count(first, []byte(";")) > bytes.Count(first, []byte(",")) {
		return ';'
	}
	return ','
}

// sheetLines reads the names of the columns and then every line that can be
// read; what cannot be is a problem.
func sheetLines(text []byte, ps *sheetProblems) []*sheetLine {
	in := csv.NewReader(bytes.NewReader(text))
	in.Comma, in.FieldsPerRecord, in.ReuseRecord = separator(text), -1, true
	var at map[string]int
	var out []*sheetLine
	columns := 0
	for rows := 0; ; {
		cells, err := in.Read()
		if err == io.EOF {
			return out
		}
		if err != nil {
			ps.unreadable(err)
			return out
		}
		line, _ := in.FieldPos(0)
		row := sheetRow{line, at, cells, in.Comma == ';'}
		switch {
		case row.blank():
		case at == nil:
			columns = len(cells)
			if at = columnsOf(line, cells, ps); at == nil {
				return nil
			}
		case rows == mostSheetRows:
			ps.add(line, "", "there are more than 200,000 readings; part the sheet by vessel and rank the parts one by one")
			return out
		default:
			rows++
			if row.tooLong(columns) {
				ps.add(line, "", "there are %d cells here and %d columns; where decimals have a comma, part the columns by semicolons", len(cells), columns)
			} else if l := row.read(ps); l != nil {
				out = append(out, l)
			}
		}
	}
}

// columnsOf finds the columns in the line of their names; nil when any that
// is needed is missing.
func columnsOf(line int, names []string, ps *sheetProblems) map[string]int {
	at := map[string]int{}
	fine := true
	for i, name := range names {
		name = strings.ToLower(strings.TrimSpace(name))
		if !slices.Contains(sheetColumns, name) {
			continue
		}
		if _, twice := at[name]; twice {
			ps.add(line, name, "two columns have this name; keep one of them")
			fine = false
		}
		at[name] = i
	}
	if missing := missingColumns(at); len(missing) > 0 {
		ps.add(line, "", "no column is named %s; the first line must name %s, parted by commas or semicolons", strings.Join(missing, ", "), columnList())
		fine = false
	}
	if !fine {
		return nil
	}
	return at
}

func missingColumns(at map[string]int) []string {
	return slices.DeleteFunc(slices.Clone(sheetColumns), func(name string) bool {
		_, there := at[name]
		return there || slices.Contains(sparedColumns, name)
	})
}

// unreadable says what is wrong with the signs of a line.
func (ps *sheetProblems) unreadable(err error) {
	var wrong *csv.ParseError
	if !errors.As(err, &wrong) {
		ps.add(0, "", "the sheet cannot be read: %v", err)
		return
	}
	ps.add(wrong.StartLine, "", "a quotation mark is out of place; put one before and one after the whole cell, and write two for one within it")
}
