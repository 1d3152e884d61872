package page

import (
	"rimward/internal/cast"
	"rimward/internal/journal"
	"rimward/web/ui"
)

// CastsPage says how moulds let go, wax by wax.
type CastsPage struct {
	Lede   string
	Empty  *MissingPage
	Inside []ui.Item // still in their moulds
	Waxes  []CastsOfWax
}

// CastsOfWax is one wax's part of that page.
type CastsOfWax struct {
	Name, Href string
	Rows       []CastsRow
}

// CastsRow is one wax in moulds of one detail.
type CastsRow struct {
	Detail, Meaning string
	Share           ShareLine
	Hours           []HoursLine
	Rest            string // pieces that are not in the share
	Tries           []string
}

// HoursLine is the share of the pieces that were in the mould for so long.
type HoursLine struct {
	Hours string
	Share ShareLine
}

// NewCastsPage builds the summary from the casts that count.
func NewCastsPage(lines []journal.CastLine, moulds []journal.Mould, v View) CastsPage {
	p := CastsPage{Lede: "Pieces that came out of their moulds clean, by wax and by how finely the mould is shaped."}
	if len(lines) == 0 {
		p.Empty = missing(emptyCasts(moulds))
		return p
	}
	for _, l := range lines {
		if l.Cast.Out == nil {
			p.Inside = append(p.Inside, ui.Item{Text: "Take " + castName(l) + " out", Href: "/casts/" + idText(l.Cast.ID) + "/out", When: insideWhen(l, v), More: l.Mould.Name + " · " + l.Wax.Name})
		}
	}
	for _, g := range cast.Groups(lines) {
		if n := len(p.Waxes); n == 0 || p.Waxes[n-1].Href != "/shelf/waxes/"+idText(g.Wax.ID) {
			p.Waxes = append(p.Waxes, CastsOfWax{Name: g.Wax.Name, Href: "/shelf/waxes/" + idText(g.Wax.ID)})
		}
		w := &p.Waxes[len(p.Waxes)-1]
		w.Rows = append(w.Rows, castsRow(g))
	}
	return p
}

func emptyCasts(moulds []journal.Mould) (string, []ui.Action) {
	if len(moulds) == 0 {
		return "No cast yet. Put a mould on the shelf first; then say on a pour’s page which mould it filled.",
			[]ui.Action{{Text: "Add a mould", Href: "/shelf/moulds/new", Main: true}}
	}
	return "No cast yet. Say on a pour’s page which mould it filled, and how the pieces came out.",
		[]ui.Action{{Text: "To the pours", Href: "/pours", Main: true}}
}

// insideWhen says when pieces may come out, or how long they wait for it.
func insideWhen(l journal.CastLine, v View) string {
	if at := l.Pour.At.Add(journal.SetsAfter); at.After(v.Now) {
		return "from " + v.Moment(at)
	}
	if v.Now.Sub(l.Pour.At) >= 2*journal.SetsAfter {
		return "since " + v.Day(l.Pour.At)
	}
	return "a day old"
}

func castsRow(g cast.Group) CastsRow {
	r := CastsRow{Detail: capital(string(g.Detail)), Meaning: detailMeanings[g.Detail], Share: shareLine(g.Share), Rest: restOf(g)}
	if g.Under.Pieces() > 0 && g.Full.Pieces() > 0 {
		r.Hours = []HoursLine{hoursLine("under 24 h in the mould", g.Under), hoursLine("24 h and more", g.Full)}
	} else if g.Under.Pieces() > 0 {
		r.Rest = joinWords(r.Rest, "All came out before a full day was over.")
	}
	for _, t := range g.Tries {
		r.Tries = append(r.Tries, tryWords[t])
	}
	return r
}

// hoursLine is a part of a share; its doubts stand with the whole.
func hoursLine(hours string, s cast.Share) HoursLine {
	l := shareLine(s)
	l.Doubt = ""
	return HoursLine{hours, l}
}

// restOf says which pieces are not in the share.
func restOf(g cast.Group) string {
	var parts []string
	if g.Inside > 0 {
		parts = append(parts, capital(counted(g.Inside, "piece is", "pieces are"))+" still in the mould.")
	}
	if g.Open > 0 {
		parts = append(parts, capital(counted(g.Open, "piece is", "pieces are"))+" out, but how they came was not counted.")
	}
	return joinWords(parts...)
}
