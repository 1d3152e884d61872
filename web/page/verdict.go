package page

import (
	"net/url"
	"strings"

	"rimward/internal/journal"
	"rimward/web/ui"
)

// VerdictPage is one verdict with the figures it rested on.
type VerdictPage struct {
	Title, Lede string
	Gone        string // a sentence when it was withdrawn or replaced
	Ruling      string
	Why         string
	Facts       []ui.Fact
	Hard        []ui.Warning
	Drift       []string
	Matters     bool
	Rows        []FigureRow
	Frozen      string
	LabelDoubts []string // about the burn time for a label
	Lacked      []string // what was missing of the record
	Acts        []ui.Action
	Pairing     string // where its pairing is shown; "" where it is not found
	History     []ui.ChangeLine
}

// NewVerdictPage builds the page. counts says whether it is the verdict that
// counts; now has the figures of now, nil where there are none.
func NewVerdictPage(x journal.Verdict, counts bool, now *journal.VerdictFigures, k Known, history []journal.Change, v View) VerdictPage {
	p := VerdictPage{Title: VerdictName(x, k), Lede: joinBy(" · ", verdictSetting(x, k), capital(counted(x.Wicks, "wick", "wicks"))), Ruling: rulingWord(x.Ruling), Why: x.Why, Frozen: v.Date(x.Figures.At)}
	switch {
	case x.IsGone():
		p.Gone = joinWords("Withdrawn "+v.Day(*x.Gone)+".", x.GoneWhy)
	case !counts:
		p.Gone = "A later verdict on the same pairing counts instead."
	}
	for _, f := range verdictFacts(x, v) {
		if f.Label != "Why" && f.Label != "Ruling" {
			p.Facts = append(p.Facts, f)
		}
	}
	for _, h := range x.Figures.Hard {
		p.Hard = append(p.Hard, ui.Warning{Hard: true, Text: h})
	}
	p.Rows, p.Lacked = figureRows(x.Figures, now, v), x.Figures.Missing
	p.LabelDoubts = labelDoubts(x.Figures)
	p.Drift, p.Matters = driftSaid(x.Figures, now)
	p.Acts = verdictActs(x)
	if now != nil {
		p.Pairing = "/standings/pairing?" + PlaceQuery(x.Place())
	}
	p.History = changeLines(history, v, factsOf(func(y journal.Verdict) []ui.Fact { return verdictFacts(y, v) }))
	return p
}

func verdictActs(x journal.Verdict) []ui.Action {
	acts := []ui.Action{{Text: "Spec sheet", Href: verdictHref(x) + "/sheet", Main: x.Ruling == journal.Accepted && !x.IsGone()}, {Text: "Correct", Href: verdictHref(x) + "/edit"}}
	if x.IsGone() {
		return append(acts, ui.Action{Text: "Bring it back", Href: "/restore/verdict/" + idText(x.ID), Post: true})
	}
	return append(acts, ui.Action{Text: "Withdraw", Href: "/withdraw/verdict/" + idText(x.ID)})
}

// VerdictsPage lists the pairings that a verdict was made of, and those that
// wait for one.
type VerdictsPage struct {
	Groups  []VerdictGroup
	Waiting []ui.Item
	Note    string
	Empty   string
	Acts    []ui.Action
}

// VerdictGroup is the verdicts of one ruling.
type VerdictGroup struct {
	Title string
	Rows  []VerdictRow
}

// VerdictRow is one verdict that counts.
type VerdictRow struct {
	Name, Href, Setting, When string
	Why                       string
	Drift                     string
	Matters                   bool
	Sheet                     string // where its spec sheet is; "" for none
}

// NewVerdictsPage builds the list. now has the figures of now by pairing;
// waiting are drafts of pairings of which nothing that is recorded is missing
// and nothing was decided.
func NewVerdictsPage(list []journal.Verdict, now map[journal.Place]journal.VerdictFigures, waiting []journal.Verdict, note string, k Known, v View) VerdictsPage {
	p := VerdictsPage{Note: note}
	standing := journal.Standing(list)
	for _, r := range journal.Rulings {
		g := VerdictGroup{Title: capital(rulingWord(r))}
		for _, x := range list {
			if current, ok := standing[x.Place()]; ok && current.ID == x.ID && x.Ruling == r {
				g.Rows = append(g.Rows, verdictRow(x, now, k, v))
			}
		}
		if len(g.Rows) > 0 {
			p.Groups = append(p.Groups, g)
		}
	}
	for _, x := range waiting {
		p.Waiting = append(p.Waiting, ui.Item{Text: VerdictName(x, k), Href: "/verdicts/new?" + PlaceQuery(x.Place()), More: joinBy(" · ", verdictSetting(x, k), countsSaid(x.Figures).Text, "chance on target "+chanceText(x.Figures.OnTarget))})
	}
	if len(p.Groups) == 0 {
		p.Empty = "No verdict was made yet. When a pairing has three candles, one burned to the end and no hard finding, open it from the standings and write down what you decide."
		p.Acts = []ui.Action{{Text: "To the standings", Href: "/standings", Main: true}}
	}
	return p
}

func verdictRow(x journal.Verdict, now map[journal.Place]journal.VerdictFigures, k Known, v View) VerdictRow {
	r := VerdictRow{Name: VerdictName(x, k), Href: verdictHref(x), Setting: verdictSetting(x, k), When: v.Date(x.At) + ", " + x.By, Why: clipped(x.Why, listWhy)}
	var figures *journal.VerdictFigures
	if f, ok := now[x.Place()]; ok {
		figures = &f
	}
	says, matters := driftSaid(x.Figures, figures)
	r.Drift, r.Matters = joinWords(says...), matters
	if x.Ruling == journal.Accepted {
		r.Sheet = verdictHref(x) + "/sheet"
	}
	return r
}

// MarkVerdicts says in the rows of the standings what was decided, and leads to
// the verdict on the closest where there is one.
func (p *StandingsPage) MarkVerdicts(standing map[journal.Place]journal.Verdict) {
	for _, g := range p.Groups {
		for i := range g.Series {
			s := &g.Series[i]
			for _, rows := range [][]StandingsRow{s.Ranked, s.Below, s.Thin} {
				markRows(rows, standing)
			}
			if x, ok := standing[placeIn(s.Verdict.Href)]; ok && s.Verdict.Href != "" {
				s.Verdict = ui.Item{Text: "The verdict: " + rulingWord(x.Ruling), Href: verdictHref(x)}
				s.Next = strings.TrimSuffix(s.Next, " Time for a verdict.")
			}
		}
	}
}

// markRows marks rows whose pairing was accepted or rejected.
func markRows(rows []StandingsRow, standing map[journal.Place]journal.Verdict) {
	for i := range rows {
		if x, ok := standing[placeIn(rows[i].Href)]; ok && x.Ruling != journal.LeftOpen {
			rows[i].Verdict = rulingWord(x.Ruling)
		}
	}
}

// placeIn reads the pairing from an address of ours.
func placeIn(href string) journal.Place {
	u, err := url.Parse(href)
	if err != nil {
		return journal.Place{}
	}
	c := ReadPairingChoice(u.Query())
	return journal.Place{Vessel: c.Vessel, Wax: c.Wax, Wick: c.Wick, Series: c.Series}
}
