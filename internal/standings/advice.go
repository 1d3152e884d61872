package standings

import (
	"strings"

	"rimward/internal/meltpool"
)

// Step is a kind of advice.
type Step string

// What can be tried next.
const (
	Settled    Step = "settled"    // one pairing is the closest, with what a verdict needs
	Confirm    Step = "confirm"    // one is the closest; a verdict needs more of it
	TryRung    Step = "try"        // a rung that was not burned promises more
	LookEarly  Step = "look early" // pools were full at the first look
	OneMore    Step = "one more"   // another candle of those in the running
	FirstBurn  Step = "first burn" // nothing can be said yet
	Otherwise  Step = "otherwise"  // all that was tried stands below the line
	enoughEach      = 3            // candles of a pairing before a verdict
)

// Advice is what to try next in a series, with the reason.
type Advice struct {
	Step Step
	Text string
	For  []Pairing // whom it is about
}

// advise says what to try next.
func advise(x Series) Advice {
	best, ok := x.best()
	if !ok {
		return nothingYet(x)
	}
	lone := x.Tested() == 1
	if best.Closest >= SureEnough && best.Candles >= enoughEach && best.Ended > 0 && !(lone && best.OnTarget < likelyEnough) {
		return Advice{Settled, "Settled: " + best.Name() + " is the closest (chance " + chanceText(best.Closest) + "), with " + many(best.Candles, "candle") +
			" and one burned to the end without a hard finding. Time for a verdict.", []Pairing{best}}
	}
	if g, ok := x.promising(best); ok {
		return Advice{TryRung, "Try " + g.Name() + ": it was not burned, but its neighbours make it likely to come closer than " + best.Name() +
			" (closeness about " + closenessText(g) + " against " + closenessText(best) + ").", []Pairing{g}}
	}
	if g, ok := x.beside(best); ok && lone && best.OnTarget < likelyEnough {
		return Advice{TryRung, "Only " + best.Name() + " was burned, and it is likely " + side(best) + ". Try " + g.Name() + ": two rungs say more than another candle of one.", []Pairing{g}}
	}
	if early := x.fullAtOnce(); len(early) > 0 {
		return Advice{LookEarly, "Look earlier: the pools of " + names(early) + " were full at the first look. Another burn with a check at " +
			(best.Vessel.Target() / 2).Clock() + ", half the target hour, tells more than another candle.", early}
	}
	if best.Closest >= SureEnough && !lone {
		return Advice{Confirm, best.Name() + " is the closest (chance " + chanceText(best.Closest) + ")" + poor(best) + ". Before a verdict: " + lacking(best) + ".", []Pairing{best}}
	}
	in := x.running()
	if lone {
		return Advice{OneMore, "Only " + best.Name() + " was burned, so there is nothing to compare it with yet. One more candle of it, or of a rung beside it, would tell most.", in}
	}
	return Advice{OneMore, names(in) + verb(in) + " still in the running. One more candle" + each(in) + " would tell most.", in}
}

// likelyEnough is the chance on target below which a pairing is called poor,
// however it stands among the others.
const likelyEnough = 0.5

// poor says so when the closest of all is not close.
func poor(p Pairing) string {
	if p.OnTarget >= likelyEnough {
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

// beside is the guess one step towards where a pairing ought to be: the next
// rung up for one that is short of the wall, the next down for one that is
// full too soon.
func (x Series) beside(p Pairing) (out Pairing, ok bool) {
	for _, g := range x.Guesses {
		up := g.Wick.Rung > p.Wick.Rung
		if up != (p.Short >= p.Soon) {
			continue
		}
		if !ok || (g.Wick.Rung < out.Wick.Rung) == up {
			out, ok = g, true
		}
	}
	return out, ok
}

// nothingYet is advice where no pairing is ranked above the line.
func nothingYet(x Series) Advice {
	for _, p := range x.Pairings {
		if p.BelowLine() {
			return Advice{Otherwise, "All that was burned here stands below the line. Try a wick further down the ladder, or another vessel.", nil}
		}
	}
	return Advice{FirstBurn, "Not enough yet: burn one candle and read its pool every hour, at least once before it is full.", nil}
}

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
		if g.Miss()+g.MissSD < best.Miss() && (!found || g.Miss() < out.Miss()) {
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
