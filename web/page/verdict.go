package page

import (
	"net/url"
	"strconv"
	"strings"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// VerdictItem is one thing that accepting asks for.
type VerdictItem struct {
	Done              bool
	Text, Now, Source string
}

// VerdictMove is one figure then and now.
type VerdictMove struct {
	Name, Then, Now, Says string
	Moved, Matters        bool
}

// PairingVerdict is the part of a pairing's page about what was decided.
type PairingVerdict struct {
	Show    bool
	Ruling  string // in a sentence
	Why     string
	Acts    []ui.Action
	Items   []VerdictItem
	Lacks   string // how many things are missing, in words
	Moves   []VerdictMove
	Drift   string // what has moved, in a sentence
	Since   string // heading of the column of then
	Earlier []ui.Item
}

// NewPairingVerdict builds the part from the verdicts about the pairing,
// newest first.
func NewPairingVerdict(c PairingChoice, list []journal.Verdict, now verdict.Figures, lim safety.Limits, v View) PairingVerdict {
	p := PairingVerdict{Show: true, Ruling: "No verdict yet."}
	last, ok := standing(list)
	hands := verdict.ByHand{}
	if ok {
		hands = verdict.ByHand{Tip: last.TipTest, Base: last.BaseCheck}
		p.Ruling, p.Why = rulingText(last, v), last.Why
		p.moves(last, now, v)
		p.Acts = append(p.Acts, ui.Action{Text: "Spec sheet", Href: verdictHref(last) + "/sheet"}, ui.Action{Text: "The verdict", Href: verdictHref(last)})
	}
	items := verdict.Asked(now, hands, lim, v.Units)
	p.Items, p.Lacks = verdictItems(items), lacksText(verdict.Missing(items))
	give := ui.Action{Text: "Give a verdict", Href: c.verdictHref(), Main: !ok}
	if ok {
		give.Text = "Give another"
	}
	p.Acts = append([]ui.Action{give}, p.Acts...)
	for _, x := range list {
		if x.ID != last.ID {
			p.Earlier = append(p.Earlier, verdictItem(x, capital(string(x.Ruling)), v))
		}
	}
	return p
}

// standing is the newest verdict that was not withdrawn.
func standing(list []journal.Verdict) (journal.Verdict, bool) {
	for _, x := range list {
		if !x.IsGone() {
			return x, true
		}
	}
	return journal.Verdict{}, false
}

// moves sets the figures of the verdict beside those of now.
func (p *PairingVerdict) moves(x journal.Verdict, now verdict.Figures, v View) {
	then, err := verdict.Read(x.Figures)
	if err != nil {
		p.Drift = "The figures of then cannot be read."
		return
	}
	p.Moves, p.Drift = movesOf(then, now, v)
	p.Since = v.Date(x.At)
}

func movesOf(then, now verdict.Figures, v View) ([]VerdictMove, string) {
	lines := verdict.Drift(then, now, v.Units)
	var out []VerdictMove
	for _, l := range lines {
		out = append(out, VerdictMove{l.Name, tight(l.Then), tight(l.Now), l.Says, l.Moved != verdict.Same, l.Moved == verdict.Outside})
	}
	switch {
	case verdict.Matters(lines):
		return out, "Something has moved further than was thought likely then. Look at it again."
	case verdict.AnyMoved(lines):
		return out, "Some figures have moved since, none further than was thought likely then."
	}
	return out, "Nothing has moved since."
}

func verdictItems(items []verdict.Item) []VerdictItem {
	var out []VerdictItem
	for _, x := range items {
		out = append(out, VerdictItem{x.Done, x.Text, x.Now, x.Source})
	}
	return out
}

func lacksText(missing []verdict.Item) string {
	switch len(missing) {
	case 0:
		return "Nothing that is asked for here is missing. That is no proof of safety."
	case 1:
		return "One thing is still missing before it can be accepted without a reason."
	}
	return capital(counted(len(missing), "thing", "things")) + " are still missing before it can be accepted without a reason."
}

// rulingText is a verdict in a sentence.
func rulingText(x journal.Verdict, v View) string {
	word := map[journal.Ruling]string{journal.Accepted: "Accepted", journal.Rejected: "Rejected", journal.LeftOpen: "Left open"}[x.Ruling]
	s := word + " by " + x.By + ", " + v.Date(x.At) + "."
	if x.IsGone() {
		s += " " + joinWords("Withdrawn "+v.Day(*x.Gone)+".", x.GoneWhy)
	}
	return s
}

func verdictHref(x journal.Verdict) string { return "/verdicts/" + idText(x.ID) }

// query is the choice as an address has it.
func (c PairingChoice) query() url.Values {
	q := url.Values{"vessel": {idText(c.Vessel)}, "series": {c.Series}, "wick": {idText(c.Wick)}}
	if c.Wax != 0 {
		q.Set("wax", idText(c.Wax))
	}
	return q
}

func (c PairingChoice) verdictHref() string { return "/verdicts/new?" + c.query().Encode() }

// Href is where the pairing is shown.
func (c PairingChoice) Href() string { return "/standings/pairing?" + c.query().Encode() }

// ChoiceOf is the pairing that a verdict is about.
func ChoiceOf(x journal.Verdict) PairingChoice {
	return PairingChoice{Vessel: x.Vessel, Wax: x.Wax, Wick: x.Wick, Series: x.Series}
}

// verdictItem is a verdict as a line of a list.
func verdictItem(x journal.Verdict, text string, v View) ui.Item {
	return ui.Item{Text: text, Href: verdictHref(x), When: v.Date(x.At), More: joinBy(" · ", "by "+x.By, goneText(x, v), x.Why)}
}

func goneText(x journal.Verdict, v View) string {
	if !x.IsGone() {
		return ""
	}
	return "withdrawn " + v.Day(*x.Gone)
}

// PairingName names the pairing of a verdict from the shelf: 2 × Larkspur 5 in
// Fern bowl, Meadow blend with Fig and smoke, 8 % of the wax.
func PairingName(x journal.Verdict, sh Shelves) string {
	a, ok := standings.ReadAddress(x.Series)
	name := wickName(sh, x.Wick)
	if ok && a.Wicks > 1 {
		name = strconv.Itoa(a.Wicks) + " × " + name
	}
	return name + " in " + vesselName(sh, x.Vessel)
}

// settingName is the wax, fragrance and load that a verdict was given within.
func settingName(x journal.Verdict, sh Shelves) string {
	a, _ := standings.ReadAddress(x.Series)
	oil := ""
	if a.Oil != 0 {
		oil = fragranceName(sh, a.Oil)
		if a.Load != nil {
			oil += ", " + tight(a.Load.Percent().String()) + " of the wax"
		}
	}
	return joinBy(", ", waxName(sh, x.Wax), oil)
}

func wickName(sh Shelves, id journal.ID) string {
	for _, w := range sh.Wicks {
		if w.ID == id {
			return nameOf(sh.Ladders, w.Ladder, func(l journal.Ladder) (journal.ID, string) { return l.ID, l.Name }) + " " + w.Label
		}
	}
	return "wick no. " + idText(id)
}

// hoursPlain writes hours into a box or a sentence.
func hoursPlain(h quantity.Hours) string { return h.Decimal().String() }

// PairingTitle names a pairing of the standings, and the setting that it is
// judged within.
func PairingTitle(g standings.Group, x standings.Pairing) (name, setting string) {
	name = x.Name() + " in " + g.Vessel.Name
	if x.Wicks > 1 {
		name = strconv.Itoa(x.Wicks) + " × " + name
	}
	for i, s := range g.Settings {
		if i > 0 {
			return name, g.Settings[0].Wax.Name
		}
		setting = settingText(s)
	}
	return name, setting
}

// ShowVerdicts puts the newest verdict of each pairing, in a word, on its row,
// and leads from a settled ladder to the verdict that it waits for.
func (p *StandingsPage) ShowVerdicts(list []journal.Verdict) {
	words := map[string]string{}
	for _, x := range list {
		if at := ChoiceOf(x).Href(); !x.IsGone() && words[at] == "" {
			words[at] = map[journal.Ruling]string{journal.Accepted: "accepted", journal.Rejected: "rejected", journal.LeftOpen: "left open"}[x.Ruling]
		}
	}
	for _, g := range p.Groups {
		for i := range g.Series {
			s := &g.Series[i]
			for _, rows := range [][]StandingsRow{s.Ranked, s.Below, s.Thin} {
				for k := range rows {
					rows[k].Verdict = words[rows[k].Href]
				}
			}
			if s.Settled && len(s.Ranked) > 0 && s.Ranked[0].Verdict == "" {
				s.Rule = strings.Replace(s.Ranked[0].Href, "/standings/pairing", "/verdicts/new", 1)
			}
		}
	}
}
