package page

import (
	"strings"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// SettingPart is how a candle, or the candles of a pour, set.
type SettingPart struct {
	Title   string
	Lines   []SetLine
	Empty   string
	Act     *ui.Action
	Change  string // the one thing to change in the next pour
	Why     string
	Summary ui.Item // where the wax's candles are told together
}

// SetLine is one set check in a line.
type SetLine struct {
	Href, Label string
	Name, When  string // Name is the candle, where the part has several
	Seen        string
	Early, Gone string
	Sweats      bool
}

// newSettingPart builds the part of a candle's page about how it set.
func newSettingPart(l journal.CandleLog, v View) SettingPart {
	p := SettingPart{Title: "How it set", Summary: settledItem(l.Wax)}
	for _, s := range l.SetChecks {
		p.Lines = append(p.Lines, setLine(s, l, "", v))
	}
	f := l.Life()
	switch {
	case l.Withdrawn():
	case f.Burns == 0 && f.StateAt(v.Now) == journal.Setting:
		p.Act = &ui.Action{Text: "Look at its top now", Href: topsHref(l.Pour.ID, l.Candle.ID)}
	case f.Burns == 0 && !f.SetLooked():
		p.Act = &ui.Action{Text: "Look at its top", Href: topsHref(l.Pour.ID, l.Candle.ID)}
	case !f.SetLooked():
		p.Act = &ui.Action{Text: "Add a set check from paper", Href: topsHref(l.Pour.ID, l.Candle.ID)}
	case f.Burns == 0:
		p.Act = &ui.Action{Text: "Look again", Href: topsHref(l.Pour.ID, l.Candle.ID)}
	}
	p.Empty = settingEmpty(p.Lines, f, v)
	p.change([]journal.CandleLog{l})
	return p
}

func settingEmpty(lines []SetLine, f journal.Life, v View) string {
	switch {
	case len(lines) > 0:
		return ""
	case f.StateAt(v.Now) == journal.Setting:
		return "It is still setting: look at it " + v.Moment(journal.SetsBy(f.PouredAt)) + ", a full day after the pour."
	}
	return "Nobody wrote down how it set."
}

// NewPourSetting builds the part of a pour's page about how its candles set;
// nil where it has none.
func NewPourSetting(logs []journal.CandleLog, v View) *SettingPart {
	if len(logs) == 0 {
		return nil
	}
	p := &SettingPart{Title: "How they set", Summary: settledItem(logs[0].Wax)}
	unlooked := 0
	for _, l := range logs {
		for _, s := range l.CountedSetChecks() {
			p.Lines = append(p.Lines, setLine(s, l, l.Candle.Code(), v))
		}
		if f := l.Life(); !f.SetLooked() && f.Burns == 0 {
			unlooked++
		}
	}
	if !logs[0].Pour.IsGone() && unlooked > 0 {
		p.Act = &ui.Action{Text: "Look at the tops", Href: topsHref(logs[0].Pour.ID, 0)}
	}
	p.Empty = settingEmpty(p.Lines, journal.Life{PouredAt: logs[0].Pour.At}, v)
	if p.Empty != "" && !v.Now.Before(journal.SetsBy(logs[0].Pour.At)) {
		p.Empty = "Nobody wrote down how they set."
	}
	p.change(logs)
	return p
}

// change names the one thing to change in the next pour, where a fault was
// seen.
func (p *SettingPart) change(logs []journal.CandleLog) {
	if c, ok := safety.SetChange(safety.SetCourses(logs)); ok {
		p.Change = c.Remedy.Do
		p.Why = "For " + string(c.Fault) + "; " + c.Remedy.Source + ". Change one thing at a time."
	}
}

func setLine(s journal.SetCheck, l journal.CandleLog, name string, v View) SetLine {
	line := SetLine{Href: "/set-checks/" + idText(s.ID), Name: name, When: v.Moment(s.At) + ", " + safety.AfterPour(l.Pour.At, s.At), Seen: setSeen(s, v), Sweats: s.Sweating.Seen()}
	if name != "" {
		line.When = safety.AfterPour(l.Pour.At, s.At)
	}
	line.Label = joinWords("Set check of", l.Candle.Code()+",", line.When)
	if s.Early(l.Pour.At) {
		line.Early = "before a full 24 h: look again"
	}
	if s.IsGone() {
		line.Gone = joinWords("withdrawn", s.GoneWhy)
	}
	return line
}

// setSeen writes a set check in a line: what was seen first, what was looked
// for in vain after it, and nothing of what nobody looked at.
func setSeen(s journal.SetCheck, v View) string {
	var seen, without []string
	for _, f := range safety.SetFaults {
		amount, looked := safety.LookFor(s, f)
		switch {
		case !looked || (f == safety.SetRough && s.Top != journal.TopRough) || (f == safety.SetDip && s.Top != journal.TopDip):
		case f == safety.SetDip && s.Dip != nil:
			seen = append(seen, "a dip of "+v.length(*s.Dip).String())
		case f == safety.SetRough || f == safety.SetDip:
			seen = append(seen, "top: "+string(s.Top))
		case f == safety.SetWetSpots && *s.Stuck < 1:
			seen = append(seen, "stuck to "+s.Stuck.Percent().String()+" of the wall")
		case f == safety.SetWetSpots:
		case amount.Seen():
			seen = append(seen, string(amount)+" "+string(f))
		default:
			without = append(without, string(f))
		}
	}
	return strings.TrimSuffix(capital(joinBy("; ", wellText(s), joinBy(", ", seen...), noneOf(without), coldText(s), s.Note)), ".") + "."
}

// wellText is what is as it should be.
func wellText(s journal.SetCheck) string {
	top, wall := "", ""
	if s.Top == journal.TopSmooth {
		top = "smooth top"
	}
	if s.Stuck != nil && *s.Stuck >= 1 {
		wall = "stuck all round"
	}
	return joinBy(", ", top, wall)
}

func noneOf(faults []string) string {
	if len(faults) == 0 {
		return ""
	}
	return "no " + joinBy(", no ", faults...)
}

func coldText(s journal.SetCheck) string {
	if s.ColdThrow == nil {
		return ""
	}
	return "cold throw " + throwText(*s.ColdThrow)
}

// topsHref is the form of a pour's set checks, narrowed to one candle unless
// that is 0.
func topsHref(pour, candle journal.ID) string {
	to := "/pours/" + idText(pour) + "/tops"
	if candle != 0 {
		to += "?candle=" + idText(candle)
	}
	return to
}

func settledItem(w journal.Wax) ui.Item {
	return ui.Item{Text: "How candles of " + w.Name + " set", Href: settledHref(w.ID)}
}

// settledHref is where the setting of one wax is told.
func settledHref(wax journal.ID) string { return "/settled?wax=" + idText(wax) }
