package main

import (
	"testing"
	"time"
)

// From an empty journal to the first standings, with nothing else than this
// program.
func TestJourneyFirstRun(t *testing.T) {
	s := emptyStudio(t)
	b := newTab(t, s.base(), laptop)
	b.open("/")
	b.see("On the bench", "Put a wax on the shelf")
	b.shot("first-1-empty-bench")
	b.click("Put a wax on the shelf")
	b.fill("name", "Meadow blend")
	b.fill("pour_at_low", "145F")
	b.fill("pour_at_high", "65,6 °C")
	b.click("Save the wax")
	b.see("Meadow blend", "62.8–65.6")

	b.open("/shelf/vessels/new")
	b.fill("name", "Pebble tumbler")
	b.fill("inner_width", "3 in")
	b.click("Save the vessel")
	b.see("Pebble tumbler", "76.2", "3 h 00")

	b.open("/shelf/ladders/new")
	b.fill("name", "Larkspur")
	b.fill("rungs", "6\n7\n8")
	b.click("Save the ladder")
	b.see("Larkspur", "Rungs")

	b.open("/pours/new")
	b.choose("wax", "Meadow blend")
	b.put("at_date", s.now().UTC().AddDate(0, 0, -30).Format("2006-01-02"))
	b.put("at_time", "10:00")
	b.fill("poured_at", "64")
	b.click("Save the pour")
	b.see("Pour 1")

	b.click("Add candles")
	b.choose("vessel", "Pebble tumbler")
	b.choose("wick", "Larkspur 7")
	b.click("Save the candle")
	b.see("1-A")
	b.open("/candles/1")
	b.see("Larkspur 7")
	b.click("Same again with Larkspur 8")
	b.see("1-B", "Larkspur 8")

	firstBurns(b, s)
	firstStandings(b)
}

// firstBurns copies one burn from paper, and lights another candle for real.
func firstBurns(b *tab, s *studio) {
	b.open("/candles/1/paper")
	b.put("lit_date", s.now().UTC().AddDate(0, 0, -2).Format("2006-01-02"))
	b.put("lit_time", "18:00")
	b.put("out_time", "22:00")
	for i, row := range []struct{ at, a, b string }{{"19:00", "48", "46"}, {"20:00", "66", "63"}, {"1 h 30", "57", "56"}, {"21:00", "full", ""}} {
		p := "k" + string(rune('1'+i)) + "."
		b.fill(p+"at_time", row.at)
		b.fill(p+"width_a", row.a)
		b.fill(p+"width_b", row.b)
	}
	b.click("Save the burn")
	b.see("Burn 1", "48 × 46", "full")
	b.shot("first-2-candle")

	b.open("/light?candle=2")
	b.click("Light them")
	b.see("One candle is lit", "1-B")
	for _, width := range []string{"44", "61", "70"} {
		s.later(time.Hour)
		b.open("/candles/2/check")
		b.fill("width_a", width)
		b.click("Save the check")
		b.see("Check of 1-B saved")
	}
	b.click("Snuff")
	b.click("Save")
	b.see("Saved for 1-B")
}

func firstStandings(b *tab) {
	b.open("/standings")
	b.see("Standings", "Larkspur 7", "Larkspur 8", "What to try next", "Chance of being closest")
	b.shot("first-3-standings")
}
