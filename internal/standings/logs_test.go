package standings_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
	"rimward/internal/standings/tree"
)

func TestWhatIsLeftOut(t *testing.T) {
	t.Parallel()
	mark := func(c journal.Check) journal.Check { c.LeftOut = true; return c }
	gone := func(c journal.Check) journal.Check { c.Gone = &lit; return c }
	after := func(b journal.BurnLog, f func(*journal.BurnLog)) journal.BurnLog { f(&b); return b }
	for _, c := range []struct {
		name    string
		burn    journal.BurnLog
		hours   []quantity.Hours // of the readings
		why     string
		leftOut []string
	}{
		{"a check left out by hand", burn(width(2, 80), mark(width(3, 20)), width(4, 90)), []quantity.Hours{2, 4}, "", []string{"left out by hand"}},
		{"a withdrawn check, silently", burn(width(2, 80), gone(width(3, 20)), width(4, 90)), []quantity.Hours{2, 4}, "", nil},
		{"a check without a width is no reading", burn(width(3, 80), journal.Check{At: lit.Add(time.Hour), Soot: "none"}), []quantity.Hours{3}, "", nil},
		{"a check after the flame was out", after(burn(width(3, 80), width(3.5, 99)), func(b *journal.BurnLog) { b.Burn.OutAt = ptr(lit.Add(3 * time.Hour)) }), []quantity.Hours{3}, "", []string{"read after the flame was out"}},
		{"a strong draught", after(reads(80), func(b *journal.BurnLog) { b.Burn.Draught = journal.DraughtStrong }), []quantity.Hours{2, 3}, "it burned in a strong draught", nil},
		{"a slight draught does not matter", after(reads(80), func(b *journal.BurnLog) { b.Burn.Draught = journal.DraughtSlight }), []quantity.Hours{2, 3}, "", nil},
		{"put out before the first check", after(burn(), func(b *journal.BurnLog) { b.Burn.Ending = journal.PutOutUnsafe }), nil, "it was put out for safety before the first check", nil},
		{"put out later", after(reads(80), func(b *journal.BurnLog) { b.Burn.Ending = journal.PutOutUnsafe }), []quantity.Hours{2, 3}, "", nil},
		{"a check at the moment of lighting", burn(width(0, 1), width(3, 80)), []quantity.Hours{3}, "", []string{"read as it was lit"}},
		{"checks out of order", burn(width(4, 90), width(2, 70)), []quantity.Hours{2, 4}, "", nil},
		{"no width", burn(journal.Check{At: lit.Add(time.Hour), Soot: "none"}), nil, "no width was read", nil},
		{"every width left out", burn(mark(full(2))), nil, "no width was read", []string{"left out by hand"}},
		{"still lit without a width", after(burn(), func(b *journal.BurnLog) { b.Burn.OutAt, b.Burn.Ending = nil, "" }), nil, "no width was read yet; it is still lit", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := only(t, candle("A", 5, c.burn)).Rows[0].Burns[0]
			var hours []quantity.Hours
			for _, r := range b.Readings {
				hours = append(hours, r.Hour)
			}
			var why []string
			for _, o := range b.LeftOut {
				why = append(why, o.Why)
			}
			if d := cmp.Diff(c.hours, hours) + cmp.Diff(c.leftOut, why); d != "" || b.Why != c.why || b.Used() != (c.why == "") {
				t.Errorf("%s why %q", d, b.Why)
			}
		})
	}
}

// Within half a step of the ruler of the wall counts as full: 99.5 mm of 100
// with a ruler of 1 mm, and not 99.4 mm.
func TestRulerStepCountsAsFull(t *testing.T) {
	t.Parallel()
	for mm, want := range map[float64]bool{99.5: true, 99.4: false} {
		if got := only(t, candle("A", 5, burn(width(2, mm)))).Rows[0].Burns[0].Readings[0].Full; got != want {
			t.Errorf("%v mm: full %v", mm, got)
		}
	}
}

// Oval, 120 by 80 mm inside: 90 and 60 mm are both three quarters. The width
// that stands for it is sqrt(9600) = 97.98 mm, so its target hour is 3.857 h.
func TestOvalVessel(t *testing.T) {
	t.Parallel()
	c := width(3, 0)
	c.WidthA, c.WidthB = ptr(quantity.Millimetres(90)), ptr(quantity.Millimetres(60))
	l := candle("A", 5, burn(c))
	l.Vessel = journal.Vessel{Meta: journal.Meta{ID: 2}, Name: "Fern bowl", Shape: journal.Oval, InnerWidth: 80, InnerLength: ptr(quantity.Millimetres(120))}
	want := []meltpool.Reading{{Hour: 3, Ratio: 0.75}}
	if d := cmp.Diff(want, only(t, l).Rows[0].Burns[0].Readings, cmpopts.EquateApprox(0, 1e-12)); d != "" {
		t.Error(d)
	}
}

