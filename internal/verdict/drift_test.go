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
		"a hard finding withdrawn":      {func(f *journal.VerdictFigures) { f.Hard = nil }, "hard!"},
		"the same fault again":          {func(f *journal.VerdictFigures) { f.Faults = []journal.FaultCount{{Name: "soot", Burns: 2, Of: 13}} }, "faults"},
		"a new fault": {func(f *journal.VerdictFigures) {
			f.Faults = append(f.Faults, journal.FaultCount{Name: "sweating", Burns: 1, Of: 9})
		}, "faults!"},
		"faster, within":             {func(f *journal.VerdictFigures) { f.Rate.Mean = 6.5 }, "rate"},
		"faster than its interval":   {func(f *journal.VerdictFigures) { f.Rate.Mean = 6.6 }, "rate!"},
		"never weighed":              {func(f *journal.VerdictFigures) { f.Rate = nil }, "rate"},
		"a longer label time":        {func(f *journal.VerdictFigures) { f.Label.Bound = p(quantity.Hours(36.5)) }, "label"},
		"a shorter one":              {func(f *journal.VerdictFigures) { f.Label.Bound = p(quantity.Hours(34.9)) }, "label!"},
		"none any more":              {func(f *journal.VerdictFigures) { f.Label = nil }, "label!"},
		"after-smoke over its limit": {func(f *journal.VerdictFigures) { f.AfterSmoke.Mean = 30.5 }, "after-smoke!"},
		"after-smoke longer":         {func(f *journal.VerdictFigures) { f.AfterSmoke.Mean = 30 }, "after-smoke"},
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
