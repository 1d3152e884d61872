package plan

import (
	"cmp"
	"math"
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Stage is how far one place of a round has come.
type Stage string

// The stages in the order a place passes them.
const (
	ToPour  Stage = "to pour"
	Sets    Stage = "setting" // under a day old
	Cures   Stage = "curing"
	CanBurn Stage = "ready" // set and cured, never burned
	IsLit   Stage = "lit"
	Rests   Stage = "resting" // burned, with burns still wanted
	Burned  Stage = "burned"  // as often as the round wants
	Ended   Stage = "spent"   // to the end, whatever was wanted
)

// Stages lists the stages in the order a place passes them.
var Stages = []Stage{ToPour, Sets, Cures, CanBurn, IsLit, Rests, Burned, Ended}

// RoundProgress is how far a round has come at one moment.
type RoundProgress struct {
	Places []PlaceProgress // in the round's order
	Stages []StageCount    // of the stages that some place is at, in their order
	// BurnsDone counts the burns that the round wanted and that are over;
	// BurnsWanted those of all its places. Where its candles are burned to
	// their end, both are 0 and ToTheEnd is set.
	BurnsDone, BurnsWanted int
	ToTheEnd               bool
	Burns                  int // that are over, wanted or not
	// Astray are candles of the round that stand at none of its places, or at
	// one that a newer candle took.
	Astray []journal.CandleLine
}

// Unpoured are the places that have no candle yet: all of them while a round is
// not kept, which is what nil stands for.
func (p *RoundProgress) Unpoured(places []journal.RoundPlace) []journal.RoundPlace {
	if p == nil {
		return places
	}
	var out []journal.RoundPlace
	for _, x := range p.Places {
		if x.Candle == nil {
			out = append(out, x.Place)
		}
	}
	return out
}

// PlaceProgress is one place of a round with the candle that took it.
type PlaceProgress struct {
	Place   journal.RoundPlace
	Candle  *journal.CandleLine // the newest that was not withdrawn; nil while it is to be poured
	Stage   Stage
	ReadyAt time.Time   // set and cured; zero while it is to be poured
	Done    int         // burns that are over
	Wanted  int         // 0 where it is burned to its end
	Differs []Departure // from what was planned
}

// Left is how many of the wanted burns are still to come.
func (p PlaceProgress) Left() int {
	if p.Stage == Ended {
		return 0
	}
	return max(0, p.Wanted-p.Done)
}

// StageCount is how many places are at a stage.
type StageCount struct {
	Stage  Stage
	Places int
}

// Matter is what a candle can be different in from what was planned.
type Matter string

// What can be different.
const (
	OtherVessel Matter = "vessel"
	OtherWick   Matter = "wick"
	OtherCount  Matter = "wicks"     // another number of them
	OtherWax    Matter = "wax"       // than the round's
	OtherOil    Matter = "fragrance" // than the round's
	OtherLoad   Matter = "load"
	OtherPourAt Matter = "pour temperature"
)

// Departure is one thing in which a candle is not what was planned. The
// numbers are shares on the round's basis for OtherLoad, °C for OtherPourAt
// and wicks for OtherCount, and 0 for all else.
type Departure struct {
	Matter          Matter
	Planned, Actual float64
}

const (
	// loadAlike is how far apart two loads may lie and still be one: a tenth of
	// a percentage point (chosen by us, as in comparisons).
	loadAlike = 0.001
	// pourAlike is a step of a kitchen thermometer, °C (chosen by us).
	pourAlike = 1.0
)

// Progress is how far a round has come. lines are its candles, withdrawn ones
// too; pours are what they were poured from, by their ID: where one is missing,
// nothing is said of load and temperature. The order of the lines does not
// matter.
func Progress(r journal.TestRound, lines []journal.CandleLine, pours map[journal.ID]journal.Pour, now time.Time) RoundProgress {
	p := RoundProgress{ToTheEnd: r.Days.Burns == 0}
	taken, astray := taking(r, lines)
	p.Astray = astray
	counts := map[Stage]int{}
	for _, place := range r.Places {
		x := placeProgress(r, place, taken[place.Number], pours, now)
		counts[x.Stage]++
		p.Burns, p.BurnsWanted = p.Burns+x.Done, p.BurnsWanted+x.Wanted
		p.BurnsDone += min(x.Done, x.Wanted)
		p.Places = append(p.Places, x)
	}
	for _, s := range Stages {
		if counts[s] > 0 {
			p.Stages = append(p.Stages, StageCount{s, counts[s]})
		}
	}
	return p
}

// At is how many places are at a stage.
func (p RoundProgress) At(s Stage) int {
	for _, c := range p.Stages {
		if c.Stage == s {
			return c.Places
		}
	}
	return 0
}

// Left is how many of the wanted burns are still to come.
func (p RoundProgress) Left() int {
	n := 0
	for _, x := range p.Places {
		n += x.Left()
	}
	return n
}

// Poured is how many places have a candle.
func (p RoundProgress) Poured() int { return len(p.Places) - p.At(ToPour) }

// Complete reports whether nothing that was planned is left to do.
func (p RoundProgress) Complete() bool {
	return len(p.Places) > 0 && p.At(Burned)+p.At(Ended) == len(p.Places)
}

// taking gives every place the newest candle that was not withdrawn.
func taking(r journal.TestRound, lines []journal.CandleLine) (map[int]*journal.CandleLine, []journal.CandleLine) {
	known := map[int]bool{}
	for _, place := range r.Places {
		known[place.Number] = true
	}
	lines = slices.Clone(lines)
	slices.SortStableFunc(lines, func(a, b journal.CandleLine) int { return cmp.Compare(b.Candle.ID, a.Candle.ID) })
	taken := map[int]*journal.CandleLine{}
	var astray []journal.CandleLine
	for i, l := range lines {
		n := l.Candle.RoundPlace
		switch {
		case l.Life.Gone:
		case known[n] && taken[n] == nil:
			taken[n] = &lines[i]
		default:
			astray = append(astray, l)
		}
	}
	slices.SortStableFunc(astray, func(a, b journal.CandleLine) int { return compareCandles(a.Candle, b.Candle) })
	return taken, astray
}

func placeProgress(r journal.TestRound, place journal.RoundPlace, l *journal.CandleLine, pours map[journal.ID]journal.Pour, now time.Time) PlaceProgress {
	x := PlaceProgress{Place: place, Candle: l, Stage: ToPour, Wanted: r.Days.Burns}
	if l == nil {
		return x
	}
	x.ReadyAt, x.Done = l.Life.ReadyAt(), l.Life.Burns
	if l.Life.Lit {
		x.Done--
	}
	x.Stage = stageOf(*l, x, now)
	x.Differs = departures(place, l.Candle)
	if pour, ok := pours[l.Candle.Pour]; ok {
		x.Differs = append(x.Differs, pourDepartures(r, place, pour)...)
	}
	return x
}

func stageOf(l journal.CandleLine, x PlaceProgress, now time.Time) Stage {
	switch l.Life.StateAt(now) {
	case journal.Setting:
		return Sets
	case journal.Curing:
		return Cures
	case journal.Ready:
		return CanBurn
	case journal.LitNow:
		return IsLit
	case journal.IsSpent:
		return Ended
	}
	if x.Wanted > 0 && x.Done >= x.Wanted {
		return Burned
	}
	return Rests
}

// departures are those of the candle itself.
func departures(place journal.RoundPlace, c journal.Candle) []Departure {
	var out []Departure
	if c.Vessel != place.Vessel {
		out = append(out, Departure{Matter: OtherVessel})
	}
	if c.Wick != place.Wick {
		out = append(out, Departure{Matter: OtherWick})
	}
	if c.Wicks != place.Wicks {
		out = append(out, Departure{OtherCount, float64(place.Wicks), float64(c.Wicks)})
	}
	return out
}

// pourDepartures are those of the pour that the candle came from. What was not
// noted of the pour is not called different.
func pourDepartures(r journal.TestRound, place journal.RoundPlace, p journal.Pour) []Departure {
	var out []Departure
	if p.Wax != r.Wax {
		out = append(out, Departure{Matter: OtherWax})
	}
	if fragranceOf(p.Fragrance) != fragranceOf(r.Fragrance) {
		out = append(out, Departure{Matter: OtherOil})
	}
	if load := p.LoadOn(r.Factors.LoadBasis); load != nil && place.Load != nil && farApart(*load, *place.Load, loadAlike) {
		out = append(out, Departure{OtherLoad, float64(*place.Load), float64(*load)})
	}
	if p.PouredAt != nil && place.PourAt != nil && farApart(*p.PouredAt, *place.PourAt, pourAlike) {
		out = append(out, Departure{OtherPourAt, float64(*place.PourAt), float64(*p.PouredAt)})
	}
	return out
}

func fragranceOf(id *journal.ID) journal.ID {
	if id == nil {
		return 0
	}
	return *id
}

func farApart[T quantity.Fraction | quantity.Celsius](a, b T, alike float64) bool {
	return math.Abs(float64(a-b)) > alike+float64(hair)
}
