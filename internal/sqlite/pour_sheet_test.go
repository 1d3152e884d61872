package sqlite_test

import (
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

var sheetNoon = time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)

func sheetOfStudio(x testkit.Studio) journal.PourSheet {
	return journal.PourSheet{Wax: x.Wax.ID, LoadBasis: journal.OfWax, Body: journal.SheetBody{Step: 1, Lines: []journal.SheetLine{
		{Vessel: &x.Vessel.ID, Wick: &x.Wicks[0].ID, Wicks: 1, Count: 2, TestFill: new(quantity.Grams(200))}}}}
}

// Ticks are put into the sheet as it stands, whichever version a screen shows;
// a poured sheet takes no more, until its pour is withdrawn.
func TestTicksOfAPourSheet(t *testing.T) {
	s := testkit.Store(t, func() time.Time { return sheetNoon })
	x := testkit.NewStudio(t, s)
	sheet := sheetOfStudio(x)
	testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.SavePourSheet(&sheet) })
	tick := func(key string, off bool) error {
		return s.Write(t.Context(), func(tx *sqlite.Tx) error {
			now, err := tx.PourSheet(sheet.ID)
			if err != nil {
				return err
			}
			now.Body = now.Body.Tick(journal.SheetTick{Key: key, Weighed: map[string]*quantity.Grams{"m1.wax": new(quantity.Grams(401))}[key]}, off)
			return tx.SavePourSheet(&now)
		})
	}
	for _, key := range []string{"m1.wax", "m1.heat", "m1.pour"} {
		if err := tick(key, false); err != nil {
			t.Fatal(err)
		}
	}
	if err := tick("m1.heat", true); err != nil {
		t.Fatal(err)
	}
	kept, err := s.PourSheet(t.Context(), sheet.ID)
	if err != nil {
		t.Fatal(err)
	}
	if w, ok := kept.Body.Ticked("m1.wax"); !ok || *w.Weighed != 401 || len(kept.Body.Ticks) != 2 {
		t.Errorf("ticks %+v", kept.Body.Ticks)
	}
	kept.Pour = &x.Pour.ID
	testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.SavePourSheet(&kept) })
	if err := tick("m1.heat", false); err == nil || !strings.Contains(err.Error(), "poured") {
		t.Errorf("a poured sheet took a tick: %v", err)
	}
	testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPour, x.Pour.ID, "spilt") })
	if err := tick("m1.heat", false); err != nil {
		t.Errorf("its pour withdrawn: %v", err)
	}
	testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPourSheet, sheet.ID, "") })
	if err := tick("m1.oil", false); err == nil || !strings.Contains(err.Error(), "withdrawn") {
		t.Errorf("a withdrawn sheet took a tick: %v", err)
	}
	testkit.Write(t, s, func(tx *sqlite.Tx) error { return tx.Restore(journal.NounPourSheet, sheet.ID) })
	if err := tick("m1.oil", false); err != nil {
		t.Errorf("brought back: %v", err)
	}
}

// What a line names must be there: the lines are one text, which no foreign key
// looks into.
func TestLinesOfAPourSheetAreKnown(t *testing.T) {
	s := testkit.Store(t, func() time.Time { return sheetNoon })
	x := testkit.NewStudio(t, s)
	for field, spoil := range map[string]func(*journal.SheetLine){
		"l0.what": func(l *journal.SheetLine) { l.Vessel = new(journal.ID(99)) },
		"l0.wick": func(l *journal.SheetLine) { l.Wick = new(journal.ID(99)) },
	} {
		sheet := sheetOfStudio(x)
		spoil(&sheet.Body.Lines[0])
		err := s.Write(t.Context(), func(tx *sqlite.Tx) error { return tx.SavePourSheet(&sheet) })
		if err == nil || !strings.Contains(err.Error(), "Choose one") {
			t.Errorf("%s: %v", field, err)
		}
	}
}
