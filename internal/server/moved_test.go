package server_test

import (
	"strings"
	"testing"
)

func TestWhatMovedThePool(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/standings/moved", 200, "Nothing was burned yet.")
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	s.shows("/standings", 200, `href="/standings/moved?wax=1"`)
	s.shows("/shelf/waxes/1", 200, `href="/standings/moved?wax=1"`)
	s.shows("/standings/moved?wax=1", 200, "No two candles of", "1 candle with no other candle", "How this is worked out")
	s.shows("/standings/moved?wax=77", 200, "No two candles of")
	s.shows("/standings/moved/charts/moved.svg?wax=1", 404)
	s.shows("/standings/moved/charts/other.csv?wax=1", 404)
	s.shows("/standings/moved?wax=1", 200, "1 candle with no other candle")
	s.sendsOn("/candles/2/paper", paperForm("token", "q", "k3.at_time", "01:30"), "/candles/2")
	if again := s.ask("/standings/moved?wax=1", nil).Body.String(); strings.Contains(again, "1 candle with no other candle") {
		t.Error("what was kept is shown after another candle burned")
	}
}
