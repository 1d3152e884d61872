package page

import (
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// pourName is a pour as it is spoken of.
func pourName(p journal.Pour) string { return "pour " + strconv.Itoa(p.Number) }

// PoursPage lists the pours, newest first.
type PoursPage struct {
	Lede  string
	Items []ui.Item
	Pager Pager
	Empty *MissingPage
}

// Pager leads on through a long list.
type Pager struct{ Newest, Older string }

// NewPoursPage builds the list; before is the number it was asked to stay
// below, 0 for the newest.
func NewPoursPage(lines []journal.PourLine, more bool, before int, v View) PoursPage {
	p := PoursPage{Lede: "Melted batches, newest first. A pour’s number is the first half of its candles’ codes."}
	if len(lines) == 0 && before == 0 {
		p.Empty = missing("No pour yet. Melt some wax, keep an eye on the thermometer, and write down what you did.",
			[]ui.Action{{Text: "Record a pour", Href: "/pours/new", Main: true}})
	}
	for _, l := range lines {
		p.Items = append(p.Items, pourItem(l, v))
	}
	if before > 0 {
		p.Pager.Newest = "/pours"
	}
	if more {
		p.Pager.Older = "/pours?before=" + strconv.Itoa(lines[len(lines)-1].Pour.Number)
	}
	return p
}

func pourItem(l journal.PourLine, v View) ui.Item {
	poured, what := "", l.WaxName
	if l.Pour.PouredAt != nil {
		poured = "poured at " + v.temperature(*l.Pour.PouredAt).String()
	}
	if l.FragranceName != "" {
		what += " with " + l.FragranceName
	}
	if l.Pour.Load != nil && l.FragranceName != "" {
		what += ", " + loadShown(*l.Pour.Load, l.Pour.LoadBasis).String()
	}
	gone := ""
	if l.Pour.IsGone() {
		gone = "withdrawn"
	}
	return ui.Item{Text: capital(pourName(l.Pour)), Href: "/pours/" + idText(l.Pour.ID), When: v.Day(l.Pour.At),
		More: joinBy(" · ", gone, what, poured, counted(l.Candles, "candle", "candles"))}
}

// PourPage shows one pour with its candles.
type PourPage struct {
	Title, Lede string
	Gone        string
	Acts        []ui.Action
	Facts       []ui.Fact
	Guidance    GuidancePart
	Candles     []PourCandle
	Missing     *MissingPage
	Casts       CastPart
	Photos      PhotoPart
	Setting     *SettingPart
	History     []ui.ChangeLine
}

// PourCandle is one candle of a pour, with buttons that pour another like it.
type PourCandle struct {
	Key                                     string // names it for side by side
	Code, Href, What, Fill, FillUnit, State string
	Gone, Lit                               bool
	Again                                   []ui.Action
}

// NewPourPage builds the page of a pour; lines are its candles by letter,
// withdrawn ones too.
func NewPourPage(p journal.Pour, lines []journal.CandleLine, k Known, history []journal.Change, token string, v View) PourPage {
	at := "/pours/" + idText(p.ID)
	out := PourPage{Title: capital(pourName(p)), Lede: pourLede(p, k, v), Facts: pourFacts(p, k, v)}
	out.Guidance = guidanceOfPour(p, k, v)
	correct := ui.Action{Text: "Correct", Href: at + "/edit"}
	if p.IsGone() {
		out.Gone = joinWords("Withdrawn "+v.Day(*p.Gone)+".", p.GoneWhy)
		out.Acts = []ui.Action{correct, {Text: "Bring it back", Href: "/restore/pour/" + idText(p.ID), Post: true}}
	} else {
		out.Acts = []ui.Action{{Text: "Add candles", Href: at + "/candles/new", Main: true}, correct, {Text: "Labels", Href: at + "/labels"},
			{Text: "Withdraw", Href: "/withdraw/pour/" + idText(p.ID)}}
	}
	out.candles(p, lines, k, token, v)
	out.History = changeLines(history, v, factsOf(func(x journal.Pour) []ui.Fact { return pourFacts(x, k, v) }))
	return out
}

func pourLede(p journal.Pour, k Known, v View) string {
	s := k.waxName(p.Wax)
	if p.Fragrance != nil {
		s += " with " + k.fragranceName(p.Fragrance)
	}
	if load := bothBases(p); load != "" && p.Fragrance != nil {
		s += ", " + load
	}
	return s + ". Poured " + v.Moment(p.At) + "."
}

// candles lists the candles as they come, in the order of their letters.
func (out *PourPage) candles(p journal.Pour, lines []journal.CandleLine, k Known, token string, v View) {
	for _, l := range lines {
		c := l.Candle
		row := PourCandle{Key: SidesKey{Candle: c.ID}.Text(), Code: c.Code(), Href: "/candles/" + idText(c.ID), State: stateText(l.Life, v), Gone: c.IsGone(), Lit: l.Life.Lit,
			What: wickCount(c.Wicks) + l.WickName + " in " + l.VesselName, Fill: "not weighed"}
		if c.Filled != nil {
			s := v.mass(*c.Filled)
			row.Fill, row.FillUnit = s.Number, s.Unit
		}
		if !p.IsGone() {
			row.Again = againActions(c, k, token)
		}
		out.Candles = append(out.Candles, row)
	}
	if len(lines) == 0 && !p.IsGone() {
		out.Missing = missing("No candle yet. Say which vessels this pour filled; each candle gets a code to write on its base.",
			[]ui.Action{{Text: "Add candles", Href: "/pours/" + idText(p.ID) + "/candles/new", Main: true}})
	}
}

// NextCodes are the codes that the next n candles of a pour get: the first
// letters that no earlier candle has, withdrawn ones included.
func NextCodes(p journal.Pour, earlier []journal.CandleLine, n int) []string {
	var codes []string
	for i := 0; len(codes) < n; i++ {
		c := journal.Candle{PourNumber: p.Number, Letter: journal.LetterOf(i)}
		if !slices.ContainsFunc(earlier, func(l journal.CandleLine) bool { return l.Candle.Letter == c.Letter }) {
			codes = append(codes, c.Code())
		}
	}
	return codes
}

// againActions are the buttons that pour the same again: with the rung below,
// the same wick, and the rung above.
func againActions(c journal.Candle, k Known, token string) []ui.Action {
	var out []ui.Action
	for _, w := range k.around(c.Wick) {
		out = append(out, ui.Action{Text: k.WickName(w.ID), Href: "/candles/" + idText(c.ID) + "/again", Post: true,
			Hidden: []ui.Hidden{{Name: "wick", Value: idText(w.ID)}, {Name: "token", Value: token}}})
	}
	return out
}
