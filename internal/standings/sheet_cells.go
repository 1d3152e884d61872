package standings

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"

	"rimward/internal/quantity"
)

// sheetLine is one look at one pool.
type sheetLine struct {
	line                         int
	vessel, series, candle, burn string
	inner                        quantity.Millimetres
	target                       *quantity.Hours // nil when the line does not say
	rung                         *int            // nil when blank
	hour                         quantity.Hours
	width                        *quantity.Millimetres
	full                         bool
}

// bounds is what a number in a sheet may be.
type bounds struct {
	low, high float64
	is        string // what it is
	write     string // what to write
}

// The bounds. Vessels and target hours are held to what the journal holds them
// to. A burn of more than a day is minutes taken for hours, and nobody reads a
// pool within half a minute of lighting.
var (
	innerBounds  = bounds{10, 500, "an inner width", "write millimetres between 10 and 500, such as 76.2"}
	targetBounds = bounds{0.25, 24, "a target hour", "write hours between 0.25 and 24, such as 3, or leave it blank"}
	hourBounds   = bounds{0.01, 24, "an hour", "write hours since lighting, above 0 and at most 24, such as 2.5"}
	widthBounds  = bounds{0, 510, "a width", "write millimetres such as 48.5"}
	rungBounds   = bounds{-1000, 1000, "a rung", "write its place in the ladder as a whole number, such as 7, or leave it blank for wicks without a ladder"}
)

// tooWide is how far a pool may seem wider than its vessel: a ruler laid
// askew, but not another vessel.
const tooWide quantity.Millimetres = 10

// read turns the cells of a row into values; nil when any cannot be read.
func (r sheetRow) read(ps *sheetProblems) *sheetLine {
	before := len(ps.list) + ps.more
	l := &sheetLine{line: r.line, vessel: r.name(colVessel, ps), series: r.name(colSeries, ps), candle: r.name(colCandle, ps), burn: r.name(colBurn, ps)}
	if v, ok := r.number(colInner, innerBounds, ps); ok {
		l.inner = quantity.Millimetres(v)
	}
	if v, ok := r.number(colHour, hourBounds, ps); ok {
		l.hour = quantity.Hours(v)
	}
	if v, ok := r.maybe(colTarget, targetBounds, ps); ok {
		h := quantity.Hours(v)
		l.target = &h
	}
	l.rung = r.rung(ps)
	r.pool(l, ps)
	if len(ps.list)+ps.more != before {
		return nil
	}
	return l
}

// pool reads the width, and whether the pool was full.
func (r sheetRow) pool(l *sheetLine, ps *sheetProblems) {
	full, known := yesNo(r.cell(colFull))
	if !known {
		ps.add(r.line, colFull, "%s is neither yes nor no; write yes, no, or leave it blank for no", quoted(r.cell(colFull)))
	}
	l.full = full
	if v, ok := r.maybe(colWidth, widthBounds, ps); ok {
		w := quantity.Millimetres(v)
		l.width = &w
		if l.inner > 0 && w > l.inner+tooWide {
			ps.add(r.line, colWidth, "the pool cannot be wider than the vessel, %v against %v; check both", w, l.inner)
		}
	}
	if known && !full && r.cell(colWidth) == "" {
		ps.add(r.line, colWidth, "there is nothing to go by; write the width in millimetres, or yes under full")
	}
}

// rung reads the place in the ladder; nil when it is blank.
func (r sheetRow) rung(ps *sheetProblems) *int {
	v, ok := r.maybe(colRung, rungBounds, ps)
	if !ok {
		return nil
	}
	if v != math.Trunc(v) {
		ps.add(r.line, colRung, "%s is not %s; %s", quoted(r.cell(colRung)), rungBounds.is, rungBounds.write)
		return nil
	}
	n := int(v)
	return &n
}

// name reads a text that must be there.
func (r sheetRow) name(column string, ps *sheetProblems) string {
	s := r.cell(column)
	switch {
	case s == "":
		ps.add(r.line, column, "nothing is written here; every reading needs its %s", column)
	case strings.ContainsFunc(s, unicode.IsControl):
		ps.add(r.line, column, "%s has a sign that cannot be shown; write it in one line of plain letters", quoted(s))
	}
	return s
}

// maybe reads a number that may be blank; ok is false when it is, or when it
// cannot be read.
func (r sheetRow) maybe(column string, b bounds, ps *sheetProblems) (float64, bool) {
	if r.cell(column) == "" {
		return 0, false
	}
	return r.number(column, b, ps)
}

// number reads a number that must be there.
func (r sheetRow) number(column string, b bounds, ps *sheetProblems) (float64, bool) {
	s := r.cell(column)
	v, ok := sheetNumber(s, r.comma)
	switch {
	case s == "":
		ps.add(r.line, column, "nothing is written here; %s", b.write)
		return 0, false
	case !ok || v < b.low || v > b.high:
		ps.add(r.line, column, "%s is not %s; %s", quoted(s), b.is, b.write)
		return 0, false
	}
	return v, true
}

var plainNumber = regexp.MustCompile(`^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$`)

// sheetNumber reads a decimal as programs write it. It never returns a number
// that is not finite.
func sheetNumber(s string, comma bool) (float64, bool) {
	if comma {
		s = strings.Replace(s, ",", ".", 1)
	}
	if !plainNumber.MatchString(s) {
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	return v, err == nil
}

// yesNo reads whether a box was ticked; blank is no.
func yesNo(s string) (yes, known bool) {
	switch strings.ToLower(s) {
	case "yes", "y", "true", "1", "x":
		return true, true
	case "", "no", "n", "false", "0":
		return false, true
	}
	return false, false
}
