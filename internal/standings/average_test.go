package standings_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/meltpool"
	"rimward/internal/quantity"
	"rimward/internal/safety"
	"rimward/internal/standings"
)

// Candle A read 80, 90 and 94 mm of 100 at the hour: mean 88 %. Candle B read
// 96 mm: 96 %. The pairing is the mean of both, 92 %, not the mean of the four
// burns, 90 %. Its width is 92 mm, with 4 mm left on each side.
func TestTwoLevelMean(t *testing.T) {
	t.Parallel()
	p := only(t, candle("A", 5, reads(80), reads(90), reads(94)), candle("B", 5, reads(96)))
	near(t, "pairing", p.Ratio, 0.92)
	near(t, "candle A", p.Rows[0].Mean, 0.88)
	near(t, "candle B", p.Rows[1].Mean, 0.96)
	near(t, "narrowest", p.Min, 0.80)
	near(t, "widest", p.Max, 0.96)
	near(t, "width, mm", (*float64)(p.Width), 92)
	near(t, "left at the wall, mm", (*float64)(p.Left), 4)
	if p.Candles != 2 || p.Burns != 4 || p.AllBurns != 4 || p.Rank != 1 || p.NotYet != "" {
		t.Errorf("%d candles, %d of %d burns, rank %d, %q", p.Candles, p.Burns, p.AllBurns, p.Rank, p.NotYet)
	}
}

// 70 mm at 2 h and 80 mm at 4 h: 75 mm at 3 h. 85 mm at 2.5 h and full at
// 3.5 h: halfway from 85 to 100, 92.5 mm.
func TestStraightLines(t *testing.T) {
	t.Parallel()
	p := only(t, candle("A", 5, burn(width(2, 70), width(4, 80)), burn(width(2.5, 85), full(3.5)), burn(full(2)), burn(full(4))))
	var got []float64
	var how []meltpool.How
	for _, b := range p.Rows[0].Burns {
		got, how = append(got, b.Ratio), append(how, b.How)
	}
	if d := cmp.Diff([]float64{0.75, 0.925, 1, 0.75}, got, cmp.Comparer(func(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 })); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]meltpool.How{meltpool.Between, meltpool.Between, meltpool.FullEre, meltpool.FromNone}, how); d != "" {
		t.Error(d)
	}
	if !slices.Contains(p.Warnings, "In 1 of 4 burns the width at the hour is a coarse guess: the first check came after it.") {
		t.Errorf("%q", p.Warnings)
	}
}

// Oval, 120 by 80 mm inside: 90 and 60 mm are both three quarters, so the
// ratio is 0.75; of the geometric mean sqrt(9600) = 97.9796 mm that is
// 73.4847 mm. An hour per inch of it: 3.857 h, so the check at 4 h frames it.
func TestOvalVessel(t *testing.T) {
	t.Parallel()
	c := width(3, 0)
	c.WidthA, c.WidthB = ptr(quantity.Millimetres(90)), ptr(quantity.Millimetres(60))
	d := c
	d.At = lit.Add(4 * time.Hour)
	l := candle("A", 5, burn(c, d))
	l.Vessel = journal.Vessel{Meta: journal.Meta{ID: 2}, Name: "Fern bowl", Shape: journal.Oval, InnerWidth: 80, InnerLength: ptr(quantity.Millimetres(120))}
	p := only(t, l)
	near(t, "ratio", p.Ratio, 0.75)
	if w := float64(*p.Width); w < 73.4846 || w > 73.4848 {
		t.Errorf("width %v mm", w)
	}
}

// Within half a step of the ruler of the wall counts as full: 99.5 mm of 100
// with a ruler of 1 mm, and not 99.4 mm.
func TestRulerStepCountsAsFull(t *testing.T) {
	t.Parallel()
	near(t, "99.5 mm", only(t, candle("A", 5, burn(width(2, 99.5)))).Ratio, 1)
	if p := only(t, candle("A", 5, burn(width(2, 99.4)))); p.Enough() {
		t.Errorf("99.4 mm at 2 h tells the width at 3 h: %v", *p.Ratio)
	}
}

func TestWhatIsLeftOut(t *testing.T) {
	t.Parallel()
	mark := func(c journal.Check) journal.Check { c.LeftOut = true; return c }
	gone := func(c journal.Check) journal.Check { c.Gone = &lit; return c }
	after := func(b journal.BurnLog, f func(*journal.BurnLog)) journal.BurnLog { f(&b); return b }
	for _, c := range []struct {
		name    string
		burn    journal.BurnLog
		used    bool
		ratio   float64
		why     string
		leftOut []string
	}{
		{"a check left out by hand", burn(width(2, 80), mark(width(3, 20)), width(4, 90)), true, 0.85, "", []string{"left out by hand"}},
		{"a withdrawn check, silently", burn(width(2, 80), gone(width(3, 20)), width(4, 90)), true, 0.85, "", nil},
		{"a check without a width is no reading", burn(width(3, 80), journal.Check{At: lit.Add(time.Hour), Soot: "none"}), true, 0.80, "", nil},
		{"a check after the flame was out", after(burn(width(3, 80), width(3.5, 99)), func(b *journal.BurnLog) { b.Burn.OutAt = ptr(lit.Add(3 * time.Hour)) }), true, 0.80, "", []string{"read after the flame was out"}},
		{"a strong draught", after(reads(80), func(b *journal.BurnLog) { b.Burn.Draught = journal.DraughtStrong }), false, 0, "it burned in a strong draught", nil},
		{"a slight draught does not matter", after(reads(80), func(b *journal.BurnLog) { b.Burn.Draught = journal.DraughtSlight }), true, 0.80, "", nil},
		{"put out before the first check", after(burn(), func(b *journal.BurnLog) { b.Burn.Ending = journal.PutOutUnsafe }), false, 0, "it was put out for safety before the first check", nil},
		{"put out later", after(reads(80), func(b *journal.BurnLog) { b.Burn.Ending = journal.PutOutUnsafe }), true, 0.80, "", nil},
		{"no reading reaches the hour", burn(width(1, 50), width(2, 70)), false, 0, "the last width was read at 2 h 00, before the target hour of 3 h 00", nil},
		{"no width", burn(journal.Check{At: lit.Add(time.Hour), Soot: "none"}), false, 0, "no width was measured", nil},
		{"every width left out", burn(mark(full(2))), false, 0, "no width was measured", []string{"left out by hand"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := only(t, candle("A", 5, c.burn)).Rows[0].Burns[0]
			if b.Used != c.used || b.Why != c.why || b.Ratio < c.ratio-1e-9 || b.Ratio > c.ratio+1e-9 {
				t.Errorf("used %v, ratio %v, why %q", b.Used, b.Ratio, b.Why)
			}
			var why []string
			for _, l := range b.LeftOut {
				why = append(why, l.Why)
			}
			if d := cmp.Diff(c.leftOut, why); d != "" {
				t.Error(d)
			}
		})
	}
	t.Run("still lit", func(t *testing.T) {
		l := candle("A", 5, burn(width(1, 50)))
		l.Burns[0].Burn.OutAt, l.Burns[0].Burn.Ending = nil, ""
		if b := only(t, l).Rows[0].Burns[0]; !strings.HasSuffix(b.Why, "; it is still lit") {
			t.Errorf("%q", b.Why)
		}
	})
}

