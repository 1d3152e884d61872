package form

import (
	"net/url"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// SheetRow is the prefix of the names of one row of a pour sheet, from 0.
func SheetRow(i int) string { return "l" + strconv.Itoa(i) + "." }

// sheetRowFields are the boxes of a row.
var sheetRowFields = []string{"what", "count", "wick", "wicks", "test_fill", "places"}

// mostSheetRows is how far the rows of a form are looked through: beyond what a
// sheet takes, so that too many are refused and not dropped.
const mostSheetRows = 10 * journal.MostLines

// TidySheetRows is what was posted with the empty rows left out, so that rows
// and lines count alike.
func TidySheetRows(values url.Values) (tidy url.Values, rows int) {
	tidy = url.Values{}
	for k, v := range values {
		if row, _, is := strings.Cut(k, "."); !is || !isRow(row) {
			tidy[k] = v
		}
	}
	for i := range mostSheetRows {
		if sheetRowEmpty(values, SheetRow(i)) {
			continue
		}
		for _, f := range sheetRowFields {
			if v := values.Get(SheetRow(i) + f); v != "" {
				tidy.Set(SheetRow(rows)+f, v)
			}
		}
		rows++
	}
	return tidy, rows
}

func isRow(s string) bool {
	_, err := strconv.Atoi(strings.TrimPrefix(s, "l"))
	return strings.HasPrefix(s, "l") && err == nil
}

// sheetRowEmpty reports whether nothing was chosen in a row; a count of wicks
// alone says nothing.
func sheetRowEmpty(values url.Values, prefix string) bool {
	for _, f := range []string{"what", "count", "wick", "test_fill"} {
		if strings.TrimSpace(values.Get(prefix+f)) != "" {
			return false
		}
	}
	return true
}

// SheetInput is a pour sheet as it was typed.
type SheetInput struct {
	Wax   *journal.ID     `form:"wax" validate:"required"`
	Basis string          `form:"load_basis" validate:"omitempty,oneof=wax total"`
	Step  *quantity.Grams `form:"step" validate:"required,gt=0"`
	sheet journal.PourSheet
}

// ReadSheet reads the form of a pour sheet with so many rows.
func ReadSheet(p *Parser, rows int) SheetInput {
	in := SheetInput{Wax: p.ID("wax"), Basis: p.Choice("load_basis", "wax", "total"), Step: p.Mass("step")}
	in.sheet = journal.PourSheet{Fragrance: p.ID("fragrance"), Load: p.Percent("load"), Round: p.ID("round"), Note: p.Text("note"), Body: journal.SheetBody{
		Spare: p.Percent("spare"), Waste: p.Mass("waste"), Melter: p.Mass("melter"), PourAt: p.Temperature("pour_at"), TopUp: p.Flag("top_up"),
	}}
	for i := range rows {
		in.sheet.Body.Lines = append(in.sheet.Body.Lines, readSheetLine(p.With(SheetRow(i))))
	}
	p.Check(in)
	return in
}

// Sheet is the pour sheet that was typed.
func (in SheetInput) Sheet() journal.PourSheet {
	s := in.sheet
	s.LoadBasis = basisOr(in.Basis)
	if in.Wax != nil {
		s.Wax = *in.Wax
	}
	if in.Step != nil {
		s.Body.Step = *in.Step
	}
	return s
}

func readSheetLine(p *Parser) journal.SheetLine {
	l := journal.SheetLine{Wick: p.ID("wick"), TestFill: p.Mass("test_fill"), Places: readPlaces(p)}
	readSheetThing(p, &l)
	p.Require("count", "Say how many.")
	if n := p.Count("count"); n != nil {
		l.Count = *n
	}
	if n := p.Count("wicks"); l.Wick != nil {
		l.Wicks = 1
		if n != nil {
			l.Wicks = *n
		}
	}
	return l
}

// readSheetThing reads what a row fills: v3 is a vessel, m2 a mould.
func readSheetThing(p *Parser, l *journal.SheetLine) {
	text := p.Text("what")
	n, err := strconv.ParseInt(strings.TrimLeft(text, "vm"), 10, 64)
	id := journal.ID(n)
	switch {
	case text == "":
		p.Problem("what", "Choose a vessel or a mould.")
	case err != nil || n < 1:
		p.Problem("what", chooseSentence)
	case text[0] == 'v':
		l.Vessel = &id
	case text[0] == 'm':
		l.Mould = &id
	default:
		p.Problem("what", chooseSentence)
	}
}

// readPlaces reads the places of a round, which travel unseen.
func readPlaces(p *Parser) []int {
	var out []int
	for _, s := range strings.Fields(p.Text("places")) {
		if n, err := strconv.Atoi(s); err == nil && n > 0 {
			out = append(out, n)
		}
	}
	return out
}
