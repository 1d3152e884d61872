package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// SheetsPage lists the pour sheets.
type SheetsPage struct {
	Open, Poured []ui.Item
	Empty        *MissingPage
	Acts         []ui.Action
}

// NewSheetsPage builds the list: first what is still to be poured.
func NewSheetsPage(list []journal.PourSheet, k Known, v View) SheetsPage {
	p := SheetsPage{Acts: []ui.Action{{Text: "New sheet", Href: "/pours/sheets/new", Main: true}, {Text: "What can I fill with what is left?", Href: "/pours/sheets/left"}}}
	for _, s := range list {
		i := sheetItem(s, k, v)
		if s.Pour != nil || s.IsGone() {
			p.Poured = append(p.Poured, i)
		} else {
			p.Open = append(p.Open, i)
		}
	}
	if len(list) == 0 {
		p.Empty = missing("No pour sheet yet. Say what you want to fill; the sheet says what to melt, and keeps what the scale said.", p.Acts)
		p.Acts = nil
	}
	return p
}

func sheetItem(s journal.PourSheet, k Known, v View) ui.Item {
	state := ""
	switch {
	case s.IsGone():
		state = "withdrawn"
	case s.Pour != nil:
		state = "poured"
	case len(s.Body.Ticks) > 0:
		state = strconv.Itoa(len(s.Body.Ticks)) + " ticked"
	}
	return ui.Item{Text: capital(SheetName(s)) + ": " + sheetMix(s, k), Href: "/pours/sheets/" + idText(s.ID), When: v.Day(s.Created), More: joinBy(" · ", state, sheetLede(s, k))}
}

// WithdrawablePourSheet is a pour sheet.
func WithdrawablePourSheet(s journal.PourSheet) Withdrawable {
	n := SheetName(s)
	return Withdrawable{journal.NounPourSheet, s.ID, "Withdraw " + n + "?",
		"The sheet stays on record with its ticks. A pour that was made of it stays as it is. It can be brought back.",
		"Withdraw it", capital(n) + " is withdrawn.", "/pours/sheets/" + idText(s.ID)}
}
