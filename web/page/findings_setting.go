package page

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/safety"
)

// setting adds how the candles set to their faults in words. Oil that stood on
// the cold wax is answered before anything else: it may feed a fire.
func (p *FindingsPart) setting(logs []journal.CandleLog) {
	for _, c := range safety.SetCourses(logs) {
		if c.Seen == 0 {
			continue
		}
		p.Faults = append(p.Faults, FaultCourse{capital(string(c.Fault)) + ", as it set", setCourseText(c), c.Remedy.Do})
		if c.Fault == safety.SetSweating {
			p.Change, p.Why = c.Remedy.Do, "For sweating before it was lit; "+c.Remedy.Source+". Change one thing at a time: leave all else as it is, pour again, and look."
		}
	}
}

func setCourseText(c safety.SetCourse) string {
	s := "Seen in " + strconv.Itoa(c.Seen) + " of " + figured(c.Looked, "candle", "candles") + " looked at for it before the first burn"
	if c.Heavy > 0 {
		s += ", " + strconv.Itoa(c.Heavy) + " heavily"
	}
	return s + "."
}
