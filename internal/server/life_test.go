package server_test

import (
	"testing"
)

// A candle's page shows its life, and a pairing's page the burn time, with the
// claimed time held against what was measured; a claim that cannot be read
// comes back whole.
func TestLifeOnTheirPages(t *testing.T) {
	s := newCandleSite(t)
	s.shows("/candles/1", 200, "No burns yet")
	s.sendsOn("/candles/1/paper", paperForm("k3.at_time", "01:30"), "/candles/1")
	s.shows("/candles/1", 200, `<section class="life"`, "6.3", "one weighed burn", "Late burns against early ones")
	link := s.pairingLink()
	s.shows(link, 200, "Life and burn time", "no candles burned to the end; three more are needed", `name="series"`)
	s.shows(link+"&claimed=40", 200, `value="40"`, "no candle of this pairing was burned to the end")
	s.shows(link+"&claimed=soon", 422, `value="soon"`, "Write hours such as 3", "Life and burn time")
}
