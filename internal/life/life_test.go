package life

import (
	"math"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

var noon = time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)

func of[T any](v T) *T { return &v }

// about checks a figure to within a tolerance.
func about(t checker, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v give or take %v", what, got, want, tol)
	}
}

// checker is a test or a property.
type checker interface {
	Helper()
	Errorf(format string, args ...any)
}

// one is a burn of one candle: hours lit, and masses before and after, 0 for
// not weighed.
type one struct {
	hours, before, after float64
	ending               journal.Ending
}

// candle is a candle of 286.687 g in a straight round glass of 76.2 mm that
// weighs 200 g, with wax of 0.90 g/mL; a burn every second day.
func candle(burns ...one) journal.CandleLog {
	l := journal.CandleLog{Made: journal.Made{
		Candle: journal.Candle{PourNumber: 14, Letter: "B", Wicks: 1, Filled: of(quantity.Grams(286.687))},
		Wax:    journal.Wax{Name: "Meadow blend", Family: "soy", SolidDensity: of(quantity.GramsPerMillilitre(0.9))},
		Vessel: journal.Vessel{Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 76.2, EmptyMass: of(quantity.Grams(200))},
	}}
	for i, b := range burns {
		at := noon.Add(time.Duration(i-40) * 48 * time.Hour)
		x := journal.Burn{Number: i + 1, LitAt: at, Ending: b.ending}
		x.ID = journal.ID(i + 1)
		if b.ending == "" {
			x.Ending = journal.Snuffed
		}
		x.OutAt = of(at.Add(time.Duration(b.hours * float64(time.Hour))))
		if b.before > 0 {
			x.MassBefore = of(quantity.Grams(b.before))
		}
		if b.after > 0 {
			x.MassAfter = of(quantity.Grams(b.after))
		}
		l.Burns = append(l.Burns, journal.BurnLog{Burn: x})
	}
	return l
}

// withdrawn takes back a burn.
func withdrawn(l journal.CandleLog, i int) journal.CandleLog {
	l.Burns[i].Burn.Gone = of(noon)
	return l
}

// lit opens a burn again.
func lit(l journal.CandleLog, hoursAgo float64) journal.CandleLog {
	b := &l.Burns[len(l.Burns)-1].Burn
	b.OutAt, b.MassAfter, b.Ending = nil, nil, ""
	b.LitAt = noon.Add(-time.Duration(hoursAgo * float64(time.Hour)))
	return l
}
