package page_test

import (
	"strings"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
)

// sheetShelf is the shelf with what the sums need: densities, volume, prices,
// counts, and a mould.
func sheetShelf() page.Shelves {
	sh := aShelf()
	sh.Waxes[0].LiquidDensity, sh.Waxes[0].SolidDensity = of(quantity.GramsPerMillilitre(0.86)), of(quantity.GramsPerMillilitre(0.90))
	sh.Waxes[0].Price, sh.Waxes[0].OnHand, sh.Waxes[0].CountedAt = of(9.5), of(quantity.Grams(500)), of(noon.AddDate(0, 0, -3))
	sh.Fragrances[0].Density = of(quantity.GramsPerMillilitre(1))
	sh.Vessels[0].Volume, sh.Vessels[0].Price = of(quantity.Millilitres(200)), of(2.25)
	sh.Moulds = []journal.Mould{{Meta: journal.Meta{ID: 6}, Name: "Fir cones", Cavities: 4, CavityVolume: of(quantity.Millilitres(30)), Detail: journal.Undercut}}
	return sh
}

func aPourSheet() journal.PourSheet {
	return journal.PourSheet{Meta: journal.Meta{ID: 3, Created: noon}, Wax: 1, Fragrance: of(journal.ID(2)), Load: of(quantity.Fraction(0.08)), LoadBasis: journal.OfTotal,
		Body: journal.SheetBody{Step: 1, Waste: of(quantity.Grams(10)), Lines: []journal.SheetLine{
			{Vessel: of(journal.ID(3)), Wick: of(journal.ID(11)), Wicks: 1, Count: 2, Places: []int{4, 7}}, {Mould: of(journal.ID(6)), Count: 1}}}}
}

// By hand: 8 % of the total of 0.86 and 1.00 g/mL: 1 / (0.92/0.86 + 0.08) =
// 0.869767 g/mL. A tumbler takes 173.953 g, a cone 26.093 g: 347.907 + 104.372 =
// 452.279 g, with 10 g left in the jug 462.279, so 463 g: oil 37.04, 37 g, and 426 g
// wax. Of the wax 37/426 is 8.6854 %, below the most of 8 % of the total, 8.6957 %.
func TestASheetInWords(t *testing.T) {
	w := page.NewSheetWork(aPourSheet(), page.NewKnown(sheetShelf()), metricView())
	if len(w.Asks) > 0 {
		t.Fatal(w.Asks)
	}
	for label, want := range map[string]string{"Wax": "426 g", "Fragrance oil": "37 g", "Together": "463 g"} {
		if f := factOf(t, w.Totals, label); f.Text+" "+f.Unit != want {
			t.Errorf("%s: %s %s, want %s", label, f.Text, f.Unit, want)
		}
	}
	if f := w.Fills[0]; f.Each != "174" || f.Places != "places 4, 7" || f.Sinks != "8.9 mL" || w.Fills[1].Count != "1 × 4 = four pieces" {
		t.Errorf("fills %+v", w.Fills)
	}
	words := strings.Join(w.Words, " ")
	for _, want := range []string{"A vessel is filled hot to its line", "0.87 g/mL for wax and oil together", "It shrinks by 4.4 %", "That is not in the sum above."} {
		if !strings.Contains(words, want) {
			t.Errorf("no %q in %s", want, words)
		}
	}
	if n := w.Needs[0]; n.Short != "" || n.Need != "426 g" || !strings.Contains(n.Have, "500 g counted 11 May 2026") || w.Needs[1].Have != "not counted" || w.Needs[3].Need != "2" {
		t.Errorf("needs %+v", w.Needs)
	}
	// 0.426 kg · 9.50 = 4.047; 2 · 2.25 = 4.50; the oil and the wicks have no price.
	if f := factOf(t, w.Cost, "Known so far"); f.Text != "8.55" || !strings.Contains(w.CostNote, "missing") {
		t.Errorf("cost %+v %s", w.Cost, w.CostNote)
	}
	if len(w.Warnings) != 1 || !strings.Contains(w.Warnings[0].Text, "keep the wax below 77.3 °C") {
		t.Errorf("warnings %+v", w.Warnings)
	}
}

