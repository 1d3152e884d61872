package compare_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"rimward/internal/compare"
	"rimward/internal/journal"
	"rimward/internal/quantity"
)

// Each row changes one thing of the second of two candles. What counts as
// alike is chosen by us: each step is tried just within and just beyond.
func TestWhatDiffers(t *testing.T) {
	t.Parallel()
	degrees := func(c float64) *quantity.Celsius { return ptr(quantity.Celsius(c)) }
	pour := func(do func(*journal.Pour)) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { do(&l.Pour) }
	}
	scented := func(load float64, basis journal.Basis) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) {
			l.Fragrance = &journal.Fragrance{Meta: journal.Meta{ID: 1}, Name: "Fig and smoke"}
			l.Pour.Fragrance, l.Pour.Load, l.Pour.LoadBasis = ptr(journal.ID(1)), ptr(quantity.Fraction(load)), basis
		}
	}
	trim := func(mm float64) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { l.Burns[0].Burn.Trim = ptr(quantity.Millimetres(mm)) }
	}
	draught := func(d journal.Draught) func(*journal.CandleLog) {
		return func(l *journal.CandleLog) { l.Burns[0].Burn.Draught = d }
	}
	for _, c := range []struct {
		name         string
		first, other func(*journal.CandleLog)
		want         compare.Contrast
	}{
		{"nothing", nil, nil, compare.Contrast{}},
		{"a degree at the pour", nil, pour(func(p *journal.Pour) { p.PouredAt = degrees(61) }), compare.Contrast{}},
		{"more than a degree", nil, pour(func(p *journal.Pour) { p.PouredAt = degrees(61.1) }), compare.Contrast{Causes: []string{"pour temperature"}}},
		{"no reading at the pour", nil, pour(func(p *journal.Pour) { p.PouredAt = nil }), compare.Contrast{Unknown: []string{"pour temperature"}}},
		{"a lot that was not noted", nil, pour(func(p *journal.Pour) { p.WaxLot = "" }), compare.Contrast{Unknown: []string{"wax lot"}}},
		{"another lot", nil, pour(func(p *journal.Pour) { p.WaxLot = "M2" }), compare.Contrast{Causes: []string{"wax lot"}}},
		{"another pour alone", nil, pour(func(p *journal.Pour) { p.ID, p.Number = 15, 15 }), compare.Contrast{Pours: true}},
		// 8 % of wax is 8/108 = 7.407407 % of the total.
		{"one load on two bases", scented(0.08, journal.OfWax), scented(0.08/1.08, journal.OfTotal), compare.Contrast{}},
		{"a tenth of a point", scented(0.08, journal.OfWax), scented(0.081, journal.OfWax), compare.Contrast{}},
		{"more than a tenth of a point", scented(0.08, journal.OfWax), scented(0.0811, journal.OfWax), compare.Contrast{Causes: []string{"fragrance load"}}},
		{"scent against none", scented(0.08, journal.OfWax), nil, compare.Contrast{Causes: []string{"fragrance"}, Unknown: []string{"fragrance load"}}},
		{"a twentieth of the fill", nil, func(l *journal.CandleLog) { l.Candle.Filled = ptr(quantity.Grams(190)) }, compare.Contrast{}},
		{"more than a twentieth", nil, func(l *journal.CandleLog) { l.Candle.Filled = ptr(quantity.Grams(189.9)) }, compare.Contrast{Causes: []string{"filled mass"}}},
		{"two wicks", nil, func(l *journal.CandleLog) { l.Candle.Wicks = 2 }, compare.Contrast{Causes: []string{"number of wicks"}}},
		{"another wick and wax", nil, func(l *journal.CandleLog) { l.Wick.ID, l.Wick.Label, l.Wax.ID = 9, "9", 9 }, compare.Contrast{Causes: []string{"wick", "wax"}}},
		{"a vessel of the same name", nil, func(l *journal.CandleLog) { l.Vessel.ID = 2 }, compare.Contrast{Causes: []string{"vessel"}}},
		{"a second pour", nil, pour(func(p *journal.Pour) { p.SecondPour = true }), compare.Contrast{Causes: []string{"second pour"}}},
		{"a heat gun and a dye", nil, pour(func(p *journal.Pour) { p.HeatGun, p.Dye = true, "rust" }), compare.Contrast{Causes: []string{"dye", "heat gun"}}},
		{"a day of cure", nil, pour(func(p *journal.Pour) { p.At = p.At.AddDate(0, 0, 1) }), compare.Contrast{}},
		{"a day and a minute", nil, pour(func(p *journal.Pour) { p.At = p.At.Add(24*time.Hour + time.Minute) }), compare.Contrast{Causes: []string{"cure"}}},
		{"a millimetre of trim", trim(5), trim(6), compare.Contrast{}},
		{"more than a millimetre", trim(5), trim(6.1), compare.Contrast{Causes: []string{"trim"}}},
		{"a draught", draught(journal.DraughtNone), draught(journal.DraughtSlight), compare.Contrast{Causes: []string{"draught"}}},
		{"more burns", nil, func(l *journal.CandleLog) { l.Burns = append(l.Burns, shifted(reads(70), 1, 9)) }, compare.Contrast{}},
		{"a burn that was withdrawn", nil, func(l *journal.CandleLog) {
			b := shifted(reads(70), 1, 9)
			b.Burn.Gone, b.Burn.Trim = &lit, ptr(quantity.Millimetres(20))
			l.Burns = append(l.Burns, b)
		}, compare.Contrast{}},
	} {
		a, b := candle("A", 6, c.first, reads(70)), candle("B", 6, c.other, reads(70))
		for which, sides := range map[string][]compare.Side{"": unjudged(a, b), ", turned round": unjudged(b, a)} {
			if diff := cmp.Diff(c.want, compare.Differ(compare.Facts(sides))); diff != "" {
				t.Errorf("%s%s (-want +got):\n%s", c.name, which, diff)
			}
		}
	}
}

