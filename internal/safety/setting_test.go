package safety_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
)

// asSet is a candle with set checks, each some hours after its pour.
func asSet(load float64, hours float64, checks ...journal.SetCheck) journal.CandleLog {
	l := journal.CandleLog{Made: glass}
	l.Vessel.Certificate = true
	l.Pour.At, l.Pour.LoadBasis = lit, journal.OfWax
	if load > 0 {
		l.Fragrance = &journal.Fragrance{Name: "Fig and smoke"}
		l.Pour.Load = ptr(quantity.Fraction(load))
		l.Wax.Load.High, l.Wax.LoadBasis = ptr(quantity.Fraction(0.1)), journal.OfWax
	}
	for _, c := range checks {
		c.At = lit.Add(time.Duration(hours * float64(time.Hour)))
		l.SetChecks = append(l.SetChecks, c)
	}
	return l
}

const sweats = "caution: sweating before it was lit"

// Sweating comes of a load above the wax's capacity and is a flag for fire
// (common practice, no source).
func TestSweatingRaisesTheCaution(t *testing.T) {
	t.Parallel()
	gone := journal.SetCheck{Sweating: journal.AmountHeavy}
	gone.Gone = &lit
	for name, c := range map[string]struct {
		log  journal.CandleLog
		want []string
	}{
		"none":                   {asSet(0.08, 25, journal.SetCheck{Sweating: journal.AmountNone}), []string{}},
		"not looked at":          {asSet(0.08, 25, journal.SetCheck{Top: journal.TopSmooth}), []string{}},
		"slight":                 {asSet(0.08, 25, journal.SetCheck{Sweating: journal.AmountSlight}), []string{sweats}},
		"heavy":                  {asSet(0.08, 25, journal.SetCheck{Sweating: journal.AmountHeavy}), []string{sweats}},
		"seen before a full day": {asSet(0.08, 6, journal.SetCheck{Sweating: journal.AmountHeavy}), []string{sweats}},
		"withdrawn":              {asSet(0.08, 25, gone), []string{}},
		"with a load too high":   {asSet(0.12, 25, journal.SetCheck{Sweating: journal.AmountSlight}), []string{"caution: load over the wax's maximum", sweats}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			fs := safety.Everything(c.log, defaults, quantity.Metric)
			if d := cmp.Diff(c.want, rules(fs)); d != "" {
				t.Error(d)
			}
			for _, f := range fs {
				if f.Candle != "14-C" || len(f.Do) == 0 || f.Source == "" {
					t.Errorf("a finding without its place, its advice or its source: %+v", f)
				}
			}
			if across := safety.EverythingOf([]journal.CandleLog{c.log}, defaults, quantity.Metric); len(across) != len(fs) {
				t.Errorf("the pairing shows %d findings, the candle %d", len(across), len(fs))
			}
			if own := safety.OfCandle(c.log, defaults, quantity.Metric); (len(own) == 1) != slices.Contains(c.want, sweats) {
				t.Errorf("on the candle's page: %v", rules(own))
			}
		})
	}
}

func TestSweatingStrengthensALoadOverItsMaximum(t *testing.T) {
	t.Parallel()
	dry := safety.Everything(asSet(0.12, 25), defaults, quantity.Metric)[0]
	wet := safety.Everything(asSet(0.12, 25, journal.SetCheck{Sweating: journal.AmountSlight}), defaults, quantity.Metric)[0]
	if wet.Rule != dry.Rule || !strings.HasPrefix(wet.Text, dry.Text) || !strings.Contains(wet.Text, "sweated, too") || len(wet.Do) != len(dry.Do)+1 {
		t.Errorf("dry: %+v\nwet: %+v", dry, wet)
	}
}

