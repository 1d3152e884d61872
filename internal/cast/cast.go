// Package cast reckons how moulded pieces let go of their moulds: the share
// that came out clean, by wax and by how finely the mould is shaped, and what
// to try where too few do.
//
// It refuses to tell a share from fewer than five pieces, and to pretend that
// the pieces of one pour are independent: every share says how many casts and
// pours stand behind it. It has no clock and no words for people.
package cast

import (
	"cmp"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/stats"
)

const (
	// Least is how many pieces a share is told from (chosen by us).
	Least = 5
	// Level is how often the interval of a share is meant to hold.
	Level = 0.95
)

// Tally is what came of some casts whose pieces were counted.
type Tally struct {
	Clean, Chipped, Broken int // pieces
	Casts, Pours           int // that they come from
}

// Pieces is how many pieces were counted.
func (t Tally) Pieces() int { return t.Clean + t.Chipped + t.Broken }

// Share is the share of pieces that came out clean.
type Share struct {
	Tally
	Low, High float64 // of the interval at Level (Wilson 1927), as if pieces were independent
	Short     int     // how many more pieces it takes to tell; 0 when it is told
	OnePour   bool    // all pieces come from one pour, so that they say little about the next
}

// Told reports whether there are pieces enough to tell a share.
func (s Share) Told() bool { return s.Short == 0 }

// ShareOf is the share of clean pieces in a tally.
func ShareOf(t Tally) Share {
	s := Share{Tally: t, Short: max(0, Least-t.Pieces()), OnePour: t.Pours == 1}
	s.Low, s.High = stats.WilsonInterval(t.Clean, t.Pieces(), Level)
	return s
}

// TallyOf counts the casts that count and whose pieces were counted; the rest
// are left out.
func TallyOf(lines []journal.CastLine) Tally {
	var t Tally
	pours := map[journal.ID]bool{}
	for _, l := range counting(lines) {
		t.Clean, t.Chipped, t.Broken = t.Clean+*l.Cast.Clean, t.Chipped+*l.Cast.Chipped, t.Broken+*l.Cast.Broken
		t.Casts++
		pours[l.Cast.Pour] = true
	}
	t.Pours = len(pours)
	return t
}

// counting are the casts that count and whose pieces were counted.
func counting(lines []journal.CastLine) []journal.CastLine {
	var out []journal.CastLine
	for _, l := range lines {
		if l.Counts() && l.Cast.Graded() {
			out = append(out, l)
		}
	}
	return out
}

// Group is all casts of one wax in moulds of one detail.
type Group struct {
	Wax    journal.Wax
	Detail journal.Detail
	Share  Share
	Under  Share // of those that were in the mould for less than a full day
	Full   Share // of those that were in for a full day or longer
	Tries  []Try // what to try, one at a time, the first first
	Inside int   // pieces that are still in the mould
	Open   int   // pieces that are out and were not counted
}

// Groups sorts casts by wax and detail: waxes by name, the plainest mould
// first. Withdrawn casts are left out.
func Groups(lines []journal.CastLine) []Group {
	type key struct {
		wax    journal.ID
		detail journal.Detail
	}
	by := map[key][]journal.CastLine{}
	for _, l := range lines {
		if l.Counts() {
			k := key{l.Wax.ID, l.Mould.Detail}
			by[k] = append(by[k], l)
		}
	}
	out := make([]Group, 0, len(by))
	for k, ls := range by {
		out = append(out, groupOf(ls[0].Wax, k.detail, ls))
	}
	slices.SortFunc(out, func(a, b Group) int {
		return cmp.Or(cmp.Compare(a.Wax.Name, b.Wax.Name), cmp.Compare(a.Wax.ID, b.Wax.ID), cmp.Compare(slices.Index(journal.Details, a.Detail), slices.Index(journal.Details, b.Detail)))
	})
	return out
}

func groupOf(wax journal.Wax, detail journal.Detail, lines []journal.CastLine) Group {
	g := Group{Wax: wax, Detail: detail, Share: ShareOf(TallyOf(lines))}
	var under, full []journal.CastLine
	for _, l := range lines {
		switch {
		case l.Cast.Out == nil:
			g.Inside += l.Cast.Pieces
		case !l.Cast.Graded():
			g.Open += l.Cast.Pieces
		case hurried(l):
			under = append(under, l)
		default:
			full = append(full, l)
		}
	}
	g.Under, g.Full = ShareOf(TallyOf(under)), ShareOf(TallyOf(full))
	g.Tries = tries(detail, counting(lines))
	return g
}

// hurried reports whether the pieces came out before a full day was over.
func hurried(l journal.CastLine) bool {
	return l.Cast.Out.Before(l.Pour.At.Add(journal.SetsAfter))
}
