package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/internal/standings"
)

// RoundTells is what a round can and cannot tell.
type RoundTells struct {
	Spreads   plan.Spreads
	Burns     int             // of each candle that are reckoned with
	Chances   [][]plan.Naming // for each vessel, of naming the closest wick with 1, 2 … candles each
	Contrasts []plan.Contrast
}

// ShowTells says what the round can tell.
func (p *RoundPlan) ShowTells(t RoundTells, r journal.TestRound, k Known, v View) {
	for i, n := range t.Chances {
		if len(n) > 0 {
			p.Tells = append(p.Tells, namingText(n, r, r.Factors.Vessels[i], k))
		}
	}
	for _, c := range t.Contrasts {
		p.Tells = append(p.Tells, contrastText(c))
	}
	if len(r.Factors.Vessels) > 1 {
		p.Tells = append(p.Tells, "Which vessel: each is judged by its own wall and target hour, by the closest of its wicks here. One is named once its chance of holding the closest is "+chanceText(standings.SureEnough)+" or more; how likely that is cannot be said beforehand.")
	}
	if len(p.Tells) == 0 {
		p.Tells = []string{"What this round can tell is not reckoned: it compares none of wicks, loads, pour temperatures and vessels."}
	}
	from := "from what the program starts with, until your own burns show how candles differ"
	if t.Spreads.Own {
		from = "from how your own burns and candles differ so far"
	}
	p.TellNote = "Reckoned with " + figured(t.Burns, "burn", "burns") + " of each candle, " + from + ". The chances are rough."
}

// namingText says how likely the closest of some wicks is found.
func namingText(ns []plan.Naming, r journal.TestRound, vessel journal.ID, k Known) string {
	var parts []string
	for _, n := range ns {
		parts = append(parts, chanceText(n.First)+" with "+counted(n.Candles, "candle", "candles"))
	}
	text := "Which wick is closest in " + k.vesselName(vessel) + ": the chance that the one ranked first truly is the closest is about " + listed(parts) + " of each."
	if r.Copies <= len(ns) {
		n := ns[r.Copies-1]
		text += " With " + counted(r.Copies, "candle", "candles") + " of each one is named as sure in about " + chanceText(n.Named) + " of such rounds, and the first is the closest or as good in " + chanceText(n.Near) + "."
	}
	return text + " (" + strconv.Itoa(ns[0].Rounds) + " rounds simulated.)"
}

// contrastText says what comparing two levels can show.
func contrastText(c plan.Contrast) string {
	text := "Comparing the " + string(c.Factor) + " (" + figured(c.Units, unitWord(c.Power, false), unitWord(c.Power, true)) + " of each): "
	var parts []string
	for _, x := range c.Chances {
		parts = append(parts, chanceText(x.Chance)+" for "+x.Difference.Percent().String())
	}
	text += "the chance of showing a true difference of pool width is about " + listed(parts) + "."
	for _, x := range c.Chances {
		if x.Difference > quantity.Fraction(0.04) && x.Difference < quantity.Fraction(0.06) && x.Chance < 0.8 {
			text += enoughText(x, c.Power)
		}
	}
	if c.MeltsAlike {
		text += " How far melts differ among themselves is not known and is taken as nothing: where they do, the chance is lower."
	}
	if !c.FromMelt {
		text += " Each level comes from one melt, so that a difference cannot be told from one between the two melts."
	}
	return text
}

func unitWord(p plan.Power, many bool) string {
	switch {
	case p.ByMelt && many:
		return "melts"
	case p.ByMelt:
		return "melt"
	case many:
		return "candles"
	}
	return "candle"
}

func enoughText(x plan.PowerChance, p plan.Power) string {
	if !x.Enough {
		return " For " + x.Difference.Percent().String() + " no round of a sensible size would do."
	}
	return " To show " + x.Difference.Percent().String() + " four times in five takes " + figured(x.Wanted, unitWord(p, false), unitWord(p, true)) + " of each."
}
