package safety

import (
	"slices"
	"strconv"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// OfCandle reads a candle's burns together: the rests between them, the mean
// after-smoke, what came again, and whether it sweated before the first. Records that were withdrawn do not count.
func OfCandle(l journal.CandleLog, lim Limits, u quantity.Units) []Finding {
	burns := l.CountedBurns()
	var fs []Finding
	for i := 1; i < len(burns); i++ {
		if f := shortRest(burns[i-1].Burn, burns[i].Burn, lim); f != nil {
			fs = append(fs, *f)
		}
	}
	for _, rule := range []func([]journal.BurnLog, journal.Made, Limits, quantity.Units) *Finding{meanAfterSmoke, flameAgain, sootAgain} {
		if f := rule(burns, l.Made, lim, u); f != nil {
			fs = append(fs, *f)
		}
	}
	if f := sweatedAsSet(l); f != nil {
		fs = append(fs, *f)
	}
	for i := range fs {
		fs[i].Candle, fs[i].CandleID = l.Candle.Code(), l.Candle.ID
	}
	return fs
}

// All gathers every finding of a candle: of its checks, of its burns and of
// both together, in order of time, each with the burn it belongs to.
func All(l journal.CandleLog, lim Limits, u quantity.Units) []Finding {
	var fs []Finding
	for _, b := range l.CountedBurns() {
		var of []Finding
		for _, c := range b.CountedChecks() {
			for _, f := range OfCheck(c, l.Made, lim, u) {
				f.Hour, f.Check = since(b.Burn, c.At), c.ID
				of = append(of, f)
			}
		}
		for _, f := range append(of, OfBurn(b, l.Made, lim, u)...) {
			f.Candle, f.CandleID, f.Burn = l.Candle.Code(), l.Candle.ID, b.Burn.Number
			fs = append(fs, f)
		}
	}
	fs = append(fs, OfCandle(l, lim, u)...)
	slices.SortStableFunc(fs, func(a, b Finding) int { return a.At.Compare(b.At) })
	return fs
}

// since is how long after lighting something was seen.
func since(b journal.Burn, at time.Time) quantity.Hours {
	return quantity.Hours(at.Sub(b.LitAt).Hours())
}

// shortRest: lit again before the wax was solid.
func shortRest(before, b journal.Burn, lim Limits) *Finding {
	if before.OutAt == nil {
		return nil
	}
	rest := quantity.Hours(b.LitAt.Sub(*before.OutAt).Hours())
	if rest >= lim.Rest() {
		return nil
	}
	r, l := hours(rest), hours(lim.Rest())
	return &Finding{Rule: "short rest", Level: Caution, Reading: r, Limit: l, Source: lim.Source(keyRest), At: b.LitAt, Burn: b.Number,
		Text: "It rested for " + r.String() + " before burn " + strconv.Itoa(b.Number) + "; at least " + l.String() + " is meant. Soft wax gives false soot.",
		Do:   []string{"Rest it for " + hours(lim.RestAdvised()).String() + " or until the wax is solid."}}
}

// meanAfterSmoke: the mean over every burn of the candle is above its limit.
func meanAfterSmoke(burns []journal.BurnLog, _ journal.Made, lim Limits, _ quantity.Units) *Finding {
	mean, n, last := smokeOf(burns)
	if n == 0 || mean <= lim.AfterSmoke() {
		return nil
	}
	r, l := mean.Shown(), lim.AfterSmoke().Shown()
	return &Finding{Rule: "mean after-smoke", Level: Caution, Reading: r, Limit: l, Source: lim.Source(keyAfterSmoke), At: last,
		Text: "The mean after-smoke of " + burnsText(n) + " is " + r.String() + ", " + over(r, l) + "."}
}

// smokeOf is the mean after-smoke of burns, of how many, and the last of them.
func smokeOf(burns []journal.BurnLog) (mean quantity.Seconds, n int, last time.Time) {
	for _, b := range burns {
		if b.Burn.AfterSmoke != nil {
			mean, n, last = mean+*b.Burn.AfterSmoke, n+1, b.Burn.LitAt
		}
	}
	return mean / quantity.Seconds(max(n, 1)), n, last
}

// flameAgain: the flame stood over the hard limit in more than one burn.
func flameAgain(burns []journal.BurnLog, m journal.Made, lim Limits, u quantity.Units) *Finding {
	n, last := again(burns, func(c journal.Check) bool { return c.Flame != nil && *c.Flame > lim.FlameHardIn(m.Vessel) })
	if n < 2 {
		return nil
	}
	return &Finding{Rule: "flame over the limit again", Level: Hard, Limit: u.ShowLength(lim.FlameHardIn(m.Vessel)), Source: lim.Source(keyFlameHard), At: last,
		Text: "The flame stood over the limit in " + burnsText(n) + ". The pairing fails.",
		Do:   []string{"Do not light it again.", "Try the wick below."}}
}

// sootAgain: it smoked in more than one burn.
func sootAgain(burns []journal.BurnLog, _ journal.Made, _ Limits, _ quantity.Units) *Finding {
	n, last := again(burns, func(c journal.Check) bool { return graded(journal.SootScale, c.Soot, sootFrom) })
	if n < 2 {
		return nil
	}
	return &Finding{Rule: "soot again", Level: Caution, Source: "candle advice in the press, 2003: stop burning a candle that smokes again after a trim", At: last,
		Text: "It smoked in " + burnsText(n) + ".",
		Do:   []string{"Stop burning this candle.", "Try the wick below, or another ladder."}}
}

// again counts the burns with a check that shows a sign, and when it last did.
func again(burns []journal.BurnLog, sign func(journal.Check) bool) (n int, last time.Time) {
	for _, b := range burns {
		seen := false
		for _, c := range b.CountedChecks() {
			if sign(c) {
				seen, last = true, c.At
			}
		}
		if seen {
			n++
		}
	}
	return n, last
}

func burnsText(n int) string {
	if n == 1 {
		return "1 burn"
	}
	return strconv.Itoa(n) + " burns"
}