func TestWithdrawnRecordsDoNotCount(t *testing.T) {
	t.Parallel()
	gone := candle("A", 4, reads(90))
	gone.Candle.Gone = &lit
	spilt := candle("B", 4, reads(90))
	spilt.Pour.Gone = &lit
	unlit := candle("C", 4)
	struck := candle("D", 4, reads(90))
	struck.Burns[0].Burn.Gone = &lit
	for name, logs := range map[string][]journal.CandleLog{"no logs": nil, "withdrawn": {gone, spilt, struck}, "never lit": {unlit}} {
		if got := work(t, options, logs...); len(got.Groups) != 0 || got.Candles != 0 || got.Burns != 0 {
			t.Errorf("%s: %+v", name, got)
		}
	}
}

// scented is a candle with a fragrance load.
func scented(l journal.CandleLog, load float64, basis journal.Basis) journal.CandleLog {
	l.Fragrance, l.Pour.Fragrance, l.Pour.Load, l.Pour.LoadBasis = &fig, ptr(fig.ID), ptr(quantity.Fraction(load)), basis
	return l
}

// Vessels, waxes, fragrances, loads and counts of wicks are judged apart, as
// far as the studio wants it. 8 % of the wax is 0.08/1.08 of the total.
func TestWhatIsJudgedApart(t *testing.T) {
	t.Parallel()
	bowl := candle("B", 4, reads(40))
	bowl.Vessel = journal.Vessel{Meta: journal.Meta{ID: 2}, Name: "Fern bowl", Shape: journal.Round, InnerWidth: 50.8}
	other := candle("C", 3, reads(80))
	other.Wax = harbour
	two := candle("D", 3, reads(80))
	two.Candle.Wicks = 2
	logs := []journal.CandleLog{candle("A", 4, reads(90)), bowl, other, two,
		scented(candle("E", 3, reads(80)), 0.08, journal.OfWax), scented(candle("F", 4, reads(85)), 0.08/1.08, journal.OfTotal), scented(candle("G", 4, reads(85)), 0.06, journal.OfWax)}
	for apart, want := range map[journal.Apart][]string{
		// Vessel and wax, then candles in each series.
		journal.ByWax:       {"Fern bowl Meadow blend: 1", "Pebble tumbler Harbour blend: 1", "Pebble tumbler Meadow blend: 4 1"},
		journal.ByFragrance: {"Fern bowl Meadow blend: 1", "Pebble tumbler Harbour blend: 1", "Pebble tumbler Meadow blend: 1 1", "Pebble tumbler Meadow blend: 3"},
		journal.ByLoad:      {"Fern bowl Meadow blend: 1", "Pebble tumbler Harbour blend: 1", "Pebble tumbler Meadow blend: 1 1", "Pebble tumbler Meadow blend: 1", "Pebble tumbler Meadow blend: 2"},
	} {
		opt := options
		opt.Apart = apart
		var got []string
		for _, g := range work(t, opt, logs...).Groups {
			line := g.Vessel.Name + " " + g.Settings[0].Wax.Name + ":"
			for _, s := range g.Series {
				line += " " + quantity.Number(float64(s.Candles), 0)
			}
			got = append(got, line)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("by %s (-want +got):\n%s", apart, d)
		}
	}
}

func TestNamesakesAreTold(t *testing.T) {
	t.Parallel()
	other := candle("B", 4, reads(80))
	other.Vessel.ID, other.Vessel.InnerWidth = 2, 90
	stacks := standings.StacksOf([]journal.CandleLog{candle("A", 4, reads(80)), other}, options)
	w, err := standings.NewDesk(tree.Default()).Weigh(t.Context(), stacks)
	if err != nil {
		t.Fatal(err)
	}
	for i := range stacks { // also where one is asked for alone
		got, err := w.Judge(t.Context(), stacks[i:i+1])
		if err != nil {
			t.Fatal(err)
		}
		if w := got.Groups[0].Series[0].Warnings; len(w) != 1 || !strings.Contains(w[0], "Another vessel is called Pebble tumbler too") {
			t.Errorf("%q", w)
		}
	}
	if w := work(t, options, candle("A", 4, reads(80)), scented(candle("B", 4, reads(80)), 0.06, journal.OfWax)).Groups[0].Series[0].Warnings; len(w) > 0 {
		t.Errorf("one vessel in two settings: %q", w)
	}
}

func TestLoadsTakenTogetherAreNamed(t *testing.T) {
	t.Parallel()
	opt := options
	opt.Apart = journal.ByWax
	s := onlySeries(t, opt, scented(candle("A", 3, reads(80)), 0.06, journal.OfWax), candle("B", 3, reads(80)))
	want := "Different fragrances or loads are taken together: no fragrance and Fig and smoke, 6 % of the wax."
	if !slices.Contains(s.Warnings, want) || !slices.Contains(s.Pairings[0].Warnings, want) {
		t.Errorf("%q, %q", s.Warnings, s.Pairings[0].Warnings)
	}
}

