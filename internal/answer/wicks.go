package answer

import (
	"cmp"
	"slices"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/standings"
)

// State is what can be said of the wicks in one vessel and setting.
type State string

// The states.
const (
	NotYet   State = "not yet"   // no burn tells anything, or only of one of several
	Running  State = "running"   // several may be the closest
	SoFar    State = "so far"    // one is the closest of those burned; others were not burned yet
	Closest  State = "closest"   // one is, with a chance of standings.SureEnough or more
	Lone     State = "lone"      // only one was planned: there is nothing to compare it with
	AllBelow State = "all below" // a hard finding stands against every one that was burned
)

// WickAnswer is what the round says of the wicks in one vessel and setting.
type WickAnswer struct {
	Vessel   journal.ID
	Settings []standings.Setting // empty while nothing was burned
	Target   quantity.Hours      // 0 while nothing was burned
	State    State
	Standing []Choice            // above the line, likeliest to be the closest first
	Below    []standings.Pairing // a hard finding stands against them
	Waiting  []journal.RoundWick // planned, and no burn tells of them yet
	// CandlesLeft have burns to come, BurnsLeft together; where candles burn to
	// their end, CandlesLeft are those that have not and BurnsLeft is 0.
	CandlesLeft, BurnsLeft int
}

// Choice is a pairing of the round with its chance of being the closest of
// those of the round that stand above the line.
type Choice struct {
	standings.Pairing
	Setting string // names the fragrance and load it is judged within
	Chance  float64
}

// Best is the likeliest to be the closest; false where nothing stands above
// the line.
func (w WickAnswer) Best() (Choice, bool) {
	if len(w.Standing) == 0 {
		return Choice{}, false
	}
	return w.Standing[0], true
}

// InRunning are the fewest whose chances come to standings.SureEnough.
func (w WickAnswer) InRunning() []Choice {
	sum := 0.0
	for i, c := range w.Standing {
		if sum += c.Chance; sum >= standings.SureEnough {
			return w.Standing[:i+1]
		}
	}
	return w.Standing
}

// wickAnswers answers for each vessel and setting of the round: those that
// were burned first, then vessels that nothing was burned in.
func wickAnswers(p plan.RoundProgress, t standings.Table) []WickAnswer {
	var out []WickAnswer
	told := map[journal.ID]bool{}
	for _, g := range t.Groups {
		if places := placesOf(p, g); len(places) > 0 {
			told[g.Vessel.ID] = true
			out = append(out, wickAnswer(places, g))
		}
	}
	for _, x := range p.Places {
		if v := x.Place.Vessel; !told[v] {
			told[v] = true
			w := WickAnswer{Vessel: v}
			w.wait(inVessel(p.Places, v))
			w.settle()
			out = append(out, w)
		}
	}
	return out
}

// placesOf are the places of the round that a group answers for: those of its
// vessel whose load is planned as that of any of its candles.
func placesOf(p plan.RoundProgress, g standings.Group) []plan.PlaceProgress {
	burned := map[journal.ID]bool{}
	for _, s := range g.Series {
		for _, x := range s.Pairings {
			for _, id := range x.CandleIDs() {
				burned[id] = true
			}
		}
	}
	here := inVessel(p.Places, g.Vessel.ID)
	loads := map[float64]bool{}
	for _, x := range here {
		if x.Candle != nil && burned[x.Candle.Candle.ID] {
			loads[loadOf(x.Place)] = true
		}
	}
	return slices.DeleteFunc(here, func(x plan.PlaceProgress) bool { return !loads[loadOf(x.Place)] })
}

func inVessel(ps []plan.PlaceProgress, v journal.ID) []plan.PlaceProgress {
	return slices.DeleteFunc(slices.Clone(ps), func(x plan.PlaceProgress) bool { return x.Place.Vessel != v })
}

// loadOf is the planned load; that of a candle without fragrance is nothing.
func loadOf(p journal.RoundPlace) float64 {
	if p.Load == nil {
		return 0
	}
	return float64(*p.Load)
}

