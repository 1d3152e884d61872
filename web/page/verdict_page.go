package page

import (
	"rimward/internal/journal"
	"rimward/internal/life"
	"rimward/internal/verdict"
	"rimward/web/ui"
)

// VerdictPage is one verdict with the figures that it rested on.
type VerdictPage struct {
	Title, Lede  string
	Gone         string
	Ruling, Why  string
	Facts        []ui.Fact
	Acts         []ui.Action
	Moves        []VerdictMove
	Since, Drift string
	History      []ui.ChangeLine
}

// NewVerdictPage builds the page. now is nil where the standings have no such
// pairing any more.
func NewVerdictPage(x journal.Verdict, sh Shelves, now *verdict.Figures, history []journal.Change, v View) VerdictPage {
	p := VerdictPage{Title: PairingName(x, sh), Lede: settingName(x, sh), Ruling: rulingText(x, v), Why: x.Why, Since: v.Date(x.At)}
	at := verdictHref(x)
	p.Acts = []ui.Action{{Text: "Spec sheet", Href: at + "/sheet", Main: x.Ruling == journal.Accepted && !x.IsGone()}, {Text: "The pairing now", Href: ChoiceOf(x).Href()},
		{Text: "Correct", Href: at + "/edit"}, {Text: "Withdraw", Href: "/withdraw/verdict/" + idText(x.ID)}}
	if now == nil {
		p.Acts = []ui.Action{p.Acts[2], p.Acts[3]}
	}
	if x.IsGone() {
		p.Acts = []ui.Action{{Text: "Bring it back", Href: "/restore/verdict/" + idText(x.ID), Post: true}}
	}
	then, err := verdict.Read(x.Figures)
	p.Facts = verdictFacts(x, then)
	switch {
	case err != nil:
		p.Drift = "The figures of then cannot be read."
	case now == nil:
		p.Moves, _ = movesOf(then, then, v)
		p.Drift = "The standings have no such pairing now: its candles were withdrawn, or settings are kept apart in another way. The figures of then stand alone."
	default:
		p.Moves, p.Drift = movesOf(then, *now, v)
	}
	p.History = changeLines(history, v, factsOf(func(y journal.Verdict) []ui.Fact { return verdictFacts(y, then) }))
	return p
}

// verdictFacts are what was said beside the ruling.
func verdictFacts(x journal.Verdict, then verdict.Figures) []ui.Fact {
	var l factList
	l.text("Tip test by hand", doneText(x.TipTest))
	l.text("Base checked by hand", doneText(x.BaseCheck))
	if x.Claimed != nil {
		l = append(l, ui.Fact{Label: "Burn time meant for the label", Text: hoursPlain(*x.Claimed), More: claimText(x, then)})
	}
	l.text("Decided by", x.By)
	l.text("Why", x.Why)
	return l
}

func doneText(done bool) string {
	if done {
		return "done"
	}
	return "not done"
}

// claimText sets the claimed time beside the bound of then.
func claimText(x journal.Verdict, then verdict.Figures) string {
	bound, ok := then.LabelTime()
	if !ok {
		return "no bound yet: it takes " + counted(life.LabelNeeds, "candle", "candles") + " burned to the end"
	}
	if *x.Claimed > bound {
		return "longer than the bound of " + bound.WholeDown().String()
	}
	return "within the bound of " + bound.WholeDown().String()
}

// VerdictsPage lists every verdict.
type VerdictsPage struct {
	Empty  string
	Acts   []ui.Action
	Groups []VerdictGroup
}

// VerdictGroup is the verdicts of one ruling.
type VerdictGroup struct {
	Title string
	Items []ui.Item
}

// NewVerdictsPage sorts the newest verdict of each pairing by its ruling;
// earlier ones and withdrawn ones come last.
func NewVerdictsPage(list []journal.Verdict, sh Shelves, v View) VerdictsPage {
	if len(list) == 0 {
		return VerdictsPage{Empty: "No verdict was given yet. Open a pairing in the standings: its page says what is still missing, and takes the verdict.",
			Acts: []ui.Action{{Text: "Standings", Href: "/standings", Main: true}}}
	}
	groups := []VerdictGroup{{Title: "Accepted"}, {Title: "Rejected"}, {Title: "Left open"}, {Title: "Earlier and withdrawn"}}
	place := map[journal.Ruling]int{journal.Accepted: 0, journal.Rejected: 1, journal.LeftOpen: 2}
	seen := map[PairingChoice]bool{}
	for _, x := range list {
		at := place[x.Ruling]
		if x.IsGone() || seen[ChoiceOf(x)] {
			at = 3
		}
		seen[ChoiceOf(x)] = seen[ChoiceOf(x)] || !x.IsGone()
		item := verdictItem(x, PairingName(x, sh), v)
		item.More = joinBy(" · ", settingName(x, sh), item.More)
		if at == 3 {
			item.More = joinBy(" · ", string(x.Ruling), item.More)
		}
		groups[at].Items = append(groups[at].Items, item)
	}
	p := VerdictsPage{}
	for _, g := range groups {
		if len(g.Items) > 0 {
			p.Groups = append(p.Groups, g)
		}
	}
	return p
}

// WithdrawableVerdict is a verdict.
func WithdrawableVerdict(x journal.Verdict, name string) Withdrawable {
	return Withdrawable{journal.NounVerdict, x.ID, "Withdraw the verdict on " + name + "?",
		"It stays on record but counts no more; the one before it, if there is one, counts again. It can be brought back.",
		"Withdraw it", "The verdict is withdrawn.", verdictHref(x)}
}
