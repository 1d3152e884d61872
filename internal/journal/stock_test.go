package journal

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/quantity"
)

func TestStockIsDatedByItsCount(t *testing.T) {
	t.Parallel()
	now, then := evening, hoursAgo(48)
	grams := func(g quantity.Grams, at *time.Time) Stock[quantity.Grams] {
		return Stock[quantity.Grams]{OnHand: &g, CountedAt: at}
	}
	was := grams(4200, &then)
	for _, c := range []struct {
		name   string
		next   Stock[quantity.Grams]
		before *Stock[quantity.Grams]
		want   *time.Time
	}{
		{"a first number", grams(4200, nil), nil, &now},
		{"a first number in an old record", grams(4200, nil), &Stock[quantity.Grams]{}, &now},
		{"the same number", grams(4200, nil), &was, &then},
		{"the same number, counted again", grams(4200, &now), &was, &now},
		{"another number", grams(4100, nil), &was, &now},
		{"another number that claims an old count", grams(4100, &then), &was, &now},
		{"no number any more", Stock[quantity.Grams]{CountedAt: &then}, &was, nil},
	} {
		got := c.next.Counted(c.before, now).CountedAt
		if (got == nil) != (c.want == nil) || got != nil && !got.Equal(*c.want) {
			t.Errorf("%s: counted at %v, want %v", c.name, got, c.want)
		}
	}
}

func TestStockRules(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		price *float64
		stock *int
		field string
	}{
		{"nothing", nil, nil, ""}, {"free and none left", ptr(0.0), ptr(0), ""}, {"a price below nothing", ptr(-0.01), nil, "price"},
		{"a price of a million", ptr(1e6), nil, ""}, {"beyond a million", ptr(1e6 + 1), nil, "price"},
		{"fewer than none", nil, ptr(-1), "on_hand"}, {"a million and one", nil, ptr(1_000_001), "on_hand"},
	} {
		w := Wick{Label: "6", Rung: 1, Price: c.price, Stock: Stock[int]{OnHand: c.stock}}
		if got := fieldOf(t, w.Validate()); got != c.field {
			t.Errorf("%s: refused at %q, want %q", c.name, got, c.field)
		}
	}
}

// 56 g in 700 g is 8 % of the wax and 56/756 = 7.4074 % of the total; 58.1 g is
// 8.3 % of the wax, three tenths of a point more (arithmetic).
func TestDoubtsOfPour(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		wax, oil *quantity.Grams
		load     *quantity.Fraction
		basis    Basis
		asked    bool
	}{
		{"as written", ptr(quantity.Grams(700)), ptr(quantity.Grams(56)), ptr(quantity.Fraction(0.08)), OfWax, false},
		{"three tenths of a point", ptr(quantity.Grams(700)), ptr(quantity.Grams(58.1)), ptr(quantity.Fraction(0.08)), OfWax, false},
		{"just more", ptr(quantity.Grams(700)), ptr(quantity.Grams(58.2)), ptr(quantity.Fraction(0.08)), OfWax, true},
		{"just less", ptr(quantity.Grams(700)), ptr(quantity.Grams(53.8)), ptr(quantity.Fraction(0.08)), OfWax, true},
		{"of the total", ptr(quantity.Grams(700)), ptr(quantity.Grams(56)), ptr(quantity.Fraction(0.074074)), OfTotal, false},
		{"of the wax, written as of the total", ptr(quantity.Grams(700)), ptr(quantity.Grams(56)), ptr(quantity.Fraction(0.08)), OfTotal, true},
		{"no oil weighed", ptr(quantity.Grams(700)), nil, ptr(quantity.Fraction(0.08)), OfWax, false},
		{"no wax weighed", nil, ptr(quantity.Grams(56)), ptr(quantity.Fraction(0.08)), OfWax, false},
		{"no load written", ptr(quantity.Grams(700)), ptr(quantity.Grams(56)), nil, OfWax, false},
	} {
		ds := DoubtsOfPour(Pour{WaxMass: c.wax, OilMass: c.oil, Load: c.load, LoadBasis: c.basis})
		if len(ds) > 0 != c.asked || c.asked && (ds[0].Field != "load" || !strings.HasPrefix(ds[0].Text, "What was weighed in comes to ")) {
			t.Errorf("%s: asked %+v", c.name, ds)
		}
	}
}

func TestLeftIsTheCountLessWhatWasTaken(t *testing.T) {
	t.Parallel()
	g, n := quantity.Grams(500), 4
	if got := MassLeft(Stock[quantity.Grams]{OnHand: &g}, Taken{Pours: 3, Weighed: 2, Mass: 120}); *got != 380 {
		t.Errorf("380 g are left, not %v", float64(*got))
	}
	if got := PiecesLeft(Stock[int]{OnHand: &n}, Taken{Pieces: 6}); *got != 0 {
		t.Errorf("more were poured than counted, and %d are left", *got)
	}
	if MassLeft(Stock[quantity.Grams]{}, Taken{Mass: 120}) != nil || PiecesLeft(Stock[int]{}, Taken{}) != nil {
		t.Error("something is left of what was never counted")
	}
	all := Takings{NounWax: {3: {Pours: 3, Weighed: 1}}}
	if all.Of(NounWax, 3).Unweighed() != 2 || all.Of(NounVessel, 3) != (Taken{}) {
		t.Errorf("%+v", all)
	}
}
