package main

import (
	"encoding/csv"
	"encoding/xml"
	"errors"
	"io"
	"net/http"
	"strings"
	"testing"
)

// Every kind of chart of the season can be taken away, as a drawing that is
// well-formed and as numbers with a head and at least one row.
func TestChartsOfTheSeasonAreTakenAway(t *testing.T) {
	s := demoStudio(t)
	for _, address := range []string{
		"/candles/1/charts/growth", "/candles/1/charts/mass", "/candles/1/charts/burns", "/candles/1/charts/full", "/candles/1/charts/flame",
		"/candles/1/charts/depth", "/candles/1/charts/soot", "/candles/1/charts/faults", "/standings/moved/charts/moved", "/side-by-side/charts/curves", "/side-by-side/charts/hours",
	} {
		query := map[bool]string{true: "?of=c1&of=c2", false: "?wax=1"}[strings.HasPrefix(address, "/side")]
		wellFormed(t, s.fetch(t, address+".svg"+query, "image/svg+xml"))
		rows, err := csv.NewReader(strings.NewReader(s.fetch(t, address+".csv"+query, "text/csv; charset=utf-8"))).ReadAll()
		if err != nil || len(rows) < 2 {
			t.Errorf("%s: %d rows, %v", address, len(rows), err)
		}
	}
}

// fetch reads one address that must be there, of one kind.
func (s *studio) fetch(t *testing.T, address, kind string) string {
	t.Helper()
	r, err := http.Get(s.base() + address)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK || r.Header.Get("Content-Type") != kind {
		t.Errorf("%s: %d, %s, %v", address, r.StatusCode, r.Header.Get("Content-Type"), err)
	}
	return string(body)
}

func wellFormed(t *testing.T, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Errorf("not well-formed: %v", err)
			return
		}
	}
}
