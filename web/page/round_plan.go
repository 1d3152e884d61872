package page

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	advice "rimward/internal/guide"
	"rimward/internal/journal"
	"rimward/internal/needs"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/web/ui"
)

// RoundPlan is what a round comes to: its order, what it takes, its days, and
// what it can tell.
type RoundPlan struct {
	Question  string
	Facts     []ui.Fact
	Warnings  []ui.Warning
	Problems  []string
	Setting   bool // the rows say a load or a pour temperature
	Rows      []RoundOrderRow
	Needs     []NeedRow // none once everything is poured
	NeedNote  string
	NeedTitle string
	Asks      []string
	Tells     []string
	TellNote  string
	Calendar  CalendarPart
}

// RoundOrderRow is one place of the order of pouring.
type RoundOrderRow struct {
	Number, What, Setting, Melt, Bench, Evening string
	NewMelt                                     bool // another melt begins here
}

// NeedRow is something that a round takes from the shelf.
type NeedRow struct {
	What, Href, Needed, Shelf, Short, Doubt string
}

// RoundInput is what a plan is shown from.
type RoundInput struct {
	Round    journal.TestRound
	Needs    needs.Needs // of all its places
	Ahead    needs.Needs // of those that are still to be poured
	Effort   plan.Effort
	Calendar plan.Calendar
	Progress *plan.RoundProgress // nil while it is not kept
	Warnings []plan.Warning
	Lasting  needs.Lasting // of candles that burn until they are spent
}

// NewRoundPlan builds the plan.
func NewRoundPlan(in RoundInput, k Known, v View) RoundPlan {
	r := in.Round
	p := RoundPlan{Question: r.Question, Facts: planFacts(in, k, v), Setting: len(r.Factors.Loads)+len(r.Factors.PourAts) > 0}
	p.Warnings = loadsOver(r, k)
	for _, w := range in.Warnings {
		p.Warnings = append(p.Warnings, ui.Warning{Text: w.Says})
	}
	for i, x := range r.Places {
		row := orderRow(x, r, k, v)
		row.NewMelt = i > 0 && r.Places[i-1].Melt != x.Melt
		p.Rows = append(p.Rows, row)
	}
	p.NeedTitle = "What it takes"
	if len(in.Ahead.Melts) > 0 {
		p.Needs, p.Asks = needRows(in, k, v), in.Ahead.Asks
		p.NeedNote = "To the fill line, without spare and without what stays in the jug: the pour sheet of each melt adds them."
	}
	if left := in.Progress.Unpoured(r.Places); len(left) < len(r.Places) {
		p.NeedTitle = "What it still takes"
		p.NeedNote = joinWords("For the "+counted(len(left), "candle", "candles")+" still to be poured.", p.NeedNote)
	}
	p.Calendar = newCalendarPart(in.Calendar, placeNamer(in.Progress), v)
	return p
}

// loadsOver warn of every load above the most that wax and fragrance are said
// to take.
func loadsOver(r journal.TestRound, k Known) []ui.Warning {
	if r.Fragrance == nil {
		return nil
	}
	var out []ui.Warning
	most := advice.Most(k.waxes[r.Wax], k.fragrances[*r.Fragrance], r.Factors.LoadBasis)
	for _, load := range r.Factors.Loads {
		if most.Guide.High != nil && load-*most.Guide.High > advice.Hair {
			out = append(out, ui.Warning{Text: overMost(loadShown(load, most.Basis).String(), most)})
		}
	}
	return out
}

// planFacts count what the round takes.
func planFacts(in RoundInput, k Known, v View) []ui.Fact {
	var f factList
	r, e := in.Round, in.Effort
	cells := len(plan.Cells(r.Factors))
	f = append(f, ui.Fact{Label: "Candles", Text: strconv.Itoa(len(r.Places)), More: capital(counted(cells, "cell", "cells")) + ", " + counted(r.Copies, "candle", "candles") + " of each"})
	f = append(f, ui.Fact{Label: "Melts", Text: strconv.Itoa(e.Melts), More: "wax " + k.waxName(r.Wax) + roundOil(r, k)})
	if e.Known {
		f = append(f, ui.Fact{Label: "Evenings", Text: "at least " + strconv.Itoa(e.Evenings), More: figured(e.Sittings, "sitting", "sittings") + ", " + e.BenchHours.Clock() + " beside the candles"})
		f = append(f, ui.Fact{Label: "Burning", Text: hoursText(float64(e.CandleHours)), More: "all candles together, " + burnsText(r, e, in.Lasting)})
	} else {
		f = append(f, ui.Fact{Label: "Evenings", Text: "not known", More: "Until spent, and no candle was spent in this vessel yet: say a number of burns to see the evenings."})
	}
	f = append(f, ui.Fact{Label: "Draw", Text: strconv.FormatInt(r.Seed, 10), More: "this number draws the same order again"})
	return f
}

