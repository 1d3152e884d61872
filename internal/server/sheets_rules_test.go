package server_test

import (
	"fmt"
	"net/http"
	"net/url"
	"testing"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
	"rimward/web/page"
)

// A sheet that was taken out of the journal stays out: it is not poured from a
// screen that shows it still.
func TestAWithdrawnSheetIsNotPoured(t *testing.T) {
	s := sheetSite(t)
	s.sendsOn("/pours/sheets/new", sheetForm(), "/pours/sheets/1")
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPourSheet, 1, "") })
	s.sendsBack("/pours/sheets/1/pour", url.Values{"token": {"p"}}, http.StatusUnprocessableEntity, "This sheet was withdrawn.")
	if lines, _, err := s.store.Pours(t.Context(), 0, 9); err != nil || len(lines) != 1 {
		t.Errorf("%d pours, %v", len(lines), err)
	}
}

// A melt that was poured amiss is withdrawn and weighed again from a sheet of
// its own: the places of its candles are free again.
func TestAMeltIsWeighedAgain(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/rounds/new", planForm(), "/rounds/1")
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		for _, x := range s.round(1).Melts() {
			sheet := s.round(1).MeltSheet(x, journal.DefaultSettings())
			for i := range sheet.Body.Lines {
				sheet.Body.Lines[i].TestFill = new(quantity.Grams(200))
			}
			for range 2 {
				y := sheet
				if err := tx.SavePourSheet(&y); err != nil {
					return err
				}
			}
		}
		return nil
	})
	s.sendsOn("/pours/sheets/1/pour", url.Values{"token": {"a"}}, "/pours/2")
	s.sendsBack("/pours/sheets/2/pour", url.Values{"token": {"b"}}, http.StatusUnprocessableEntity, "poured")
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPour, 2, "spilt") })
	s.shows("/pours/sheets/new?round=1&melt=1", http.StatusOK, `name="l0.places"`)
	s.sendsOn("/pours/sheets/2/pour", url.Values{"token": {"c"}}, "/pours/3")
}

// One line too many is refused, and all of them come back.
func TestTooManyLinesComeBack(t *testing.T) {
	s := sheetSite(t)
	form := sheetForm()
	for i := range journal.MostLines + 1 {
		row := fmt.Sprintf("l%d.", i)
		form.Set(row+"what", "v1")
		form.Set(row+"count", "1")
		form.Set(row+"test_fill", "200")
	}
	s.sendsBack("/pours/sheets/new", form, http.StatusUnprocessableEntity, "At most 40 lines on one sheet.", `name="l40.what"`)
}

// The largest sheet is poured in one go, each candle with its own letter.
func TestTheLargestSheetIsPoured(t *testing.T) {
	s := sheetSite(t)
	s.sendsOn("/pours/sheets/new", sheetForm("l0.count", fmt.Sprint(journal.MostPieces-1)), "/pours/sheets/1")
	s.sendsOn("/pours/sheets/1/pour", url.Values{"token": {"p"}}, "/pours/2")
	lines, err := s.store.PourCandles(t.Context(), 2)
	if err != nil || len(lines) != journal.MostPieces-1 || lines[702].Candle.Letter != "AAA" {
		t.Errorf("%d candles, %v", len(lines), err)
	}
}

// One sheet gives one pour that counts, whatever is withdrawn and brought back.
func TestAPourComesBackOnlyWhereItsSheetWasNotPouredAgain(t *testing.T) {
	s := sheetSite(t)
	s.sendsOn("/pours/sheets/new", sheetForm(), "/pours/sheets/1")
	s.sendsOn("/pours/sheets/1/pour", url.Values{"token": {"a"}}, "/pours/2")
	s.sendsOn("/withdraw/pour/2", url.Values{"token": {"w"}, "why": {"spilt"}}, "/pours/2")
	s.sendsOn("/pours/sheets/1/pour", url.Values{"token": {"b"}}, "/pours/3")
	s.sendsBack("/restore/pour/2", url.Values{"token": {"r"}}, http.StatusUnprocessableEntity, "poured again, as pour 3")
	s.sendsOn("/withdraw/pour/3", url.Values{"token": {"w3"}}, "/pours/3")
	s.sendsOn("/restore/pour/2", url.Values{"token": {"r2"}}, "/pours/2")
	s.shows("/pours/sheets/1", http.StatusOK, "as pour 2")
	s.shows("/pours/2", http.StatusOK, `href="/pours/sheets/1"`)
	s.sendsBack("/pours/sheets/1/pour", url.Values{"token": {"c"}}, http.StatusUnprocessableEntity, "poured")
	pour, err := s.store.Pour(t.Context(), 2)
	if err != nil || pour.Sheet == nil || *pour.Sheet != 1 {
		t.Errorf("pour 2 names sheet %v, %v", pour.Sheet, err)
	}
}

// A page that shows the sheet as it was does not pour it as it is.
func TestAStalePageDoesNotPour(t *testing.T) {
	s := sheetSite(t)
	s.sendsOn("/pours/sheets/new", sheetForm(), "/pours/sheets/1")
	x, err := s.store.PourSheet(t.Context(), 1)
	if err != nil {
		t.Fatal(err)
	}
	seen := page.SheetSeen(x)
	s.shows("/pours/sheets/1", http.StatusOK, `name="seen" value="`+seen+`"`)
	s.sendsOn("/pours/sheets/1/edit", sheetForm("token", "e", "version", "1", "l0.count", "9"), "/pours/sheets/1")
	s.sendsBack("/pours/sheets/1/pour", url.Values{"token": {"p"}, "seen": {seen}}, http.StatusUnprocessableEntity, "corrected elsewhere")
	if x, err = s.store.PourSheet(t.Context(), 1); err != nil {
		t.Fatal(err)
	}
	s.sendsOn("/pours/sheets/1/pour", url.Values{"token": {"q"}, "seen": {page.SheetSeen(x)}}, "/pours/2")
}
