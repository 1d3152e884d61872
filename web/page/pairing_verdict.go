package page

import (
	"net/url"

	"rimward/internal/journal"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// PairingVerdict is what was decided of a pairing, and what is missing before
// it can be accepted.
type PairingVerdict struct {
	Show    bool
	Ruling  string // accepted, rejected or left open; "" for none
	Says    string // by whom and when; that there is none
	Why     string
	Drift   []string
	Matters bool
	Rows    []FigureRow
	Frozen  string // when the figures were frozen
	Missing []CheckItem
	Left    string // how much is missing, in a sentence
	Acts    []ui.Action
	Earlier []ui.Item
}

// NewPairingVerdict builds the section. draft has the figures of now; list has
// the verdicts on the pairing, the newest first.
func NewPairingVerdict(draft journal.Verdict, list []journal.Verdict, wanted []verdict.Item, v View) PairingVerdict {
	p := PairingVerdict{Show: true, Says: "No verdict yet.", Missing: checkItems(wanted), Left: leftSaid(wanted)}
	q := PlaceQuery(draft.Place())
	p.Acts = []ui.Action{{Text: "Write a verdict", Href: "/verdicts/new?" + q, Main: true}, {Text: "Spec sheet, a draft", Href: "/spec?" + q}}
	current, ok := journal.Standing(list)[draft.Place()]
	for _, x := range list {
		if !ok || x.ID != current.ID {
			p.Earlier = append(p.Earlier, verdictItem(x, v))
		}
	}
	if !ok {
		return p
	}
	p.Ruling, p.Says, p.Why = rulingWord(current.Ruling), decidedBy(current, v), current.Why
	p.Drift, p.Matters = driftSaid(current.Figures, &draft.Figures)
	p.Rows, p.Frozen = figureRows(current.Figures, &draft.Figures, v), v.Date(current.Figures.At)
	p.Acts = []ui.Action{{Text: "This verdict", Href: verdictHref(current)}, {Text: "Spec sheet", Href: verdictHref(current) + "/sheet"}, {Text: "Write another verdict", Href: "/verdicts/new?" + q}}
	return p
}

// PlaceQuery writes the pairing's part of an address.
func PlaceQuery(p journal.Place) string {
	q := url.Values{"vessel": {idText(p.Vessel)}, "wick": {idText(p.Wick)}, "series": {p.Series}}
	if p.Wax != 0 {
		q.Set("wax", idText(p.Wax))
	}
	return q.Encode()
}

// ChoiceOf is the pairing as the standings are asked for it.
func ChoiceOf(p journal.Place) PairingChoice {
	return PairingChoice{Vessel: p.Vessel, Wax: p.Wax, Wick: p.Wick, Series: p.Series}
}

func verdictHref(x journal.Verdict) string { return "/verdicts/" + idText(x.ID) }

// rulingWord is a ruling as it is said.
func rulingWord(r journal.Ruling) string {
	if r == journal.LeftOpen {
		return "left open"
	}
	return string(r)
}

// rulingSaid is who decided what, and when.
func rulingSaid(x journal.Verdict, v View) string {
	return capital(rulingWord(x.Ruling)) + " " + decidedBy(x, v)
}

// decidedBy is who decided, and when.
func decidedBy(x journal.Verdict, v View) string { return "by " + x.By + " on " + v.Date(x.At) + "." }

// leftSaid says how much is missing before accepting.
func leftSaid(items []verdict.Item) string {
	n, bars := 0, false
	for _, i := range items {
		if i.Misses() {
			n++
			bars = bars || i.Bars
		}
	}
	switch {
	case bars:
		return "A hard finding stands against it, and it cannot be accepted while it does."
	case n == 0:
		return "Nothing is missing. Accepting is still yours to decide."
	}
	return capital(counted(n, "thing is", "things are")) + " missing. It can be accepted all the same, with a reason."
}

// verdictItem is a verdict as a line of a list.
func verdictItem(x journal.Verdict, v View) ui.Item {
	i := ui.Item{Text: capital(rulingWord(x.Ruling)) + " by " + x.By, Href: verdictHref(x), When: v.Date(x.At), More: clipped(x.Why, listWhy)}
	if x.IsGone() {
		i.Text += ", withdrawn"
	}
	return i
}

// listWhy is how much of a reason a list shows, in characters.
const listWhy = 160

// clipped cuts a text at a word.
func clipped(s string, most int) string {
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	end := most
	for end > most/2 && r[end] != ' ' {
		end--
	}
	return string(r[:end]) + " …"
}
