package server_test

import (
	"encoding/csv"
	"strings"
	"testing"
)

func TestFindingsOfACandle(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/candles/1/findings", 200, "Findings", "No fault was seen.", "/candles/1/findings.csv")
	s.sendsOn("/candles/1/paper", paperForm("k1.flame", "80", "k1.soot", "marks"), "/candles/1")
	s.shows("/candles/1", 200, `href="/candles/1/findings"`)
	s.shows("/candles/1/findings", 200, "stands against it", "The flame stands at 80 mm, over the limit of 75 mm.", "EN 15493", "Sooting", "What to change next, one thing")
	s.shows("/candles/1/findings?level=hard", 200, "The flame stands at 80 mm", `aria-current="true"`)
	if page := s.ask("/candles/1/findings?level=hard", nil).Body.String(); strings.Contains(page, "It smokes: marks.") {
		t.Error("a caution among the hard findings")
	}
	s.shows("/candles/99/findings", 404)
	s.shows("/candles/99/findings.csv", 404)
}

// The table is one that RFC 4180 describes: a head, rows of the same length,
// lines that end in CR LF.
func TestFindingsAsATable(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k1.flame", "80"), "/candles/1")
	link := strings.Replace(s.pairingLink(), "/standings/pairing?", "/standings/pairing/findings.csv?", 1)
	for _, path := range []string{"/candles/1/findings.csv", link} {
		w := s.ask(path, nil)
		rows, err := csv.NewReader(strings.NewReader(w.Body.String())).ReadAll()
		if w.Code != 200 || err != nil || len(rows) < 2 || !strings.HasPrefix(w.Header().Get("Content-Type"), "text/csv") || !strings.Contains(w.Header().Get("Content-Disposition"), "attachment; filename=") {
			t.Fatalf("%s: %d, %v, %v", path, w.Code, w.Header(), err)
		}
		if rows[0][0] != "level" || rows[1][0] != "hard" || rows[1][6] != "80 mm" || !strings.Contains(w.Body.String(), "\r\n") {
			t.Errorf("%s: %q", path, rows[:2])
		}
	}
	s.shows("/standings/pairing/findings.csv?vessel=1&series=no", 404)
}

func TestFindingsOfAPairing(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k1.flame", "80"), "/candles/1")
	link := s.pairingLink()
	s.shows(link, 200, "Outside the limits", "The flame stands at 80 mm, over the limit of 75 mm.", "Faults over time", "level=hard")
	s.shows(link+"&level=hard", 200, "The flame stands at 80 mm", `aria-current="true"`)
	if inner := s.ask(link+"&inner=1", nil).Body.String(); strings.Contains(inner, "Outside the limits") {
		t.Error("the row of the standings holds the findings too")
	}
}
