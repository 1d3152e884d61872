package journal

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/quantity"
)

// looked is a set check a day after the pour, changed as a case asks.
func looked(change func(*SetCheck)) SetCheck {
	s := SetCheck{At: hoursAgo(0), Top: TopSmooth}
	if change != nil {
		change(&s)
	}
	return s
}

func setFacts(change func(*SetCheckFacts)) SetCheckFacts {
	f := SetCheckFacts{Now: evening, Candle: Candle{PourNumber: 14, Letter: "C"}, PouredAt: hoursAgo(25)}
	if change != nil {
		change(&f)
	}
	return f
}

func TestSetCheckRules(t *testing.T) {
	t.Parallel()
	litAt := func(h float64) SetCheckFacts {
		return setFacts(func(f *SetCheckFacts) { f.FirstLit = ptr(hoursAgo(h)) })
	}
	gone := setFacts(func(f *SetCheckFacts) { f.Gone = true })
	for name, c := range map[string]struct {
		check SetCheck
		facts SetCheckFacts
		field string
	}{
		"a smooth top":                         {looked(nil), setFacts(nil), ""},
		"in the future":                        {looked(func(s *SetCheck) { s.At = evening.Add(3 * time.Minute) }), setFacts(nil), "at"},
		"clocks may differ by a minute":        {looked(func(s *SetCheck) { s.At = evening.Add(time.Minute) }), setFacts(nil), ""},
		"at the pour":                          {looked(func(s *SetCheck) { s.At = hoursAgo(25) }), setFacts(nil), ""},
		"before the pour":                      {looked(func(s *SetCheck) { s.At = hoursAgo(25.01) }), setFacts(nil), "at"},
		"as it was lit":                        {looked(nil), litAt(0), ""},
		"after it was lit":                     {looked(nil), litAt(0.01), "at"},
		"of a withdrawn candle":                {looked(nil), gone, ""},
		"a correction of a withdrawn candle's": {looked(func(s *SetCheck) { s.ID = 4 }), gone, ""},
		"an unknown top":                       {looked(func(s *SetCheck) { s.Top = "domed" }), setFacts(nil), "top"},
		"an unknown amount":                    {looked(func(s *SetCheck) { s.Cracks = "some" }), setFacts(nil), "cracks"},
		"a dip with its depth":                 {looked(func(s *SetCheck) { s.Top, s.Dip = TopDip, ptr(quantity.Millimetres(100)) }), setFacts(nil), ""},
		"a dip too deep":                       {looked(func(s *SetCheck) { s.Top, s.Dip = TopDip, ptr(quantity.Millimetres(100.1)) }), setFacts(nil), "dip"},
		"a dip below nothing":                  {looked(func(s *SetCheck) { s.Top, s.Dip = TopDip, ptr(quantity.Millimetres(-0.1)) }), setFacts(nil), "dip"},
		"a depth without a dip":                {looked(func(s *SetCheck) { s.Dip = ptr(quantity.Millimetres(2)) }), setFacts(nil), "dip"},
		"stuck all round":                      {looked(func(s *SetCheck) { s.Stuck = ptr(quantity.Fraction(1)) }), setFacts(nil), ""},
		"stuck to more than all":               {looked(func(s *SetCheck) { s.Stuck = ptr(quantity.Fraction(1.01)) }), setFacts(nil), "stuck"},
		"stuck to less than nothing":           {looked(func(s *SetCheck) { s.Stuck = ptr(quantity.Fraction(-0.01)) }), setFacts(nil), "stuck"},
		"a cold throw of 5":                    {looked(func(s *SetCheck) { s.ColdThrow = ptr(5) }), setFacts(nil), ""},
		"a cold throw of 6":                    {looked(func(s *SetCheck) { s.ColdThrow = ptr(6) }), setFacts(nil), "cold_throw"},
		"a cold throw below nothing":           {looked(func(s *SetCheck) { s.ColdThrow = ptr(-1) }), setFacts(nil), "cold_throw"},
		"nothing noted":                        {SetCheck{At: evening, Note: "  "}, setFacts(nil), "top"},
		"a note is enough":                     {SetCheck{At: evening, Note: "dusty"}, setFacts(nil), ""},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			err := c.check.Validate(c.facts)
			if got := fieldOf(t, err); got != c.field {
				t.Errorf("the problem is of %q, want %q: %v", got, c.field, err)
			}
			if name == "of a withdrawn candle" && (err == nil || !strings.Contains(err.Error(), "14-C was withdrawn")) {
				t.Errorf("a set check of a withdrawn candle: %v", err)
			}
		})
	}
}

// A full day: candles are looked at after 24 h (common practice, no source).
func TestSetLookedTakesAFullDay(t *testing.T) {
	t.Parallel()
	poured := hoursAgo(48)
	for h, want := range map[float64]bool{47.99: false, 24.01: false, 24: true, 0: true} {
		l := CandleLog{Made: Made{Pour: Pour{At: poured}}, SetChecks: []SetCheck{{At: hoursAgo(h)}}}
		if got := l.Life().SetLooked(); got != want || l.SetChecks[0].Early(poured) == want {
			t.Errorf("looked at %g h ago, poured 48 h ago: set %v, early %v", h, got, l.SetChecks[0].Early(poured))
		}
		l.SetChecks[0].Gone = &evening
		if l.Life().SetLooked() || l.CountedSetChecks() != nil && len(l.CountedSetChecks()) > 0 {
			t.Error("a withdrawn set check counts")
		}
	}
	if (Life{PouredAt: poured}).SetLooked() {
		t.Error("a candle that nobody looked at")
	}
}

func TestAsItShouldBeKeepsWhatWasSeen(t *testing.T) {
	t.Parallel()
	s := SetCheck{Top: TopRough, Frosting: AmountHeavy}.AsItShouldBe(true)
	if s.Top != TopRough || s.Frosting != AmountHeavy || s.Sweating != AmountNone || s.SinkHole != AmountNone || s.Cracks != AmountNone || s.Stuck == nil || *s.Stuck != 1 || s.ColdThrow != nil {
		t.Errorf("filled in: %+v", s)
	}
	if s := (SetCheck{}).AsItShouldBe(false); s.Stuck != nil || s.Top != TopSmooth {
		t.Errorf("through a wall that hides it: %+v", s)
	}
}
