package server_test

import (
	"encoding/csv"
	"encoding/xml"
	"errors"
	"html"
	"io"
	"regexp"
	"strings"
	"testing"
)

// chartFile asks for a file and holds what it is and that it can be read.
func (s candleSite) chartFile(path, media, name string) {
	s.t.Helper()
	w := s.ask(path, nil)
	if w.Code != 200 || w.Header().Get("Content-Type") != media || w.Header().Get("Content-Disposition") != `attachment; filename="`+name+`"` {
		s.t.Errorf("%s answers %d, %q, %q", path, w.Code, w.Header().Get("Content-Type"), w.Header().Get("Content-Disposition"))
		return
	}
	if strings.HasSuffix(name, ".csv") {
		rows, err := csv.NewReader(w.Body).ReadAll()
		if err != nil || len(rows) < 2 {
			s.t.Errorf("%s: %d rows, %v", path, len(rows), err)
		}
		return
	}
	d := xml.NewDecoder(w.Body)
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			s.t.Errorf("%s is no drawing: %v", path, err)
			return
		}
	}
}

// Every chart that a page shows can be taken away by the links under it.
func TestChartsAreSentAsFiles(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	links := regexp.MustCompile(`href="((/[^"]*)/charts/([a-z]+)\.(svg|csv)[^"]*)"`)
	seen := map[string]bool{}
	for _, page := range []string{"/candles/1", "/standings", s.pairingLink()} {
		for _, m := range links.FindAllStringSubmatch(s.ask(page, nil).Body.String(), -1) {
			media := map[string]string{"svg": "image/svg+xml", "csv": "text/csv; charset=utf-8"}[m[4]]
			prefix := "standings-"
			if strings.HasPrefix(m[2], "/candles") {
				prefix = "candle-1-A-"
			}
			s.chartFile(html.UnescapeString(m[1]), media, prefix+m[3]+"."+m[4])
			seen[prefix+m[3]+"."+m[4]] = true
		}
	}
	for _, want := range []string{"candle-1-A-growth.svg", "candle-1-A-growth.csv", "candle-1-A-burns.svg", "candle-1-A-full.csv",
		"standings-ladder.svg", "standings-full.csv", "standings-pairing.svg", "standings-burns.csv"} {
		if !seen[want] {
			t.Errorf("no page leads to %s; there are %v", want, seen)
		}
	}
}

func TestChartsThatAreNotThere(t *testing.T) {
	s := newCandleSite(t)
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	for _, path := range []string{
		"/candles/1/charts/growth.png", "/candles/1/charts/growth", "/candles/1/charts/nothing.svg", "/candles/1/charts/.svg", "/candles/99/charts/growth.svg", "/candles/x/charts/growth.svg",
		"/candles/2/charts/growth.svg", "/candles/1/charts/growth.svg.csv",
		"/standings/charts/ladder.svg", "/standings/charts/ladder.svg?vessel=1&series=no", "/standings/charts/nothing.svg?vessel=1",
	} {
		s.shows(path, 404)
	}
}