// Rungs between and beside the burned ones are guessed, as far as there are
// such wicks that are not retired; of other ladders none.
func TestGuesses(t *testing.T) {
	t.Parallel()
	opt := options
	for rung := 2; rung <= 9; rung++ {
		opt.Shelf = append(opt.Shelf, wick(rung))
	}
	opt.Shelf = append(opt.Shelf, journal.Wick{Meta: journal.Meta{ID: 99}, Ladder: 7, Rung: 4, Label: "other"})
	opt.Shelf[3].Gone = &lit // rung 5 is retired
	s := onlySeries(t, opt, candle("A", 3, reads(70)), candle("B", 6, reads(95)))
	var got []int
	for _, g := range s.Guesses {
		got = append(got, g.Wick.Rung)
		if g.Rank != 0 || g.Closest != 0 || g.Running || len(g.Warnings) != 1 {
			t.Errorf("a guess is ranked: %+v", g)
		}
	}
	if d := cmp.Diff([]int{2, 4, 7}, got); d != "" {
		t.Error(d)
	}
}

// Ladders in one vessel and setting are compared with each other, and one
// below the line is named as such.
func TestAcrossLadders(t *testing.T) {
	t.Parallel()
	flaring := reads(98)
	flaring.Checks[0].Flame = ptr(quantity.Millimetres(90))
	two := candle("B", 4, flaring)
	two.Candle.Wicks = 2
	got := work(t, options, candle("A", 4, reads(60)), two).Groups[0].Across
	sum := 0.0
	for _, c := range got {
		sum += c.Chance
	}
	if len(got) == 0 || got[0].Name != "Larkspur 4, 2 wicks (below the line)" || sum < 0.98 || sum > 1.0001 {
		t.Errorf("%+v", got)
	}
	if alone := work(t, options, candle("A", 4, reads(60))).Groups[0].Across; alone != nil {
		t.Errorf("one ladder is compared with itself: %+v", alone)
	}
}

func TestHardFindingsKnowWhere(t *testing.T) {
	t.Parallel()
	flaring := reads(95)
	flaring.Checks[0].Flame = ptr(quantity.Millimetres(90))
	p := only(t, candle("A", 4, reads(90), flaring))
	if len(p.Hard) != 1 || p.Hard[0].Candle != "14-A" || p.Hard[0].Burn != 2 || p.Hard[0].Level != safety.Hard || !p.BelowLine() {
		t.Errorf("%+v", p.Hard)
	}
}

// Half the target hour of 3 h is 1.5 h.
func TestFullTooSoonIsAFault(t *testing.T) {
	t.Parallel()
	p := only(t, candle("A", 4, burn(full(1.5)), burn(width(1.5, 90), full(3))))
	if d := cmp.Diff([]safety.Fault{{Name: "full before half the target hour", Burns: 1, Of: 2}}, p.Faults); d != "" {
		t.Error(d)
	}
}

// The same logs in any order, burns and checks too, give the same standings to
// the last bit, and a desk that is used again says what a new one does.
func TestOrderAndHistoryDoNotMatter(t *testing.T) {
	t.Parallel()
	logs := []journal.CandleLog{
		candle("A", 3, reads(70), reads(72)), candle("B", 4, reads(85), burn(width(1, 60), full(3))), candle("C", 4, reads(88)),
		candle("D", 6, burn(width(1, 70), full(2))), scented(candle("E", 4, reads(85)), 0.06, journal.OfWax),
	}
	want := work(t, options, logs...)
	mixed := slices.Clone(logs)
	r := rand.New(rand.NewPCG(7, 1))
	r.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
	for i := range mixed {
		mixed[i].Burns = slices.Clone(mixed[i].Burns)
		slices.Reverse(mixed[i].Burns)
		for k := range mixed[i].Burns {
			mixed[i].Burns[k].Checks = slices.Clone(mixed[i].Burns[k].Checks)
			slices.Reverse(mixed[i].Burns[k].Checks)
		}
	}
	desk := standings.NewDesk(tree.Default())
	if _, err := desk.Weigh(t.Context(), standings.StacksOf(mixed[:3], options)); err != nil {
		t.Fatal(err)
	}
	stacks := standings.StacksOf(mixed, options)
	w, err := desk.Weigh(t.Context(), stacks)
	if err != nil {
		t.Fatal(err)
	}
	got, err := w.Judge(t.Context(), stacks)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(want, got, cmpopts.IgnoreUnexported(tree.Figures{}, standings.BurnRow{}), cmpopts.EquateNaNs()); d != "" {
		t.Error(d)
	}
}

func TestADoneContextEndsTheWork(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := standings.Work(ctx, []journal.CandleLog{candle("A", 3, reads(70))}, options, tree.Default()); !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}
