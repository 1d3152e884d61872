package standings

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"

	"rimward/internal/quantity"
)

// The limits of a sheet. A studio of ten years writes some thirty thousand
// readings; what is beyond these is another file, or a slip.
const (
	mostSheetBytes = 64 << 20
	mostSheetRows  = 200_000
)

// ReadSheet reads readings that were kept elsewhere, as CSV whose first line
// names the columns, in any order:
//
//	vessel,inner_width_mm,target_hour,series,rung,candle,burn,hour,width_mm,full
//
// Each line is one look at one pool, so many hours after lighting. target_hour
// may be missing, or blank: the usual hour for each inch then holds. rung is
// the wick's whole-numbered place in its ladder, and blank for wicks without
// one. A width may be blank where full says yes. The columns are parted by
// commas, or by semicolons, and then decimals may have a comma. Other columns
// are passed over; the order of lines does not matter.
//
// Where anything cannot be read nothing is, and the error is a *SheetError
// that says what to do, line by line.
func ReadSheet(r io.Reader, ruler quantity.Millimetres) ([]*Stack, error) {
	text, err := sheetText(r)
	if err != nil {
		return nil, err
	}
	var ps sheetProblems
	lines := sheetLines(text, &ps)
	vessels := sheetVessels(lines, &ps)
	sheetLadders(lines, &ps)
	if len(lines) == 0 && len(ps.list) == 0 {
		ps.add(0, "", "there are no readings below the names of the columns; add one line for each look at a pool")
	}
	if err := ps.err(); err != nil {
		return nil, err
	}
	return sheetStacks(lines, vessels, ruler), nil
}

// sheetText reads the whole sheet, without the mark that some programs set at
// the start.
func sheetText(r io.Reader) ([]byte, error) {
	text, err := io.ReadAll(io.LimitReader(r, mostSheetBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read sheet: %w", err)
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	var ps sheetProblems
	switch {
	case len(text) > mostSheetBytes:
		ps.add(0, "", "the file is larger than 64 MB; part it by vessel and rank the parts one by one")
	case len(bytes.TrimSpace(text)) == 0:
		ps.add(0, "", "the file is empty; its first line must name the columns: %s", columnList())
	case !utf8.Valid(text):
		ps.add(badLine(text), "", "this is not UTF-8 text; save the sheet as CSV in UTF-8")
	}
	return text, ps.err()
}

// badLine is the line with the first byte that is no UTF-8.
func badLine(text []byte) int {
	line := 1
	for len(text) > 0 {
		r, n := utf8.DecodeRune(text)
		if r == utf8.RuneError && n == 1 {
			break
		}
		if r == '\n' {
			line++
		}
		text = text[n:]
	}
	return line
}
