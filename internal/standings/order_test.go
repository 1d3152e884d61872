package standings_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
)

// place is a pairing in few words.
type place struct {
	Name string
	Rank int
	Line bool // below it
}

func places(g standings.Group) []place {
	var out []place
	for _, p := range g.Pairings {
		out = append(out, place{p.Name(), p.Rank, p.BelowLine()})
	}
	return out
}

// flaring is a burn with a flame over the limit.
func flaring(mm float64) journal.BurnLog {
	b := reads(mm)
	b.Checks[0].Flame = ptr(quantity.Millimetres(90))
	return b
}

// sooty is a burn with soot.
func sooty(mm float64) journal.BurnLog {
	b := reads(mm)
	b.Checks[0].Soot, b.Checks[1].Soot = "thread", "none"
	return b
}

func TestOrder(t *testing.T) {
	t.Parallel()
	two := candle("D", 5, reads(90))
	two.Candle.Wicks = 2
	for _, c := range []struct {
		name string
		logs []journal.CandleLog
		want []place
	}{
		{"closest to full first", []journal.CandleLog{candle("A", 3, reads(70)), candle("B", 4, reads(95)), candle("C", 5, reads(85))},
			[]place{{"Larkspur 4", 1, false}, {"Larkspur 5", 2, false}, {"Larkspur 3", 3, false}}},
		{"equal to a tenth of a per cent: fewer faults first", []journal.CandleLog{candle("A", 3, sooty(90.04)), candle("B", 4, reads(90))},
			[]place{{"Larkspur 4", 1, false}, {"Larkspur 3", 2, false}}},
		{"further apart than that: the closer first, faults or not", []journal.CandleLog{candle("A", 3, sooty(90.1)), candle("B", 4, reads(90))},
			[]place{{"Larkspur 3", 1, false}, {"Larkspur 4", 2, false}}},
		{"equal with equal faults: by name", []journal.CandleLog{candle("A", 4, reads(90)), candle("B", 3, reads(90)), candle("C", 5, reads(90)), two},
			[]place{{"Larkspur 3", 1, false}, {"Larkspur 4", 2, false}, {"Larkspur 5", 3, false}, {"Larkspur 5", 4, false}}},
		{"full too soon counts as a fault", []journal.CandleLog{candle("A", 3, burn(full(1))), candle("B", 4, burn(width(2, 90), full(3)))},
			[]place{{"Larkspur 4", 1, false}, {"Larkspur 3", 2, false}}},
		{"a hard finding keeps its place and is shown below the line", []journal.CandleLog{candle("A", 3, reads(70)), candle("B", 4, flaring(95)), candle("C", 5, reads(85))},
			[]place{{"Larkspur 5", 2, false}, {"Larkspur 3", 3, false}, {"Larkspur 4", 1, true}}},
		{"not enough yet comes last", []journal.CandleLog{candle("A", 3, burn(width(1, 50))), candle("B", 4, flaring(95)), candle("C", 5, reads(60))},
			[]place{{"Larkspur 5", 2, false}, {"Larkspur 4", 1, true}, {"Larkspur 3", 0, false}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, places(standings.Work(c.logs, options).Groups[0])); d != "" {
				t.Error(d)
			}
		})
	}
}

// Faults are counted per burn: one of four burns weighs less than one of one.
func TestFaultsWeighByBurns(t *testing.T) {
	t.Parallel()
	seldom := candle("A", 4, sooty(90), burn(width(2, 80), sootless(3, 90)), burn(width(2, 80), sootless(3, 90)), burn(width(2, 80), sootless(3, 90)))
	always := candle("B", 3, sooty(90))
	want := []place{{"Larkspur 4", 1, false}, {"Larkspur 3", 2, false}}
	if d := cmp.Diff(want, places(standings.Work([]journal.CandleLog{always, seldom}, options).Groups[0])); d != "" {
		t.Error(d)
	}
}

func sootless(hour, mm float64) journal.Check {
	c := width(hour, mm)
	c.Soot = "none"
	return c
}

