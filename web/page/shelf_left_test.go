package page_test

import (
	"testing"

	"rimward/internal/form"
	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
	"rimward/web/ui"
)

func TestStockSaysWhatWasPouredSince(t *testing.T) {
	t.Parallel()
	w := journal.Wax{Name: "Meadow", Stock: journal.Stock[quantity.Grams]{OnHand: of(quantity.Grams(4200)), CountedAt: of(noon.AddDate(0, 0, -3))}, Price: of(18.5)}
	v := metricView()
	v.Currency = "€"
	for want, taken := range map[string]journal.Taken{
		"counted 11 May 2026; none poured since":                                                                           {},
		"counted 11 May 2026; two pours since, not weighed and not counted, so it is less":                                 {Pours: 2},
		"counted 11 May 2026; 1.64 kg poured since, so about 2.56 kg":                                                      {Pours: 2, Weighed: 2, Mass: 1640},
		"counted 11 May 2026; 1.64 kg poured since, so less than 2.56 kg: what was not weighed of one pour is not counted": {Pours: 3, Weighed: 2, Mass: 1640},
		"counted 11 May 2026; 4.5 kg poured since, more than was counted: count it again":                                  {Pours: 3, Weighed: 3, Mass: 4500},
	} {
		p := page.NewWaxPage(w, journal.Use{}, nil, v)
		p.ShowTaken(page.MassTaken(w.Stock, taken, v))
		if got := factOf(t, p.Facts, "On hand"); got.Text+" "+got.Unit != "4.2 kg" || got.More != want {
			t.Errorf("%+v, want %q", got, want)
		}
		if got := factOf(t, p.Facts, "Price"); got.Text+" "+got.Unit != "18.50 € per kg" {
			t.Errorf("price %+v", got)
		}
	}
	for pieces, want := range map[int]string{0: "none poured since", 1: "one piece in candles poured since, so about 47", 49: "49 pieces in candles poured since, more than were counted: count them again"} {
		if got := page.PiecesTaken(journal.Stock[int]{OnHand: of(48)}, journal.Taken{Pieces: pieces}); got != want {
			t.Errorf("%d pieces: %q", pieces, got)
		}
	}
}

// A price or a cost without a currency leads to where it is named.
func TestPricesWithoutACurrencySaySo(t *testing.T) {
	t.Parallel()
	sh, v := sheetShelf(), metricView()
	v.Currency = "€"
	for _, c := range []struct {
		v    page.View
		said bool
	}{{metricView(), true}, {v, false}} {
		price := factOf(t, page.NewWaxPage(sh.Waxes[0], journal.Use{}, nil, c.v).Facts, "Price").Next
		one := factOf(t, page.NewVesselPage(sh.Vessels[0], journal.Use{}, nil, c.v).Facts, "Price of one").Next
		cost := page.NewSheetWork(aPourSheet(), page.NewKnown(sh), c.v).Money
		for _, link := range []*ui.Item{price, one, cost} {
			if (link != nil && link.Href == "/settings#f-currency") != c.said {
				t.Errorf("currency %q: %+v", c.v.Currency, link)
			}
		}
	}
	sh.Waxes[0].Price, sh.Vessels[0].Price = nil, nil
	if m := page.NewSheetWork(aPourSheet(), page.NewKnown(sh), metricView()).Money; m != nil {
		t.Errorf("a cost that is not known misses its currency: %+v", m)
	}
}

// The sheet takes 426 g of wax (worked by hand at TestASheetInWords) and two
// vessels. 500 g were counted: less 100 g poured since they are 26 g short;
// less 50 g they do, but for what was not weighed.
func TestASheetIsHeldAgainstWhatIsLeft(t *testing.T) {
	t.Parallel()
	sh := sheetShelf()
	sh.Vessels[0].OnHand = of(3)
	for _, c := range []struct {
		taken              journal.Taken
		have, short, doubt string
	}{
		{journal.Taken{}, "500 g counted 11 May 2026; none poured since", "", ""},
		{journal.Taken{Pours: 1, Weighed: 1, Mass: 100}, "500 g counted 11 May 2026; 100 g poured since, so about 400 g", "about 26 g short", ""},
		{journal.Taken{Pours: 2, Weighed: 1, Mass: 50}, "500 g counted 11 May 2026; 50 g poured since, so less than 450 g: what was not weighed of one pour is not counted", "", "enough if what was not weighed took 24 g at most"},
		{journal.Taken{Pours: 2, Weighed: 2, Mass: 520}, "500 g counted 11 May 2026; 520 g poured since, more than was counted: count it again", "", "cannot be told before it is counted again"},
	} {
		k := page.NewKnown(sh).WithTaken(journal.Takings{journal.NounWax: {1: c.taken}, journal.NounVessel: {3: {Pours: 1, Pieces: 2}}})
		w := page.NewSheetWork(aPourSheet(), k, metricView())
		if n := w.Needs[0]; n.Have != c.have || n.Short != c.short || n.Doubt != c.doubt {
			t.Errorf("%+v, want %+v", n, c)
		}
		if n := w.Needs[2]; n.Short != "about 1 short" {
			t.Errorf("vessels %+v", n)
		}
		poured := aPourSheet()
		poured.Pour = of(journal.ID(9))
		if n := page.NewSheetWork(poured, k, metricView()).Needs[0]; n.Short != "" || n.Doubt != "" {
			t.Errorf("a sheet that was poured is short of what it took: %+v", n)
		}
	}
}

// What is left open is the count less what was poured since; what was typed
// stands as it was typed.
func TestWhatIsLeftIsReckonedFromTheCount(t *testing.T) {
	t.Parallel()
	k := page.NewKnown(sheetShelf()).WithTaken(journal.Takings{journal.NounWax: {1: {Pours: 1, Weighed: 1, Mass: 100}}})
	for typed, want := range map[string]quantity.Grams{"": 400, "120": 120} {
		p := form.NewParser(map[string][]string{"wax": {"1"}, "wax_left": {typed}}, quantity.Metric, noon.Location())
		in := page.ReadLeft(p, journal.Settings{ScaleStep: 1}, k)
		if in.Have.Wax == nil || *in.Have.Wax != want {
			t.Errorf("%q: %v", typed, in.Have.Wax)
		}
		got := page.NewLeftPage(page.Input{Units: quantity.Metric}, &in, k, metricView()).From
		if said := len(got) == 1 && got[0] == "Meadow blend, on hand: 500 g counted 11 May 2026; 100 g poured since, so about 400 g."; said != (typed == "") {
			t.Errorf("%q: %q", typed, got)
		}
	}
}
