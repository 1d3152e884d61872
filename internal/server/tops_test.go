package server_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

func topsForm(change ...string) url.Values {
	return formOf(change, "token", "t", "c1.token", "a", "c2.token", "b", "c3.token", "c")
}

// sets reads the set checks of one candle.
func (s candleSite) sets(candle journal.ID) []journal.SetCheck {
	s.t.Helper()
	list, err := s.store.SetChecks(s.t.Context(), candle)
	if err != nil {
		s.t.Fatal(err)
	}
	return list
}

func TestTopsAreSavedRowByRow(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/pours/1/tops", http.StatusOK, "Look at the tops", "1-A", "1-B", "1-C", "As it should be")
	s.sendsBack("/pours/1/tops", topsForm(), http.StatusUnprocessableEntity, "Nothing was typed yet")
	form := topsForm("c1.fine", "1", "c2.dip", "2", "c2.top", "smooth", "c2.note", "by the window", "c3.frosting", "lots")
	s.sendsBack("/pours/1/tops", form, http.StatusUnprocessableEntity, "Set check of 1-A saved.", "Only a dip has a depth.", "Choose one from the list.", "by the window")
	if len(s.sets(1)) != 1 || len(s.sets(2)) != 0 || len(s.sets(3)) != 0 {
		t.Fatalf("saved: %v %v %v", s.sets(1), s.sets(2), s.sets(3))
	}
	form.Set("c2.top", "")
	form.Set("c3.frosting", "slight")
	form.Set("at_time", "12:00")
	s.sendsOn("/pours/1/tops", form, "/pours/1#setting")
	if len(s.sets(1)) != 2 || len(s.sets(2)) != 1 || s.sets(2)[0].Top != journal.TopDip || s.sets(3)[0].Frosting != journal.AmountSlight || s.sets(3)[0].Top != "" {
		t.Errorf("saved: %+v %+v %+v", s.sets(1), s.sets(2), s.sets(3))
	}
	before := len(s.sets(1))
	s.sendsOn("/pours/1/tops", form, "/pours/1#setting")
	if len(s.sets(1)) != before || !s.sets(2)[0].At.Equal(candleNoon) {
		t.Errorf("sent again, %d set checks became %d", before, len(s.sets(1)))
	}
}

// A candle that is withdrawn while somebody looks at it is named; the others
// are saved.
func TestAWithdrawnCandleIsNotLookedAtUnseen(t *testing.T) {
	s := newCandleSite(t)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounCandle, 2, "") })
	s.sendsBack("/pours/1/tops", topsForm("c2.note", "by the window", "c3.frosting", "slight"), http.StatusUnprocessableEntity, "1-B was withdrawn meanwhile.", "Set check of 1-C saved.")
	if len(s.sets(2)) != 0 || len(s.sets(3)) != 1 {
		t.Errorf("saved: %v %v", s.sets(2), s.sets(3))
	}
	s.sendsOn("/pours/1/tops", topsForm("c1.fine", "1"), "/pours/1#setting")
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error { return tx.Withdraw(journal.NounPour, 1, "") })
	s.sendsBack("/pours/1/tops", topsForm("c3.note", "cracked"), http.StatusUnprocessableEntity, "no candle to look at")
}

func TestAllAsTheyShouldBeLeavesOutWhatWasLookedAt(t *testing.T) {
	s := newCandleSite(t)
	testkit.Light(t, s.store, time.Hour, s.Candles[2])
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		return tx.SaveSetCheck(&journal.SetCheck{Candle: 1, At: tx.Now().Add(-time.Hour), Frosting: journal.AmountHeavy})
	})
	s.sendsOn("/pours/1/tops", topsForm("all_fine", "1", "c2.sweating", "slight"), "/pours/1#setting")
	if len(s.sets(1)) != 1 || len(s.sets(3)) != 0 {
		t.Errorf("looked at before, and lit: %v %v", s.sets(1), s.sets(3))
	}
	if c := s.sets(2); len(c) != 1 || c[0].Top != journal.TopSmooth || c[0].Sweating != journal.AmountSlight || c[0].Stuck == nil {
		t.Errorf("the rest: %+v", c)
	}
	s.shows("/candles/2", http.StatusOK, "Oil beads stood on the cold wax", "How it set", "slight sweating")
	s.shows("/candles/2/findings", http.StatusOK, "Sweating before it was lit", "Sweating, as it set", "Use less oil")
}

