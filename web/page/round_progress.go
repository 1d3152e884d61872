package page

import (
	"math"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
)

// RoundProgressPart is how far a round has come.
type RoundProgressPart struct {
	Lede   string
	Burned bool // a burn of one of its candles is over
	Stages []RoundStage
	Places []RoundPlaceRow
	Folded string   // what is folded away, where the places are many; "" shows them
	Astray []string // candles of the round that took none of its places
}

// RoundStage is a stage with how many places are at it.
type RoundStage struct {
	Count, Name, Class string
}

// RoundPlaceRow is one place with the candle that took it.
type RoundPlaceRow struct {
	Number, Melt string
	What         string // vessel and wick as planned
	More         string // load and pour temperature as planned, where there are any
	Code, Href   string // of its candle; "" while it is to be poured
	Stage, Class string
	When         string // a day or how many burns
	Differs      []string
}

// manyPlaces is from how many places on they are folded away.
const manyPlaces = 24

// stageClasses name how a stage is drawn.
var stageClasses = map[plan.Stage]string{plan.ToPour: "rs-pour", plan.Sets: "rs-wait", plan.Cures: "rs-wait", plan.CanBurn: "rs-ready",
	plan.IsLit: "rs-lit", plan.Rests: "rs-rest", plan.Burned: "rs-done", plan.Ended: "rs-done"}

// NewRoundProgress puts a round's progress into words.
func NewRoundProgress(p plan.RoundProgress, r journal.TestRound, sh Shelves, v View) RoundProgressPart {
	out := RoundProgressPart{Lede: progressLede(p), Burned: p.Burns > 0}
	for _, s := range p.Stages {
		out.Stages = append(out.Stages, RoundStage{strconv.Itoa(s.Places), string(s.Stage), stageClasses[s.Stage]})
	}
	for _, x := range p.Places {
		out.Places = append(out.Places, roundPlaceRow(x, r, sh, v))
	}
	if len(p.Places) > manyPlaces {
		out.Folded = "All " + strconv.Itoa(len(p.Places)) + " places"
	}
	for _, l := range p.Astray {
		out.Astray = append(out.Astray, l.Candle.Code()+" belongs to this round but took none of its places: it does not count towards the plan.")
	}
	return out
}

func progressLede(p plan.RoundProgress) string {
	out := strconv.Itoa(p.Poured()) + " of " + figured(len(p.Places), "candle is", "candles are") + " poured"
	switch {
	case p.ToTheEnd:
		out += "; " + figured(p.At(plan.Ended), "is", "are") + " burned to the end, as all of them are to be"
	case p.BurnsWanted > 0:
		out += "; " + strconv.Itoa(p.BurnsDone) + " of " + figured(p.BurnsWanted, "burn is", "burns are") + " over"
	}
	if n := p.Burns - p.BurnsDone; !p.ToTheEnd && n > 0 {
		out += ", and " + counted(n, "burn", "burns") + " more than were wanted"
	}
	if p.Complete() {
		out += ". Nothing that was planned is left to do"
	}
	return out + "."
}

func roundPlaceRow(x plan.PlaceProgress, r journal.TestRound, sh Shelves, v View) RoundPlaceRow {
	row := RoundPlaceRow{Number: strconv.Itoa(x.Place.Number), Melt: "melt " + strconv.Itoa(x.Place.Melt),
		What: vesselName(sh, x.Place.Vessel) + " · " + wickCount(x.Place.Wicks) + wickNamed(sh, x.Place.Wick),
		More: cellMore(x.Place, r, v), Stage: string(x.Stage), Class: stageClasses[x.Stage], When: placeWhen(x, v)}
	if x.Candle != nil {
		row.Code, row.Href = x.Candle.Candle.Code(), "/candles/"+idText(x.Candle.Candle.ID)
	}
	for _, d := range x.Differs {
		row.Differs = append(row.Differs, departureText(d, *x.Candle, r, v))
	}
	return row
}

// wickNamed is a wick as makers say it: its ladder and its label.
func wickNamed(sh Shelves, id journal.ID) string {
	for _, w := range sh.Wicks {
		if w.ID == id {
			return joinWords(nameOf(sh.Ladders, w.Ladder, func(x journal.Ladder) (journal.ID, string) { return x.ID, x.Name }), w.Label)
		}
	}
	return "wick " + idText(id)
}

// cellMore is what else a place is planned with.
func cellMore(p journal.RoundPlace, r journal.TestRound, v View) string {
	load, at := "", ""
	if p.Load != nil {
		load = loadShown(*p.Load, r.Factors.LoadBasis).String()
	}
	if p.PourAt != nil {
		at = "poured at " + v.temperature(*p.PourAt).String()
	}
	return joinBy(" · ", load, at)
}

// placeWhen is the day that a place waits for, or how many burns it has had.
func placeWhen(x plan.PlaceProgress, v View) string {
	switch x.Stage {
	case plan.ToPour:
		return ""
	case plan.Sets, plan.Cures:
		return "ready " + v.Day(x.ReadyAt)
	case plan.CanBurn:
		return "since " + v.Day(x.ReadyAt)
	}
	if x.Wanted == 0 {
		return figured(x.Done, "burn", "burns")
	}
	return strconv.Itoa(x.Done) + " of " + figured(x.Wanted, "burn", "burns")
}

// departureText says in what a candle is not what was planned.
func departureText(d plan.Departure, l journal.CandleLine, r journal.TestRound, v View) string {
	switch d.Matter {
	case plan.OtherVessel:
		return "it stands in " + l.VesselName
	case plan.OtherWick:
		return "its wick is " + l.WickName
	case plan.OtherCount:
		return "it has " + counted(int(math.Round(d.Actual)), "wick", "wicks") + ", not " + strconv.Itoa(int(math.Round(d.Planned)))
	case plan.OtherWax:
		return "it is of " + l.WaxName
	case plan.OtherOil:
		return "its fragrance is another"
	case plan.OtherLoad:
		return "its load is " + loadShown(quantity.Fraction(d.Actual), r.Factors.LoadBasis).String()
	}
	return "it was poured at " + v.temperature(quantity.Celsius(d.Actual)).String()
}