func wickAnswer(places []plan.PlaceProgress, g standings.Group) WickAnswer {
	w := WickAnswer{Vessel: g.Vessel.ID, Settings: g.Settings, Target: g.Target}
	planned := wicksOf(places)
	for _, s := range g.Series {
		for _, x := range s.Pairings {
			switch wick := (journal.RoundWick{Wick: x.Wick.ID, Wicks: x.Wicks}); {
			case !slices.Contains(planned, wick):
			case x.BelowLine():
				w.Below = append(w.Below, x)
			case x.Enough():
				w.Standing = append(w.Standing, Choice{Pairing: x, Setting: s.Setting, Chance: chanceOf(g, x)})
			}
		}
	}
	w.share()
	w.wait(places)
	w.settle()
	return w
}

// chanceOf is a pairing's chance of being the closest of its group.
func chanceOf(g standings.Group, p standings.Pairing) float64 {
	if len(g.Series) == 1 {
		return p.Closest
	}
	for _, c := range g.Across {
		if c.Wick == p.Wick.ID && c.Wicks == p.Wicks {
			return c.Chance
		}
	}
	return 0
}

// toOne scales the chances of a list so that they add up to one; where all are
// nothing they stay.
func toOne[T any](list []T, chance func(*T) *float64) {
	sum := 0.0
	for i := range list {
		sum += *chance(&list[i])
	}
	for i := range list {
		if sum > 0 {
			*chance(&list[i]) /= sum
		}
	}
}

// share makes the chances of all above the line add up to one, as the
// standings do.
func (w *WickAnswer) share() {
	toOne(w.Standing, func(c *Choice) *float64 { return &c.Chance })
	slices.SortStableFunc(w.Standing, func(a, b Choice) int {
		return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.Miss(), b.Miss()), cmp.Compare(a.Wick.Rung, b.Wick.Rung), cmp.Compare(a.Wick.ID, b.Wick.ID))
	})
}

// wait counts what is still to come.
func (w *WickAnswer) wait(places []plan.PlaceProgress) {
	for _, wick := range wicksOf(places) {
		if !w.knows(wick) {
			w.Waiting = append(w.Waiting, wick)
		}
	}
	for _, x := range places {
		if x.Stage != plan.Burned && x.Stage != plan.Ended {
			w.CandlesLeft++
		}
		w.BurnsLeft += x.Left()
	}
}

// knows reports whether any burn tells of a wick, or condemns it.
func (w *WickAnswer) knows(wick journal.RoundWick) bool {
	is := func(p standings.Pairing) bool { return p.Wick.ID == wick.Wick && p.Wicks == wick.Wicks }
	return slices.ContainsFunc(w.Below, is) || slices.ContainsFunc(w.Standing, func(c Choice) bool { return is(c.Pairing) })
}

// settle says what all of it comes to.
func (w *WickAnswer) settle() {
	best, any := w.Best()
	switch sure := any && best.Chance >= standings.SureEnough; {
	case !any && len(w.Below) > 0 && len(w.Waiting) == 0:
		w.State = AllBelow
	case !any:
		w.State = NotYet
	case len(w.Standing)+len(w.Below)+len(w.Waiting) == 1:
		w.State = Lone
	case len(w.Standing)+len(w.Below) == 1:
		w.State = NotYet
	case sure && len(w.Waiting) > 0:
		w.State = SoFar
	case sure:
		w.State = Closest
	default:
		w.State = Running
	}
}

// wicksOf lists the planned wicks, each once, in the order of the places'
// wicks.
func wicksOf(places []plan.PlaceProgress) []journal.RoundWick {
	var out []journal.RoundWick
	for _, x := range places {
		if w := (journal.RoundWick{Wick: x.Place.Wick, Wicks: x.Place.Wicks}); !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	slices.SortFunc(out, func(a, b journal.RoundWick) int {
		return cmp.Or(cmp.Compare(a.Wick, b.Wick), cmp.Compare(a.Wicks, b.Wicks))
	})
	return out
}