func roundOil(r journal.TestRound, k Known) string {
	if r.Fragrance == nil {
		return ", no fragrance"
	}
	return ", " + k.fragranceName(r.Fragrance)
}

func burnsText(r journal.TestRound, e plan.Effort, l needs.Lasting) string {
	if r.Days.Burns > 0 {
		return figured(r.Days.Burns, "burn", "burns") + " each"
	}
	like := "in the same vessel"
	if l.Alike {
		like = "with the same wicks"
	}
	return "about " + figured(e.Burns, "burn", "burns") + " each until spent, as " + counted(l.Candles, "candle", "candles") + " " + like + " were"
}

func orderRow(x journal.RoundPlace, r journal.TestRound, k Known, v View) RoundOrderRow {
	return RoundOrderRow{Number: strconv.Itoa(x.Number), What: k.vesselName(x.Vessel) + " · " + wickCount(x.Wicks) + k.WickName(x.Wick),
		Setting: placeSetting(x, r.Factors.LoadBasis, v), Melt: strconv.Itoa(x.Melt), Bench: strconv.Itoa(x.Bench), Evening: strconv.Itoa(x.Evening)}
}

// placeSetting says at which load and temperature a candle is poured.
func placeSetting(x journal.RoundPlace, b journal.Basis, v View) string {
	var parts []string
	if x.Load != nil {
		parts = append(parts, loadShown(*x.Load, b).String())
	}
	if x.PourAt != nil {
		parts = append(parts, "poured at "+v.temperature(*x.PourAt).String())
	}
	return strings.Join(parts, " · ")
}

// needRows are what the round takes, what is short of it named.
func needRows(in RoundInput, k Known, v View) []NeedRow {
	r, n := in.Round, in.Ahead
	rows := []NeedRow{massNeed(k.waxName(r.Wax), "/shelf/waxes/"+idText(r.Wax), n.Wax, v)}
	if r.Fragrance != nil {
		rows = append(rows, massNeed(k.fragranceName(r.Fragrance), "/shelf/fragrances/"+idText(*r.Fragrance), n.Oil, v))
	}
	for _, x := range n.Vessels {
		rows = append(rows, pieceNeed(k.vesselName(x.ID), "/shelf/vessels/"+idText(x.ID), x.Need, v))
	}
	for _, x := range k.upTheLadder(n.Wicks) {
		rows = append(rows, pieceNeed(k.WickName(x.ID), "/shelf/ladders/"+idText(k.wicks[x.ID].Ladder), x.Need, v))
	}
	return rows
}

// upTheLadder are wicks in the order of their rungs.
func (k Known) upTheLadder(wicks []needs.Piece) []needs.Piece {
	return slices.SortedStableFunc(slices.Values(wicks), func(a, b needs.Piece) int {
		x, y := k.wicks[a.ID], k.wicks[b.ID]
		return cmp.Or(cmp.Compare(x.Ladder, y.Ladder), cmp.Compare(x.Rung, y.Rung))
	})
}

func massNeed(name, href string, n needs.Need[quantity.Grams], v View) NeedRow {
	row := NeedRow{What: name, Href: href, Needed: "not known", Shelf: massOnShelf(n.Stock, n.Taken, v)}
	if n.Known {
		row.Needed = v.mass(n.Amount).String()
		l := massLack(n.Amount, n.Stock, n.Taken, v)
		row.Short, row.Doubt = l.short, l.doubt
	}
	return row
}

const notCounted = "not counted"

func pieceNeed(name, href string, n needs.Need[int], v View) NeedRow {
	l := pieceLack(n.Amount, n.Stock, n.Taken)
	return NeedRow{What: name, Href: href, Needed: strconv.Itoa(n.Amount), Shelf: piecesOnShelf(n.Stock, n.Taken, v), Short: l.short, Doubt: l.doubt}
}
