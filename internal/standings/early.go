package standings

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rimward/internal/guide"
	"rimward/internal/journal"
)

// markEarly marks the burns that were lit before the candle was set and cured.
func markEarly(rows []BurnRow, l journal.CandleLog) {
	early := guide.EarlyBurns(l)
	for i, b := range rows {
		rows[i].Early = slices.ContainsFunc(early, func(e guide.Early) bool { return e.Burn == b.Number })
	}
}

// mostEarly is how many candles with early burns are named one by one.
const mostEarly = 4

// earlyWarning says how many of the burns that count were lit before their
// candle was set and cured, and of which candles; "" when none was.
func earlyWarning(rows []CandleRow) string {
	var names []string
	early, of := 0, 0
	for _, c := range rows {
		var burns []string
		for _, b := range c.Burns {
			if !b.Used() {
				continue
			}
			of++
			if b.Early {
				burns = append(burns, strconv.Itoa(b.Number))
			}
		}
		if early += len(burns); len(burns) > 0 {
			names = append(names, c.Name+" burn "+strings.Join(burns, " and "))
		}
	}
	if early == 0 {
		return ""
	}
	if more := len(names) - mostEarly; more > 0 {
		names = append(names[:mostEarly], many(more, "more candle"))
	}
	was := "were"
	if early == 1 {
		was = "was"
	}
	return fmt.Sprintf("%d of %s %s lit before the candle was set and cured: %s.", early, many(of, "burn"), was, strings.Join(names, ", "))
}
