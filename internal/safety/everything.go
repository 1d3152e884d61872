package safety

import (
	"cmp"
	"slices"
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Everything gathers all that lies outside the limits in a candle's record: how
// it was made, how its burns were set up, what its checks and burns showed.
// The heaviest level comes first, and within a level the earliest.
func Everything(l journal.CandleLog, lim Limits, u quantity.Units) []Finding {
	burns := l.CountedBurns()
	fs := append(append(withSweat(OfMaking(l.Made, u), l), All(l, lim, u)...), OfCure(l)...)
	own := ofSetting(l)
	for i, b := range burns {
		fs = append(fs, ofRecord(b, l.Made, lim, u)...)
		if i > 0 {
			if f := restAdvised(burns[i-1].Burn, b.Burn, lim); f != nil {
				own = append(own, *f)
			}
		}
	}
	for _, f := range append(own, ofWax(l, burns, lim, u)...) {
		f.Candle, f.CandleID = l.Candle.Code(), l.Candle.ID
		fs = append(fs, f)
	}
	return byWeight(fs)
}

// EverythingOf gathers the same of all candles of a pairing, with what only
// shows across them. Candles that were withdrawn do not count.
func EverythingOf(logs []journal.CandleLog, lim Limits, u quantity.Units) []Finding {
	var fs []Finding
	var burns []journal.BurnLog
	candles := 0
	for _, l := range logs {
		if l.Candle.IsGone() || l.Pour.IsGone() {
			continue
		}
		candles++
		fs, burns = append(fs, Everything(l, lim, u)...), append(burns, l.CountedBurns()...)
	}
	if f := smokeAcross(burns, candles, lim); f != nil {
		fs = append(fs, *f)
	}
	return byWeight(fs)
}

// levels are the levels, heaviest first.
var levels = []Level{Hard, Caution, Note}

// Levels lists the levels, heaviest first.
func Levels() []Level { return slices.Clone(levels) }

func byWeight(fs []Finding) []Finding {
	slices.SortStableFunc(fs, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(slices.Index(levels, a.Level), slices.Index(levels, b.Level)), a.At.Compare(b.At))
	})
	return fs
}

// smokeAcross: the mean over every burn of every candle, which is what the
// limit is meant for.
func smokeAcross(burns []journal.BurnLog, candles int, lim Limits) *Finding {
	slices.SortStableFunc(burns, func(a, b journal.BurnLog) int { return a.Burn.LitAt.Compare(b.Burn.LitAt) })
	mean, n, last := smokeOf(burns)
	if candles < 2 || n == 0 || mean <= lim.AfterSmoke() {
		return nil
	}
	r, l := mean.Shown(), lim.AfterSmoke().Shown()
	return &Finding{Rule: "mean after-smoke of the pairing", Level: Caution, Reading: r, Limit: l, Source: lim.Source(keyAfterSmoke), At: last,
		Text: "The mean after-smoke over " + burnsText(n) + " of " + strconv.Itoa(candles) + " candles is " + r.String() + ", " + over(r, l) + "."}
}
