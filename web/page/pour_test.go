package page_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
	"rimward/web/ui"
)

// noon is the moment that these pages are made at.
var noon = time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)

func of[T any](x T) *T { return &x }

func between[T ~float64](low, high T) journal.Range[T] {
	return journal.Range[T]{Low: &low, High: &high}
}

func metricView() page.View {
	return page.View{Units: quantity.Metric, Zone: time.UTC, Now: noon, Ruler: 1}
}

func imperialView() page.View {
	v := metricView()
	v.Units = quantity.Imperial
	return v
}

// aShelf has one thing of each kind and a ladder of four rungs, the third of
// them retired.
func aShelf() page.Shelves {
	sh := page.Shelves{
		Waxes: []journal.Wax{{Meta: journal.Meta{ID: 1}, Name: "Meadow blend", LoadBasis: journal.OfWax,
			HeatTo: between[quantity.Celsius](75, 85), AddOilAt: between[quantity.Celsius](70, 75), PourAt: between[quantity.Celsius](55, 65),
			Load: between[quantity.Fraction](0.06, 0.10), CureDays: between[quantity.Days](7, 14)}},
		Fragrances: []journal.Fragrance{{Meta: journal.Meta{ID: 2}, Name: "Fig and smoke", FlashPoint: of(quantity.Celsius(94)),
			MaxLoad: of(quantity.Fraction(0.08)), MaxBasis: journal.OfTotal}},
		Vessels: []journal.Vessel{{Meta: journal.Meta{ID: 3}, Name: "Pebble tumbler", Shape: journal.Round, InnerWidth: 76.2, Material: "glass"}},
		Ladders: []journal.Ladder{{Meta: journal.Meta{ID: 4}, Name: "Larkspur", Kind: "flat braid"}},
	}
	for i, label := range []string{"5", "6", "7", "8"} {
		sh.Wicks = append(sh.Wicks, journal.Wick{Meta: journal.Meta{ID: journal.ID(10 + i)}, Ladder: 4, Rung: i + 1, Label: label})
	}
	sh.Wicks[2].Gone = of(noon)
	return sh
}

func aPour() journal.Pour {
	return journal.Pour{Meta: journal.Meta{ID: 14, Version: 1}, Number: 14, At: noon.AddDate(0, 0, -14), Wax: 1, WaxLot: "M-0412",
		Fragrance: of(journal.ID(2)), Load: of(quantity.Fraction(0.08)), LoadBasis: journal.OfWax,
		HeatedTo: of(quantity.Celsius(80)), OilAt: of(quantity.Celsius(72)), PouredAt: of(quantity.Celsius(63.5))}
}

func factOf(t *testing.T, facts []ui.Fact, label string) ui.Fact {
	t.Helper()
	for _, f := range facts {
		if f.Label == label {
			return f
		}
	}
	t.Fatalf("no fact is called %q", label)
	return ui.Fact{}
}

// 8 g of oil in 100 g of wax is 8/108 = 7.4074 % of the total; 8 % of the total
// is 8/92 = 8.6957 % of the wax (arithmetic).
func TestPourPageShowsTheLoadOnBothBases(t *testing.T) {
	t.Parallel()
	p := aPour()
	got := page.NewPourPage(p, nil, page.NewKnown(aShelf()), nil, "", metricView())
	want := ui.Fact{Label: "Load", Text: "8", Unit: "% of wax", More: "7.4 % of total"}
	if diff := cmp.Diff(want, factOf(t, got.Facts, "Load")); diff != "" {
		t.Error(diff)
	}
	if want := "Meadow blend with Fig and smoke, 8 % of wax (7.4 % of total). Poured Thu 30 Apr, 12:00."; got.Lede != want {
		t.Errorf("lede %q, want %q", got.Lede, want)
	}
	p.LoadBasis, p.Load = journal.OfTotal, of(quantity.Fraction(0.12))
	got = page.NewPourPage(p, nil, page.NewKnown(aShelf()), nil, "", metricView())
	if f := factOf(t, got.Facts, "Load"); f.More != "13.6 % of wax" {
		t.Errorf("of the total: %q", f.More)
	}
}

