package page_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/web/page"
	"rimward/web/ui"
)

// aCandle is 14-B of the shelf's things, poured a fortnight before noon.
func aCandle(burns ...journal.BurnLog) journal.CandleLog {
	sh := aShelf()
	return journal.CandleLog{Burns: burns, Made: journal.Made{
		Candle: journal.Candle{Meta: journal.Meta{ID: 7, Version: 1}, Pour: 14, PourNumber: 14, Letter: "B", Vessel: 3, Wick: 11, Wicks: 1, Filled: of(quantity.Grams(182))},
		Pour:   aPour(), Wax: sh.Waxes[0], Fragrance: &sh.Fragrances[0], Vessel: sh.Vessels[0], Wick: sh.Wicks[1], Ladder: sh.Ladders[0],
	}}
}

// aBurn is a burn of three hours that was lit some hours before noon, with
// checks every hour.
func aBurn(number int, ago float64, checks ...journal.Check) journal.BurnLog {
	lit := noon.Add(-hours(ago))
	b := journal.Burn{Meta: journal.Meta{ID: journal.ID(20 + number), Version: 1}, Candle: 7, Number: number, LitAt: lit}
	if ago > 3 {
		b.OutAt, b.Ending = of(lit.Add(hours(3))), journal.Snuffed
	}
	for i := range checks {
		checks[i].ID, checks[i].Burn = journal.ID(100*number+i), b.ID
		if checks[i].At.IsZero() {
			checks[i].At = lit.Add(hours(float64(i + 1)))
		}
	}
	return journal.BurnLog{Burn: b, Checks: checks}
}

func hours(h float64) time.Duration { return time.Duration(h * float64(time.Hour)) }

func wide(a, b quantity.Millimetres) journal.Check { return journal.Check{WidthA: &a, WidthB: &b} }

func candlePage(l journal.CandleLog, v page.View, history ...journal.Change) page.CandlePage {
	return page.NewCandlePage(l, safety.NewLimits(nil), page.NewKnown(aShelf()), history, "once", v)
}

func texts(acts []ui.Action) []string {
	var out []string
	for _, a := range acts {
		out = append(out, a.Text)
	}
	return out
}

func TestCandleSaysWhereItIsAndWhatCanBeDone(t *testing.T) {
	t.Parallel()
	fresh := aCandle()
	fresh.Pour.At = noon.AddDate(0, 0, -3)
	spent := aCandle(aBurn(1, 48))
	spent.Burns[0].Burn.Ending = journal.Spent
	gone := aCandle()
	gone.Candle.Gone = of(noon)
	cracked := aCandle(aBurn(1, 48, journal.Check{Odd: []journal.Odd{journal.Cracked}}))
	for _, c := range []struct {
		name string
		log  journal.CandleLog
		lede string
		acts []string
		main bool
	}{
		{"curing", fresh, "One Larkspur 6 in Pebble tumbler. Curing until Mon 18 May.", []string{"Light it"}, false},
		{"ready", aCandle(), "One Larkspur 6 in Pebble tumbler. Ready, not burned yet.", []string{"Light it"}, true},
		{"lit", aCandle(aBurn(1, 2.5)), "One Larkspur 6 in Pebble tumbler. Lit for 2 h 30, burn 1. One burn, 2 h 30 lit.", []string{"Check it", "Put it out"}, true},
		{"resting", aCandle(aBurn(1, 48)), "One Larkspur 6 in Pebble tumbler. Resting since Tue 12 May, 15:00. One burn, 3 h 00 lit.", []string{"Light it"}, true},
		{"spent", spent, "One Larkspur 6 in Pebble tumbler. Spent. One burn, 3 h 00 lit.", nil, false},
		{"withdrawn", gone, "One Larkspur 6 in Pebble tumbler. Withdrawn.", []string{"Bring it back"}, false},
		{"a cracked vessel is not lit again", cracked, "One Larkspur 6 in Pebble tumbler. Resting since Tue 12 May, 15:00. One burn, 3 h 00 lit.", nil, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := candlePage(c.log, metricView())
			if p.Lede != c.lede {
				t.Errorf("lede %q, want %q", p.Lede, c.lede)
			}
			if diff := cmp.Diff(c.acts, texts(p.Acts)); diff != "" {
				t.Error(diff)
			}
			if main := len(p.Acts) > 0 && p.Acts[0].Main; main != c.main {
				t.Errorf("main %v, want %v", main, c.main)
			}
		})
	}
}

