package page_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/verdict"
	"rimward/web/page"
)

var decided = time.Date(2026, 4, 2, 21, 0, 0, 0, time.UTC)

// figures are frozen figures of two candles.
func figures(change func(*journal.VerdictFigures)) journal.VerdictFigures {
	f := journal.VerdictFigures{
		Schema: 1, At: decided, Candles: []journal.ID{1, 2}, Telling: 2, Burns: 9, AllBurns: 10, Ended: 3, Enough: true, Wall: 80, Target: 3.15,
		Width: journal.WidthSpan{P10: 80.5, P50: 84.3, P90: 88}, Next: journal.WidthSpan{P10: 78, P50: 84, P90: 90},
		Full: journal.HoursSpan{P10: of(quantity.Hours(2)), P50: of(quantity.Hours(2.5))}, Never: 0.1, OnTarget: 0.8, Closeness: 98.26, Rank: 2, Ranked: 3,
		Faults: []journal.FaultCount{{Name: "soot", Burns: 1, Of: 9}},
		Rate:   &journal.RateSpan{Mean: 6.24, Low: of(quantity.GramsPerHour(5.5)), High: of(quantity.GramsPerHour(7)), Candles: 2, Burns: 8},
		Label:  &journal.LabelFigures{Candles: 3, Mean: 40, Bound: of(quantity.Hours(35.9))}, AfterSmoke: &journal.SmokeFigures{Mean: 12.4, Burns: 8, Limit: 30},
	}
	if change != nil {
		change(&f)
	}
	return f
}

func aVerdict(change func(*journal.Verdict)) journal.Verdict {
	x := journal.Verdict{Meta: journal.Meta{ID: 5, Version: 1}, Vessel: 1, Wick: 1, Wicks: 1, Wax: 1, Fragrance: of(journal.ID(1)), Load: of(quantity.Fraction(0.08)), Apart: journal.ByLoad,
		Series: "1.1.1-8000", Ruling: journal.Accepted, By: "Maren", At: decided, Why: "clean to the end", TipTest: true, Figures: figures(nil)}
	if change != nil {
		change(&x)
	}
	return x
}

// shelved is a shelf with one of each.
func shelved() page.Known {
	return page.NewKnown(page.Shelves{
		Waxes: []journal.Wax{{Meta: journal.Meta{ID: 1}, Name: "Meadow blend", Family: "soy", LoadBasis: journal.OfWax,
			HeatTo: journal.Range[quantity.Celsius]{Low: of(quantity.Celsius(75)), High: of(quantity.Celsius(85))}, CureDays: journal.Range[quantity.Days]{Low: of(quantity.Days(7))}}},
		Fragrances: []journal.Fragrance{{Meta: journal.Meta{ID: 1}, Name: "Fig and smoke", MaxLoad: of(quantity.Fraction(0.1)), MaxBasis: journal.OfWax}},
		Vessels: []journal.Vessel{{Meta: journal.Meta{ID: 1}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 80, Material: "glass", FillHeight: of(quantity.Millimetres(62)),
			Volume: of(quantity.Millilitres(296)), FlameLimit: of(quantity.Millimetres(60))}},
		Ladders: []journal.Ladder{{Meta: journal.Meta{ID: 1}, Name: "Larkspur", Kind: "flat braid"}},
		Wicks:   []journal.Wick{{Meta: journal.Meta{ID: 1}, Ladder: 1, Rung: 1, Label: "7"}},
	})
}

func rowsOf(rows []page.FigureRow) map[string]string {
	out := map[string]string{}
	for _, r := range rows {
		out[r.Label] = plain(strings.Join([]string{r.Then.Text, r.Then.More, r.Now.Text, r.Mark}, " / "))
	}
	return out
}

