package compare_test

import (
	"testing"
	"time"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

func ptr[T any](v T) *T { return &v }

var lit = time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)

// candle is a candle of one pour in a round vessel of 100 mm whose target hour
// is 3 h.
func candle(letter string, rung int, change func(*journal.CandleLog), burns ...journal.BurnLog) journal.CandleLog {
	w := journal.Wick{Meta: journal.Meta{ID: journal.ID(rung)}, Ladder: 1, Rung: rung, Label: string(rune('0' + rung))}
	l := journal.CandleLog{Made: journal.Made{
		Candle: journal.Candle{Meta: journal.Meta{ID: journal.ID(letter[0])}, Pour: 14, PourNumber: 14, Letter: letter, Vessel: 1, Wick: w.ID, Wicks: 1, Filled: ptr(quantity.Grams(200))},
		Pour:   journal.Pour{Meta: journal.Meta{ID: 14}, Number: 14, At: lit.AddDate(0, 0, -14), LoadBasis: journal.OfWax, PouredAt: ptr(quantity.Celsius(60)), WaxLot: "M1"},
		Wax:    journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Meadow blend"},
		Vessel: journal.Vessel{Meta: journal.Meta{ID: 1}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 100, Material: "glass", TargetHours: ptr(quantity.Hours(3))},
		Wick:   w, Ladder: journal.Ladder{Meta: journal.Meta{ID: 1}, Name: "Larkspur"},
	}}
	for i, b := range burns {
		l.Burns = append(l.Burns, shifted(b, i, journal.ID(1000*int(letter[0])+i+1)))
	}
	if change != nil {
		change(&l)
	}
	return l
}

// shifted is a burn some days later, as the next of its candle.
func shifted(b journal.BurnLog, i int, id journal.ID) journal.BurnLog {
	by := time.Duration(i) * 24 * time.Hour
	b.Burn.ID, b.Burn.Number, b.Burn.LitAt, b.Burn.OutAt = id, i+1, b.Burn.LitAt.Add(by), ptr(b.Burn.OutAt.Add(by))
	var cs []journal.Check
	for _, c := range b.Checks {
		c.At = c.At.Add(by)
		cs = append(cs, c)
	}
	b.Checks = cs
	return b
}

// check is a check some hours after lighting.
func check(hour float64, change func(*journal.Check)) journal.Check {
	c := journal.Check{At: lit.Add(time.Duration(hour * float64(time.Hour)))}
	change(&c)
	return c
}

func width(hour, mm float64) journal.Check {
	return check(hour, func(c *journal.Check) {
		c.WidthA, c.WidthB = ptr(quantity.Millimetres(mm)), ptr(quantity.Millimetres(mm))
	})
}

func leftOut(c journal.Check) journal.Check {
	c.LeftOut = true
	return c
}

func full(hour float64) journal.Check { return check(hour, func(c *journal.Check) { c.Full = true }) }

// burn is a burn of four hours.
func burn(checks ...journal.Check) journal.BurnLog {
	return journal.BurnLog{Burn: journal.Burn{LitAt: lit, OutAt: ptr(lit.Add(4 * time.Hour)), Ending: journal.Snuffed}, Checks: checks}
}

// burned is a burn of one hour that took so many grams.
func burned(grams float64) journal.BurnLog {
	b := burn()
	b.Burn.OutAt = ptr(lit.Add(time.Hour))
	b.Burn.MassBefore, b.Burn.MassAfter = ptr(quantity.Grams(100)), ptr(quantity.Grams(100-grams))
	return b
}

// reads is a burn whose pool had one width at the target hour.
func reads(mm float64) journal.BurnLog { return burn(width(1, mm-25), width(2, mm-9), width(3, mm)) }

// judged works out candles and gives a column for each.
func judged(t *testing.T, logs ...journal.CandleLog) []compare.Side {
	t.Helper()
	var out []compare.Side
	ps := pairings(t, logs...)
	for _, l := range logs {
		out = append(out, compare.OfCandle(l, ps[l.Wick.ID]))
	}
	return out
}

// pairings works out candles by their wick.
func pairings(t *testing.T, logs ...journal.CandleLog) map[journal.ID]*standings.Pairing {
	t.Helper()
	opt := standings.Options{Ruler: 1, Limits: safety.NewLimits(nil), Units: quantity.Metric, Apart: journal.ByWax}
	table, err := standings.Work(t.Context(), logs, opt, tree.Default())
	if err != nil {
		t.Fatal(err)
	}
	out := map[journal.ID]*standings.Pairing{}
	for _, g := range table.Groups {
		for _, s := range g.Series {
			for _, p := range s.Pairings {
				out[p.Wick.ID] = &p
			}
		}
	}
	return out
}

// unjudged gives a column for each candle, without standings.
func unjudged(logs ...journal.CandleLog) []compare.Side {
	var out []compare.Side
	for _, l := range logs {
		out = append(out, compare.OfCandle(l, nil))
	}
	return out
}

// measure picks one measure; its figures are empty where it is not there.
func measure(ms []compare.Measure, n compare.MeasureName) (compare.Measure, bool) {
	for _, m := range ms {
		if m.Name == n {
			return m, true
		}
	}
	return compare.Measure{}, false
}