func TestCandleWithAHardFindingIsNotAskedToBeLit(t *testing.T) {
	t.Parallel()
	p := candlePage(aCandle(aBurn(1, 48, journal.Check{Flame: of(quantity.Millimetres(80)), Full: true})), metricView())
	if p.Acts[0].Text != "Light it" || p.Acts[0].Main {
		t.Errorf("acts %+v", p.Acts)
	}
	if len(p.Findings) == 0 || !p.Findings[0].Hard || !strings.HasPrefix(p.Findings[0].Text, "Burn 1: ") {
		t.Errorf("findings %+v", p.Findings)
	}
}

func TestCandleFactsSayHowItCured(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name       string
		burn       float64 // hours before noon; 0 never lit
		text, more string
	}{
		{"not lit yet", 0, "14", "so far; guide 7–14 days"},
		{"lit when cured", 48, "12", "to the first burn; guide 7–14 days"},
		{"lit three days early", 24 * 10, "4", "to the first burn; guide 7–14 days"},
		{"lit hours early", 24*7 + 5, "7", "to the first burn; guide 7–14 days"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			l := aCandle()
			if c.burn > 0 {
				l.Burns = append(l.Burns, aBurn(1, c.burn))
			}
			f := factOf(t, candlePage(l, metricView()).Facts, "Cure")
			if f.Text != c.text || f.Unit != "days" || f.More != c.more {
				t.Errorf("got %q %q %q, want %q %q", f.Text, f.Unit, f.More, c.text, c.more)
			}
		})
	}
}

func TestCandleFactsNameWhatItIsMadeOf(t *testing.T) {
	t.Parallel()
	facts := candlePage(aCandle(), metricView()).Facts
	for label, want := range map[string]ui.Fact{
		"Wax":         {Text: "Meadow blend", Href: "/shelf/waxes/1", More: "lot M-0412"},
		"Fragrance":   {Text: "Fig and smoke", Href: "/shelf/fragrances/2", More: "8 % of wax (7.4 % of total)"},
		"Poured":      {Text: "Thu 30 Apr, pour 14", Href: "/pours/14", More: "at 63.5 °C"},
		"Filled":      {Text: "182", Unit: "g"},
		"Target hour": {Text: "3 h 00 (an hour per inch)"}, // 76.2 mm is 3 in
	} {
		want.Label = label
		if diff := cmp.Diff(want, factOf(t, facts, label)); diff != "" {
			t.Error(diff)
		}
	}
}

