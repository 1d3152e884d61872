package page_test

import (
	"encoding/json"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/web/page"
)

// Whatever is corrected on a sheet, its history says so.
func TestTheHistoryOfASheetShowsEveryChange(t *testing.T) {
	for name, change := range map[string]func(*journal.PourSheet){
		"load":      func(s *journal.PourSheet) { s.Load = of(quantity.Fraction(0.07)) },
		"basis":     func(s *journal.PourSheet) { s.LoadBasis = journal.OfWax },
		"count":     func(s *journal.PourSheet) { s.Body.Lines[1].Count = 2 },
		"test fill": func(s *journal.PourSheet) { s.Body.Lines[1].TestFill = of(quantity.Grams(104)) },
		"spare":     func(s *journal.PourSheet) { s.Body.Spare = of(quantity.Fraction(0.05)) },
		"waste":     func(s *journal.PourSheet) { s.Body.Waste = nil },
		"step":      func(s *journal.PourSheet) { s.Body.Step = 0.1 },
		"melter":    func(s *journal.PourSheet) { s.Body.Melter = of(quantity.Grams(900)) },
		"pour at":   func(s *journal.PourSheet) { s.Body.PourAt = of(quantity.Celsius(65)) },
		"top up":    func(s *journal.PourSheet) { s.Body.TopUp = true },
		"tick":      func(s *journal.PourSheet) { s.Body.Ticks = []journal.SheetTick{{Key: "m1.stir"}} },
		"pour":      func(s *journal.PourSheet) { s.Pour = of(journal.ID(9)) },
		"note":      func(s *journal.PourSheet) { s.Note = "by the window" },
	} {
		after := aPourSheet()
		change(&after)
		c := journal.Change{Noun: journal.NounPourSheet, Of: 3, At: noon, Kind: journal.Corrected, Before: written(t, aPourSheet()), After: written(t, after)}
		p := page.NewSheetPage(page.Input{}, after, nil, page.NewKnown(sheetShelf()), []journal.Change{c}, metricView())
		if len(p.History) != 1 || len(p.History[0].Diffs) != 1 {
			t.Errorf("%s: %+v", name, p.History)
		}
	}
}

func written(t *testing.T, x any) []byte {
	t.Helper()
	raw, err := json.Marshal(x)
	if err != nil {
		t.Fatal(err)
	}
	return raw
}
