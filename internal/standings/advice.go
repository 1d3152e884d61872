package standings

import (
	"slices"
	"strings"

	"rimward/internal/meltpool"
)

// Step is a kind of advice.
type Step string

// What can be tried next.
const (
	Settled   Step = "settled"    // one pairing is the closest, with what a verdict needs
	Confirm   Step = "confirm"    // one is the closest; a verdict needs more of it
	TryRung   Step = "try"        // a rung that was not burned promises more
	LookEarly Step = "look early" // pools were full at the first look
	OneMore   Step = "one more"   // another candle of those in the running
	FirstBurn Step = "first burn" // nothing can be said yet
	Otherwise Step = "otherwise"  // all that was tried stands below the line
)

// enoughEach is how many candles of a pairing a verdict needs.
const enoughEach = 3

// Advice is what to try next in a series, with the reason.
type Advice struct {
	Step Step
	Text string
}

// advise says what to try next.
func advise(x Series) Advice {
	best, ok := x.best()
	if !ok {
		return nothingYet(x)
	}
	lone, sure := x.Tested() == 1, x.chance(best) >= SureEnough
	if sure && best.Candles >= enoughEach && best.Ended > 0 && !(lone && best.poor()) {
		return Advice{Settled, "Settled: " + best.Name() + " is the closest (chance " + chanceText(x.chance(best)) + "), with " + many(best.Candles, "candle") +
			" and one burned to the end without a hard finding" + though(best) + ". Time for a verdict."}
	}
	if g, ok := x.promising(best); ok {
		return Advice{TryRung, "Try " + g.Name() + ": it was not burned, but its neighbours make it likely to come closer than " + best.Name() +
			" (closeness about " + closenessText(g) + " against " + closenessText(best) + ")."}
	}
	if best.poor() && best.leans() {
		if a, ok := x.further(best, lone); ok {
			return a
		}
	}
	if early := x.fullAtOnce(); len(early) > 0 {
		return Advice{LookEarly, "Look earlier: the pools of " + names(early) + " were full at the first look. Another burn with a check at " +
			(best.Vessel.Target() / 2).Clock() + ", half the target hour, tells more than another candle."}
	}
	if sure && !lone {
		return Advice{Confirm, best.Name() + " is the closest (chance " + chanceText(x.chance(best)) + ")" + though(best) + ". Before a verdict: " + lacking(best) + "."}
	}
	in := x.running()
	if lone {
		return Advice{OneMore, "Only " + best.Name() + " was burned, so there is nothing to compare it with yet. One more candle of it" + x.orBeside() + " would tell most."}
	}
	return Advice{OneMore, names(in) + verb(in) + " still in the running. One more candle" + each(in) + " would tell most."}
}

// chance is a pairing's chance of being the closest of those above the line.
func (x Series) chance(p Pairing) float64 {
	sum := 0.0
	for _, q := range x.Pairings {
		if q.Enough() && !q.BelowLine() {
			sum += q.Closest
		}
	}
	if sum == 0 {
		return 0
	}
	return p.Closest / sum
}

// beyondUnsafe reports whether a rung lies above one that stands below the
// line: a wick that melts more is not the way out of a flame that is too big.
func (x Series) beyondUnsafe(rung int) bool {
	return slices.ContainsFunc(x.Pairings, func(p Pairing) bool { return p.BelowLine() && p.Wick.Rung < rung })
}

// orBeside offers a neighbour where the ladder has one.
func (x Series) orBeside() string {
	if len(x.Guesses) == 0 {
		return ""
	}
	return ", or of a rung beside it,"
}

// further is advice where the best is likely to miss to one side: the next
// rung that way, where it was not burned, or a longer ladder where there is
// none.
func (x Series) further(best Pairing, lone bool) (Advice, bool) {
	next, burned := x.beside(best)
	says := best.Name() + " comes closest and is likely " + side(best) + " (chance on target " + chanceText(best.OnTarget) + ")"
	if lone {
		says = "Only " + best.Name() + " was burned, and it is likely " + side(best)
	}
	switch {
	case burned || x.beyondUnsafe(best.Wick.Rung+1) && best.Short >= best.Soon:
		return Advice{}, false
	case next != nil:
		return Advice{TryRung, says + ". Try " + next.Name() + "."}, true
	case best.Soon > best.Short:
		return Advice{TryRung, says + ", with no weaker wick on this ladder. Try a weaker one, or a wider vessel."}, true
	}
	return Advice{TryRung, says + ", with no stronger wick on this ladder. Try a stronger one, or a narrower vessel."}, true
}

// likelyEnough is the chance on target below which a pairing is called poor,
// however it stands among the others.
const likelyEnough = 0.5

