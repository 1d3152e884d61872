package safety

import (
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// evening is what the rules of a burn look at.
type evening struct {
	b      journal.Burn
	checks []journal.Check // that count, in order of time
	m      journal.Made
	lim    Limits
	u      quantity.Units
}

// burnRules are the rules of a burn.
var burnRules = []func(evening) *Finding{
	putOut, wentOut, longBurn, longTrim, afterSmoke, rateOutsideBand, longGap,
}

// OfBurn reads one burn against the limits: how long it was lit, how it ended,
// how much burned. Its checks have their own findings, from OfCheck. What is
// not known while the candle is lit is not looked at.
func OfBurn(l journal.BurnLog, m journal.Made, lim Limits, u quantity.Units) []Finding {
	var fs []Finding
	e := evening{l.Burn, l.CountedChecks(), m, lim, u}
	for _, rule := range burnRules {
		if f := rule(e); f != nil {
			f.At = l.Burn.LitAt
			if l.Burn.OutAt != nil {
				f.At = *l.Burn.OutAt
			}
			fs = append(fs, *f)
		}
	}
	return fs
}

// putOut: somebody thought it better to end the burn at once.
func putOut(e evening) *Finding {
	if e.b.Ending != journal.PutOutUnsafe {
		return nil
	}
	return &Finding{Rule: "put out", Level: Hard, Source: practice, Text: "The burn was put out for safety.",
		Do: []string{"Find out why before this candle is lit again."}}
}

// wentOut: a container candle may go out by itself only when little wax is left.
func wentOut(e evening) *Finding {
	if e.b.Ending != journal.WentOut {
		return nil
	}
	return &Finding{Rule: "went out", Level: Caution, Source: "a German quality mark for candles, RAL-GZ 041/2, read in a secondary source: it may go out by itself only when little is left",
		Text: "It went out by itself with wax left.",
		Do:   []string{"Look at the depth of the pool: shallow asks for a stronger wick, deep for a weaker one."}}
}

// longBurn: lit for longer than candles are meant to be.
func longBurn(e evening) *Finding {
	if e.b.OutAt == nil || e.b.Lasted(*e.b.OutAt) <= e.lim.LongestBurn() {
		return nil
	}
	r, l := hours(e.b.Lasted(*e.b.OutAt)), hours(e.lim.LongestBurn())
	return &Finding{Rule: "long burn", Level: Caution, Reading: r, Limit: l, Source: e.lim.Source(keyLongestBurn),
		Text: "It was lit for " + r.String() + ", " + over(r, l) + "."}
}

// longTrim: lit with a longer wick than a trimmed one is.
func longTrim(e evening) *Finding {
	if e.b.Trim == nil || *e.b.Trim <= e.lim.TrimMost() {
		return nil
	}
	r, l := e.u.ShowLength(*e.b.Trim), e.u.ShowLength(e.lim.TrimMost())
	return &Finding{Rule: "long wick", Level: Caution, Reading: r, Limit: l, Source: e.lim.Source(keyTrimMost),
		Text: "It was lit with a wick of " + r.String() + ", " + over(r, l) + ".",
		Do:   []string{"Trim to " + e.u.ShowLength(e.lim.Trim()).String() + " before every burn."}}
}

// afterSmoke: this burn alone smoked for longer than the mean may be.
func afterSmoke(e evening) *Finding {
	if e.b.AfterSmoke == nil || *e.b.AfterSmoke <= e.lim.AfterSmoke() {
		return nil
	}
	r, l := e.b.AfterSmoke.Shown(), e.lim.AfterSmoke().Shown()
	return &Finding{Rule: "after-smoke", Level: Note, Reading: r, Limit: l, Source: e.lim.Source(keyAfterSmoke),
		Text: "It smoked for " + r.String() + " after it was put out, " + over(r, l) + ". The limit is meant for the mean of all burns."}
}

// rateOutsideBand: more or less burned than one wick usually burns.
func rateOutsideBand(e evening) *Finding {
	rate, ok := e.b.Rate()
	if !ok || e.b.Ending == journal.Spent {
		return nil
	}
	each := rate / quantity.GramsPerHour(max(e.m.Candle.Wicks, 1))
	low, high := e.lim.RateBand()
	limit, key := low, keyRateLow
	switch {
	case each > high:
		limit, key = high, keyRateHigh
	case each >= low:
		return nil
	}
	return &Finding{Rule: "burn rate", Level: Note, Reading: each.Shown(), Limit: limit.Shown(), Source: e.lim.Source(key),
		Text: "Each wick burned " + each.Shown().String() + "; " + low.Shown().String() + " to " + high.Shown().String() + " is usual. A slip of unit or scale?"}
}

// longGap: for half as long again as the time between checks nobody wrote
// anything down.
func longGap(e evening) *Finding {
	from, widest := e.b.LitAt, quantity.Hours(0)
	for _, c := range e.checks {
		widest = max(widest, quantity.Hours(c.At.Sub(from).Hours()))
		from = c.At
	}
	if e.b.OutAt != nil {
		widest = max(widest, quantity.Hours(e.b.OutAt.Sub(from).Hours()))
	}
	every := e.lim.CheckEvery()
	if widest <= every*3/2 {
		return nil
	}
	return &Finding{Rule: "long gap", Level: Note, Reading: hours(widest), Limit: hours(every), Source: e.lim.Source(keyCheckEvery),
		Text: "There is no check for " + hours(widest).String() + "; one every " + hours(every).String() + " is meant."}
}

// hours shows a span the way it reads in a sentence.
func hours(h quantity.Hours) quantity.Shown { return quantity.Shown{Number: h.Clock()} }
