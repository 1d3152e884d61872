package verdict_test

import (
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/verdict"
)

// drifted lists the figures that moved, those that matter with a mark.
func drifted(lines []verdict.Line) string {
	var out []string
	for _, l := range lines {
		switch {
		case l.Matters:
			out = append(out, string(l.Figure)+"!")
		case l.Moved:
			out = append(out, string(l.Figure))
		}
	}
	return strings.Join(out, " ")
}

func frozen() journal.VerdictFigures {
	return journal.VerdictFigures{
		Candles: []journal.ID{1, 2, 3}, Telling: 3, Burns: 12, AllBurns: 13, Ended: 3, Enough: true,
		Width: journal.WidthSpan{P10: 98, P50: 104, P90: 110}, Next: journal.WidthSpan{P10: 95, P50: 104, P90: 114},
		Full: journal.HoursSpan{P10: p(quantity.Hours(2)), P50: p(quantity.Hours(2.5)), P90: p(quantity.Hours(3.5))}, OnTarget: 0.8, Rank: 1, Ranked: 2,
		Faults: []journal.FaultCount{{Name: "soot", Burns: 1, Of: 12}}, Hard: []string{"Soot."},
		Rate:       &journal.RateSpan{Mean: 6, Low: p(quantity.GramsPerHour(5.5)), High: p(quantity.GramsPerHour(6.5)), Candles: 3, Burns: 12},
		Label:      &journal.LabelFigures{Candles: 3, Mean: 40, Bound: p(quantity.Hours(35.2))},
		AfterSmoke: &journal.SmokeFigures{Mean: 20, Burns: 3, Limit: 30},
	}
}

