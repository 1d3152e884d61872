package journal

import (
	"errors"
	"strings"
	"testing"
	"time"

	"rimward/internal/quantity"
)

func ptr[T any](v T) *T { return &v }

// evening is the moment that the tests are written down at.
var evening = time.Date(2026, 5, 14, 20, 30, 0, 0, time.UTC)

func hoursAgo(h float64) time.Time { return evening.Add(-time.Duration(h * float64(time.Hour))) }

// fieldOf is the field of the first problem, "" when there is none.
func fieldOf(t *testing.T, err error) string {
	t.Helper()
	if err == nil {
		return ""
	}
	var invalid *InvalidError
	if !errors.As(err, &invalid) || len(invalid.Problems) == 0 || invalid.Problems[0].Text == "" {
		t.Fatalf("not a refusal with a sentence: %v", err)
	}
	return invalid.Problems[0].Field
}

func burnFacts(others ...Burn) BurnFacts {
	return BurnFacts{Now: evening, Candle: Candle{PourNumber: 14, Letter: "C", Wicks: 1}, Life: Life{PouredAt: hoursAgo(24 * 30)}, Others: others}
}

func litBurn(change func(*Burn)) Burn {
	b := Burn{Number: 2, LitAt: hoursAgo(3)}
	if change != nil {
		change(&b)
	}
	return b
}

func over(number int, lit, out float64, end Ending) Burn {
	return Burn{Meta: Meta{ID: ID(number + 100)}, Number: number, LitAt: hoursAgo(lit), OutAt: ptr(hoursAgo(out)), Ending: end}
}

func TestBurnRules(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		burn  Burn
		facts BurnFacts
		field string
	}{
		"lit three hours ago":             {litBurn(nil), burnFacts(), ""},
		"lit in the future":               {litBurn(func(b *Burn) { b.LitAt = evening.Add(3 * time.Minute) }), burnFacts(), "lit_at"},
		"clocks may differ by a minute":   {litBurn(func(b *Burn) { b.LitAt = evening.Add(time.Minute) }), burnFacts(), ""},
		"lit before it was poured":        {litBurn(func(b *Burn) { b.LitAt = hoursAgo(24 * 31) }), burnFacts(), "lit_at"},
		"out without an ending":           {litBurn(func(b *Burn) { b.OutAt = ptr(hoursAgo(1)) }), burnFacts(), "ending"},
		"an ending while it is lit":       {litBurn(func(b *Burn) { b.Ending = Snuffed }), burnFacts(), "ending"},
		"out before it was lit":           {litBurn(func(b *Burn) { b.OutAt, b.Ending = ptr(hoursAgo(4)), Snuffed }), burnFacts(), "out_at"},
		"out in the future":               {litBurn(func(b *Burn) { b.OutAt, b.Ending = ptr(evening.Add(time.Hour)), Snuffed }), burnFacts(), "out_at"},
		"lit for more than a week":        {litBurn(func(b *Burn) { b.LitAt, b.OutAt, b.Ending = hoursAgo(24*9), ptr(hoursAgo(1)), Snuffed }), burnFacts(), "out_at"},
		"lit already":                     {litBurn(nil), burnFacts(Burn{Meta: Meta{ID: 9}, Number: 1, LitAt: hoursAgo(1)}), "candle"},
		"overlaps an earlier burn":        {litBurn(nil), burnFacts(over(1, 5, 2, Snuffed)), "lit_at"},
		"follows an earlier burn":         {litBurn(nil), burnFacts(over(1, 9, 5, Snuffed)), ""},
		"spent before":                    {litBurn(nil), burnFacts(over(1, 9, 5, Spent)), "candle"},
		"spent with a burn that follows":  {over(1, 9, 5, Spent), burnFacts(over(2, 3, 1, Snuffed)), "ending"},
		"trim beyond belief":              {litBurn(func(b *Burn) { b.Trim = ptr(quantity.Millimetres(51)) }), burnFacts(), "trim"},
		"heavier afterwards":              {litBurn(func(b *Burn) { b.MassBefore, b.MassAfter = ptr(quantity.Grams(200)), ptr(quantity.Grams(202)) }), burnFacts(), "mass_after"},
		"heavier by less than the scale":  {litBurn(func(b *Burn) { b.MassBefore, b.MassAfter = ptr(quantity.Grams(200)), ptr(quantity.Grams(201)) }), burnFacts(), ""},
		"a check before lighting":         {litBurn(nil), BurnFacts{Now: evening, Life: Life{PouredAt: hoursAgo(99)}, Checks: []Check{{At: hoursAgo(4)}}}, "lit_at"},
		"a check after it went out":       {over(1, 3, 2, Snuffed), BurnFacts{Now: evening, Life: Life{PouredAt: hoursAgo(99)}, Checks: []Check{{At: hoursAgo(1)}}}, "out_at"},
		"a candle whose vessel cracked":   {litBurn(nil), BurnFacts{Now: evening, Life: Life{PouredAt: hoursAgo(99)}, Cracked: true}, "candle"},
		"correcting one whose vessel did": {over(1, 3, 2, Snuffed), BurnFacts{Now: evening, Life: Life{PouredAt: hoursAgo(99)}, Cracked: true}, ""},
		"a candle that was withdrawn":     {litBurn(nil), BurnFacts{Now: evening, Life: Life{PouredAt: hoursAgo(99), Gone: true}}, "candle"},
	} {
		if got := fieldOf(t, c.burn.Validate(c.facts)); got != c.field {
			t.Errorf("%s: refused at %q, want %q", name, got, c.field)
		}
	}
}

