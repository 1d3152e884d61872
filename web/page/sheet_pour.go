package page

import (
	"net/url"
	"strconv"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/pour"
)

// SheetMelts is what each melt of a sheet is to weigh; false when it cannot be
// worked out.
func SheetMelts(s journal.PourSheet, k Known) ([]journal.SheetMasses, bool) {
	sums, problems := pour.Work(SheetAsk(s, k))
	var out []journal.SheetMasses
	for _, m := range sums.Melts {
		out = append(out, journal.SheetMasses{Wax: m.Wax, Oil: m.Oil})
	}
	return out, len(problems) == 0
}

// Cavities is how many cavities a mould has; 0 for one that is not known.
func (k Known) Cavities(mould journal.ID) int {
	m, _ := k.mould(&mould)
	return m.Cavities
}

// SheetProblems are what is wrong with a sheet beside its boxes; what is only
// missing is left out: the sheet itself asks for it.
func SheetProblems(s journal.PourSheet, k Known) []form.Problem {
	_, problems := pour.Work(SheetAsk(s, k))
	var out []form.Problem
	for _, p := range problems {
		if p.Missing {
			continue
		}
		field := p.Field
		switch {
		case p.Filling >= 0:
			field = form.SheetRow(p.Filling) + "count"
		case field == "oil":
			field = "fragrance"
		case field == "fillings":
			field = form.SheetRow(0) + "what"
		}
		out = append(out, form.Problem{Field: field, Text: p.Text})
	}
	return out
}

// RowsAsked is how many empty rows the form shows after one more was asked for.
func RowsAsked(values url.Values) int {
	n := 0
	for i := range journal.MostLines {
		if values.Has(form.SheetRow(i) + "what") {
			n++
		}
	}
	_, filled := form.TidySheetRows(values)
	return n - filled + 1
}

// SheetPouredSaid is said when a sheet was made a pour.
func SheetPouredSaid(s journal.PourSheet) string {
	text := "The sheet is a pour now."
	if len(s.Candles(0)) > 0 {
		text += " Write each candle’s code on its base."
	}
	return text + " Correct here what went otherwise."
}

// SheetPourNote is the note of a pour that was made of a sheet.
func SheetPourNote(s journal.PourSheet, melts int) string {
	if melts > 1 {
		return joinWords("Poured in "+counted(melts, "melt", "melts")+".", s.Note)
	}
	return s.Note
}

// PlacePoured says that a place of a round has its candle.
func PlacePoured(place int) string {
	return "The candle of place " + strconv.Itoa(place) + " of the round is poured already. Correct the sheet."
}