func TestVerdictPageSetsFiguresBesideThoseOfNow(t *testing.T) {
	t.Parallel()
	now := figures(func(f *journal.VerdictFigures) {
		f.Candles, f.Width.P50, f.AllBurns, f.Rate = append(f.Candles, 3), 86, 12, nil
		f.Hard = []string{"3-A, burn 1: The vessel cracked."}
	})
	p := page.NewVerdictPage(aVerdict(nil), true, &now, shelved(), nil, metricView())
	want := map[string]string{
		"Candles and burns":               "2 candles, 9 burns / of 10 burns looked at / 2 candles, 9 burns / moved, and it matters",
		"Burned to the end":               "3 candles /  / 3 candles / same",
		"Width with no wall, average":     "84.3 mm / eight in ten 80.5–88.0 mm / 86 mm / moved a little",
		"Width with no wall, next candle": "84 mm / eight in ten 78.0–90.0 mm / 84 mm / same",
		"Full pool after":                 "2 h 30 / eight in ten 2 h 00–may never / 2 h 30 / same",
		"Chance on target":                "0.80 / full by 3 h 09, not before half of it / 0.80 / same",
		"Place":                           "2nd of 3 / closeness 98.3 of 100 / 2nd of 3 / same",
		"Hard findings":                   "none /  / 1 / moved, and it matters",
		"Faults seen, in burns":           "soot 1 of 9 /  / soot 1 of 9 / same",
		"Burn rate":                       "6.2 g/h / 2 candles, 8 weighed burns / not known / moved a little",
		"Burn time for a label":           "at most 35 h / three candles burned to the end; 40 h on average / at most 35 h / same",
		"After-smoke":                     "12 s on average / 8 burns, limit 30 s / 12 s on average / same",
	}
	if diff := cmp.Diff(want, rowsOf(p.Rows)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if !p.Matters || len(p.Drift) != 2 || p.Title != "Larkspur 7 in Pebble tumbler" || plain(p.Lede) != "Meadow blend with Fig and smoke, 8 % of wax · One wick" {
		t.Errorf("%+v", p)
	}
	lost := page.NewVerdictPage(aVerdict(nil), true, nil, shelved(), nil, metricView())
	if !lost.Matters || lost.Pairing != "" || !strings.Contains(lost.Drift[0], "no figures of now") || lost.Rows[0].Mark != "" || lost.Rows[0].Now.Text != "" {
		t.Errorf("without figures of now: %+v", lost.Rows[0])
	}
}

func TestFiguresThatAreNotKnownAreSaidInWords(t *testing.T) {
	t.Parallel()
	none := aVerdict(func(x *journal.Verdict) { x.Figures = journal.VerdictFigures{} })
	got := rowsOf(page.NewVerdictPage(none, true, nil, shelved(), nil, metricView()).Rows)
	for label, want := range map[string]string{"Width with no wall, average": notKnown, "Full pool after": notKnown, "Chance on target": notKnown, "Place": "none /  /  / ", "Faults seen, in burns": "none seen /  /  / ",
		"Burn rate": "not known / no burn was weighed before and after /  / ", "Burn time for a label": "not enough yet / no candles burned to the end /  / ", "After-smoke": "not timed /  /  / "} {
		if got[label] != want {
			t.Errorf("%s: got %q, want %q", label, got[label], want)
		}
	}
	full := aVerdict(func(x *journal.Verdict) { x.Figures.AtLeast, x.Figures.Full.P90 = true, of(quantity.Hours(9)) })
	got = rowsOf(page.NewVerdictPage(full, true, nil, shelved(), nil, metricView()).Rows)
	if got["Width with no wall, average"] != "at least 80.5 mm / no reading was short of the wall /  / " || got["Full pool after"] != "by over 4 h 00 /  /  / " {
		t.Errorf("full at every look: %q, %q", got["Width with no wall, average"], got["Full pool after"])
	}
}

const notKnown = "not known /  /  / "

// One verdict that counts is enough for a row; the list says what moved.
func TestVerdictsPageListsWhatCounts(t *testing.T) {
	t.Parallel()
	x := aVerdict(nil)
	older := aVerdict(func(x *journal.Verdict) { x.ID, x.Ruling, x.At = 4, journal.Rejected, decided.Add(-time.Hour) })
	other := aVerdict(func(x *journal.Verdict) {
		x.ID, x.Series, x.Ruling, x.Why = 6, "1.2.1-8000", journal.LeftOpen, strings.Repeat("a long reason ", 30)
	})
	gone := aVerdict(func(x *journal.Verdict) { x.ID, x.Series, x.Gone = 7, "1.3.1-8000", &decided })
	now := map[journal.Place]journal.VerdictFigures{x.Place(): x.Figures}
	p := page.NewVerdictsPage([]journal.Verdict{gone, other, x, older}, now, []journal.Verdict{gone}, "", shelved(), metricView())
	var got []string
	for _, g := range p.Groups {
		for _, r := range g.Rows {
			got = append(got, g.Title+": "+r.Href+" "+r.Drift[:20]+" "+r.Sheet)
		}
	}
	want := []string{"Accepted: /verdicts/5 Nothing has moved si /verdicts/5/sheet", "Left open: /verdicts/6 There are no figures "}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
	if why := p.Groups[1].Rows[0].Why; len(why) > 170 || !strings.HasSuffix(why, " …") {
		t.Errorf("the reason is shown as %q", why)
	}
	if len(p.Waiting) != 1 || !strings.HasPrefix(p.Waiting[0].Href, "/verdicts/new?series=1.3.1-8000") {
		t.Errorf("waiting: %+v", p.Waiting)
	}
}

func TestStandingsAreMarkedWithVerdicts(t *testing.T) {
	t.Parallel()
	href := func(wick string) string { return "/standings/pairing?series=1.1.1-8000&vessel=1&wax=1&wick=" + wick }
	row := func(wick string) []page.StandingsRow { return []page.StandingsRow{{Href: href(wick)}} }
	p := page.StandingsPage{Groups: []page.StandingsGroup{{Series: []page.StandingsSeries{{Ranked: row("1"), Below: row("2"), Thin: row("3")}}}}}
	p.Groups[0].Series[0].Verdict.Href = "/verdicts/new?series=1.1.1-8000&vessel=1&wax=1&wick=1"
	standing := journal.Standing([]journal.Verdict{aVerdict(nil), aVerdict(func(x *journal.Verdict) { x.ID, x.Wick, x.Ruling = 8, 2, journal.Rejected }),
		aVerdict(func(x *journal.Verdict) { x.ID, x.Wick, x.Ruling = 9, 3, journal.LeftOpen })})
	p.MarkVerdicts(standing)
	s := p.Groups[0].Series[0]
	if s.Ranked[0].Verdict != "accepted" || s.Below[0].Verdict != "rejected" || s.Thin[0].Verdict != "" || s.Verdict.Href != "/verdicts/5" {
		t.Errorf("%+v", s)
	}
}

// brewed is a candle of a pour with the temperatures that it was made at.
func brewed(id journal.ID, hot float64, filled float64, litAfter int, trim float64) journal.CandleLog {
	poured := decided.AddDate(0, 0, -30)
	lit := poured.AddDate(0, 0, litAfter)
	return journal.CandleLog{Made: journal.Made{
		Candle: journal.Candle{Meta: journal.Meta{ID: id}, Filled: of(quantity.Grams(filled))},
		Pour: journal.Pour{Meta: journal.Meta{ID: id}, Number: 10 + int(id), At: poured, Wax: 1, WaxLot: fmt.Sprintf("M%d", id), Fragrance: of(journal.ID(1)), Load: of(quantity.Fraction(0.08)),
			LoadBasis: journal.OfWax, HeatedTo: of(quantity.Celsius(hot)), HeatGun: id == 1},
	}, Burns: []journal.BurnLog{
		{Burn: journal.Burn{LitAt: lit, Trim: of(quantity.Millimetres(trim))}},
		{Burn: journal.Burn{LitAt: decided.Add(time.Hour), Trim: of(quantity.Millimetres(30))}}, // after the figures were frozen
	}}
}

func specOf(x journal.Verdict, counts bool) page.SpecPage {
	return page.NewSpecPage(page.SpecSource{Verdict: x, Counts: counts, Logs: []journal.CandleLog{brewed(1, 78, 250, 9, 5), brewed(2, 81, 262, 12, 6)},
		Known: shelved(), Limits: safety.NewLimits(nil)}, metricView())
}

func linesOf(p page.SpecPage) map[string]string {
	out := map[string]string{}
	for _, r := range p.Recipe {
		out[r.Label] = plain(r.Used + " / " + r.Guide)
	}
	for _, b := range append(p.Things, p.Evidence...) {
		for _, l := range b.Lines {
			out[l.Label] = plain(l.Text + " / " + l.More)
		}
	}
	for _, l := range p.Verdict {
		out[l.Label] = plain(l.Text + " / " + l.More)
	}
	return out
}

// 8 % of the wax is 0.08/1.08 = 7.4074 % of the total (worked in the trade's
// way: 8 g of oil to 100 g of wax). 250 g are 250/28.3495 = 8.8185 oz (factor of
// 16 CFR 500.19), the mean of 250 and 262 g is 256 g, 9.03 oz. 35.9 h rounds
// down to 35 h; 36 h is 10 % below the 40 h measured, and above the bound.
func TestSpecSheet(t *testing.T) {
	t.Parallel()
	p := specOf(aVerdict(func(x *journal.Verdict) { x.ClaimedHours = of(quantity.Hours(36)) }), true)
	got := linesOf(p)
	for label, want := range map[string]string{
		"Wax": "Meadow blend / soy, lots M1 and M2", "Fragrance": "Fig and smoke / at most 10 % of wax, lot not noted", "Load": "8 % of wax = 7.4 % of total / not stated",
		"Heated to": "78–81 °C / 75–85 °C", "Poured at": "not noted / not stated", "Cure before lighting": "9–12 days / from 7 days",
		"Poured": "pours 11 and 12, 3 Mar 2026 / ", "Also": "heat gun in 1 of 2 / ", "Inside": "80 mm / ", "Fill line": "62 mm high / 296 mL to it", "Its own limits": "flame 60 mm / ",
		"Trimmed to": "5–6 mm / wanted: 6 mm", "Filled mass": "256 g on average / 250–262 g over 2 candles",
		"Net mass, the lightest": "250 g (8.82 oz) / mean 256 g (9.03 oz); 28.3495 g to the ounce (16 CFR 500.19)",
		"Tested bound":           "at most 35 h / three candles burned to the end; 40 h on average; nine in ten last at least that long, at 90 % confidence",
		"Meant for the label":    "36 h / within 10 % of the mean, the reference of a quality mark (RAL-GZ 041); longer than the tested bound",
		"Ruling":                 "Accepted / by Maren, 2 Apr 2026", "By hand": "stays up on a slope of 10°: yes / surface below stays touchable: not tried",
		"Burn rate": "6.2 g/h / 2 candles, 8 weighed burns",
	} {
		if got[label] != want {
			t.Errorf("%s: got %q, want %q", label, got[label], want)
		}
	}
	if p.Draft != "" || p.Why != "clean to the end" || len(p.Cautions) < 8 || plain(p.Findings[0]) != "Soot: 1 of 9 burns" {
		t.Errorf("%+v", p)
	}
	for _, says := range []string{"no certificate", "does not say that the candle complies with any standard", "test laboratory"} {
		if !strings.Contains(p.Sentence, says) {
			t.Errorf("the sheet does not say %q", says)
		}
	}
}

// The doubts about the bound stay with it, on the verdict and on the sheet.
func TestDoubtsAboutTheLabelAreShown(t *testing.T) {
	t.Parallel()
	x := aVerdict(func(x *journal.Verdict) {
		x.Figures.Label.Doubts = []string{"Some were burned too low. Settle that.", "They were not filled alike."}
	})
	if p := page.NewVerdictPage(x, true, nil, shelved(), nil, metricView()); len(p.LabelDoubts) != 2 || p.LabelDoubts[1] != "They were not filled alike." {
		t.Errorf("on the verdict: %q", p.LabelDoubts)
	}
	if got := specOf(x, true).Doubts; got != "Some were burned too low. They were not filled alike." {
		t.Errorf("on the sheet: %q", got)
	}
	x.Figures.Label.Bound, x.Figures.Label.Doubts = nil, nil
	if got := linesOf(specOf(x, true))["Tested bound"]; got != "none can be given / three candles burned to the end, and they lasted too differently" {
		t.Errorf("of candles that lasted too differently: %q", got)
	}
}

func TestASheetIsADraftUntilItsVerdictAccepts(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		change func(*journal.Verdict)
		counts bool
		want   string
	}{
		"accepted":   {nil, true, ""},
		"rejected":   {func(x *journal.Verdict) { x.Ruling = journal.Rejected }, true, "the pairing was rejected"},
		"left open":  {func(x *journal.Verdict) { x.Ruling = journal.LeftOpen }, true, "the pairing was left open"},
		"withdrawn":  {func(x *journal.Verdict) { x.Gone = &decided }, false, "the verdict was withdrawn"},
		"replaced":   {nil, false, "a later verdict counts instead"},
		"no verdict": {func(x *journal.Verdict) { x.ID, x.Ruling = 0, "" }, false, "no verdict was made yet"},
	} {
		t.Run(name, func(t *testing.T) {
			if got := specOf(aVerdict(c.change), c.counts).Draft; got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

// What has no end is cut, so that the sheet stays one page.
func TestASheetCutsWhatHasNoEnd(t *testing.T) {
	t.Parallel()
	p := specOf(aVerdict(func(x *journal.Verdict) {
		x.Why = strings.Repeat("because ", 500)
		x.Figures.Faults, x.Figures.Hard = nil, nil
		for i := range 20 {
			x.Figures.Faults = append(x.Figures.Faults, journal.FaultCount{Name: fmt.Sprintf("fault %d", i), Burns: 1, Of: 9})
			x.Figures.Hard = append(x.Figures.Hard, strings.Repeat("hard ", 80))
		}
	}), true)
	if len(p.Why) > 370 || len(p.Findings) != 7 || p.Findings[6] != "and 14 others" || len(p.Hard) != 3 || len(p.Hard[0].Text) > 120 || p.Hard[2].Text != "and 18 others" {
		t.Errorf("%d characters, findings %v, %d hard: %v", len(p.Why), p.Findings, len(p.Hard), p.Hard)
	}
}

func TestPairingVerdictSaysWhatIsMissing(t *testing.T) {
	t.Parallel()
	draft := aVerdict(func(x *journal.Verdict) { x.ID, x.Ruling = 0, "" })
	items := verdict.Missing(draft.Figures, verdict.Hands{Tip: true, Base: true})
	p := page.NewPairingVerdict(draft, nil, items, metricView())
	if p.Says != "No verdict yet." || p.Ruling != "" || p.Left != "One thing is missing. It can be accepted all the same, with a reason." || len(p.Acts) != 2 {
		t.Errorf("%+v", p)
	}
	states := ""
	for _, i := range p.Missing {
		states += i.State + ", "
	}
	if states != "done, missing, done, done, done, done, not needed, done, done, done, " {
		t.Errorf("states: %s", states)
	}
	draft.Figures.Hard = []string{"The vessel cracked."}
	p = page.NewPairingVerdict(draft, []journal.Verdict{aVerdict(nil), aVerdict(func(x *journal.Verdict) { x.ID, x.At = 3, decided.Add(-time.Hour) })},
		verdict.Missing(draft.Figures, verdict.Hands{}), metricView())
	if !strings.HasPrefix(p.Left, "A hard finding stands against it") || p.Ruling != "accepted" || !p.Matters || len(p.Earlier) != 1 || p.Earlier[0].Href != "/verdicts/3" {
		t.Errorf("%+v", p)
	}
}
