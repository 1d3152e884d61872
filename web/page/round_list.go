package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/web/ui"
)

// RoundsPage lists the rounds by where they stand.
type RoundsPage struct {
	Lede  string
	Acts  []ui.Action
	Parts []RoundsPart
	Empty *MissingPage
}

// RoundsPart is the rounds of one kind.
type RoundsPart struct {
	Title string
	Items []ui.Item
}

// RoundLine is a round with how far it has come.
type RoundLine struct {
	Round    journal.TestRound
	Progress plan.RoundProgress
}

// NewRoundsPage builds the list: running first, then planned, answered and
// withdrawn.
func NewRoundsPage(lines []RoundLine, k Known, v View) RoundsPage {
	p := RoundsPage{Lede: "A round asks one question and plans the candles that answer it.", Acts: roundActs()}
	titles := []string{"Running", "Planned", "Answered", "Withdrawn"}
	parts := make([]RoundsPart, len(titles))
	for _, l := range lines {
		at := roundPart(l)
		parts[at].Items = append(parts[at].Items, roundItem(l, k, v))
	}
	for i, part := range parts {
		if part.Title = titles[i]; len(part.Items) > 0 {
			p.Parts = append(p.Parts, part)
		}
	}
	if len(lines) == 0 {
		p.Acts = nil
		p.Empty = missing("No round was planned yet. Choose a question, say which wicks and vessels it compares, and see what it takes before a gram is melted.", roundActs())
	}
	return p
}

// roundPart is the part of the list that a round stands in.
func roundPart(l RoundLine) int {
	switch {
	case l.Round.IsGone():
		return 3
	case l.Round.Closed != nil:
		return 2
	case l.Progress.Poured() == 0:
		return 1
	}
	return 0
}

func roundItem(l RoundLine, k Known, v View) ui.Item {
	r := l.Round
	i := ui.Item{Text: r.Question, Href: "/rounds/" + idText(r.ID), When: "planned " + v.Day(r.Created),
		More: figured(len(r.Places), "candle", "candles") + " of " + k.waxName(r.Wax) + " · " + progressText(l.Progress)}
	switch {
	case r.IsGone():
		i.When, i.More = "withdrawn "+v.Day(*r.Gone), r.GoneWhy
	case r.Closed != nil:
		i.When = "closed " + v.Day(*r.Closed)
	}
	return i
}

// progressText says how far a round has come.
func progressText(p plan.RoundProgress) string {
	text := ""
	for _, s := range p.Stages {
		if s.Stage == plan.Rests {
			text = joinBy(", ", text, strconv.Itoa(s.Places)+" between burns")
			continue
		}
		text = joinBy(", ", text, strconv.Itoa(s.Places)+" "+string(s.Stage))
	}
	if p.BurnsWanted > 0 {
		text = joinBy(" · ", text, strconv.Itoa(p.BurnsDone)+" of "+figured(p.BurnsWanted, "burn", "burns"))
	}
	return text
}
