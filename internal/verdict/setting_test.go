package verdict

import (
	"slices"
	"testing"
	"time"

	"rimward/internal/journal"
)

// A look a full day after the pour is good to have; a candle that sweats needs
// a reason (common practice, no source).
func TestSetChecksInWhatIsWanted(t *testing.T) {
	t.Parallel()
	poured := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	log := func(hours float64, sweat journal.Amount) journal.CandleLog {
		l := journal.CandleLog{Made: journal.Made{Pour: journal.Pour{At: poured}}}
		if hours > 0 {
			l.SetChecks = []journal.SetCheck{{At: poured.Add(time.Duration(hours * float64(time.Hour))), Sweating: sweat}}
		}
		return l
	}
	none := journal.AmountNone
	for name, c := range map[string]struct {
		logs         []journal.CandleLog
		done, misses bool
		has          string
	}{
		"nobody looked":         {[]journal.CandleLog{log(0, ""), log(0, "")}, false, false, "no candles of 2 candles looked at"},
		"one of two":            {[]journal.CandleLog{log(25, none), log(0, "")}, false, false, "1 candle of 2 candles looked at"},
		"both":                  {[]journal.CandleLog{log(25, none), log(24, none)}, true, false, "2 candles of 2 candles looked at"},
		"before a full day":     {[]journal.CandleLog{log(23.9, none)}, false, false, "no candles of 1 candle looked at"},
		"one sweats":            {[]journal.CandleLog{log(25, none), log(25, journal.AmountSlight)}, false, true, "2 candles of 2 candles looked at; 1 candle sweated"},
		"one sweats, seen soon": {[]journal.CandleLog{log(5, journal.AmountHeavy)}, false, true, "no candles of 1 candle looked at; 1 candle sweated"},
	} {
		f := journal.VerdictFigures{Candles: make([]journal.ID, len(c.logs))}
		settled(&f, c.logs)
		i := setItem(f)
		if i.Done != c.done || i.Misses() != c.misses || i.Has != c.has {
			t.Errorf("%s: %+v", name, i)
		}
		if listed := slices.Contains(namesOf(measured(f)), i.Name); listed != c.misses {
			t.Errorf("%s: among what is missing: %v", name, listed)
		}
	}
}
