package server_test

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
	"rimward/internal/testkit"
)

func TestNewPourIsWrittenDown(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/pours/new", http.StatusOK, `value="2026-05-14"`, `value="12:00"`, "What the suppliers advise")
	s.sendsOn("/pours/new", pourForm(), "/pours/2")
	p, err := s.store.Pour(context.Background(), 2)
	if err != nil {
		t.Fatal(err)
	}
	// 150 °F is 65.56 °C (NIST SP 811).
	if p.Number != 2 || !p.At.Equal(time.Date(2026, 5, 13, 18, 20, 0, 0, time.UTC)) || p.HeatedTo == nil || *p.HeatedTo < 65.55 || *p.HeatedTo > 65.56 {
		t.Errorf("pour %+v", p)
	}
	s.shows("/pours/2", http.StatusOK, "Pour 2", "63.5", "No candle yet.", "/pours/2/candles/new")
	s.shows("/pours", http.StatusOK, "/pours/2", "/pours/1")
}

func TestNewPourCountsItsLoadAsTheWaxDoes(t *testing.T) {
	s := newCandleSite(t)
	testkit.Write(t, s.store, func(tx *sqlite.Tx) error {
		s.Wax.LoadBasis = journal.OfTotal
		if err := tx.SaveWax(&s.Wax); err != nil {
			return err
		}
		return tx.SaveFragrance(&journal.Fragrance{Name: "Fig and smoke", MaxBasis: journal.OfWax})
	})
	for basis, want := range map[string]journal.Basis{"": journal.OfTotal, "wax": journal.OfWax} {
		w := s.ask("/pours/new", pourForm("token", "p"+basis, "fragrance", "1", "load", "8", "load_basis", basis))
		if w.Code != http.StatusSeeOther {
			t.Fatalf("%d: %s", w.Code, w.Body)
		}
		lines, _, err := s.store.Pours(context.Background(), 0, 1)
		if err != nil || lines[0].Pour.LoadBasis != want {
			t.Errorf("basis %q becomes %q (%v), want %q", basis, lines[0].Pour.LoadBasis, err, want)
		}
	}
}

func TestPourThatIsWrongComesBackAsTyped(t *testing.T) {
	s := newCandleSite(t)
	s.sendsBack("/pours/new", pourForm("wax", "", "wax_lot", "M-0412", "poured_at", "lukewarm"), http.StatusUnprocessableEntity,
		`value="M-0412"`, `value="lukewarm"`, "Not saved yet", "Write a temperature such as")
	s.sendsBack("/pours/new", pourForm("at_date", "2026-05-20"), http.StatusUnprocessableEntity, "This lies in the future.", `value="2026-05-20"`)
	if lines, _, err := s.store.Pours(context.Background(), 0, 9); err != nil || len(lines) != 1 {
		t.Errorf("%d pours (%v), want the one of the studio", len(lines), err)
	}
}

func TestPoursAreListedBelowANumber(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/pours/new", pourForm(), "/pours/2")
	body := s.ask("/pours?before=2", nil).Body.String()
	if !strings.Contains(body, `href="/pours/1"`) || strings.Contains(body, `href="/pours/2"`) {
		t.Error("the list does not go on below the second pour")
	}
}

func TestPourIsCorrected(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/pours/1/edit", http.StatusOK, "Correct pour 1", `name="version" value="1"`)
	form := pourForm("at_date", "2026-04-10", "version", "1", "note", "stirred for two minutes")
	s.sendsOn("/pours/1/edit", form, "/pours/1")
	s.shows("/pours/1", http.StatusOK, "stirred for two minutes", "Corrected", "Poured at")
	form.Set("token", "later")
	s.sendsBack("/pours/1/edit", form, http.StatusConflict, "changed meanwhile", `name="version" value="2"`)
	s.sendsBack("/pours/1/edit", pourForm("version", "2", "load", "eight"), http.StatusUnprocessableEntity, `value="eight"`)
}