func TestHardFindingsKnowWhere(t *testing.T) {
	t.Parallel()
	p := only(t, candle("A", 4, reads(90), flaring(95)))
	if len(p.Hard) != 1 || p.Hard[0].Candle != "14-A" || p.Hard[0].Burn != 2 || p.Hard[0].Level != safety.Hard {
		t.Errorf("%+v", p.Hard)
	}
}

func TestEmpty(t *testing.T) {
	t.Parallel()
	gone := candle("A", 4, reads(90))
	gone.Candle.Gone = &lit
	spilt := candle("B", 4, reads(90))
	spilt.Pour.Gone = &lit
	unlit := candle("C", 4)
	struck := candle("D", 4, reads(90))
	struck.Burns[0].Burn.Gone = &lit
	for name, logs := range map[string][]journal.CandleLog{"no logs": nil, "withdrawn": {gone, spilt, struck}, "never lit": {unlit}} {
		if got := standings.Work(logs, options); len(got.Groups) != 0 || got.Candles != 0 || got.Burns != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

func TestGroups(t *testing.T) {
	t.Parallel()
	bowl := candle("B", 4, reads(40), reads(41))
	bowl.Vessel = journal.Vessel{Meta: journal.Meta{ID: 2}, Name: "Fern bowl", Shape: journal.Round, InnerWidth: 50.8}
	other := candle("C", 3, reads(80))
	other.Wax = harbour
	got := standings.Work([]journal.CandleLog{candle("A", 4, reads(90)), bowl, other}, options)
	if got.Candles != 3 || got.Burns != 4 || len(got.Groups) != 2 {
		t.Fatalf("%d candles, %d burns, %d groups", got.Candles, got.Burns, len(got.Groups))
	}
	// 50.8 mm is two inches: two hours (an hour per inch; common practice, no source).
	f, p := got.Groups[0], got.Groups[1]
	if f.Vessel.Name != "Fern bowl" || f.Target != 2 || f.Candles != 1 || f.Burns != 2 || f.Warnings != nil {
		t.Errorf("%+v", f)
	}
	want := []string{"Different waxes are compared with each other: Harbour blend and Meadow blend."}
	if d := cmp.Diff(want, p.Warnings); d != "" || p.Target != 3 || p.Candles != 2 || len(p.Settings) != 2 {
		t.Errorf("%s %+v", d, p)
	}
}

// The same logs in any order, burns and checks too, give the same standings to
// the last bit; the input is left as it was.
func TestOrderOfInputDoesNotMatter(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var logs []journal.CandleLog
		for i := range rapid.IntRange(1, 9).Draw(t, "candles") {
			var bs []journal.BurnLog
			for range rapid.IntRange(1, 4).Draw(t, "burns") {
				mm := rapid.Float64Range(20, 100).Draw(t, "mm")
				bs = append(bs, rapid.SampledFrom([]journal.BurnLog{reads(mm), sooty(mm), flaring(mm), burn(full(3)), burn(width(1, 50))}).Draw(t, "burn"))
			}
			logs = append(logs, candle(string(rune('A'+i)), rapid.IntRange(3, 6).Draw(t, "rung"), bs...))
		}
		want := standings.Work(logs, options)
		r := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		mixed := slices.Clone(logs)
		r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		for i := range mixed {
			bs := slices.Clone(mixed[i].Burns)
			r.Shuffle(len(bs), func(i, j int) { bs[i], bs[j] = bs[j], bs[i] })
			for k := range bs {
				bs[k].Checks = slices.Clone(bs[k].Checks)
				slices.Reverse(bs[k].Checks)
			}
			mixed[i].Burns = bs
		}
		first := mixed[0].Burns[0].Burn.ID
		if d := cmp.Diff(want, standings.Work(mixed, options)); d != "" {
			t.Fatal(d)
		}
		if mixed[0].Burns[0].Burn.ID != first {
			t.Fatal("the input was put in another order")
		}
		if places := want.Groups[0].Pairings; len(places) > 1 {
			for i := range places[1:] {
				a, b := places[i], places[i+1]
				if a.BelowLine() == b.BelowLine() && a.Enough() && b.Enough() && a.Rank >= b.Rank {
					t.Fatalf("rank %d before %d", a.Rank, b.Rank)
				}
			}
		}
	})
}