// What is short, too rich or unknown is said.
func TestASheetSaysWhatToMind(t *testing.T) {
	sh, s := sheetShelf(), aPourSheet()
	sh.Waxes[0].OnHand, sh.Fragrances[0].FlashPoint, s.Load = of(quantity.Grams(400)), nil, of(quantity.Fraction(0.09))
	w := page.NewSheetWork(s, page.NewKnown(sh), metricView())
	if said := strings.Join(w.Words, " "); strings.Contains(said, "rounded down") {
		t.Errorf("rounded down within a limit that it passes: %s", said)
	}
	if w.Needs[0].Short == "" || len(w.Warnings) != 2 || !strings.Contains(w.Warnings[0].Text, "supplier allows 8 % of total") || !strings.Contains(w.Warnings[1].Text, "No flash point is noted") {
		t.Errorf("%+v %+v", w.Needs[0], w.Warnings)
	}
	sh.Vessels[0].Volume = nil
	w = page.NewSheetWork(s, page.NewKnown(sh), metricView())
	if len(w.Asks) != 1 || w.Asks[0].Href != "/shelf/vessels/3/edit" || len(w.Fills) != 0 {
		t.Errorf("asks %+v", w.Asks)
	}
}

// What is missing of one vessel is asked for once, however many lines it stands
// on; a round's candles are filled in the order that was drawn.
func TestASheetOfARound(t *testing.T) {
	sh, s := sheetShelf(), aPourSheet()
	s.Body.Lines = []journal.SheetLine{
		{Vessel: of(journal.ID(3)), Wick: of(journal.ID(11)), Wicks: 1, Count: 2, Places: []int{1, 3}},
		{Vessel: of(journal.ID(3)), Wick: of(journal.ID(11)), Wicks: 2, Count: 1, Places: []int{2}},
	}
	p := page.NewSheetPage(page.Input{Units: quantity.Metric}, s, nil, page.NewKnown(sh), nil, metricView())
	p.ShowRound(journal.TestRound{Meta: journal.Meta{ID: 4}, Question: "One wick or two?"})
	more := p.Melts[0].Steps[4].More
	if said := more[len(more)-1]; !strings.HasPrefix(said, "Fill them in the order that was drawn: 1 ") || strings.Index(said, "2 × ") > strings.Index(said, "; 3 ") {
		t.Errorf("order %q", said)
	}
	if p.RoundHref != "/rounds/4" || p.Round != "One wick or two?" {
		t.Errorf("round %q at %q", p.Round, p.RoundHref)
	}
	sh.Vessels[0].Volume = nil
	if w := page.NewSheetWork(s, page.NewKnown(sh), metricView()); len(w.Asks) != 1 {
		t.Errorf("asks %+v", w.Asks)
	}
}

// The steps stand in the order they are done, with figures and ranges.
func TestTheStepsOfASheet(t *testing.T) {
	s := aPourSheet()
	s.Body.Ticks = []journal.SheetTick{{Key: "m1.wax", Weighed: of(quantity.Grams(440))}}
	k := page.NewKnown(sheetShelf())
	p := page.NewSheetPage(page.Input{Values: page.SheetTickValues(s, quantity.Metric), Units: quantity.Metric}, s, nil, k, nil, metricView())
	var got []string
	for _, r := range p.Melts[0].Steps {
		got = append(got, r.What+" "+r.Figure+" "+r.Unit)
	}
	want := "Weigh the wax 426 g|Heat it 75–85 °C|Weigh the oil 37 g|Add the oil and stir 70–75 °C|Pour 55–65 °C"
	if strings.Join(got, "|") != want {
		t.Errorf("steps %q", got)
	}
	wax, oil := p.Melts[0].Steps[0], p.Melts[0].Steps[2]
	if !wax.IsDone || wax.Said.Value != "440" || wax.Off != "14 g over" || len(oil.More) != 1 || !strings.Contains(oil.More[0], "it is 38 g") {
		t.Errorf("%+v %+v", wax, oil.More)
	}
	made := aPour()
	p = page.NewSheetPage(page.Input{Units: quantity.Metric}, s, &made, k, nil, metricView())
	if p.Pour != "" || p.PouredHref != "/pours/14" || p.Melts[0].Steps[0].SaidText != "440 g" || p.Melts[0].Steps[1].SaidText != "not ticked" {
		t.Errorf("%q %+v", p.Poured, p.Melts[0].Steps[1])
	}
}
