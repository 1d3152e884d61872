package page

import (
	"rimward/internal/cast"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/chart"
	"rimward/web/ui"
)

// What the grades of a cast mean.
var (
	capturedMeanings = map[journal.Captured]string{journal.DetailFull: "every line came through", journal.DetailSoft: "lines are blunt", journal.DetailLost: "parts are missing"}
	surfaceMeanings  = map[journal.Surface]string{journal.SurfaceSmooth: "even all over", journal.SurfacePitted: "bubbles or small holes", journal.SurfaceStreaked: "flow marks or bands", journal.SurfaceFrosted: "white crystals"}
	firmnessMeanings = map[journal.Firmness]string{journal.Firm: "keeps its shape in the hand", journal.Soft: "dents or bends", journal.Brittle: "cracks when it is flexed"}
)

// gradeOptions are the words of a grade with their meanings, "not noted"
// first.
func gradeOptions[T ~string](list []T, meanings map[T]string) []ui.Option {
	out := []ui.Option{{Value: "", Text: "not noted"}}
	for _, g := range list {
		out = append(out, ui.Option{Value: string(g), Text: string(g), Meaning: meanings[g]})
	}
	return out
}

// castName is a cast as it is spoken of: 6 pieces of pour 12.
func castName(l journal.CastLine) string {
	return figured(l.Cast.Pieces, "piece", "pieces") + " of " + pourName(l.Pour)
}

// cameText says how the pieces came out: 10 clean, 1 chipped, 1 broken.
func cameText(c journal.Cast) string {
	switch {
	case c.Out == nil:
		return "still in the mould"
	case !c.Graded():
		return "out, not counted"
	case *c.Clean == c.Pieces:
		return "all clean"
	}
	return listed(countsOf(*c.Clean, *c.Chipped, *c.Broken))
}

// countsOf writes the counts that are not nothing, in figures.
func countsOf(clean, chipped, broken int) []string {
	var out []string
	for _, c := range []struct {
		n    int
		word string
	}{{clean, "clean"}, {chipped, "chipped"}, {broken, "broken"}} {
		if c.n > 0 {
			out = append(out, quantity.Number(float64(c.n), 0)+" "+c.word)
		}
	}
	return out
}

// castItems lists casts, each under a name.
func castItems(lines []journal.CastLine, name func(journal.CastLine) string, v View) []ui.Item {
	var out []ui.Item
	for _, l := range lines {
		i := ui.Item{Text: name(l), Href: "/casts/" + idText(l.Cast.ID), When: figured(l.Cast.Pieces, "piece", "pieces"), More: cameText(l.Cast)}
		if h, out := l.Cast.HoursIn(l.Pour.At); out {
			i.More += " after " + h.Clock() + " in the mould"
		}
		if l.Cast.IsGone() {
			i.More = "withdrawn · " + i.More
		}
		out = append(out, i)
	}
	return out
}

// ShareLine is the share of pieces that came out clean, as a page shows it.
type ShareLine struct {
	Told          bool
	Share, Range  string // 91 %; 62 to 98 %
	Bar           chart.Share
	Counts, From  string // 10 clean, 1 chipped; from 12 pieces, 2 casts of 2 pours
	Doubt, NotYet string
}

// shareLine writes a share with its doubts, or what would be enough for one.
func shareLine(s cast.Share) ShareLine {
	l := ShareLine{Told: s.Told(), From: fromText(s.Tally), Counts: listed(countsOf(s.Clean, s.Chipped, s.Broken))}
	if !s.Told() {
		l.NotYet = "Not enough yet to tell a share: " + counted(s.Short, "more piece", "more pieces") + " would be."
		return l
	}
	share := float64(s.Clean) / float64(s.Pieces())
	l.Share, l.Range = percentWhole(share)+" %", percentWhole(s.Low)+" to "+percentWhole(s.High)+" %"
	l.Bar = chart.NewShare(share, s.Low, s.High)
	if s.OnePour {
		l.Doubt = "All of one pour: its pieces had the same wax, heat and day, so the next pour may do better or worse than the range says."
	}
	return l
}

func percentWhole(share float64) string { return quantity.Number(100*share, 0) }

func fromText(t cast.Tally) string {
	if t.Pieces() == 0 {
		return "no piece counted yet"
	}
	return figured(t.Pieces(), "piece", "pieces") + ", " + counted(t.Casts, "cast", "casts") + " of " + counted(t.Pours, "pour", "pours")
}

// tryWords say what to try.
var tryWords = map[cast.Try]string{
	cast.LongerSet:    "Leave the pieces in the mould for a full day.",
	cast.SlowerCold:   "Do not hurry them in the cold: let brittle pieces come back to room temperature before you take them out.",
	cast.WarmerMould:  "Warm the mould, or pour a little hotter within the supplier’s range, so that the wax runs into the detail before it sets.",
	cast.HarderWax:    "Try a wax that sets harder.",
	cast.SimplerMould: "Try a mould with less detail to hold on to.",
}
