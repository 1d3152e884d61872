package journal

import (
	"fmt"

	"rimward/internal/quantity"
)

// Doubt is an entry that is unlikely but not impossible: the person is asked
// once and then believed.
type Doubt struct {
	Key   string // the same for the same question; changes when the entry does
	Field string
	Text  string // a question to the person
}

// DoubtsOfCheck asks about a check that is unlikely beside what came before.
// See CheckFacts; the check must have passed Validate.
func DoubtsOfCheck(c Check, f CheckFacts) []Doubt {
	var ds []Doubt
	for _, a := range []struct {
		field string
		pool  *quantity.Millimetres
		was   *quantity.Millimetres
		wall  quantity.Millimetres
	}{{"width_a", c.WidthA, widest(f.Others, c, widthA), f.Vessel.Length()}, {"width_b", c.WidthB, widest(f.Others, c, widthB), f.Vessel.InnerWidth}} {
		ds = append(ds, doubtsOfWidth(a.field, a.pool, a.was, a.wall, c.Full, f.Ruler)...)
	}
	if c.Flame != nil && *c.Flame > 0 && *c.Flame < 4 {
		ds = append(ds, doubt("small-flame", "flame", float64(*c.Flame), "A flame under 4 mm is close to nothing. Inches typed as millimetres?"))
	}
	if c.Depth != nil && *c.Depth > 40 {
		ds = append(ds, doubt("deep-pool", "depth", float64(*c.Depth), "A pool over 40 mm deep is unusual. Is it right?"))
	}
	return ds
}

// doubtsOfWidth asks about one width of the pool.
func doubtsOfWidth(field string, pool, was *quantity.Millimetres, wall quantity.Millimetres, full bool, ruler quantity.Millimetres) []Doubt {
	if pool == nil {
		return nil
	}
	v := float64(*pool)
	switch {
	case v > 0 && *pool < wall/10:
		return []Doubt{doubt("unit-slip", field, v, "Less than a tenth of the vessel's width. Inches typed as millimetres?")}
	case full && *pool < wall*9/10:
		return []Doubt{doubt("full-but-narrow", field, v, "You ticked “wall all round”, yet this is well short of the wall. Is it right?")}
	case was != nil && *pool < *was-2*ruler:
		return []Doubt{doubt("shrinking", field, v, "The pool was wider at an earlier check of this burn. Is it right?")}
	}
	return nil
}

func doubt(kind, field string, v float64, text string) Doubt {
	return Doubt{Key: fmt.Sprintf("%s:%s:%g", kind, field, v), Field: field, Text: text}
}

func widthA(c Check) *quantity.Millimetres { return c.WidthA }
func widthB(c Check) *quantity.Millimetres { return c.WidthB }

// widest is the widest earlier reading of one axis within the burn.
func widest(others []Check, c Check, axis func(Check) *quantity.Millimetres) *quantity.Millimetres {
	var most *quantity.Millimetres
	for _, o := range others {
		w := axis(o)
		if o.ID != c.ID && o.At.Before(c.At) && w != nil && (most == nil || *w > *most) {
			most = w
		}
	}
	return most
}

// The band of burn rates of one wick outside which an entry is asked about:
// published single-wick rates run from 2.6 to 7.3 g/h; 2 to 12 leaves room.
const (
	SlowRate quantity.GramsPerHour = 2
	FastRate quantity.GramsPerHour = 12
)

// RestBetween is the shortest rest between two burns of a candle, in hours
// (EN 15426's test cycle, read in a secondary source).
const RestBetween quantity.Hours = 1

// LongestBurn is the usual longest burn in hours (general candle advice).
const LongestBurn quantity.Hours = 4

// DoubtsOfBurn asks about a burn that is unlikely: its rate, its length, a
// lighting too soon after the last one or before the cure is over.
func DoubtsOfBurn(b Burn, wicks int, f BurnFacts) []Doubt {
	var ds []Doubt
	if r, ok := b.Rate(); ok && b.Ending != Spent {
		each := r / quantity.GramsPerHour(wicks)
		if each < SlowRate || each > FastRate {
			ds = append(ds, doubt("rate", "mass_after", float64(*b.MassAfter),
				"That is "+each.String()+" for each wick; 2 to 12 is usual. Is it a slip of unit or scale?"))
		}
	}
	if b.OutAt != nil && b.Lasted(*b.OutAt) > LongestBurn+0.5 {
		ds = append(ds, doubt("long", "out_at", float64(b.OutAt.Unix()), "Lit for more than four and a half hours. Is the time right?"))
	}
	return append(ds, doubtsOfLighting(b, f)...)
}

func doubtsOfLighting(b Burn, f BurnFacts) []Doubt {
	var ds []Doubt
	if b.ID != 0 {
		return nil
	}
	for _, o := range f.Others {
		if o.OutAt != nil && !o.OutAt.After(b.LitAt) && b.LitAt.Sub(*o.OutAt).Hours() < float64(RestBetween) {
			ds = append(ds, doubt("rest", "lit_at", float64(b.LitAt.Unix()), f.Candle.Code()+" rested less than an hour. Wax that is still soft gives false soot. Light it all the same?"))
		}
	}
	if len(f.Others) == 0 && b.LitAt.Before(f.Life.ReadyAt()) {
		ds = append(ds, doubt("cure", "lit_at", float64(b.LitAt.Unix()), f.Candle.Code()+" has not finished its cure. Light it all the same?"))
	}
	if b.MassBefore == nil {
		return ds
	}
	if last := lastBefore(b, f.Others); last != nil && last.MassAfter != nil && *b.MassBefore > *last.MassAfter+2 {
		ds = append(ds, doubt("gained", "mass_before", float64(*b.MassBefore), "Heavier than after the last burn. Is it right?"))
	}
	return ds
}

// lastBefore is the latest of the other burns that was over when b was lit.
func lastBefore(b Burn, others []Burn) *Burn {
	var last *Burn
	for i, o := range others {
		if o.OutAt != nil && !o.OutAt.After(b.LitAt) && (last == nil || o.OutAt.After(*last.OutAt)) {
			last = &others[i]
		}
	}
	return last
}