func checkFacts(others ...Check) CheckFacts {
	return CheckFacts{Now: evening, Burn: Burn{LitAt: hoursAgo(3)}, Vessel: Vessel{Shape: Round, InnerWidth: 76}, Wicks: 1, Ruler: 1, Others: others}
}

func seen(hours float64, change func(*Check)) Check {
	c := Check{At: hoursAgo(3 - hours), WidthA: ptr(quantity.Millimetres(60))}
	if change != nil {
		change(&c)
	}
	return c
}

func TestCheckRules(t *testing.T) {
	t.Parallel()
	ended := checkFacts()
	ended.Burn.OutAt = ptr(hoursAgo(1))
	oval := checkFacts()
	oval.Vessel = Vessel{Shape: Oval, InnerWidth: 70, InnerLength: ptr(quantity.Millimetres(100))}
	for name, c := range map[string]struct {
		check Check
		facts CheckFacts
		field string
	}{
		"one width is enough":              {seen(2, nil), checkFacts(), ""},
		"nothing at all":                   {Check{At: hoursAgo(1)}, checkFacts(), "width_a"},
		"before lighting":                  {seen(-0.1, nil), checkFacts(), "at"},
		"after snuffing":                   {seen(2.5, nil), ended, "at"},
		"in the future":                    {seen(3.1, nil), checkFacts(), "at"},
		"at the wall":                      {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(76)) }), checkFacts(), ""},
		"wider by the ruler's step":        {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(77)) }), checkFacts(), ""},
		"wider by more than the ruler":     {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(77.1)) }), checkFacts(), "width_a"},
		"across an oval, wider than there": {seen(2, func(c *Check) { c.WidthB = ptr(quantity.Millimetres(90)) }), oval, "width_b"},
		"along an oval":                    {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(90)) }), oval, ""},
		"below nothing":                    {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(-1)) }), checkFacts(), "width_a"},
		"twice in a minute":                {seen(2, nil), checkFacts(Check{Meta: Meta{ID: 5}, At: hoursAgo(1)}), "at"},
		"correcting the same check":        {seen(2, func(c *Check) { c.ID = 5 }), checkFacts(Check{Meta: Meta{ID: 5}, At: hoursAgo(1)}), ""},
		"a word that no scale has":         {seen(2, func(c *Check) { c.Soot = "heaps" }), checkFacts(), "soot"},
		"throw beyond the scale":           {seen(2, func(c *Check) { c.HotThrow = ptr(6) }), checkFacts(), "hot_throw"},
	} {
		if got := fieldOf(t, c.check.Validate(c.facts)); got != c.field {
			t.Errorf("%s: refused at %q, want %q", name, got, c.field)
		}
	}
}