func TestDrift(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		change func(*journal.VerdictFigures)
		want   string
	}{
		"nothing":                            {func(*journal.VerdictFigures) {}, ""},
		"another revision, the same figures": {func(f *journal.VerdictFigures) { f.Revision = 99 }, ""},
		"less than a page shows": {func(f *journal.VerdictFigures) {
			f.Width.P50, f.OnTarget, f.Rate.Mean, f.AfterSmoke.Mean = 104.4, 0.81, 6.05, 20.4
			f.Full.P50, f.Label.Bound = p(quantity.Hours(2.55)), p(quantity.Hours(35.25))
		}, ""},
		"a burn more":                   {func(f *journal.VerdictFigures) { f.Burns, f.AllBurns = 13, 14 }, "counts"},
		"a candle more":                 {func(f *journal.VerdictFigures) { f.Candles = append(f.Candles, 4) }, "counts!"},
		"a candle withdrawn":            {func(f *journal.VerdictFigures) { f.Candles = f.Candles[:2] }, "counts!"},
		"another one burned to the end": {func(f *journal.VerdictFigures) { f.Ended = 4 }, "ended"},
		"wider, within its interval":    {func(f *journal.VerdictFigures) { f.Width.P50 = 110 }, "width"},
		"narrower, within its interval": {func(f *journal.VerdictFigures) { f.Width.P50 = 98 }, "width"},
		"wider than its interval":       {func(f *journal.VerdictFigures) { f.Width.P50 = 110.1 }, "width!"},
		"narrower than its interval":    {func(f *journal.VerdictFigures) { f.Next.P50 = 94.9 }, "next!"},
		"full later, within":            {func(f *journal.VerdictFigures) { f.Full.P50 = p(quantity.Hours(3.5)) }, "full"},
		"full later than its interval":  {func(f *journal.VerdictFigures) { f.Full.P50 = p(quantity.Hours(3.6)) }, "full!"},
		"full sooner than its interval": {func(f *journal.VerdictFigures) { f.Full.P50 = p(quantity.Hours(1.9)) }, "full!"},
		"maybe never full":              {func(f *journal.VerdictFigures) { f.Full.P50, f.Full.P90 = nil, nil }, "full!"},
		"less often on target":          {func(f *journal.VerdictFigures) { f.OnTarget = 0.5 }, "on target"},
		"more likely off target":        {func(f *journal.VerdictFigures) { f.OnTarget = 0.49 }, "on target!"},
		"no readings any more":          {func(f *journal.VerdictFigures) { f.Enough = false }, "width next full on target"},
		"overtaken":                     {func(f *journal.VerdictFigures) { f.Rank = 2 }, "place!"},
		"one more to compare with":      {func(f *journal.VerdictFigures) { f.Ranked = 3 }, "place"},
		"a new hard finding":            {func(f *journal.VerdictFigures) { f.Hard = append(f.Hard, "The vessel cracked.") }, "hard!"},
		"another hard finding instead": {func(f *journal.VerdictFigures) {
			f.Hard = []string{"1-B, burn 2: There is a flame on the pool."}
		}, "hard!"},
		"the same hard finding twice": {func(f *journal.VerdictFigures) { f.Hard = append(f.Hard, f.Hard...) }, "hard!"},
		"a hard finding withdrawn":    {func(f *journal.VerdictFigures) { f.Hard = nil }, "hard!"},
		"the same fault again":        {func(f *journal.VerdictFigures) { f.Faults = []journal.FaultCount{{Name: "soot", Burns: 2, Of: 13}} }, "faults"},
		// The 95 % intervals of Wilson, 1 of 12: 0.015 to 0.354, and 12 of 12: 0.757
		// to 1 (R, prop.test(correct = FALSE), from memory).
		"a fault in every burn":         {func(f *journal.VerdictFigures) { f.Faults = []journal.FaultCount{{Name: "soot", Burns: 12, Of: 12}} }, "faults!"},
		"a fault in thrice the share":   {func(f *journal.VerdictFigures) { f.Faults = []journal.FaultCount{{Name: "soot", Burns: 3, Of: 12}} }, "faults!"},
		"a fault in twice the share":    {func(f *journal.VerdictFigures) { f.Faults = []journal.FaultCount{{Name: "soot", Burns: 3, Of: 18}} }, "faults!"},
		"in less than twice the share":  {func(f *journal.VerdictFigures) { f.Faults = []journal.FaultCount{{Name: "soot", Burns: 3, Of: 19}} }, "faults"},
		"in twice the share, two burns": {func(f *journal.VerdictFigures) { f.Faults = []journal.FaultCount{{Name: "soot", Burns: 2, Of: 3}} }, "faults"},
		"a new fault": {func(f *journal.VerdictFigures) {
			f.Faults = append(f.Faults, journal.FaultCount{Name: "sweating", Burns: 1, Of: 9})
		}, "faults!"},
		"faster, within":               {func(f *journal.VerdictFigures) { f.Rate.Mean = 6.5 }, "rate"},
		"faster than its interval":     {func(f *journal.VerdictFigures) { f.Rate.Mean = 6.6 }, "rate!"},
		"never weighed":                {func(f *journal.VerdictFigures) { f.Rate = nil }, "rate"},
		"a longer label time":          {func(f *journal.VerdictFigures) { f.Label.Bound = p(quantity.Hours(36.5)) }, "label"},
		"shorter, the same on a label": {func(f *journal.VerdictFigures) { f.Label.Bound = p(quantity.Hours(35.05)) }, "label"},
		"a shorter one":                {func(f *journal.VerdictFigures) { f.Label.Bound = p(quantity.Hours(34.9)) }, "label!"},
		"none any more":                {func(f *journal.VerdictFigures) { f.Label = nil }, "label!"},
		"after-smoke over its limit":   {func(f *journal.VerdictFigures) { f.AfterSmoke.Mean = 30.5 }, "after-smoke!"},
		"after-smoke longer":           {func(f *journal.VerdictFigures) { f.AfterSmoke.Mean = 30 }, "after-smoke"},
	} {
		t.Run(name, func(t *testing.T) {
			now := frozen()
			c.change(&now)
			lines := verdict.Drift(frozen(), now)
			if got := drifted(lines); got != c.want {
				t.Errorf("moved %q, want %q", got, c.want)
			}
			if verdict.Moved(lines) != (c.want != "") || len(verdict.Matters(lines)) != strings.Count(c.want, "!") {
				t.Error("the sums do not agree with the lines")
			}
			for _, why := range verdict.Matters(lines) {
				if !strings.HasSuffix(why, ".") {
					t.Errorf("not a sentence: %q", why)
				}
			}
		})
	}
}

