package plan

import (
	"fmt"
	"strings"

	"rimward/internal/journal"
)

// Factor is one thing that the candles of a round may differ in.
type Factor string

// The factors, as they stand in a sentence after "the".
const (
	ByVessel Factor = "vessel"
	ByWick   Factor = "wick"
	ByWicks  Factor = "number of wicks"
	ByLoad   Factor = "fragrance load"
	ByPourAt Factor = "pour temperature"
)

// Varies are the factors that a round changes.
func Varies(f journal.RoundFactors) []Factor {
	var out []Factor
	add := func(differ bool, factor Factor) {
		if differ {
			out = append(out, factor)
		}
	}
	wicks, counts := map[journal.ID]bool{}, map[int]bool{}
	for _, w := range f.Wicks {
		wicks[w.Wick], counts[w.Wicks] = true, true
	}
	add(len(f.Vessels) > 1, ByVessel)
	add(len(wicks) > 1, ByWick)
	add(len(counts) > 1, ByWicks)
	add(len(f.Loads) > 1, ByLoad)
	add(len(f.PourAts) > 1, ByPourAt)
	return out
}

// WarningKind names what is unwise about a round.
type WarningKind string

// The warnings.
const (
	ManyThings  WarningKind = "many things"    // it changes more than one thing
	TwoLadders  WarningKind = "two ladders"    // its wicks stand on different ladders
	OneCopy     WarningKind = "one copy"       // one candle of each cell
	MeltTold    WarningKind = "melt"           // a load or temperature cannot be told from its melt
	OneMelt     WarningKind = "one melt"       // everything comes from one melt
	SplitMelt   WarningKind = "split melt"     // a copy of one kind takes several melts
	SplitCopies WarningKind = "split evenings" // the bench does not hold a copy
)

// Warning is something that a round cannot do or does badly, in a sentence.
type Warning struct {
	Kind WarningKind
	Says string
}

// Warnings says what is unwise about a round; none where it cannot be drawn.
func Warnings(s Spec) []Warning {
	if len(Problems(s)) > 0 {
		return nil
	}
	var ws []Warning
	add := func(is bool, kind WarningKind, says string) {
		if is {
			ws = append(ws, Warning{kind, says})
		}
	}
	fs, cells := Varies(s.Factors), count(s.Factors)
	kinds := max(len(s.Factors.Loads), 1) * max(len(s.Factors.PourAts), 1)
	melts := s.meltsOfKind()
	add(len(fs) > 1, ManyThings, "This round changes more than one thing at a time: "+listed(fs)+". Every combination is poured, so each can be judged; a round that changes one thing is easier to read.")
	add(s.ladders() > 1, TwoLadders, "The wicks stand on different ladders. How far apart two ladders lie is not known beforehand, so nothing is borrowed from one for the other.")
	add(s.Copies == 1, OneCopy, "There is one candle of each. A candle that came out oddly cannot be told from a wick, vessel, load or temperature that is odd.")
	add(kinds > 1 && melts == 1, MeltTold, fmt.Sprintf("Each %s is poured from one melt of its own, so a difference between them is also one between melts. Pour each copy from its own melt to tell the two apart.", s.melted()))
	add(kinds == 1 && melts == 1, OneMelt, "All candles come from one melt. What is found holds for this melt; the next may differ.")
	add(s.PerMelt > 0 && s.PerMelt < cells/kinds, SplitMelt, "One melt does not fill one candle of each, so cells of a copy come from different melts.")
	add(cells > s.BenchPlaces, SplitCopies, fmt.Sprintf("The bench holds %d, and there are %d to compare, so they are not all lit on the same evening.", s.BenchPlaces, cells))
	return ws
}

// meltsOfKind is how many melts each load and pour temperature gets that hold
// all of its cells, or parts of them.
func (s Spec) meltsOfKind() int {
	cells := len(s.Factors.Vessels) * len(s.Factors.Wicks)
	runs := len(s.runs(cells))
	if s.PerMelt > 0 && s.PerMelt < cells {
		return runs * shares(cells, s.PerMelt)
	}
	return runs
}

// melted is what tells the melts of a round apart.
func (s Spec) melted() string {
	switch {
	case len(s.Factors.PourAts) < 2:
		return string(ByLoad)
	case len(s.Factors.Loads) < 2:
		return string(ByPourAt)
	}
	return "load and pour temperature"
}

// ladders is how many ladders the wicks are known to stand on.
func (s Spec) ladders() int {
	seen := map[journal.ID]bool{}
	for _, w := range s.Factors.Wicks {
		if l, ok := s.Ladders[w.Wick]; ok {
			seen[l] = true
		}
	}
	return len(seen)
}

// listed writes factors as a sentence does: the wick, the load and the vessel.
func listed(fs []Factor) string {
	var out []string
	for _, f := range fs {
		out = append(out, "the "+string(f))
	}
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}
