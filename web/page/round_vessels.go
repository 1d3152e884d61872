package page

import (
	"rimward/internal/answer"
	"rimward/internal/journal"
	"rimward/internal/standings"
)

// RoundVessels is what is said of the vessels that a round compares.
type RoundVessels struct {
	Text, Next string // the answer, and what would be enough where it is none
	Told       bool
	Rows       []RoundVesselRow
	Below      string // vessels that hard findings leave out; "" where none
}

// RoundVesselRow is one vessel with the best of its wicks.
type RoundVesselRow struct{ Name, Best, OnTarget, Chance string }

// roundBetween puts the answer about vessels into words; nil where there is
// nothing to compare.
func roundBetween(a *answer.VesselAnswer, sh Shelves) *RoundVessels {
	if a == nil {
		return nil
	}
	out := &RoundVessels{Told: a.State == answer.Closest, Text: vesselsAnswer(*a, sh), Next: vesselsNext(*a, sh)}
	for _, c := range a.Standing {
		row := RoundVesselRow{Name: vesselName(sh, c.Vessel), Best: wickCount(c.Best.Wicks) + c.Best.Name(), OnTarget: chanceText(c.Best.OnTarget)}
		if len(a.Standing) > 1 {
			row.Chance = chanceText(c.Chance)
		}
		out.Rows = append(out.Rows, row)
	}
	if len(a.Below) > 0 && a.State != answer.AllBelow {
		out.Below = "A hard finding stands against every wick that was burned in " + listed(vesselNames(a.Below, sh)) + "."
	}
	return out
}

func vesselNames(ids []journal.ID, sh Shelves) (out []string) {
	for _, v := range ids {
		out = append(out, vesselName(sh, v))
	}
	return out
}

func choiceVessels(cs []answer.VesselChoice, sh Shelves) (out []string) {
	for _, c := range cs {
		out = append(out, vesselName(sh, c.Vessel))
	}
	return out
}

func vesselsAnswer(a answer.VesselAnswer, sh Shelves) string {
	switch a.State {
	case answer.Closest:
		best := a.Standing[0]
		name := vesselName(sh, best.Vessel)
		if len(a.Standing) == 1 {
			return name + " is the only vessel without a hard finding against it" + onTarget(best.Best) + "."
		}
		return name + " comes closest to a full pool at its own target hour (chance " + chanceText(best.Chance) + ")" + onTarget(best.Best) + "."
	case answer.SoFar:
		return "Of what was burned so far " + vesselName(sh, a.Standing[0].Vessel) + " comes closest (chance " + chanceText(a.Standing[0].Chance) + "), but not all that is planned in " + listed(vesselNames(a.Waiting, sh)) + " has a burn that tells yet."
	case answer.Running:
		return "Can’t tell yet: " + listed(choiceVessels(a.InRunning(), sh)) + " are still in the running, and none is the closest with a chance of " + chanceText(standings.SureEnough) + "."
	case answer.AllBelow:
		return "A hard finding stands against everything that was burned: no vessel is the answer."
	}
	return "Not enough yet: two vessels with a burn that tells are the least that can be compared."
}

// vesselsNext says what would be enough, from what is still planned.
func vesselsNext(a answer.VesselAnswer, sh Shelves) string {
	left := leftText(answer.WickAnswer{CandlesLeft: a.CandlesLeft, BurnsLeft: a.BurnsLeft})
	switch {
	case a.State == answer.Closest:
		return ""
	case a.State == answer.AllBelow:
		return "Plan a round with other wicks or other vessels."
	case len(a.Waiting) > 0 && a.CandlesLeft > 0:
		return "One burn with a width of each candle that is planned in " + listed(vesselNames(a.Waiting, sh)) + " would allow a first answer" + left + "."
	case a.CandlesLeft > 0:
		return "It may settle with what is still planned" + left + "."
	case a.State == answer.Running:
		return "All that was planned is burned. One more candle in each of " + listed(choiceVessels(a.InRunning(), sh)) + " would tell most; if they stay this close, either will do."
	}
	return "All that was planned is burned, but too few readings count. One burn with a width, or with a pool seen full, would do for each vessel."
}