// Where no reading was short of the wall, only the lower end is known: the
// middle, which means nothing, cannot be what moved.
func TestDriftOfAWidthThatHasNoUpperEnd(t *testing.T) {
	t.Parallel()
	was := frozen()
	was.AtLeast = true
	now := was
	now.Width.P50, now.Width.P90 = 150, 200
	if got := drifted(verdict.Drift(was, now)); got != "" {
		t.Errorf("moved %q", got)
	}
	now.AtLeast = false
	if got := drifted(verdict.Drift(was, now)); got != "width next" {
		t.Errorf("moved %q", got)
	}
}

// A width that is now only known to be at least 140 mm cannot be one between
// 98 and 110, nor the other way round; at least 110 can.
func TestDriftToAWidthThatCannotBeTheSame(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		least quantity.Millimetres
		want  string
	}{{140, "width! next!"}, {114, "width! next"}, {110, "width next"}, {90, "width next"}} {
		now := frozen()
		now.AtLeast = true
		now.Width, now.Next = journal.WidthSpan{P10: c.least, P50: 300, P90: 400}, journal.WidthSpan{P10: c.least, P50: 300, P90: 400}
		if got := drifted(verdict.Drift(frozen(), now)); got != c.want {
			t.Errorf("at least %v: moved %q, want %q", c.least, got, c.want)
		}
		if got := drifted(verdict.Drift(now, frozen())); got != c.want {
			t.Errorf("back from at least %v: moved %q, want %q", c.least, got, c.want)
		}
	}
}

// A fault that went from every burn to hardly any matters as well.
func TestDriftOfAFaultSeenLess(t *testing.T) {
	t.Parallel()
	was, now := frozen(), frozen()
	was.Faults[0].Burns = 12
	lines := verdict.Drift(was, now)
	if why := strings.Join(verdict.Matters(lines), " "); why != "Seen clearly less often than then: soot." {
		t.Errorf("says %q", why)
	}
}

// Clearly more often without being twice as often: 40 of 100 has the 95 %
// interval 0.309 to 0.498, 70 of 100 has 0.604 to 0.781 (Wilson, by hand).
func TestDriftOfAFaultSeenMore(t *testing.T) {
	t.Parallel()
	for burns, want := range map[int]string{70: "faults!", 55: "faults"} {
		was, now := frozen(), frozen()
		was.Faults, now.Faults = []journal.FaultCount{{Name: "soot", Burns: 40, Of: 100}}, []journal.FaultCount{{Name: "soot", Burns: burns, Of: 100}}
		if got := drifted(verdict.Drift(was, now)); got != want {
			t.Errorf("%d of 100: moved %q, want %q", burns, got, want)
		}
	}
}

// Findings are told apart by rule and place: other words for one, as after a
// change of units, are no new finding; another rule in the same words is.
func TestDriftOfHardFindingsGoesByRuleAndPlace(t *testing.T) {
	t.Parallel()
	was, now := frozen(), frozen()
	was.HardKeys, now.HardKeys, now.Hard = []string{"hot/1/2/3"}, []string{"hot/1/2/3"}, []string{"The glass was at 203 °F."}
	if got := drifted(verdict.Drift(was, now)); got != "" {
		t.Errorf("other words: moved %q", got)
	}
	now.HardKeys, now.Hard = []string{"soot/1/2/4"}, was.Hard
	lines := verdict.Drift(was, now)
	if why := strings.Join(verdict.Matters(lines), " "); why != "1 hard finding is new. 1 hard finding is gone." {
		t.Errorf("another finding: says %q", why)
	}
	was.HardKeys = nil // from before they were kept
	now.Hard = was.Hard
	if got := drifted(verdict.Drift(was, now)); got != "" {
		t.Errorf("by words: moved %q", got)
	}
}
