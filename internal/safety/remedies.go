package safety

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Remedy is the usual answer to a fault: one change, never two.
type Remedy struct {
	Do     string // a sentence; "" for none
	Source string
	Turn   Turn
}

// Turn is what a remedy changes.
type Turn string

// What a remedy changes.
const (
	NothingYet Turn = "nothing yet"
	Handling   Turn = "how it is burned"
	Oil        Turn = "oil"
	WickUp     Turn = "wick up"
	WickDown   Turn = "wick down"
	Ladder     Turn = "another ladder"
)

func usual(t Turn, do string) Remedy { return Remedy{Do: do, Source: practice, Turn: t} }

var (
	wickUp   = usual(WickUp, "Wick up: try the wick above.")
	wickDown = usual(WickDown, "Wick down: try the wick below.")
)

// lessOil answers sweating, which may feed a fire.
func lessOil(*watch) Remedy {
	return usual(Oil, "Use less oil in the next pour, within what the wax and the fragrance are said to take.")
}

// untrimmed is the remedy where a burn that showed the fault was lit with a long
// wick, or nobody noted its length; false where all were trimmed.
func (w *watch) untrimmed() (Remedy, bool) {
	for _, e := range w.showing {
		if e.b.Trim == nil || *e.b.Trim > w.lim.TrimMost() {
			return usual(Handling, "Trim the wick to "+w.u.ShowLength(w.lim.Trim()).String()+" before every burn and note it; then look again."), true
		}
	}
	return Remedy{}, false
}

// quieten answers soot: trim, still air, then wick down.
func quieten(w *watch) Remedy {
	if r, ok := w.untrimmed(); ok {
		return r
	}
	for _, e := range w.showing {
		if e.b.Draught == journal.DraughtSlight {
			return usual(Handling, "Burn it in still air and look again.")
		}
	}
	return wickDown
}

// trimThenDown answers mushrooming: trim, shorter burns, then wick down.
func trimThenDown(w *watch) Remedy {
	if r, ok := w.untrimmed(); ok {
		return r
	}
	for _, e := range w.showing {
		if e.b.OutAt != nil && e.b.Lasted(*e.b.OutAt) > w.lim.LongestBurn() {
			return usual(Handling, "Put it out after "+w.lim.LongestBurn().Clock()+" at the latest and look again.")
		}
	}
	return wickDown
}

// muchShorter is how much shorter than its target hour a first burn must have
// been to be blamed: a quarter of an hour (chosen by us).
const muchShorter quantity.Hours = 0.25

// firstBurnThenUp answers tunnelling: a first burn long enough, then wick up.
func firstBurnThenUp(w *watch) Remedy {
	target := w.showing[0].m.Vessel.Target()
	for _, b := range w.firstOf {
		if b.Number == 1 && b.OutAt != nil && b.Lasted(*b.OutAt) < target-muchShorter {
			return usual(Handling, "Give the next candle a longer first burn, "+target.Clock()+" or more and at most "+w.lim.LongestBurn().Clock()+".")
		}
	}
	return wickUp
}

// waitThenUp answers hang-up: wait for the lower half, then wick up.
func waitThenUp(w *watch) Remedy {
	if w.early > 0 && w.late == 0 {
		return usual(NothingYet, "Change nothing yet: burn on until half of the wax is gone, and look again.")
	}
	return wickUp
}

// Shallow is the pool depth below which a drowning flame asks for a stronger
// wick: 1/4 in, the lower end of the usual depth (common practice, no source).
const Shallow quantity.Millimetres = 25.4 / 4

// byDepth answers drowning by the depth of the pool.
func byDepth(w *watch) Remedy {
	var deepest *quantity.Millimetres
	for _, e := range w.showing {
		for _, c := range e.checks {
			if c.Depth != nil && (deepest == nil || *c.Depth > *deepest) {
				deepest = c.Depth
			}
		}
	}
	if deepest == nil {
		return usual(NothingYet, "Change nothing yet: measure the depth of the pool next time. Shallow asks for a stronger wick, deep for a weaker one.")
	}
	at := "The pool was " + w.u.ShowLength(*deepest).String() + " deep"
	switch {
	case *deepest < Shallow:
		return usual(WickUp, at+", which is shallow. "+wickUp.Do)
	case *deepest > w.lim.PoolDeep():
		return usual(WickDown, at+", which is deep. "+wickDown.Do)
	}
	return usual(NothingYet, at+", which is usual and tells nothing. Change nothing yet: look at the next burn whether the wick is clogged.")
}

// order is which remedies come first: what may feed a fire, then what needs no
// new candle, then the wick.
var order = []Turn{Oil, Handling, WickDown, WickUp, NothingYet}

// OneChange picks the one change to make next from what the faults of a pairing
// ask for, and the fault it answers: what may feed a fire first, then what can
// be done with the candles there are, then the wick. Faults that ask for a wick
// both stronger and weaker ask for another ladder instead. ok is false when no
// fault was seen.
func OneChange(cs []Course) (r Remedy, fault string, ok bool) {
	up, down := "", ""
	for _, c := range cs {
		switch c.Remedy.Turn {
		case WickUp:
			up = c.Fault
		case WickDown:
			down = c.Fault
		}
	}
	for _, t := range order {
		for _, c := range cs {
			if c.Remedy.Turn != t {
				continue
			}
			if t == WickDown && up != "" {
				return usual(Ladder, "Try a wick of another ladder: these faults ask for a stronger wick and a weaker one at once."), down + " and " + lower(up), true
			}
			return c.Remedy, c.Fault, true
		}
	}
	return Remedy{}, "", false
}

// lower begins with a small letter, in the middle of a sentence.
func lower(s string) string { return string(s[0]|0x20) + s[1:] }