func TestDoubtsOfCheck(t *testing.T) {
	t.Parallel()
	earlier := Check{Meta: Meta{ID: 5}, At: hoursAgo(2), WidthA: ptr(quantity.Millimetres(60))}
	for name, c := range map[string]struct {
		check Check
		kind  string
	}{
		"growing":                     {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(68)) }), ""},
		"smaller by two ruler steps":  {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(58)) }), ""},
		"smaller by more":             {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(57.9)) }), "shrinking"},
		"inches typed as millimetres": {seen(2, func(c *Check) { c.WidthA = ptr(quantity.Millimetres(2.9)) }), "unit-slip"},
		"full yet narrow":             {seen(2, func(c *Check) { c.WidthA, c.Full = ptr(quantity.Millimetres(66)), true }), "full-but-narrow"},
		"full and at the wall":        {seen(2, func(c *Check) { c.WidthA, c.Full = ptr(quantity.Millimetres(75)), true }), ""},
		"flame of an inch and a half": {seen(2, func(c *Check) { c.WidthA, c.Flame = nil, ptr(quantity.Millimetres(1.5)) }), "small-flame"},
		"a very deep pool":            {seen(2, func(c *Check) { c.WidthA, c.Depth = nil, ptr(quantity.Millimetres(45)) }), "deep-pool"},
	} {
		ds := DoubtsOfCheck(c.check, checkFacts(earlier))
		got := ""
		if len(ds) > 0 {
			got, _, _ = strings.Cut(ds[0].Key, ":")
		}
		if got != c.kind || len(ds) > 1 {
			t.Errorf("%s: asked %q (%d questions), want %q", name, got, len(ds), c.kind)
		}
	}
}

// A doubt that was answered is asked again only when the entry changed.
func TestDoubtsKnowTheirEntry(t *testing.T) {
	t.Parallel()
	key := func(w quantity.Millimetres) string {
		return DoubtsOfCheck(seen(2, func(c *Check) { c.WidthA = &w }), checkFacts())[0].Key
	}
	first, same, other := key(2.9), key(2.9), key(2.8)
	if first != same || first == other {
		t.Errorf("keys are %q, %q and %q", first, same, other)
	}
}

// The band is 2 to 12 g/h for each wick: published single-wick rates run from
// 2.6 (Fire Sci. & Eng. 30(3), 2016) to 7.3 g/h (five pillar candles in still
// air), with a margin of our own.
func TestDoubtsOfRate(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		grams quantity.Grams // lost in two hours
		wicks int
		end   Ending
		asked bool
	}{
		"just below 2":           {3.99, 1, Snuffed, true},
		"2":                      {4, 1, Snuffed, false},
		"12":                     {24, 1, Snuffed, false},
		"just above 12":          {24.01, 1, Snuffed, true},
		"two wicks share":        {44, 2, Snuffed, false},
		"the last of the candle": {3, 1, Spent, false},
	} {
		b := over(2, 3, 1, c.end)
		b.MassBefore, b.MassAfter = ptr(quantity.Grams(250)), ptr(250-c.grams)
		asked := false
		for _, d := range DoubtsOfBurn(b, c.wicks, burnFacts()) {
			asked = asked || strings.HasPrefix(d.Key, "rate:")
		}
		if asked != c.asked {
			t.Errorf("%s g/h: asked %v, want %v", name, asked, c.asked)
		}
	}
}

func TestDoubtsOfLighting(t *testing.T) {
	t.Parallel()
	cold := over(1, 9, 5, Snuffed)
	cold.MassAfter = ptr(quantity.Grams(200))
	young := burnFacts()
	young.Life = Life{PouredAt: hoursAgo(24 * 3), CureDays: 7}
	for name, c := range map[string]struct {
		burn  Burn
		facts BurnFacts
		kind  string
	}{
		"rested for two hours":        {litBurn(nil), burnFacts(cold), ""},
		"rested for 59 minutes":       {litBurn(func(b *Burn) { b.LitAt = hoursAgo(5).Add(59 * time.Minute) }), burnFacts(cold), "rest"},
		"rested for an hour":          {litBurn(func(b *Burn) { b.LitAt = hoursAgo(4) }), burnFacts(cold), ""},
		"before its cure":             {litBurn(nil), young, "cure"},
		"heavier than after the last": {litBurn(func(b *Burn) { b.Number, b.MassBefore = 0, ptr(quantity.Grams(203)) }), burnFacts(cold), "gained"},
		"as heavy as after the last":  {litBurn(func(b *Burn) { b.Number, b.MassBefore = 0, ptr(quantity.Grams(200)) }), burnFacts(cold), ""},
	} {
		ds := DoubtsOfBurn(c.burn, 1, c.facts)
		got := ""
		if len(ds) > 0 {
			got, _, _ = strings.Cut(ds[0].Key, ":")
		}
		if got != c.kind {
			t.Errorf("%s: asked %q, want %q", name, got, c.kind)
		}
	}
}
