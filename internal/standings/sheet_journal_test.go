package standings_test

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
)

// sheetDay is when the burns of the made-up logs began.
var sheetDay = time.Date(2026, 3, 14, 18, 0, 0, 0, time.UTC)

// logsOf are candles of the journal with the readings of the sheet.
func logsOf(loads ...quantity.Fraction) []journal.CandleLog {
	pebble := journal.Vessel{Meta: journal.Meta{ID: 1}, Name: "Pebble", Shape: journal.Round, InnerWidth: 80, TargetHours: hoursOf(3.25)}
	larkspur, twist := journal.Ladder{Meta: journal.Meta{ID: 1}, Name: "Larkspur"}, journal.Ladder{Meta: journal.Meta{ID: 2}, Name: "Barley twist"}
	candle := func(id journal.ID, letter string, l journal.Ladder, rung int, burns ...journal.BurnLog) journal.CandleLog {
		out := sheetDay.Add(4 * time.Hour)
		for i := range burns {
			burns[i].Burn = journal.Burn{Meta: journal.Meta{ID: 10*id + journal.ID(i)}, Number: i + 1, LitAt: sheetDay, OutAt: &out}
		}
		m := journal.Made{Candle: journal.Candle{Meta: journal.Meta{ID: id}, PourNumber: 1, Letter: letter, Wicks: 1}, Wax: journal.Wax{Meta: journal.Meta{ID: 1}, Name: "Meadow blend"},
			Vessel: pebble, Ladder: l, Wick: journal.Wick{Meta: journal.Meta{ID: 100*l.ID + journal.ID(rung)}, Ladder: l.ID, Rung: rung, Label: strconv.Itoa(rung)}}
		for i := range loads {
			m.Fragrance, m.Pour.Load, m.Pour.LoadBasis = &journal.Fragrance{Meta: journal.Meta{ID: 1}, Name: "Fig and smoke"}, &loads[i], journal.OfWax
		}
		return journal.CandleLog{Made: m, Burns: burns}
	}
	return []journal.CandleLog{
		candle(1, "A", larkspur, 3, looks(1, 41, 2, 57.5, 3, 65), looks(1.5, 50)),
		candle(2, "B", larkspur, 5, looks(1, 52, 2, 76, 3, 0)),
		candle(3, "C", twist, 1, looks(1, 44, 2.25, 63)),
	}
}

func hoursOf(h quantity.Hours) *quantity.Hours { return &h }

// checks are looks at pools by hour and width; a width of 0 is a full pool.
func looks(at ...float64) journal.BurnLog {
	var l journal.BurnLog
	for i := 0; i < len(at); i += 2 {
		w := quantity.Millimetres(at[i+1])
		c := journal.Check{At: sheetDay.Add(time.Duration(at[i] * float64(time.Hour))), WidthA: &w, WidthB: &w}
		if w == 0 {
			c.WidthA, c.WidthB, c.Full = nil, nil, true
		}
		l.Checks = append(l.Checks, c)
	}
	return l
}

func sheetShelf() []journal.Wick {
	var out []journal.Wick
	for r := range 9 {
		out = append(out, journal.Wick{Meta: journal.Meta{ID: 100 + journal.ID(r)}, Ladder: 1, Rung: r, Label: strconv.Itoa(r)})
	}
	return out
}

func ofLogs(t *testing.T, logs []journal.CandleLog) standings.Document {
	t.Helper()
	table, err := standings.Work(t.Context(), logs, standings.Options{Ruler: 1, Limits: safety.NewLimits(nil), Units: quantity.Metric, Apart: journal.ByLoad, Shelf: sheetShelf()}, standings.PriorOf(nil))
	if err != nil {
		t.Fatal(err)
	}
	return table.Document()
}

// The journal and a sheet of the same readings give the same figures, to the
// last digit: one function works both out.
func TestJournalAndSheetAgree(t *testing.T) {
	t.Parallel()
	want, got := ofLogs(t, logsOf()), worked(t, sheet)
	for i := range want.Series {
		want.Series[i].Series, _, _ = strings.Cut(want.Series[i].Series, " · ")
	}
	// In the journal the wick without a ladder is a ladder of one rung.
	for i, p := range want.Series[0].Pairings {
		if *p.Rung != 1 {
			t.Fatalf("rung %d", *p.Rung)
		}
		want.Series[0].Pairings[i].Rung = nil
	}
	want.Series[0].Advice = strings.ReplaceAll(want.Series[0].Advice, "Barley twist 1", "Barley twist")
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-journal +sheet:\n%s", diff)
	}
}