// The faults and what is usually done about them are those of the trade (common
// practice, no source): frosting, sink holes, cracks and rough tops, wet spots.
func TestEachFaultOfSettingHasItsAnswer(t *testing.T) {
	t.Parallel()
	for f, words := range map[safety.SetFault]string{
		safety.SetSweating: "less oil", safety.SetSinkHole: "relief holes", safety.SetCracks: "warmer room", safety.SetRough: "heat gun",
		safety.SetDip: "second pour", safety.SetWetSpots: "clean, warmed", safety.SetFrosting: "cooler",
	} {
		if r := safety.SetRemedy(f); !strings.Contains(r.Do, words) || r.Source != "common practice, no source" || r.Turn == "" {
			t.Errorf("%s is answered by %+v", f, r)
		}
	}
	if len(safety.SetFaults) != 7 || safety.SetRemedy("none such").Do != "" {
		t.Errorf("%d faults", len(safety.SetFaults))
	}
}

// Wet spots count from less than 95 % of the wall, and heavily from less than
// half of it (app defaults).
func TestWetSpotsAtTheirLimits(t *testing.T) {
	t.Parallel()
	for share, want := range map[float64]journal.Amount{1: journal.AmountNone, 0.95: journal.AmountNone, 0.949: journal.AmountSlight, 0.5: journal.AmountSlight, 0.499: journal.AmountHeavy, 0: journal.AmountHeavy} {
		if got, looked := safety.LookFor(journal.SetCheck{Stuck: ptr(quantity.Fraction(share))}, safety.SetWetSpots); got != want || !looked {
			t.Errorf("%g of the wall stuck is %q, want %q", share, got, want)
		}
	}
	if _, looked := safety.LookFor(journal.SetCheck{}, safety.SetWetSpots); looked {
		t.Error("nobody looked at the wall")
	}
}

func TestOneChangeToTheNextPour(t *testing.T) {
	t.Parallel()
	frosted, holed := journal.SetCheck{Frosting: journal.AmountHeavy, SinkHole: journal.AmountNone}, journal.SetCheck{SinkHole: journal.AmountSlight, Cracks: journal.AmountNone}
	withdrawn := asSet(0, 25, journal.SetCheck{Sweating: journal.AmountHeavy})
	withdrawn.Candle.Gone = &lit
	cs := safety.SetCourses([]journal.CandleLog{asSet(0, 25, frosted), asSet(0, 25, holed), withdrawn})
	type course struct {
		Fault               safety.SetFault
		Seen, Looked, Heavy int
	}
	var got []course
	for _, c := range cs {
		got = append(got, course{c.Fault, c.Seen, c.Looked, c.Heavy})
	}
	if d := cmp.Diff([]course{{safety.SetSinkHole, 1, 2, 0}, {safety.SetCracks, 0, 1, 0}, {safety.SetFrosting, 1, 1, 1}}, got); d != "" {
		t.Error(d)
	}
	if c, ok := safety.SetChange(cs); !ok || c.Fault != safety.SetSinkHole {
		t.Errorf("the change answers %q", c.Fault)
	}
	if _, ok := safety.SetChange(safety.SetCourses([]journal.CandleLog{asSet(0, 25, journal.SetCheck{Cracks: journal.AmountNone})})); ok {
		t.Error("a change where nothing was seen")
	}
}

func TestNotesOfSettingSayWhenItWasSeen(t *testing.T) {
	t.Parallel()
	seen := journal.SetCheck{Top: journal.TopRough, Frosting: journal.AmountHeavy}
	for hours, want := range map[float64]string{23.9: "may have changed since", 24: "24 h after the pour.", 80: "3.3 days after the pour."} {
		fs := safety.Everything(asSet(0, hours, seen), defaults, quantity.Metric)
		if d := cmp.Diff([]string{"note: set with rough top", "note: set with frosting"}, rules(fs)); d != "" {
			t.Error(d)
		}
		for _, f := range fs {
			if !strings.Contains(f.Text, want) {
				t.Errorf("%g h: %s", hours, f.Text)
			}
		}
	}
}
