package page

import (
	"encoding/json"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/safety"
	"rimward/web/ui"
)

// candleChanges parts a candle's history: what was corrected, withdrawn or
// brought back, and what was merely written down as it happened.
func candleChanges(l journal.CandleLog, k Known, history []journal.Change, v View) (changes, routine []ui.ChangeLine) {
	names := recordNames(l)
	for _, c := range history {
		name := recordName(c, names)
		line := changeLine(c, name, v, readerOf(c.Noun, k, v))
		switch {
		case c.Kind == journal.Written:
			routine = append(routine, line)
		case putOut(c):
			line.What = capital(name) + " put out"
			routine = append(routine, line)
		case weighed(line):
			line.What = capital(name) + " weighed"
			line.Diffs = nil
			routine = append(routine, line)
		default:
			changes = append(changes, line)
		}
	}
	return changes, routine
}

// recordKey finds one record of the candle.
type recordKey struct {
	noun journal.Noun
	id   journal.ID
}

// recordNames are the candle, its burns and its checks as a history names
// them.
func recordNames(l journal.CandleLog) map[recordKey]string {
	names := map[recordKey]string{{journal.NounCandle, l.Candle.ID}: "candle " + l.Candle.Code()}
	for _, s := range l.SetChecks {
		names[recordKey{journal.NounSetCheck, s.ID}] = "set check " + safety.AfterPour(l.Pour.At, s.At)
	}
	for _, b := range l.Burns {
		burn := "burn " + strconv.Itoa(b.Burn.Number)
		names[recordKey{journal.NounBurn, b.Burn.ID}] = burn
		for _, c := range b.Checks {
			names[recordKey{journal.NounCheck, c.ID}] = "check at " + spanOf(b.Burn.LitAt, c.At).Clock() + " of " + burn
		}
	}
	return names
}

// recordName names the record that changed; a photo by what it shows.
func recordName(c journal.Change, names map[recordKey]string) string {
	var x journal.Photo
	if c.Noun == journal.NounPhoto && json.Unmarshal(c.After, &x) == nil {
		return "photo of " + names[recordKey{x.Of, x.OfID}]
	}
	return names[recordKey{c.Noun, c.Of}]
}

// readerOf reads the kept records of one kind.
func readerOf(n journal.Noun, k Known, v View) reader {
	switch n {
	case journal.NounBurn:
		return factsOf(func(x journal.Burn) []ui.Fact { return burnFacts(x, v) })
	case journal.NounPhoto:
		return factsOf(photoFacts)
	case journal.NounSetCheck:
		return factsOf(func(x journal.SetCheck) []ui.Fact { return setCheckFacts(x, v) })
	case journal.NounCheck:
		return factsOf(func(x journal.Check) []ui.Fact { return checkFacts(x, v) })
	}
	return factsOf(func(x journal.Candle) []ui.Fact { return candleFacts(x, k, v) })
}

// putOut reports whether a change is the ordinary end of a burn: it was lit
// before and is out after.
func putOut(c journal.Change) bool {
	var before, after journal.Burn
	return c.Noun == journal.NounBurn && c.Kind == journal.Corrected &&
		json.Unmarshal(c.Before, &before) == nil && json.Unmarshal(c.After, &after) == nil &&
		before.OutAt == nil && after.OutAt != nil
}

// weighed reports whether a change is the mass of a cold candle, which comes
// a while after its burn.
func weighed(l ui.ChangeLine) bool {
	return len(l.Diffs) == 1 && l.Diffs[0].Label == massAfter && l.Diffs[0].Before == orNothing("")
}