// Draughts are compared by what most burns had, and all are told.
func TestMostUsualWordCounts(t *testing.T) {
	t.Parallel()
	with := func(ds ...journal.Draught) journal.CandleLog {
		return candle("A", 6, func(l *journal.CandleLog) {
			for i, d := range ds {
				b := shifted(reads(70), i, journal.ID(i+1))
				b.Burn.Draught = d
				l.Burns = append(l.Burns, b)
			}
		})
	}
	facts := compare.Facts(unjudged(with("none", "slight", "none"), with("none", "", "none")))
	for _, f := range facts {
		if f.Word != "draught" {
			continue
		}
		if f.Differs || len(f.Values[0].Tally) != 2 || f.Values[0].Tally[0].N != 2 || f.Values[0].Tally[1].Text != "slight" || len(f.Values[1].Tally) != 1 {
			t.Errorf("draughts %+v", f)
		}
		return
	}
	t.Error("no draught among the facts")
}

// A thing beside itself differs in nothing, adding one that stands there
// already changes nothing, and the order of the columns does not matter.
func TestFactsProperties(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		made := func(name string) journal.CandleLog {
			poured, wick, filled := rapid.Float64Range(55, 70).Draw(t, name+" poured"), rapid.IntRange(5, 7).Draw(t, name+" wick"), rapid.Float64Range(150, 250).Draw(t, name+" filled")
			lot := rapid.SampledFrom([]string{"", "M1", "M2"}).Draw(t, name+" lot")
			return candle("A", wick, func(l *journal.CandleLog) {
				l.Pour.PouredAt, l.Candle.Filled, l.Pour.WaxLot = ptr(quantity.Celsius(poured)), ptr(quantity.Grams(filled)), lot
			}, reads(70))
		}
		a, b, c := made("a"), made("b"), made("c")
		of := func(ls ...journal.CandleLog) compare.Contrast { return compare.Differ(compare.Facts(unjudged(ls...))) }
		if self := of(a, a); len(self.Causes)+len(self.Unknown) > 0 || self.Pours {
			t.Fatalf("differs from itself: %+v", self)
		}
		if d := cmp.Diff(of(a, b, c), of(c, b, a)); d != "" {
			t.Fatal(d)
		}
		if d := cmp.Diff(of(a, b), of(a, b, a)); d != "" {
			t.Fatal(d)
		}
	})
}
