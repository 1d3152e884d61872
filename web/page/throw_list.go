package page

import (
	"rimward/internal/journal"
	"rimward/web/ui"
)

// SmellingsPage lists the smellings, the latest first.
type SmellingsPage struct {
	Lede  string
	Acts  []ui.Action
	Items []SmellingItem
	Pager Pager
	Empty *MissingPage
}

// SmellingItem is one smelling of the list.
type SmellingItem struct {
	Text, Href, When, More string
	Gone, Waits            bool // it was withdrawn; its codes are still covered
}

// NewSmellingsPage builds the list; before is the smelling that it was asked to
// follow, 0 for the newest.
func NewSmellingsPage(lines []journal.SmellingLine, more bool, before journal.ID, v View) SmellingsPage {
	begin := ui.Action{Text: "New smelling", Href: "/throw/new", Main: true}
	p := SmellingsPage{Lede: "How strongly candles smell, cold and hot, scored from 0 to 5 by one nose or several.", Acts: []ui.Action{begin}}
	for _, l := range lines {
		p.Items = append(p.Items, smellingItem(l, v))
	}
	if before != 0 {
		p.Pager.Newest = "/throw"
	}
	if more {
		p.Pager.Older = "/throw?before=" + idText(lines[len(lines)-1].Smelling.ID)
	}
	if len(lines) == 0 && before == 0 {
		p.Acts = nil
		p.Empty = missing("Nothing was smelled yet. Choose some candles and let one nose or several score them; blind is best, for a nose believes what the eye knows.", []ui.Action{begin})
	}
	return p
}

func smellingItem(l journal.SmellingLine, v View) SmellingItem {
	s := l.Smelling
	more := coverText(s) + " · " + counted(l.Noses, "nose", "noses")
	if s.Covered() {
		more += " so far"
	}
	if s.IsGone() {
		more = joinWords("withdrawn", s.GoneWhy)
	}
	return SmellingItem{Text: smellingTitle(s) + " of " + counted(l.Cups, "candle", "candles"), Href: "/throw/" + idText(s.ID), When: v.Moment(s.At),
		More: joinBy(" · ", more, s.Note), Gone: s.IsGone(), Waits: s.Covered() && !s.IsGone()}
}

// smellingTitle is what was smelled: Hot throw, Cold throw.
func smellingTitle(s journal.Smelling) string { return capital(string(s.Kind)) + " throw" }

// coverText says whether noses saw the candles.
func coverText(s journal.Smelling) string {
	switch {
	case s.Covered():
		return "blind, still covered"
	case s.Blind:
		return "blind, uncovered"
	}
	return "open"
}