func TestPourPageWarnsOfWhatTheSupplierDoesNotAdvise(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		load quantity.Fraction
		oil  quantity.Celsius
		want []string
	}{
		{"nothing", 0.08, 72, nil},
		// 8.7 % of the wax is 8.004 % of the total: above a maximum of 8 %.
		{"load above the maximum on its own basis", 0.087, 72, []string{"The load is just above 8 % of the total; the fragrance's supplier allows 8 % of the total in candles. Use less oil in the next pour."}},
		{"load just below it", 0.0869, 72, nil},
		{"oil at its flash point", 0.08, 94, []string{"The oil went in at 94 °C, at or above its flash point of 94 °C. Keep flames and sparks away while pouring. Add it cooler, where the wax's guidance allows."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := aPour()
			p.Load, p.OilAt = &c.load, &c.oil
			var got []string
			for _, w := range page.NewPourPage(p, nil, page.NewKnown(aShelf()), nil, "", metricView()).Guidance.Warnings {
				got = append(got, w.Text+" "+w.More)
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func lineOf(letter string, wick journal.ID) journal.CandleLine {
	return journal.CandleLine{Candle: journal.Candle{Meta: journal.Meta{ID: 50 + wick}, Pour: 14, PourNumber: 14, Letter: letter, Vessel: 3, Wick: wick, Wicks: 1},
		WaxName: "Meadow blend", VesselName: "Pebble tumbler", WickName: "Larkspur", Life: journal.Life{PouredAt: noon.AddDate(0, 0, -14), CureDays: 7}}
}

func TestPourPageOffersTheRungsAroundEachCandle(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		wick journal.ID
		want []string
	}{
		{"the lowest has none below", 10, []string{"Larkspur 5", "Larkspur 6"}},
		{"a retired rung is passed over", 11, []string{"Larkspur 5", "Larkspur 6", "Larkspur 8"}},
		{"a retired wick is not offered again", 12, []string{"Larkspur 6", "Larkspur 8"}},
		{"the highest has none above", 13, []string{"Larkspur 6", "Larkspur 8"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := page.NewPourPage(aPour(), []journal.CandleLine{lineOf("A", c.wick)}, page.NewKnown(aShelf()), nil, "once", metricView())
			var got []string
			for _, a := range p.Candles[0].Again {
				got = append(got, a.Text)
				if a.Hidden[1] != (ui.Hidden{Name: "token", Value: "once"}) {
					t.Errorf("token %v", a.Hidden[1])
				}
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestWithdrawnPourFillsNoMoreCandles(t *testing.T) {
	t.Parallel()
	p := aPour()
	p.Gone, p.GoneWhy = of(noon), "wrong wax"
	got := page.NewPourPage(p, []journal.CandleLine{lineOf("A", 11)}, page.NewKnown(aShelf()), nil, "", metricView())
	if got.Gone != "Withdrawn today. wrong wax" || len(got.Candles[0].Again) != 0 {
		t.Errorf("gone %q, again %v", got.Gone, got.Candles[0].Again)
	}
	for _, a := range got.Acts {
		if a.Text == "Add candles" {
			t.Error("it still offers to add candles")
		}
	}
}

func TestNextCodesTakeTheFirstFreeLetters(t *testing.T) {
	t.Parallel()
	gone := lineOf("B", 11)
	gone.Candle.Gone = of(noon)
	got := page.NextCodes(aPour(), []journal.CandleLine{lineOf("A", 10), gone, lineOf("D", 13)}, 3)
	if diff := cmp.Diff([]string{"14-C", "14-E", "14-F"}, got); diff != "" {
		t.Error(diff)
	}
}

func TestPoursListLeadsOn(t *testing.T) {
	t.Parallel()
	lines := []journal.PourLine{{Pour: aPour(), WaxName: "Meadow blend", FragranceName: "Fig and smoke", Candles: 3}}
	p := page.NewPoursPage(lines, true, 15, metricView())
	want := ui.Item{Text: "Pour 14", Href: "/pours/14", When: "Thu 30 Apr",
		More: "Meadow blend with Fig and smoke, 8 % of wax · poured at 63.5 °C · three candles"}
	if diff := cmp.Diff([]ui.Item{want}, p.Items); diff != "" {
		t.Error(diff)
	}
	if p.Pager != (page.Pager{Newest: "/pours", Older: "/pours?before=14"}) {
		t.Errorf("pager %+v", p.Pager)
	}
	if empty := page.NewPoursPage(nil, false, 0, metricView()); empty.Empty == nil || empty.Empty.Acts[0].Href != "/pours/new" {
		t.Error("an empty list does not lead to the first pour")
	}
}

func TestPourFormSaysWhatTheShelfLacks(t *testing.T) {
	t.Parallel()
	sh := aShelf()
	sh.Waxes[0].Gone = of(noon)
	p := page.NewPourForm(page.Input{}, nil, page.NewKnown(sh), metricView())
	if p.Missing == nil || p.Missing.Acts[0].Href != "/shelf/waxes/new" {
		t.Fatal("a shelf of retired wax is taken for a shelf with wax")
	}
	old := aPour()
	if q := page.NewPourForm(page.Input{}, &old, page.NewKnown(sh), metricView()); q.Missing != nil {
		t.Error("the pour that used the wax cannot be corrected any more")
	}
}

func TestPourFormStartsNowWithTheLastWax(t *testing.T) {
	t.Parallel()
	sh := aShelf()
	sh.Waxes = append(sh.Waxes, journal.Wax{Meta: journal.Meta{ID: 9}, Name: "Harbour blend"})
	last := aPour()
	got := page.NewPourValues(page.NewKnown(sh), &last, metricView())
	for name, want := range map[string]string{"at_date": "2026-05-14", "at_time": "12:00", "wax": "1", "wax_lot": "M-0412", "load": ""} {
		if got.Get(name) != want {
			t.Errorf("%s is %q, want %q", name, got.Get(name), want)
		}
	}
	if none := page.NewPourValues(page.NewKnown(sh), nil, metricView()); none.Has("wax") {
		t.Error("one of two waxes was chosen without a reason")
	}
}

func TestPourFormShowsEveryWaxesGuidance(t *testing.T) {
	t.Parallel()
	p := page.NewPourForm(page.Input{}, nil, page.NewKnown(aShelf()), metricView())
	want := []page.GuideRow{{Wax: "Meadow blend", Heat: "75–85 °C", Oil: "70–75 °C", Pour: "55–65 °C", Load: "6–10 % of wax", Cure: "7–14 days"}}
	if diff := cmp.Diff(want, p.Guides); diff != "" {
		t.Error(diff)
	}
}
