package page

import (
	"time"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/plan"
	"rimward/internal/quantity"
	"rimward/web/chart"
)

// spanOf is the time between two moments.
func spanOf(from, to time.Time) quantity.Hours { return quantity.Hours(to.Sub(from).Hours()) }

// shareByNow is the share of the way to the wall that the pool should have
// gone by now: a mark to look at, not a model.
func shareByNow(b journal.Burn, x journal.Vessel, v View) float64 {
	return plan.ExpectedShare(b.Lasted(v.Now), x.Target())
}

// trackOf is a lit candle's way to the stop.
func trackOf(t plan.LitTile, v View) chart.Track {
	b := t.Log.OpenBurn()
	s := chart.TrackSpec{
		Hours: float64(b.Burn.Lasted(v.Now)), Stop: t.StopAt.Sub(b.Burn.LitAt).Hours(),
		Target: float64(t.Log.Vessel.Target()), Lit: b.Burn.LitAt.Unix(),
	}
	for _, c := range b.Checks {
		if !c.IsGone() {
			s.Checks = append(s.Checks, c.At.Sub(b.Burn.LitAt).Hours())
		}
	}
	return chart.NewTrack(s)
}

// lastPool writes the pool as it was last seen: 61 × 58 mm at 2 h, 78 % of
// the width.
func lastPool(t plan.LitTile, v View) (pool, unit, share string) {
	b := t.Log.OpenBurn()
	c := lastMeasured(b.Checks)
	if c == nil {
		return "no pool measured yet", "", ""
	}
	if c.Full {
		return fullText(b, v), "", ""
	}
	pool, unit = poolText(*c, v)
	share = "at " + spanOf(b.Burn.LitAt, c.At).Clock()
	if r, _, ok := meltpool.Reach(vesselOf(t.Log.Vessel), c.WidthA, c.WidthB, c.Full); ok {
		share += " · " + quantity.Fraction(r).Percent().Number + " % of width"
	}
	return pool, unit, share
}

// fullText says between which checks the pool became full.
func fullText(b *journal.BurnLog, v View) string {
	before := time.Time{}
	for _, c := range b.Checks {
		switch {
		case c.IsGone() || !measured(c):
		case c.Full && before.IsZero():
			return "full by " + spanOf(b.Burn.LitAt, c.At).Clock()
		case c.Full:
			return "full between " + spanOf(b.Burn.LitAt, before).Clock() + " and " + spanOf(b.Burn.LitAt, c.At).Clock()
		default:
			before = c.At
		}
	}
	return "full"
}

// vesselOf is the vessel as the geometry of pools sees it.
func vesselOf(x journal.Vessel) meltpool.Vessel {
	return meltpool.Vessel{Length: x.Length(), Width: x.InnerWidth}
}
