package guide

import (
	"cmp"
	"slices"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Wait is the candles of one pour that wait for their first burn together.
type Wait struct {
	Pour    journal.Pour
	Candles []journal.Candle // in the order of their codes
	Stage   journal.State    // setting, curing or ready
	SetAt   time.Time        // a day after the pour (common practice, no source)
	ReadyAt time.Time        // set, and cured where the supplier states how long
	// LongestAt is when the longest cure that the supplier states is over;
	// nil where none is stated, or where it is the same as the shortest.
	LongestAt *time.Time
	Cured     float64 // share of the way from the pour to ReadyAt, from 0 to 1
}

// WaxWaits is what waits of one wax.
type WaxWaits struct {
	Wax    journal.Wax
	Stated bool // the supplier states a cure
	// Usual is the cure that the wax's family usually has where none is
	// stated: a hint (common practice, no source). Nothing is counted from it.
	Usual journal.Range[quantity.Days]
	Waits []Wait // soonest ready first
}

// Waits groups candles that were never lit by wax and by pour, the soonest
// ready first; what has been ready for long comes before what is not.
func Waits(unlit []journal.Made, now time.Time) []WaxWaits {
	var out []WaxWaits
	for _, m := range unlit {
		i := slices.IndexFunc(out, func(w WaxWaits) bool { return w.Wax.ID == m.Wax.ID })
		if i < 0 {
			i, out = len(out), append(out, newWaxWaits(m.Wax))
		}
		out[i].add(m, now)
	}
	for i := range out {
		slices.SortStableFunc(out[i].Waits, func(a, b Wait) int {
			return cmp.Or(a.ReadyAt.Compare(b.ReadyAt), cmp.Compare(a.Pour.Number, b.Pour.Number))
		})
		for _, w := range out[i].Waits {
			slices.SortStableFunc(w.Candles, func(a, b journal.Candle) int {
				return cmp.Or(cmp.Compare(len(a.Letter), len(b.Letter)), cmp.Compare(a.Letter, b.Letter))
			})
		}
	}
	slices.SortStableFunc(out, func(a, b WaxWaits) int {
		return cmp.Or(a.Waits[0].ReadyAt.Compare(b.Waits[0].ReadyAt), cmp.Compare(a.Wax.Name, b.Wax.Name))
	})
	return out
}

func newWaxWaits(w journal.Wax) WaxWaits {
	out := WaxWaits{Wax: w, Stated: !w.CureDays.IsZero()}
	if !out.Stated {
		out.Usual = UsualCure(w.Family)
	}
	return out
}

func (w *WaxWaits) add(m journal.Made, now time.Time) {
	for i := range w.Waits {
		if w.Waits[i].Pour.ID == m.Pour.ID {
			w.Waits[i].Candles = append(w.Waits[i].Candles, m.Candle)
			return
		}
	}
	w.Waits = append(w.Waits, newWait(m, now))
}

func newWait(m journal.Made, now time.Time) Wait {
	life := journal.Life{PouredAt: m.Pour.At, CureDays: m.Wax.Cure()}
	w := Wait{Pour: m.Pour, Candles: []journal.Candle{m.Candle}, Stage: life.StateAt(now), SetAt: m.Pour.At.Add(journal.SetsAfter), ReadyAt: life.ReadyAt()}
	if long := m.Wax.CureDays.High; long != nil && float64(*long) > life.CureDays {
		at := m.Pour.At.Add(time.Duration(float64(*long) * 24 * float64(time.Hour)))
		w.LongestAt = &at
	}
	w.Cured = min(max(now.Sub(m.Pour.At).Hours()/w.ReadyAt.Sub(m.Pour.At).Hours(), 0), 1)
	return w
}
