package main

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// waitsFor asks again until something has been kept beside the page.
func (t *tab) waitsFor(what string, is func() bool) {
	t.tb.Helper()
	for range 100 {
		if is() {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.tb.Fatalf("%s was not kept", what)
}

// A pour is worked out, saved, weighed at the stove with a reload in between,
// and made a pour with its candles.
func TestJourneyWeighingAPour(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), laptop)
	b.open("/pours")
	b.click("Pour sheets")
	b.see("To be poured", "Sheet 2: Meadow blend")
	b.click("New sheet")
	b.choose("wax", "Meadow blend")
	b.choose("fragrance", "Fig and smoke")
	b.fill("load", "8")
	b.choose("l0.what", "Pebble tumbler")
	b.fill("l0.count", "3")
	b.choose("l0.wick", "Larkspur 7")
	b.click("Work it out")
	// By hand: 1 / ((1/1.08)/0.86 + (0.08/1.08)/0.98) = 0.867889 g/mL, so 256.9 g in
	// 296 mL; three take 770.68 g, 771 g melted: oil 57.11, 57 g, and 714 g wax.
	b.see("What it comes to", "714 g", "57 g", "A vessel is filled hot to its line")
	b.shot("sheet-worked")
	b.click("Save the sheet")
	b.see("The sheet is saved", "Never leave melting wax alone.")
	ticked := func() int {
		x, err := s.store.PourSheet(t.Context(), 3)
		if err != nil {
			t.Fatal(err)
		}
		return len(x.Body.Ticks)
	}
	b.fill("m1.heat.said", "hot")
	b.see("Write a temperature such as 65")
	if js[bool](b, `document.querySelector('input[name="m1.heat.done"]').checked`) {
		t.Error("a reading that was not kept looks done")
	}
	b.fill("m1.heat.said", "")
	b.fill("m1.wax.said", "715")
	b.waitsFor("the wax", func() bool { return ticked() == 1 })
	js[bool](b, `(() => { document.querySelector('input[name="m1.heat.done"]').click(); return true })()`)
	b.waitsFor("the heat", func() bool { return ticked() == 2 })
	b.open("/pours/sheets/3")
	if got := b.value("m1.wax.said"); got != "715" {
		t.Errorf("after a reload the scale said %q", got)
	}
	b.see("1 g over")
	b.fill("m1.pour.said", "62")
	b.click("Make it a pour")
	b.see("The sheet is a pour now.", "Its candles", "Larkspur 7 in Pebble tumbler")
	p, _, err := s.store.Pours(t.Context(), 0, 1)
	if err != nil || *p[0].Pour.WaxMass != 715 || *p[0].Pour.OilMass != 57 || *p[0].Pour.PouredAt != 62 || p[0].Candles != 3 {
		t.Errorf("%+v, %v", p, err)
	}
	b.open("/pours/sheets/3")
	b.see("This sheet was poured")
}

// The sheet keeps to one page of paper with as much on it as one melter asks for.
func TestTheFullestPourSheetIsOnePage(t *testing.T) {
	s := demoStudio(t)
	err := s.store.Write(t.Context(), func(tx *sqlite.Tx) error {
		x := journal.PourSheet{Wax: 1, Fragrance: new(journal.ID(1)), Load: new(quantity.Fraction(0.08)), LoadBasis: journal.OfWax, Note: strings.Repeat("kept short ", 12),
			Body: journal.SheetBody{Step: 1, Spare: new(quantity.Fraction(0.03)), Waste: new(quantity.Grams(15)), PourAt: new(quantity.Celsius(62)), Melter: new(quantity.Grams(2400))}}
		for i := range 8 {
			x.Body.Lines = append(x.Body.Lines, journal.SheetLine{Vessel: new(journal.ID(1)), Wick: new(journal.ID(1 + i)), Wicks: 1, Count: 2})
		}
		x.Body.Lines = append(x.Body.Lines, journal.SheetLine{Mould: new(journal.ID(1)), Count: 1}, journal.SheetLine{Mould: new(journal.ID(2)), Count: 1})
		return tx.SavePourSheet(&x)
	})
	if err != nil {
		t.Fatal(err)
	}
	b := newTab(t, s.base(), laptop)
	for _, path := range []string{"/pours/sheets/1", "/pours/sheets/2", "/pours/sheets/3"} {
		b.open(path)
		b.pdf("sheet" + strings.ReplaceAll(path, "/", "-"))
		b.onOnePage(t)
	}
}