func TestALookAfterTheFirstBurnIsRefusedByItsCode(t *testing.T) {
	s := newCandleSite(t)
	testkit.Light(t, s.store, time.Hour, s.Candles[0])
	s.sendsBack("/pours/1/tops", topsForm("c1.fine", "1"), http.StatusUnprocessableEntity, "1-A: It was lit before that.")
	s.sendsOn("/pours/1/tops", topsForm("c1.fine", "1", "at_date", "2026-05-12", "at_time", "09:00"), "/pours/1#setting")
	if c := s.sets(1); len(c) != 1 || !c[0].At.Equal(time.Date(2026, 5, 12, 9, 0, 0, 0, time.UTC)) {
		t.Errorf("from paper: %+v", c)
	}
}

func TestTopsOfOneCandleAndOfNone(t *testing.T) {
	s := newCandleSite(t)
	page := s.ask("/pours/1/tops?candle=2", nil).Body.String()
	if strings.Contains(page, "1-A") || !strings.Contains(page, "1-B") {
		t.Error("not narrowed to 1-B")
	}
	s.sendsBack("/pours/1/tops?candle=2", topsForm("c1.fine", "1"), http.StatusUnprocessableEntity, "Nothing was typed yet")
	s.shows("/pours/1/tops?candle=99", http.StatusOK, "no candle to look at")
	s.shows("/pours/9/tops", http.StatusNotFound, "There is nothing here")
}

func TestASetCheckIsCorrectedWithdrawnAndBroughtBack(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/pours/1/tops", topsForm("c1.fine", "1"), "/pours/1#setting")
	s.shows("/set-checks/1", http.StatusOK, "Set check of 1-A", "smooth", "30 days after the pour", "Add photos of the set check of 1-A")
	edit := formOf(nil, "token", "e", "version", "1", "at_date", "2026-05-14", "at_time", "11:00", "top", "rough", "stuck", "140")
	s.sendsBack("/set-checks/1/edit", edit, http.StatusUnprocessableEntity, "Between 0 and 100 %", `value="140"`)
	edit.Set("stuck", "90")
	s.sendsOn("/set-checks/1/edit", edit, "/set-checks/1")
	s.shows("/set-checks/1", http.StatusOK, "rough", "90", "Corrected")
	s.sendsBack("/set-checks/1/edit", edit, http.StatusSeeOther)
	edit.Set("note", "again")
	s.sendsBack("/set-checks/1/edit", edit, http.StatusConflict, "changed meanwhile")
	s.sendsBack("/set-checks/1/edit", formOf(nil, "token", "f", "version", "2", "top", "rough"), http.StatusUnprocessableEntity, "Say when it was looked at.")
	s.shows("/withdraw/set%20check/1", http.StatusOK, "Withdraw this set check of 1-A?")
	s.sendsOn("/withdraw/set%20check/1", formOf(nil, "token", "w", "why", "the wrong candle"), "/set-checks/1")
	s.shows("/set-checks/1", http.StatusOK, "the wrong candle", "Bring it back")
	s.sendsOn("/restore/set%20check/1", formOf(nil, "token", "r"), "/set-checks/1")
	if c := s.sets(1); c[0].IsGone() {
		t.Error("it did not come back")
	}
	s.shows("/photos/new?of=set+check&id=1", http.StatusOK, "Photos of the set check of 1-A")
	s.shows("/candles/1", http.StatusOK, "Set check 30 days after the pour corrected")
}

func TestHowCandlesSetIsTold(t *testing.T) {
	emptySite(t).shows("/settled", http.StatusOK, "No candle is set yet")
	s := newCandleSite(t)
	s.shows("/settled", http.StatusOK, "Meadow blend", "none was looked at", "nothing to tell yet")
	s.sendsOn("/pours/1/tops", topsForm("all_fine", "1"), "/pours/1#setting")
	s.shows("/settled?wax=1", http.StatusOK, "three were looked at, of one pour", "One pour only", "0 of 3", "not enough yet: 2 more would do", "All waxes")
	s.shows("/settled?wax=7", http.StatusOK, "No candle is set yet")
	s.shows("/shelf/waxes/1", http.StatusOK, "/settled?wax=1")
	s.shows("/pours", http.StatusOK, "/settled")
}

func TestTheBenchAsksForTopsUntilAllWereLookedAt(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/", http.StatusOK, "/pours/1/tops", "Look at the tops of pour 1", "1-A, 1-B and 1-C")
	s.sendsOn("/pours/1/tops", topsForm("c1.fine", "1"), "/pours/1#setting")
	s.shows("/", http.StatusOK, "1-B and 1-C: dips")
	s.sendsOn("/pours/1/tops", topsForm("all_fine", "1"), "/pours/1#setting")
	if strings.Contains(s.ask("/", nil).Body.String(), "Look at the tops") {
		t.Error("the bench still asks")
	}
}
