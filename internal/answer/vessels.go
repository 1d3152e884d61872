package answer

import (
	"cmp"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/standings"
)

// VesselAnswer is what a round says of the vessels that it compares: in which
// of them the best of its candles come closest to a full pool at the target
// hour, each vessel by its own wall and its own hour.
type VesselAnswer struct {
	State    State          // never Lone
	Standing []VesselChoice // with a pairing above the line, likeliest first
	Below    []journal.ID   // a hard finding stands against everything that was burned in them
	Waiting  []journal.ID   // something is planned in them that no burn tells of yet
	// CandlesLeft and BurnsLeft are as those of a WickAnswer.
	CandlesLeft, BurnsLeft int
}

// VesselChoice is a vessel with its chance of holding the closest pairing.
type VesselChoice struct {
	Vessel journal.ID
	Best   Choice // the likeliest of its pairings; Chance is as in the answer about its wicks
	Chance float64
}

// vesselAnswer compares the vessels of a round; nil where it has only one. The
// chances are those of the table's Between, over what is planned and stands
// above the line.
func vesselAnswer(wicks []WickAnswer, p plan.RoundProgress, t standings.Table) *VesselAnswer {
	vessels := vesselsOf(p)
	if len(vessels) < 2 {
		return nil
	}
	a := &VesselAnswer{}
	for _, v := range vessels {
		a.add(v, slices.DeleteFunc(slices.Clone(wicks), func(w WickAnswer) bool { return w.Vessel != v }), t)
	}
	a.share()
	a.settle()
	return a
}

// vesselsOf are the planned vessels in order.
func vesselsOf(p plan.RoundProgress) []journal.ID {
	var out []journal.ID
	for _, x := range p.Places {
		if !slices.Contains(out, x.Place.Vessel) {
			out = append(out, x.Place.Vessel)
		}
	}
	slices.Sort(out)
	return out
}

// add takes up a vessel with what is said of the wicks in it.
func (a *VesselAnswer) add(v journal.ID, wicks []WickAnswer, t standings.Table) {
	choice, below, waiting := VesselChoice{Vessel: v}, false, false
	best := -1.0
	for _, w := range wicks {
		a.CandlesLeft, a.BurnsLeft = a.CandlesLeft+w.CandlesLeft, a.BurnsLeft+w.BurnsLeft
		below, waiting = below || len(w.Below) > 0, waiting || len(w.Waiting) > 0
		for _, c := range w.Standing {
			chance := between(v, c, t)
			if choice.Chance += chance; chance > best {
				best, choice.Best = chance, c
			}
		}
	}
	if waiting {
		a.Waiting = append(a.Waiting, v)
	}
	switch {
	case best >= 0:
		a.Standing = append(a.Standing, choice)
	case below && !waiting:
		a.Below = append(a.Below, v)
	}
}

// between is a pairing's chance of being the closest of all, over the settings
// that it was burned in.
func between(v journal.ID, c Choice, t standings.Table) float64 {
	sum := 0.0
	for _, b := range t.Between {
		if b.Vessel == v && b.Wick == c.Wick.ID && b.Wicks == c.Wicks && b.Setting == c.Setting {
			sum += b.Chance
		}
	}
	return sum
}

// share makes the chances add up to one.
func (a *VesselAnswer) share() {
	toOne(a.Standing, func(c *VesselChoice) *float64 { return &c.Chance })
	slices.SortStableFunc(a.Standing, func(a, b VesselChoice) int {
		return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.Best.Miss(), b.Best.Miss()), cmp.Compare(a.Vessel, b.Vessel))
	})
}

// InRunning are the fewest vessels whose chances come to standings.SureEnough.
func (a VesselAnswer) InRunning() []VesselChoice {
	sum := 0.0
	for i, c := range a.Standing {
		if sum += c.Chance; sum >= standings.SureEnough {
			return a.Standing[:i+1]
		}
	}
	return a.Standing
}

// settle says what all of it comes to.
func (a *VesselAnswer) settle() {
	n := len(a.Standing)
	switch sure := n > 0 && a.Standing[0].Chance >= standings.SureEnough; {
	case n == 0 && len(a.Below) > 0 && len(a.Waiting) == 0:
		a.State = AllBelow
	case n == 0 || n+len(a.Below) == 1:
		a.State = NotYet
	case sure && len(a.Waiting) > 0:
		a.State = SoFar
	case sure:
		a.State = Closest
	default:
		a.State = Running
	}
}
