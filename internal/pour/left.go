package pour

import (
	"sort"

	"rimward/internal/quantity"
)

// Have is what is left on the shelf; nil is not known, and does not limit.
type Have struct {
	Wax, Oil *quantity.Grams
}

// RunsOut is what ends first.
type RunsOut string

// What ends first.
const (
	WaxFirst RunsOut = "wax"
	OilFirst RunsOut = "oil"
	CapFirst RunsOut = "most" // neither, up to the most pieces that one sheet takes
)

// Reach is how far the stock goes for one kind of filling.
type Reach struct {
	Count         int // fillings: vessels, or times the whole mould
	Pieces        int
	First         RunsOut
	Sheet         Sheet // of that many; empty when Count is 0
	WaxLeft       *quantity.Grams
	OilLeft       *quantity.Grams
	WaxOfOne      quantity.Grams // what a single filling would take
	OilOfOne      quantity.Grams
	NothingToFill bool // there is not enough for a single one
}

// Left works out how many of the first filling of an Ask can be filled with what
// is there; its Count is not looked at. It agrees with Work to the step of the
// scale.
func Left(a Ask, have Have) (Reach, []Problem) {
	if have.Wax == nil && (have.Oil == nil || a.oilShare() == 0) {
		return Reach{}, []Problem{{"have", -1, "Say how much wax is left, or how much oil.", true}}
	}
	if (have.Wax != nil && !(*have.Wax >= 0)) || (have.Oil != nil && !(*have.Oil >= 0)) {
		return Reach{}, []Problem{{"have", -1, "What is left cannot be less than nothing.", false}}
	}
	one, ps := Work(a.times(1))
	if len(ps) > 0 {
		return Reach{}, ps
	}
	most := mostCount / a.Fillings[0].Cavities
	n := sort.Search(most, func(i int) bool { return !a.enough(i+1, have) })
	r := Reach{Count: n, Pieces: n * a.Fillings[0].Cavities, WaxOfOne: one.Wax, OilOfOne: one.Oil, NothingToFill: n == 0, First: CapFirst}
	if n > 0 {
		r.Sheet, _ = Work(a.times(n))
	}
	if n < most {
		r.First = a.first(n+1, have)
	}
	r.WaxLeft, r.OilLeft = rest(have.Wax, r.Sheet.Wax), rest(have.Oil, r.Sheet.Oil)
	return r, nil
}

func (a Ask) times(n int) Ask {
	if len(a.Fillings) > 0 {
		f := a.Fillings[0]
		f.Count = n
		a.Fillings = []Filling{f}
	}
	a.Things = nil
	return a
}

// enough reports whether n can be filled. More pieces never take less wax nor
// less oil, so the search may halve.
func (a Ask) enough(n int, have Have) bool {
	s, ps := Work(a.times(n))
	return len(ps) == 0 && !short(have.Wax, s.Wax) && !short(have.Oil, s.Oil)
}

// first is what n would run out of; the one that is shorter for its need where
// both are.
func (a Ask) first(n int, have Have) RunsOut {
	s, _ := Work(a.times(n))
	wax, oil := short(have.Wax, s.Wax), short(have.Oil, s.Oil)
	if oil && (!wax || *have.Oil/s.Oil < *have.Wax/s.Wax) {
		return OilFirst
	}
	return WaxFirst
}

func short(have *quantity.Grams, need quantity.Grams) bool {
	return have != nil && need > *have+hair
}

func rest(have *quantity.Grams, used quantity.Grams) *quantity.Grams {
	if have == nil {
		return nil
	}
	x := max(*have-used, 0)
	return &x
}
