package safety

import (
	"strconv"

	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// recordRules look at what a burn's record lacks or what it was burned in:
// worth a place in the full list, not beside the burn itself.
var recordRules = []func(evening) *Finding{trimNotNoted, roomOutside, inDraught, fullTooSoon, notFullInTime}

// ofRecord reads how a burn was set up and how its pool met the wall.
func ofRecord(b journal.BurnLog, m journal.Made, lim Limits, u quantity.Units) []Finding {
	var fs []Finding
	e := evening{b.Burn, b.CountedChecks(), m, lim, u}
	for _, rule := range recordRules {
		if f := rule(e); f != nil {
			if f.At.IsZero() {
				f.At = b.Burn.LitAt
			}
			f.Candle, f.CandleID, f.Burn = m.Candle.Code(), m.Candle.ID, b.Burn.Number
			fs = append(fs, *f)
		}
	}
	return fs
}

// trimNotNoted: nobody wrote down how long the wick was.
func trimNotNoted(e evening) *Finding {
	if e.b.Trim != nil {
		return nil
	}
	l := e.u.ShowLength(e.lim.Trim())
	return &Finding{Rule: "trim not noted", Level: Note, Limit: l, Source: e.lim.Source(keyTrim),
		Text: "The length of the wick was not noted; it is trimmed to " + l.String() + " before every burn."}
}

// roomOutside: a room cooler or warmer than test burns are meant for.
func roomOutside(e evening) *Finding {
	cool, warm := e.lim.RoomBand()
	if e.b.Room == nil || (*e.b.Room >= cool && *e.b.Room <= warm) {
		return nil
	}
	limit, key := cool, keyRoomCool
	if *e.b.Room > warm {
		limit, key = warm, keyRoomWarm
	}
	r, low, high := e.u.ShowTemperature(*e.b.Room), e.u.ShowTemperature(cool), e.u.ShowTemperature(warm)
	return &Finding{Rule: "room outside the usual", Level: Note, Reading: r, Limit: e.u.ShowTemperature(limit), Source: e.lim.Source(key),
		Text: "The room was at " + r.String() + "; " + low.String() + " to " + high.String() + " is meant."}
}

// inDraught: moving air makes soot and narrow pools by itself.
func inDraught(e evening) *Finding {
	if e.b.Draught != journal.DraughtStrong {
		return nil
	}
	return &Finding{Rule: "strong draught", Level: Note, Source: "Andersen and others, Indoor Air 31:2033-2048, 2021 (abstract): moving air strongly raises soot",
		Text: "It burned in a strong draught. Its widths and its soot do not count.",
		Do:   []string{"Burn it again in still air."}}
}

// target is the source of the hour by which a pool should be full.
const target = "an hour for each inch of inner width, at most four, or the vessel's own: common practice, no source"

// fullTooSoon: the pool was seen full by half its target hour.
func fullTooSoon(e evening) *Finding {
	c, ok := firstFull(e)
	soon := e.m.Vessel.Target() / 2
	if !ok || !e.widthsCount() || since(e.b, c.At) > soon {
		return nil
	}
	r, l := hours(since(e.b, c.At)), hours(soon)
	return &Finding{Rule: "full too soon", Level: Note, Reading: r, Limit: l, Source: target, At: c.At, Hour: since(e.b, c.At), Check: c.ID,
		Text: "The pool was full after " + r.String() + "; by " + l.String() + " is too soon. The wick may be too strong."}
}

// notFullInTime: a burn after the first was looked at after its target hour, and
// the pool was still short of the wall.
func notFullInTime(e evening) *Finding {
	if _, full := firstFull(e); full || e.b.Number < 2 || !e.widthsCount() {
		return nil
	}
	var last *journal.Check
	for i, c := range e.checks {
		if journal.ReadingCounts(e.b, c) == "" && (c.WidthA != nil || c.WidthB != nil) && since(e.b, c.At) >= e.m.Vessel.Target() {
			last = &e.checks[i]
		}
	}
	if last == nil {
		return nil
	}
	r, l := hours(since(e.b, last.At)), hours(e.m.Vessel.Target())
	return &Finding{Rule: "not full in time", Level: Note, Reading: r, Limit: l, Source: target, At: last.At, Hour: since(e.b, last.At), Check: last.ID,
		Text: "The pool was still short of the wall after " + r.String() + "; it is wanted full by " + l.String() + ". The wick may be too weak."}
}

// widthsCount reports whether the burn's pool says anything of the wick.
func (e evening) widthsCount() bool {
	return journal.WidthsCount(journal.BurnLog{Burn: e.b, Checks: e.checks}) == ""
}

// firstFull is the first check that counts with the pool at the wall all round.
func firstFull(e evening) (journal.Check, bool) {
	for _, c := range e.checks {
		wide := c.WidthA != nil && c.WidthB != nil && *c.WidthA >= e.m.Vessel.Length() && *c.WidthB >= e.m.Vessel.InnerWidth
		if journal.ReadingCounts(e.b, c) == "" && (c.Full || wide) {
			return c, true
		}
	}
	return journal.Check{}, false
}

// restAdvised: rested long enough, but for less than is better.
func restAdvised(before, b journal.Burn, lim Limits) *Finding {
	if before.OutAt == nil {
		return nil
	}
	rest := quantity.Hours(b.LitAt.Sub(*before.OutAt).Hours())
	if rest < lim.Rest() || rest >= lim.RestAdvised() {
		return nil
	}
	r, l := hours(rest), hours(lim.RestAdvised())
	return &Finding{Rule: "rest shorter than advised", Level: Note, Reading: r, Limit: l, Source: lim.Source(keyRestAdvised), At: b.LitAt, Burn: b.Number,
		Text: "It rested for " + r.String() + " before burn " + strconv.Itoa(b.Number) + "; " + l.String() + " is better."}
}

// ofWax reads what is left of the wax against where the last burn ends, and
// looks for wax on the wall late in the candle's life.
func ofWax(l journal.CandleLog, burns []journal.BurnLog, lim Limits, u quantity.Units) []Finding {
	var fs []Finding
	w := newWaxLeft(l, burns)
	for _, b := range burns {
		left, ok := w.after(b.Burn)
		if !ok {
			continue
		}
		if f := burnedTooFar(w, left, b.Burn, lim, u); f != nil {
			fs = append(fs, *f)
		}
		if f := lateHangUp(w, left, b); f != nil {
			fs = append(fs, *f)
		}
	}
	return fs
}

// byMass is how far a height of wax that is worked out from its mass may be off
// (chosen by us).
const byMass quantity.Millimetres = 1

// burnedTooFar: the burn went below the wax that is to be left at the end, by
// more than such a height may be off.
func burnedTooFar(w *waxLeft, left quantity.Grams, b journal.Burn, lim Limits, u quantity.Units) *Finding {
	h, ok := w.height(left)
	if !ok || h >= lim.WaxLeft()-byMass || b.OutAt == nil {
		return nil
	}
	r, l := u.ShowLength(max(h, 0)), u.ShowLength(lim.WaxLeft())
	return &Finding{Rule: "little wax left", Level: Caution, Reading: r, Limit: l, Source: lim.Source(keyWaxLeft), At: *b.OutAt, Burn: b.Number,
		Text: "By its weight, about " + r.String() + " of wax was left when burn " + strconv.Itoa(b.Number) + " ended; the last burn ends at " + l.String() + ".",
		Do:   []string{"Do not light it again."}}
}

// lateHangUp: wax still hangs on the wall in the last third of the candle's
// life, where it should have come down.
func lateHangUp(w *waxLeft, left quantity.Grams, b journal.BurnLog) *Finding {
	gone, ok := w.share(left)
	if !ok || gone < lastThird {
		return nil
	}
	for _, c := range lastFirst(b.CountedChecks()) {
		if c.WallWax == "" {
			continue
		}
		if !graded(journal.WallWaxScale, c.WallWax, ringFrom) {
			return nil
		}
		return &Finding{Rule: "hang-up late in its life", Level: Caution, Reading: quantity.Shown{Number: string(c.WallWax)}, Source: practice,
			At: c.At, Burn: b.Burn.Number, Hour: since(b.Burn, c.At), Check: c.ID,
			Text: "In the last third of its wax, wax still hangs on the wall: " + string(c.WallWax) + "."}
	}
	return nil
}

func lastFirst(cs []journal.Check) []journal.Check {
	out := make([]journal.Check, 0, len(cs))
	for i := len(cs) - 1; i >= 0; i-- {
		out = append(out, cs[i])
	}
	return out
}
