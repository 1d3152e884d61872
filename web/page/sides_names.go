package page

import (
	"strconv"

	"rimward/internal/compare"
	"rimward/internal/journal"
)

// tellers are what tells pairings of one name apart, in the order in which it
// is tried.
var tellers = []func(journal.CandleLog) string{
	func(l journal.CandleLog) string { return l.Vessel.Name },
	func(l journal.CandleLog) string { return l.Wax.Name },
	func(l journal.CandleLog) string {
		switch {
		case l.Fragrance == nil:
			return "no fragrance"
		case l.Pour.Load == nil:
			return l.Fragrance.Name
		}
		return l.Fragrance.Name + ", " + loadShown(*l.Pour.LoadOn(journal.OfWax), journal.OfWax).String()
	},
}

// nameApart gives columns that share a name what tells them apart, and numbers
// them where nothing does.
func nameApart(sides []compare.Side) {
	for _, teller := range tellers {
		tell(sides, teller)
	}
	for name, shared := range sharing(sides) {
		for n, i := range shared {
			if len(shared) > 1 {
				sides[i].Name = name + " (" + strconv.Itoa(n+1) + ")"
			}
		}
	}
}

// tell adds one thing to the names that are shared, where it differs among
// those that share one.
func tell(sides []compare.Side, of func(journal.CandleLog) string) {
	for _, shared := range sharing(sides) {
		words := map[string]bool{}
		for _, i := range shared {
			words[wordOf(sides[i], of)] = true
		}
		for _, i := range shared {
			if word := wordOf(sides[i], of); len(words) > 1 && word != "" {
				sides[i].Name += ", " + word
			}
		}
	}
}

// sharing lists the columns of each name, in order.
func sharing(sides []compare.Side) map[string][]int {
	out := map[string][]int{}
	for i, s := range sides {
		out[s.Name] = append(out[s.Name], i)
	}
	return out
}

func wordOf(s compare.Side, of func(journal.CandleLog) string) string {
	if !s.Whole || len(s.Logs) == 0 {
		return ""
	}
	return of(s.Logs[0])
}
