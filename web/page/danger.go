package page

import (
	"net/url"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// DangerLine asks for the three things that come before any writing down.
func DangerLine(lim safety.Limits, v View) string {
	return "Flame on the pool, a crack, or a flame over " + v.length(lim.FlameHard()).String() + "?"
}

// NewDanger says what to do now about the findings that cannot wait; nil when
// there are none.
func NewDanger(fs []safety.Finding, where, more string) *ui.Danger {
	if len(fs) == 0 {
		return nil
	}
	d := ui.Danger{Heading: joinBy(": ", where, fs[0].Text), More: more}
	for _, f := range fs {
		for _, step := range f.Do {
			if !slices.Contains(d.Steps, step) {
				d.Steps = append(d.Steps, step)
			}
		}
	}
	return &d
}

// Gravest is the first danger of one candle: whoever stands before a fire is
// told one thing to do. It is empty when nothing cannot wait.
func Gravest(fs []safety.Finding) []safety.Finding {
	if now := safety.Dangers(fs); len(now) > 0 {
		return now[:1]
	}
	return nil
}

// DangerPage says what to do now about a check that was saved.
type DangerPage struct {
	Danger *ui.Danger
	Code   string
	Others []ui.Warning // what else the check found
	Acts   []ui.Action
	Calm   string // when the check has nothing dangerous (any more)
}

// NewDangerPage builds the answer to one check.
func NewDangerPage(fs []safety.Finding, c journal.Check, b journal.Burn, l journal.CandleLog, v View) DangerPage {
	p := DangerPage{Code: l.Candle.Code()}
	now := Gravest(fs)
	p.Danger = NewDanger(now, p.Code, "The check of "+v.Clock(c.At)+" is saved. Do this first; the rest can wait.")
	for _, f := range fs {
		if len(now) == 0 || f.Rule != now[0].Rule {
			p.Others = append(p.Others, warnings([]safety.Finding{f})...)
		}
	}
	if p.Danger == nil {
		p.Calm = "The check of " + v.Moment(c.At) + " shows nothing that needs an answer now."
	}
	candle := "/candles/" + idText(l.Candle.ID)
	if b.Lit() {
		q := url.Values{"ending": {string(journal.PutOutUnsafe)}}
		p.Acts = append(p.Acts, ui.Action{Text: "It is out: note how it ended", Href: "/burns/" + idText(b.ID) + "/snuff?" + q.Encode(), Main: true})
	}
	p.Acts = append(p.Acts,
		ui.Action{Text: "It was a slip: correct the check", Href: "/checks/" + idText(c.ID) + "/edit"},
		ui.Action{Text: "Candle " + p.Code, Href: candle}, ui.Action{Text: "Bench", Href: "/"})
	return p
}

// WalkSaved says whose checks were saved; "" for none.
func WalkSaved(codes []string) string {
	switch len(codes) {
	case 0:
		return ""
	case 1:
		return "Check of " + codes[0] + " saved."
	}
	return "Checks of " + listed(codes) + " saved."
}
