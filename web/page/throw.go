package page

import (
	"net/url"
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// SmellingPage is one smelling: who scored, what came of it, and the sheet of
// the next nose. While its codes are covered nothing on it names a candle.
type SmellingPage struct {
	Title, Kicker, Lede string
	Gone                string
	Facts               []ui.Fact
	Acts                []ui.Action
	Scored              []ScoredNose
	ScoredNote          string // what to mind before opening one of them
	Sheet               *ScoreSheet
	Closed              string // why there is no sheet
	Result              *ThrowResult
	Going               bool   // the sheet stands first, and the result waits behind a line
	Folded              string // that line
	Changes             []ui.ChangeLine
}

// ScoredNose is a nose that has scored.
type ScoredNose struct{ Name, Count, Href string }

// NewSmellingPage builds the page. sheet is nil where no nose can score.
func NewSmellingPage(l journal.SmellingLog, sheet *ScoreSheet, history []journal.Change, v View) SmellingPage {
	s := l.Smelling
	at := "/throw/" + idText(s.ID)
	p := SmellingPage{Title: smellingTitle(s) + ", " + v.Moment(s.At), Kicker: "Smelling", Lede: smellingLede(l), Sheet: sheet, Facts: smellingFacts(l, v)}
	for _, n := range l.Noses() {
		p.Scored = append(p.Scored, ScoredNose{n, scoredCount(l, n), at + "?" + url.Values{"nose": {n}}.Encode()})
	}
	if s.Covered() {
		p.ScoredNote = "A name opens what that nose scored, to correct a slip. Whoever has not scored yet should not look."
	}
	p.Acts = append(smellingActs(l, at), cupsBack(l)...)
	if s.IsGone() {
		p.Gone = joinWords("Withdrawn "+v.Day(*s.Gone)+".", s.GoneWhy)
	} else if sheet == nil {
		p.Closed = "The codes are uncovered, so no new nose would be blind. Scores can still be corrected: choose the nose above."
	}
	if !s.Covered() && len(p.Scored) > 0 {
		p.Result = newThrowResult(l)
	}
	p.Folded = "The result so far. Score first, then look."
	if s.Blind {
		p.Folded = "The result"
	}
	p.Going = sheet != nil && (s.Covered() || p.Result == nil || v.Now.Sub(s.At) < stillGoing)
	p.Changes = smellingChanges(l, history, v)
	return p
}

// stillGoing is how long after its beginning an open smelling is taken to go
// on (our choice, no source).
const stillGoing = 12 * time.Hour

// ShowSheet puts a sheet before everything else: its scores are corrected, or
// it comes back with what was typed, whatever became of the smelling meanwhile.
func (p *SmellingPage) ShowSheet(s ScoreSheet) { p.Sheet, p.Going, p.Closed = &s, true, "" }

// TakesScores reports whether a new nose may score.
func TakesScores(s journal.Smelling) bool { return !s.IsGone() && s.Uncovered == nil }

func smellingLede(l journal.SmellingLog) string {
	s := counted(len(SheetCups(l, 0)), "candle", "candles")
	switch {
	case l.Smelling.Covered():
		return capital(s) + " under codes. Which is which stays covered until you uncover them."
	case l.Smelling.Blind:
		return capital(s) + ", scored blind and uncovered since."
	}
	return capital(s) + ", scored in the open: the noses saw what they smelled."
}

func scoredCount(l journal.SmellingLog, nose string) string {
	n, all := 0, 0
	for _, c := range l.Cups {
		if c.Cup.IsGone() {
			continue
		}
		all++
		if c.Of(nose) != nil {
			n++
		}
	}
	if n == all {
		return "scored all"
	}
	return "scored " + strconv.Itoa(n) + " of " + figured(all, "candle", "candles")
}

// smellingFacts say what was noted of the session. How long each candle was
// lit could tell covered ones apart, so that waits.
func smellingFacts(l journal.SmellingLog, v View) []ui.Fact {
	s := l.Smelling
	var f factList
	if s.Room != nil {
		f.shown("Room", v.Units.ShowRoom(*s.Room))
	} else {
		f.text("Room", "not noted")
	}
	if s.Kind == journal.HotThrow && !s.Covered() {
		f.text("Lit before", minutesText(l))
	}
	f.text("Held", coverText(s))
	if s.Uncovered != nil {
		f.text("Uncovered", v.Moment(*s.Uncovered))
	}
	f.text("Note", s.Note)
	return f
}

// minutesText is how long the candles were lit when they were smelled.
func minutesText(l journal.SmellingLog) string {
	var low, high *quantity.Minutes
	for _, c := range l.Cups {
		m := c.Cup.Minutes
		if m == nil || c.Cup.IsGone() {
			continue
		}
		if low == nil || *m < *low {
			low = m
		}
		if high == nil || *m > *high {
			high = m
		}
	}
	switch {
	case low == nil:
		return "not noted"
	case low.String() == high.String():
		return low.String()
	}
	return low.Shown().Number + " to " + high.String()
}

func smellingActs(l journal.SmellingLog, at string) (acts []ui.Action) {
	s, id := l.Smelling, idText(l.Smelling.ID)
	if s.IsGone() {
		return []ui.Action{{Text: "Bring it back", Href: "/restore/smelling/" + id, Post: true}}
	}
	if s.Covered() {
		if len(l.Noses()) > 0 {
			acts = append(acts, ui.Action{Text: "Uncover the codes", Href: at + "/uncover"})
		}
		acts = append(acts, ui.Action{Text: "Labels for setting out", Href: at + "/labels"})
	}
	return append(acts, ui.Action{Text: "Correct", Href: at + "/edit"}, ui.Action{Text: "Withdraw", Href: "/withdraw/smelling/" + id})
}

// cupsBack brings back what was taken out, once codes may be known.
func cupsBack(l journal.SmellingLog) (acts []ui.Action) {
	for _, c := range l.Cups {
		if c.Cup.IsGone() && !l.Smelling.Covered() && !l.Smelling.IsGone() {
			acts = append(acts, ui.Action{Text: "Bring " + c.Made.Candle.Code() + " back", Href: "/restore/cup/" + idText(c.Cup.ID), Post: true})
		}
	}
	return acts
}

// smellingChanges is the history in words. While the codes are covered it names
// no candle and no score: the page is handed to the next nose.
func smellingChanges(l journal.SmellingLog, history []journal.Change, v View) []ui.ChangeLine {
	names := smellingNames(l)
	var out []ui.ChangeLine
	for _, c := range history {
		if c.Kind == journal.Written || l.Smelling.Covered() && c.Noun != journal.NounSmelling {
			continue
		}
		out = append(out, changeLine(c, names[recordKey{c.Noun, c.Of}], v, smellingReader(c.Noun, v)))
	}
	return out
}

// smellingNames are the smelling, its cups and its scores as a history names
// them.
func smellingNames(l journal.SmellingLog) map[recordKey]string {
	names := map[recordKey]string{{journal.NounSmelling, l.Smelling.ID}: "smelling"}
	for _, c := range l.Cups {
		name := c.Cup.Code
		if !l.Smelling.Covered() {
			name = c.Made.Candle.Code()
		}
		names[recordKey{journal.NounCup, c.Cup.ID}] = name
		for _, s := range c.Scores {
			names[recordKey{journal.NounScore, s.ID}] = s.Nose + "’s score of " + name
		}
	}
	return names
}

// smellingReader reads the kept records of one kind.
func smellingReader(n journal.Noun, v View) reader {
	switch n {
	case journal.NounCup:
		return factsOf(func(c journal.Cup) []ui.Fact {
			var f factList
			maybe(&f, "Lit before", c.Minutes, quantity.Minutes.Shown)
			return f
		})
	case journal.NounScore:
		return factsOf(func(s journal.Score) []ui.Fact {
			f := factList{{Label: "Score", Text: throwText(s.Score)}}
			f.text("Note", s.Note)
			return f
		})
	}
	return factsOf(func(s journal.Smelling) []ui.Fact {
		f := factList{{Label: "Time", Text: v.Date(s.At) + ", " + v.Clock(s.At)}}
		maybe(&f, "Room", s.Room, v.Units.ShowRoom)
		f.text("Held", coverText(s))
		f.text("Note", s.Note)
		return f
	})
}

// LabelsPage says which candle gets which code, for whoever sets them out.
type LabelsPage struct {
	Title, Lede string
	Show        string // where the labels are shown; "" when they are
	Back        string
	Codes       string // where the codes are printed without their candles
	Rows        []LabelRow
}

// LabelRow is the code of one candle.
type LabelRow struct{ Candle, What, Code string }

// NewLabelsPage builds the page; shown says that the person asked to see it.
func NewLabelsPage(l journal.SmellingLog, shown bool) LabelsPage {
	at := "/throw/" + idText(l.Smelling.ID)
	p := LabelsPage{Title: "Labels for setting out", Back: at, Codes: at + "/codes",
		Lede: "This says which candle gets which code. It is for whoever sets the candles out: whoever smells them must not look."}
	if !shown {
		p.Show = at + "/labels?show=1"
		return p
	}
	p.Lede = setOutText(l.Smelling.Kind)
	for _, c := range l.Cups {
		if !c.Cup.IsGone() {
			p.Rows = append(p.Rows, LabelRow{"for " + c.Made.Candle.Code(), c.Made.Vessel.Name + " · " + wicksText(c.Made), c.Cup.Code})
		}
	}
	sortLabels(p.Rows, l)
	return p
}

// setOutText says how to set candles out. What burns is not shuffled.
func setOutText(kind journal.ThrowKind) string {
	if kind == journal.HotThrow {
		return "Set the codes out before the candles are lit, each beside its candle and well away from the flame, and cover the candle’s own code. Never move a candle that burns or whose wax is still liquid. Whoever has read this should not score."
	}
	return "Stick each code on its candle, cover the candle’s own code, and shuffle them on the table. Whoever has read this should not score."
}

// UncoverForm asks before codes are resolved.
func UncoverForm(in Input, l journal.SmellingLog) (title, lede string, f ui.Form) {
	at := "/throw/" + idText(l.Smelling.ID)
	f = in.Form(ui.Form{Action: at + "/uncover", Cancel: at, Submit: "Uncover them"})
	lede = capital(counted(len(l.Noses()), "nose has", "noses have")) + " scored so far. Once the codes are uncovered no new nose can score in this smelling; what was scored can still be corrected. This cannot be taken back."
	return "Uncover the codes?", lede, f
}

// WithdrawableSmelling is a smelling.
func WithdrawableSmelling(s journal.Smelling) Withdrawable {
	return Withdrawable{journal.NounSmelling, s.ID, "Withdraw this smelling?",
		"The smelling and its scores stay on record but count no more. It can be brought back.",
		"Withdraw it", "The smelling is withdrawn.", "/throw/" + idText(s.ID)}
}

// WithdrawableCup is one candle of a smelling.
func WithdrawableCup(c journal.Cup) Withdrawable {
	return Withdrawable{journal.NounCup, c.ID, "Take " + c.Code + " out of the smelling?",
		"What was scored of it stays on record but counts no more. It can be brought back.",
		"Take it out", c.Code + " is out of the smelling.", "/throw/" + idText(c.Smelling)}
}

// WithdrawableScore is one score.
func WithdrawableScore(x journal.Score, c journal.Cup) Withdrawable {
	return Withdrawable{journal.NounScore, x.ID, "Withdraw " + x.Nose + "’s score of " + c.Code + "?",
		"It stays on record but counts no more. It can be brought back.",
		"Withdraw it", "The score is withdrawn.", "/throw/" + idText(c.Smelling)}
}
