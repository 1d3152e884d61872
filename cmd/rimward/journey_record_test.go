package main

import (
	"strings"
	"testing"
	"time"
)

// A correction keeps what was there before, and shows it.
func TestJourneyCorrection(t *testing.T) {
	s := emptyStudio(t)
	s.lit(time.Hour, s.shelved(1)...)
	b := newTab(t, s.base(), laptop)
	b.open("/candles/1/check")
	b.fill("width_a", "48")
	b.click("Save the check")
	b.open("/checks/1/edit")
	b.fill("width_a", "58")
	b.click("Save the check")
	b.see("the history keeps what was there before", "58")
	history := js[string](b, `document.querySelector(".history").innerText`)
	if !containsAll(history, "48", "58", "orrected") {
		t.Errorf("the history says:\n%s", history)
	}
	b.open("/withdraw/check/1")
	b.fill("why", "measured the wrong candle")
	b.click("Withdraw it")
	b.see("The check is withdrawn.", "measured the wrong candle")
	b.shot("history")
	b.click("Bring it back")
	b.see("It counts again.")
}

// A burn is copied from a paper sheet; a row that is wrong comes back.
func TestJourneyPaper(t *testing.T) {
	s := emptyStudio(t)
	s.shelved(1)
	b := newTab(t, s.base(), laptop)
	b.open("/candles/1")
	b.click("Enter a burn from paper")
	b.put("lit_date", s.now().UTC().AddDate(0, 0, -3).Format("2006-01-02"))
	b.put("lit_time", "22:30")
	b.put("out_time", "01:30")
	b.fill("mass_before", "250")
	b.fill("mass_after", "231")
	b.fill("k1.at_time", "23:30")
	b.fill("k1.width_a", "45")
	b.fill("k2.at_time", "00:30")
	b.fill("k2.width_a", "199")
	b.click("Save the burn")
	b.see("Wider than the inside of the vessel")
	if got := b.value("k1.width_a") + "|" + b.value("k2.width_a"); got != "45|199" {
		t.Errorf("the rows came back as %q", got)
	}
	b.fill("k2.width_a", "63")
	b.click("Save the burn")
	b.see("Burn 1", "6.3")
	cs := checksOf(t, s, 1)
	if len(cs) != 2 || cs[1].At.Sub(cs[0].At) != time.Hour {
		t.Errorf("checks past midnight: %+v", cs)
	}
	b.shot("paper-done")
}

// Everything works with scripts off.
func TestJourneyScriptsOff(t *testing.T) {
	s := emptyStudio(t)
	s.shelved(2)
	b := newTab(t, s.base(), screen{width: 390, height: 844, mobile: true, noScript: true})
	b.open("/light?candle=1")
	if js[bool](b, `typeof window.rimwardNow === "function"`) {
		t.Fatal("the script ran")
	}
	b.click("Light them")
	b.see("1-A", "One candle is lit")
	s.later(time.Hour)
	b.open("/walk")
	b.fill("b1.width_a", "7.3 cm")
	b.fill("b1.width_b", "nonsense")
	b.click("Save the check")
	b.see("Write a length such as")
	if got := b.value("b1.width_a") + "|" + b.value("b1.width_b"); got != "7.3 cm|nonsense" {
		t.Errorf("what was typed came back as %q", got)
	}
	b.fill("b1.width_b", "2 7/8 in")
	b.click("Save the check")
	b.see("Check of 1-A saved", "73 × 73")
}

func containsAll(s string, words ...string) bool {
	for _, w := range words {
		if !strings.Contains(s, w) {
			return false
		}
	}
	return true
}
