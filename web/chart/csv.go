package chart

import (
	"encoding/csv"
	"io"
	"regexp"
)

// CSV writes a table as comma-separated values, lines ending in CR LF (RFC
// 4180). A cell that a spreadsheet would take for a formula is preceded by an
// apostrophe, unless it is a plain number (OWASP, CSV injection). Errors are
// those of the writer.
func CSV(w io.Writer, t Table) error {
	c := csv.NewWriter(w)
	c.UseCRLF = true
	for _, row := range append([][]string{t.Head}, t.Rows...) {
		if err := c.Write(harmless(row)); err != nil {
			return err
		}
	}
	c.Flush()
	return c.Error()
}

// plainNumber is a number that no spreadsheet works out further.
var plainNumber = regexp.MustCompile(`^[+-]?[0-9]+([.,][0-9]+)?$`)

// harmless is a copy of cells of which none begins a formula.
func harmless(row []string) []string {
	out := make([]string, len(row))
	for i, cell := range row {
		if cell != "" && begins(cell[0]) && !plainNumber.MatchString(cell) {
			cell = "'" + cell
		}
		out[i] = cell
	}
	return out
}

// begins reports whether a formula can begin with a letter, or a blank that
// spreadsheets skip.
func begins(c byte) bool {
	switch c {
	case '=', '+', '-', '@', '\t', '\r', '\n':
		return true
	}
	return false
}