func TestSeriesOfTheJournalAreNamedApart(t *testing.T) {
	t.Parallel()
	for want, logs := range map[string][]journal.CandleLog{
		"Larkspur · Meadow blend, no fragrance":                          logsOf()[:2],
		"Larkspur · Meadow blend, Fig and smoke 8 % of the wax":          logsOf(0.08)[:2],
		"Larkspur, 2 wicks · Meadow blend, Fig and smoke 8 % of the wax": twoWicks(logsOf(0.08)[:2]),
	} {
		if d := ofLogs(t, logs); len(d.Series) != 1 || d.Series[0].Series != want {
			t.Errorf("got %q, want %q", d.Series[0].Series, want)
		}
	}
}

func twoWicks(logs []journal.CandleLog) []journal.CandleLog {
	for i := range logs {
		logs[i].Candle.Wicks = 2
	}
	return logs
}

// A pairing below the line has no place, keeps its figures and says why; one
// without a width says what would be enough.
func TestReasonsStandAmongTheWarnings(t *testing.T) {
	t.Parallel()
	logs := logsOf()[:2]
	logs[0].Burns[0].Checks[0].Odd = []journal.Odd{journal.Cracked}
	logs[1].Burns[0].Checks = nil
	d := ofLogs(t, logs)
	hard := find(t, d, "Larkspur · Meadow blend, no fragrance", 3)
	if hard.Rank != nil || hard.Closest == nil || !strings.Contains(strings.ToLower(strings.Join(hard.Warnings, "\n")), "crack") {
		t.Errorf("a cracked vessel: %+v", hard)
	}
	notYet := find(t, d, "Larkspur · Meadow blend, no fragrance", 5)
	if notYet.Tested || notYet.Rank != nil || notYet.Closest != nil || notYet.Burns != 0 || !strings.HasPrefix(strings.Join(notYet.Warnings, "\n"), "Not enough yet") {
		t.Errorf("nothing read: %+v", notYet)
	}
}

// A burn that was full too soon is a fault, as it is in the journal, where
// fewer faults decide between pairings that are otherwise alike.
func TestSheetCountsBurnsThatWereFullTooSoon(t *testing.T) {
	t.Parallel()
	text := strings.Replace(sheet, "B,1,1,52,no", "B,1,1,,yes", 1) // half of 3.25 h is 1 h 38
	want := []safety.Fault{{Name: "full before half the target hour", Burns: 1, Of: 1}}
	for _, r := range read(t, text)[1].Rungs {
		switch {
		case r.Wick.Rung == 5:
			if diff := cmp.Diff(want, r.Faults); diff != "" {
				t.Errorf("-want +got:\n%s", diff)
			}
		case len(r.Faults) > 0:
			t.Errorf("rung %d: %v", r.Wick.Rung, r.Faults)
		}
	}
}

// One name of a series in two vessels is two series.
func TestVesselsAreKeptApart(t *testing.T) {
	t.Parallel()
	stacks := read(t, names+good+strings.Replace(good, "Pebble,80,3", "Fern bowl,92.3,", 1)+good)
	if len(stacks) != 2 || stacks[0].Vessel.Name != "Fern bowl" || stacks[0].Vessel.InnerWidth != 92.3 || len(stacks[1].Rungs[1].Rows[0].Burns[0].Readings) != 2 {
		t.Errorf("got %+v", stacks)
	}
}

func TestPairingsWithoutWarningsHaveAnEmptyList(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	for _, candle := range []string{"A", "B"} {
		b.WriteString(strings.NewReplacer(",A,", ","+candle+",", ",1,41,", ",1,50,").Replace(good) + strings.NewReplacer(",A,", ","+candle+",", ",1,41,", ",2,70,").Replace(good))
	}
	p := find(t, worked(t, names+b.String()), "Larkspur", 3)
	if p.Candles != 2 || p.Warnings == nil || len(p.Warnings) != 0 {
		t.Errorf("%d candles, warnings %#v", p.Candles, p.Warnings)
	}
}