// poor reports whether the pairing is more likely off target than on.
func (p Pairing) poor() bool { return p.OnTarget < likelyEnough }

// leans reports whether it misses clearly to one side.
func (p Pairing) leans() bool {
	return max(p.Short, p.Soon) > 2*min(p.Short, p.Soon) && p.Miss() > lopsided
}

// lopsided is the miss, in log width, from which its side is spoken of.
const lopsided = 0.02

// though says so when the closest of all is not close.
func though(p Pairing) string {
	if !p.poor() {
		return ""
	}
	return ", though likely " + side(p) + " (chance on target " + chanceText(p.OnTarget) + ")"
}

// side says to which side a pool is likely to miss.
func side(p Pairing) string {
	if p.Soon > p.Short {
		return "full too soon"
	}
	return "short of the wall"
}

// beside is the next rung towards where a pairing ought to be: up for one that
// is short of the wall, down for one that is full too soon. burned says that
// the next one was burned already; nil that there is none.
func (x Series) beside(p Pairing) (next *Pairing, burned bool) {
	up := p.Short >= p.Soon
	for _, q := range slices.Concat(x.Pairings, x.Guesses) {
		if q.Wick.Rung == p.Wick.Rung || (q.Wick.Rung > p.Wick.Rung) != up {
			continue
		}
		if next == nil || (q.Wick.Rung < next.Wick.Rung) == up {
			next = &q
		}
	}
	return next, next != nil && len(next.Rows) > 0
}

// nothingYet is advice where no pairing is ranked above the line.
func nothingYet(x Series) Advice {
	if len(x.Pairings) > 0 && !slices.ContainsFunc(x.Pairings, func(p Pairing) bool { return !p.BelowLine() }) {
		return Advice{Otherwise, "All that was burned here stands below the line. Try a wick further down the ladder, or another vessel."}
	}
	for _, p := range x.Pairings {
		if p.Slips {
			return Advice{FirstBurn, "None of these readings tells a width. Look at them again, and try a stronger wick if no pool was seen."}
		}
	}
	return Advice{FirstBurn, "Not enough yet: burn one candle and read its pool every hour, at least once before it is full."}
}

// Best is the pairing above the line with the best chance of being the
// closest; ok is false where there is none.
func (x Series) Best() (p Pairing, ok bool) { return x.best() }

// best is the pairing above the line with the best chance of being the closest.
func (x Series) best() (Pairing, bool) {
	var best Pairing
	found := false
	for _, p := range x.Pairings {
		if p.Enough() && !p.BelowLine() && (!found || p.Closest > best.Closest) {
			best, found = p, true
		}
	}
	return best, found
}

// promising is the guess that beats the best by more than its own doubt.
func (x Series) promising(best Pairing) (Pairing, bool) {
	var out Pairing
	found := false
	for _, g := range x.Guesses {
		if !x.beyondUnsafe(g.Wick.Rung) && g.Miss()+g.MissSD < best.Miss() && (!found || g.Miss() < out.Miss()) {
			out, found = g, true
		}
	}
	return out, found
}

// fullAtOnce are the pairings in the running of which at least half the burns
// were full at the first look, later than a look at half the target hour would
// have been.
func (x Series) fullAtOnce() []Pairing {
	var out []Pairing
	for _, p := range x.running() {
		half := p.Vessel.Target()/2 + meltpool.Near
		n := p.count(func(b BurnRow) bool { return b.Readings[0].Full && b.Readings[0].Hour > half })
		if n > 0 && 2*n >= p.Burns {
			out = append(out, p)
		}
	}
	return out
}

func (x Series) running() []Pairing {
	var out []Pairing
	for _, p := range x.Pairings {
		if p.Running {
			out = append(out, p)
		}
	}
	return out
}

// lacking is what a pairing needs before a verdict.
func lacking(p Pairing) string {
	var out []string
	switch n := enoughEach - p.Candles; {
	case n == 1:
		out = append(out, "one more candle")
	case n > 1:
		out = append(out, many(n, "more candle"))
	}
	if p.Ended == 0 {
		out = append(out, "one burned to the end without a hard finding")
	}
	return strings.Join(out, ", ")
}

// names lists pairings of one ladder by name: Larkspur 7 and 8.
func names(ps []Pairing) string {
	var out []string
	for i, p := range ps {
		switch {
		case i > 0 && p.Wick.Label != "":
			out = append(out, p.Wick.Label)
		default:
			out = append(out, p.Name())
		}
	}
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}

func verb(ps []Pairing) string {
	if len(ps) == 1 {
		return " is"
	}
	return " are"
}

func each(ps []Pairing) string {
	if len(ps) == 1 {
		return " of it"
	}
	return " of each"
}