func TestBurnsAreStripsOfPools(t *testing.T) {
	t.Parallel()
	out := journal.Check{LeftOut: true, WidthA: of(quantity.Millimetres(60))}
	withdrawn := wide(10, 10)
	withdrawn.Gone = of(noon)
	blind := journal.Check{Flame: of(quantity.Millimetres(20))}
	p := candlePage(aCandle(aBurn(1, 48, wide(48, 46), out, withdrawn, blind, journal.Check{Full: true, At: noon.Add(-hours(45))})), metricView())
	var got [][3]string
	for _, f := range p.Burns[0].Pools {
		got = append(got, [3]string{f.Hour, f.Text, map[bool]string{true: "left out"}[f.LeftOut]})
	}
	want := [][3]string{{"1 h 00", "48 × 46", ""}, {"2 h 00", "60", "left out"}, {"3 h 00", "full", ""}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if p.Seen != "full when last seen" {
		t.Errorf("seen %q", p.Seen)
	}
}

func TestBurnsRepeatAFindingOnce(t *testing.T) {
	t.Parallel()
	tall := journal.Check{Flame: of(quantity.Millimetres(55)), Full: true}
	p := candlePage(aCandle(aBurn(1, 48, tall, tall, tall)), metricView())
	var got []string
	for _, w := range p.Burns[0].Warnings {
		got = append(got, w.Text)
	}
	if len(got) != 1 || !strings.HasPrefix(got[0], "At 1 h 00: ") || !strings.HasSuffix(got[0], " Again at two later checks.") {
		t.Errorf("got %q", got)
	}
}

func TestWithdrawnBurnsAndChecksStayStruckThrough(t *testing.T) {
	t.Parallel()
	check := wide(48, 46)
	check.Gone, check.GoneWhy, check.Note = of(noon), "wrong candle", "leaned over"
	burn := aBurn(2, 24, wide(50, 49))
	burn.Burn.Gone, burn.Burn.GoneWhy = of(noon), "lit by mistake"
	p := candlePage(aCandle(aBurn(1, 48, check), burn), metricView())
	if b := p.Burns[1]; b.Gone != "Withdrawn today. lit by mistake" || b.BringBack.Href != "/restore/burn/22" || len(b.Pools) != 0 {
		t.Errorf("burn %+v", b)
	}
	first, second := p.Readings[0], p.Readings[1]
	if !first.Gone || first.BringBack.Href != "/restore/check/100" || first.Note != "withdrawn: wrong candle; leaned over" {
		t.Errorf("check %+v", first)
	}
	if !second.Gone || second.BringBack != nil || second.Withdraw != "" {
		t.Errorf("check of a withdrawn burn %+v", second)
	}
	if !strings.HasSuffix(p.Lede, "One burn, 3 h 00 lit.") {
		t.Errorf("lede %q", p.Lede)
	}
}

func TestReadingsAreWrittenInThePersonsUnits(t *testing.T) {
	t.Parallel()
	c := wide(73.025, 76.2) // 2 7/8 and 3 in, 16 CFR 500.19
	c.VesselTemp, c.Flame, c.HotThrow = of(quantity.Celsius(60)), of(quantity.Millimetres(25.4)), of(3)
	c.Odd = []journal.Odd{journal.Debris, journal.WickDrifted}
	p := candlePage(aCandle(aBurn(1, 48, c)), imperialView())
	r := p.Readings[0]
	got := []string{r.Burn, r.Hour, r.Width, r.Flame, r.Temp, r.Throw, r.Odd, r.Edit}
	want := []string{"1", "1 h 00", "2 7/8 × 3", "1", "140", "3", "debris in the pool and wick drifted", "/checks/100/edit"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if p.Units != (page.WalkUnits{Length: "in", Temperature: "°F"}) {
		t.Errorf("units %+v", p.Units)
	}
}

func TestHistoryPartsCorrectionsFromWhatIsOrdinary(t *testing.T) {
	t.Parallel()
	log := aCandle(aBurn(1, 48, wide(48, 46)))
	lit, out, weighed := log.Burns[0].Burn, log.Burns[0].Burn, log.Burns[0].Burn
	lit.OutAt, lit.Ending = nil, ""
	weighed.MassAfter = of(quantity.Grams(163.7))
	check := log.Burns[0].Checks[0]
	was := check
	was.WidthA = of(quantity.Millimetres(84))
	other := log.Candle
	other.Wick = 13
	p := candlePage(log, metricView(),
		change(t, journal.NounCandle, 7, journal.Corrected, other, log.Candle),
		change(t, journal.NounBurn, 21, journal.Corrected, out, weighed),
		change(t, journal.NounCheck, 100, journal.Corrected, was, check),
		change(t, journal.NounBurn, 21, journal.Corrected, lit, out),
		change(t, journal.NounBurn, 21, journal.Written, nil, lit))
	want := []ui.ChangeLine{
		{When: "today, 12:00", What: "Candle 14-B corrected", Diffs: []ui.Diff{{Label: "Wick", Before: "Larkspur 8", After: "Larkspur 6"}}},
		{When: "today, 12:00", What: "Check at 1 h 00 of burn 1 corrected", Diffs: []ui.Diff{{Label: "Width", Before: "84 mm", After: "48 mm"}}},
	}
	if diff := cmp.Diff(want, p.Changes); diff != "" {
		t.Error(diff)
	}
	var ordinary []string
	for _, c := range p.Routine {
		ordinary = append(ordinary, c.What)
	}
	if diff := cmp.Diff([]string{"Burn 1 weighed", "Burn 1 put out", "Burn 1 written down"}, ordinary); diff != "" {
		t.Error(diff)
	}
}

func change(t *testing.T, n journal.Noun, of journal.ID, kind journal.ChangeKind, before, after any) journal.Change {
	t.Helper()
	c := journal.Change{Noun: n, Of: of, At: noon, Kind: kind}
	for _, x := range []struct {
		v  any
		to *[]byte
	}{{before, &c.Before}, {after, &c.After}} {
		if x.v == nil {
			continue
		}
		b, err := json.Marshal(x.v)
		if err != nil {
			t.Fatal(err)
		}
		*x.to = b
	}
	return c
}

func TestCandleWithoutBurnsSaysWhatComesFirst(t *testing.T) {
	t.Parallel()
	p := candlePage(aCandle(), metricView())
	if p.Empty == nil || !strings.HasPrefix(p.Empty.Text, "No burns yet. Trim the wick") {
		t.Errorf("empty %+v", p.Empty)
	}
	young := aCandle()
	young.Pour.At = noon.AddDate(0, 0, -3)
	if q := candlePage(young, metricView()); q.Empty.Text != "No burns yet. It is set and cured Mon 18 May; the bench will say so." {
		t.Errorf("curing: %q", q.Empty.Text)
	}
}
