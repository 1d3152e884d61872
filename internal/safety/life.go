package safety

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Look is what one burn says of one fault.
type Look int

// What a burn can say of a fault, from nothing to most.
const (
	NotLooked Look = iota // nobody looked for it
	NotSeen
	SeenSlight // a sign of it, too little to count as the fault
	Seen
)

// FaultLife is one fault over a candle's life.
type FaultLife struct {
	Name  string
	From  string // from what on it is the fault, in words; "" where the name says it
	Burns []Look // one for each burn that counts, in order of time
}

// FaultsOverLife says of every fault what each burn of a candle showed of it,
// the gravest first, and which burns those are, by number. The rules are those
// of CountFaults.
func FaultsOverLife(l journal.CandleLog, lim Limits, u quantity.Units) (burns []int, faults []FaultLife) {
	rules := faultRules(lim, u)
	faults = make([]FaultLife, len(rules))
	for i, r := range rules {
		faults[i] = FaultLife{Name: r.name, From: faultFrom(r.name, l.Vessel, lim, u)}
	}
	for _, b := range l.CountedBurns() {
		burns = append(burns, b.Burn.Number)
		e := evening{b.Burn, b.CountedChecks(), l.Made, lim, u}
		for i, r := range rules {
			faults[i].Burns = append(faults[i].Burns, lookOf(r, e))
		}
	}
	return burns, faults
}

// lookOf is what a burn says of a fault by its rule.
func lookOf(r faultRule, e evening) Look {
	looked, shown := r.look(e)
	switch {
	case !looked:
		return NotLooked
	case shown:
		return Seen
	case slight(r.name, e):
		return SeenSlight
	}
	return NotSeen
}

// slight reports whether a graded fault showed a little: any grade above none.
func slight(name string, e evening) bool {
	rules := map[string]func(evening) (bool, bool){
		"soot":        grades(sootOf, journal.SootScale, 1),
		"mushrooming": grades(mushroomOf, journal.MushroomScale, 1),
		"hang-up":     lastWall(func(r int) bool { return r >= 1 && r < ringFrom }),
	}
	if look, ok := rules[name]; ok {
		_, shown := look(e)
		return shown
	}
	return false
}

// faultFrom says from what on a fault is one.
func faultFrom(name string, v journal.Vessel, lim Limits, u quantity.Units) string {
	switch name {
	case "soot":
		return "from " + string(journal.SootScale[sootFrom].Grade)
	case "mushrooming":
		return "from " + string(journal.MushroomScale[mushroomFrom].Grade)
	case "hang-up":
		return "from " + string(journal.WallWaxScale[ringFrom].Grade)
	case "flame over the limit":
		return "over " + u.ShowLength(lim.FlameHardIn(v)).String()
	case "hot vessel":
		return "over " + u.ShowTemperature(lim.WallHot(v.Material)).String()
	}
	return ""
}

// SootFault is the rank from which soot counts as a fault.
func SootFault() int { return sootFrom }

// MushroomFault is the rank from which mushrooming counts as a fault.
func MushroomFault() int { return mushroomFrom }
