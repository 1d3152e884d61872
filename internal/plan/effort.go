package plan

import (
	"math"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// EffortSpec is what the effort of a round is reckoned from.
type EffortSpec struct {
	Places  []journal.RoundPlace
	Burns   int            // of each candle; 0: until it is spent
	Spent   quantity.Hours // a candle's expected hours lit until it is spent; 0: not known
	Sitting quantity.Hours // lit hours of one sitting
	// PerEvening is how many sittings fit into one evening; below 1 counts as 1.
	PerEvening int
}

// Effort is what a round takes, counted; the calendar says on which days.
type Effort struct {
	Candles, Melts int
	Groups         int            // of candles that are lit together
	Burns          int            // of each candle; 0 where it is not known
	Sittings       int            // of all groups together
	Evenings       int            // at least
	BenchHours     quantity.Hours // that somebody sits by the candles
	CandleHours    quantity.Hours // of burning, all candles together
	Known          bool           // false where neither burns nor hours until spent are known
}

// EffortOf counts what a round takes. Where candles are burned until they are
// spent, the last burn is as short as what is left.
func EffortOf(s EffortSpec) Effort {
	t := StructureOf(s.Places)
	e := Effort{Candles: t.Candles, Melts: t.Melts, Groups: t.Evenings, Burns: s.Burns}
	hours := s.Sitting * quantity.Hours(s.Burns)
	if s.Burns < 1 {
		if !(s.Spent > 0) || !(s.Sitting > 0) {
			return e
		}
		hours, e.Burns = s.Spent, int(math.Ceil(float64(s.Spent/s.Sitting)-1e-9))
	}
	e.Known = true
	e.Sittings = e.Burns * e.Groups
	e.Evenings = shares(e.Sittings, max(s.PerEvening, 1))
	e.BenchHours = hours * quantity.Hours(e.Groups)
	e.CandleHours = hours * quantity.Hours(e.Candles)
	return e
}
