package standings_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// young is a candle of a wax that cures for a week, poured so long before its
// first burn; its later burns come a day apart.
func young(letter string, before time.Duration, burns ...journal.BurnLog) journal.CandleLog {
	l := candle(letter, 5, burns...)
	l.Wax.CureDays.Low = ptr(quantity.Days(7))
	l.Pour.At = lit.Add(-before)
	return l
}

func TestBurnsBeforeTheCureAreCounted(t *testing.T) {
	t.Parallel()
	const day = 24 * time.Hour
	unread := burn(journal.Check{At: lit.Add(time.Hour), Soot: "none"})
	for _, c := range []struct {
		name string
		logs []journal.CandleLog
		want string
	}{
		{"in time", []journal.CandleLog{young("A", 7*day, reads(80)), young("B", 8*day, reads(81))}, ""},
		{"a minute early", []journal.CandleLog{young("A", 7*day-time.Minute, reads(80)), young("B", 8*day, reads(81))},
			"1 of 2 burns was lit before the candle was set and cured: 14-A burn 1."},
		{"two of three", []journal.CandleLog{young("A", 5*day+time.Hour, reads(80), reads(80), reads(80)), young("B", 8*day, reads(81))},
			"2 of 4 burns were lit before the candle was set and cured: 14-A burn 1 and 2."},
		{"a burn that does not count", []journal.CandleLog{young("A", 6*day, unread, reads(80)), young("B", 8*day, reads(81))}, ""},
		{"many", []journal.CandleLog{young("A", day, reads(80)), young("B", day, reads(81)), young("C", day, reads(80)), young("D", day, reads(81)), young("E", day, reads(81))},
			"5 of 5 burns were lit before the candle was set and cured: 14-A burn 1, 14-B burn 1, 14-C burn 1, 14-D burn 1, 1 more candle."},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := only(t, c.logs...).Warnings
			i := slices.IndexFunc(got, func(w string) bool { return strings.Contains(w, "set and cured") })
			if (i >= 0) != (c.want != "") || i >= 0 && got[i] != c.want {
				t.Errorf("%q, want %q", got, c.want)
			}
		})
	}
}