func TestNotEnoughYet(t *testing.T) {
	t.Parallel()
	p := only(t, candle("A", 5, burn(width(1, 50))))
	if p.Enough() || p.Rank != 0 || p.Width != nil || p.Min != nil || p.Candles != 0 || p.AllBurns != 1 {
		t.Errorf("%+v", p)
	}
	if want := "Not enough yet: one burn with a width at 3 h 00 or later, or with a pool seen full before, would do."; p.NotYet != want {
		t.Errorf("%q", p.NotYet)
	}
}

// Windows: 1 to 2 h, 2 to 4 h, lighting to 1.5 h (too soon: half the hour is
// 1.5 h), one never within 4 h, and one in a draught that says nothing.
func TestFullHours(t *testing.T) {
	t.Parallel()
	draughty := burn(full(0.5))
	draughty.Burn.Draught = journal.DraughtStrong
	p := only(t, candle("A", 5, burn(width(1, 60), full(2)), burn(width(2, 80), full(4)), burn(full(1.5)), burn(width(2, 80), width(4, 90)), draughty))
	want := standings.FullHours{Seen: 3, From: 0, To: 4, NotSeen: 1, Within: 4, TooSoon: 1}
	if d := cmp.Diff(want, p.Full); d != "" {
		t.Error(d)
	}
	if !slices.Contains(p.Warnings, "Full before half the target hour in 1 of 4 burns.") {
		t.Errorf("%q", p.Warnings)
	}
	if !slices.Contains(p.Faults, safety.Fault{Name: "full before half the target hour", Burns: 1, Of: 4}) {
		t.Errorf("%+v", p.Faults)
	}
}

func TestWarnings(t *testing.T) {
	t.Parallel()
	axis := width(3, 80)
	axis.WidthB = nil
	scented := func(l journal.CandleLog, load float64, basis journal.Basis) journal.CandleLog {
		l.Fragrance, l.Pour.Fragrance, l.Pour.Load, l.Pour.LoadBasis = &fig, ptr(fig.ID), ptr(quantity.Fraction(load)), basis
		return l
	}
	other := candle("B", 5, reads(80))
	other.Wax = harbour
	for _, c := range []struct {
		name string
		logs []journal.CandleLog
		want []string
	}{
		{"none", []journal.CandleLog{candle("A", 5, reads(80)), candle("B", 5, reads(80))}, nil},
		{"one candle only", []journal.CandleLog{candle("A", 5, reads(80))}, []string{"One candle only: how much candles differ is not known."}},
		{"one axis", []journal.CandleLog{candle("A", 5, burn(axis)), candle("B", 5, reads(80))}, []string{"In 1 of 2 burns some widths were measured one way only."}},
		{"held", []journal.CandleLog{candle("A", 5, burn(width(2.9, 80))), candle("B", 5, reads(80))}, []string{"In 1 of 2 burns the last check came shortly before the hour and stands for it."}},
		{"two waxes", []journal.CandleLog{candle("A", 5, reads(80)), other}, []string{"Different waxes are averaged together: Harbour blend and Meadow blend."}},
		{"two loads", []journal.CandleLog{scented(candle("A", 5, reads(80)), 0.06, journal.OfWax), scented(candle("B", 5, reads(80)), 0.08, journal.OfWax)},
			[]string{"Different fragrance loads are averaged together: Fig and smoke, 6 % of the wax and Fig and smoke, 8 % of the wax."}},
		// 8 % of the wax is 0.08/1.08 = 7.4074 % of the total.
		{"one load written on either basis", []journal.CandleLog{scented(candle("A", 5, reads(80)), 0.08, journal.OfWax), scented(candle("B", 5, reads(80)), 0.08/1.08, journal.OfTotal)}, nil},
		{"two waxes and loads", []journal.CandleLog{scented(candle("A", 5, reads(80)), 0.06, journal.OfWax), other},
			[]string{"Different waxes and fragrance loads are averaged together: Harbour blend and Meadow blend; no fragrance and Fig and smoke, 6 % of the wax."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, only(t, c.logs...).Warnings); d != "" {
				t.Error(d)
			}
		})
	}
}
