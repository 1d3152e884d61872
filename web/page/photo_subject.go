package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// PhotoSubject is something that photos are attached to.
type PhotoSubject struct {
	Of      journal.Noun
	ID      journal.ID
	Name    string     // candle 14-C, burn 2, at 2 h 00
	Back    string     // the page that shows its photos
	Section string     // the menu's entry of that page
	Candle  journal.ID // that it belongs to; 0 for a pour
	Gone    bool       // it was withdrawn, or the burn or the candle that it belongs to
	Parts   []ui.Item  // what else a photo may rather show
}

// PourSubject is a pour.
func PourSubject(p journal.Pour) PhotoSubject {
	return PhotoSubject{Of: journal.NounPour, ID: p.ID, Name: pourName(p), Back: "/pours/" + idText(p.ID), Section: "pours", Gone: p.IsGone()}
}

// CandleSubject is a candle as a whole.
func CandleSubject(c journal.Candle) PhotoSubject {
	return PhotoSubject{Of: journal.NounCandle, ID: c.ID, Name: "candle " + c.Code(), Back: "/candles/" + idText(c.ID), Section: "candles",
		Candle: c.ID, Gone: c.IsGone()}
}

// BurnSubject is one burn of a candle as a whole; its checks are offered
// beside it.
func BurnSubject(b journal.BurnLog, c journal.Candle) PhotoSubject {
	x := CandleSubject(c)
	x.Of, x.ID, x.Gone = journal.NounBurn, b.Burn.ID, x.Gone || b.Burn.IsGone()
	x.Name += ", burn " + strconv.Itoa(b.Burn.Number)
	x.Parts = checkParts(b, 0)
	return x
}

// CheckSubject is one check of a burn; the burn as a whole and its other
// checks are offered beside it.
func CheckSubject(k journal.Check, b journal.BurnLog, c journal.Candle) PhotoSubject {
	x := BurnSubject(b, c)
	x.Of, x.ID, x.Gone = journal.NounCheck, k.ID, x.Gone || k.IsGone()
	x.Name += ", at " + hourOf(k, b.Burn)
	x.Parts = append([]ui.Item{{Text: "the burn as a whole", Href: addPhotosTo(journal.NounBurn, b.Burn.ID)}}, checkParts(b, k.ID)...)
	return x
}

// checkParts are the checks of a burn but one, by their hour.
func checkParts(b journal.BurnLog, but journal.ID) []ui.Item {
	var out []ui.Item
	for _, k := range inTime(b.Checks) {
		if !k.IsGone() && k.ID != but {
			out = append(out, ui.Item{Text: hourOf(k, b.Burn), Href: addPhotosTo(journal.NounCheck, k.ID)})
		}
	}
	return out
}

// addPhotosHere is where the link of a burn leads: while it is lit to its
// latest check, which has just been looked at, and later to the whole burn.
func addPhotosHere(b journal.BurnLog) string {
	checks := inTime(b.Checks)
	for i := len(checks) - 1; i >= 0 && b.Burn.Lit(); i-- {
		if !checks[i].IsGone() {
			return addPhotosTo(journal.NounCheck, checks[i].ID)
		}
	}
	return addPhotosTo(journal.NounBurn, b.Burn.ID)
}

// hourOf is when a check was made, since lighting.
func hourOf(k journal.Check, b journal.Burn) string { return spanOf(b.LitAt, k.At).Clock() }

// addPhotosTo is the page that adds photos to something.
func addPhotosTo(n journal.Noun, id journal.ID) string {
	return "/photos/new?of=" + string(n) + "&id=" + idText(id)
}

// subjectsOf are the candle, its burns and its checks as subjects.
func subjectsOf(l journal.CandleLog) map[recordKey]PhotoSubject {
	out := map[recordKey]PhotoSubject{{journal.NounCandle, l.Candle.ID}: CandleSubject(l.Candle)}
	for _, s := range l.SetChecks {
		out[recordKey{journal.NounSetCheck, s.ID}] = SetCheckSubject(s, l)
	}
	for _, b := range l.Burns {
		out[recordKey{journal.NounBurn, b.Burn.ID}] = BurnSubject(b, l.Candle)
		for _, k := range b.Checks {
			out[recordKey{journal.NounCheck, k.ID}] = CheckSubject(k, b, l.Candle)
		}
	}
	return out
}
