package main

import "testing"

// The standings say who is closest and how sure that is, open to the readings
// behind a row, explain themselves, and follow what the studio believes.
func TestJourneyStandings(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), laptop)
	b.open("/standings")
	b.see("Larkspur 7", "the closest", "What to try next", "The verdict: accepted", "Below the line", "Guesses from the neighbours")
	js[bool](b, `(document.querySelector("details[data-inner] summary").click(), true)`)
	b.see("does not count: it burned in a strong draught", "each tick on the wall a full one")
	b.shot("standings-1-open")
	b.click("How this is worked out")
	b.see("In a maker’s words", "In this studio pools open")
	b.click("Change them")
	before := s.firstCloseness(b)
	b.open("/settings/beliefs")
	b.fill("candle", "15 (1), 20 (1)")
	b.click("Save")
	b.see("The standings are worked out anew.", "changed; empty the box")
	if after := s.firstCloseness(b); after == before {
		t.Errorf("candles that differ much more leave the closeness at %s", after)
	}
	b.open("/settings/beliefs")
	b.click("Go back to all defaults")
	b.see("The standings are worked out anew.")
	if after := s.firstCloseness(b); after != before {
		t.Errorf("back at the defaults the closeness is %s, was %s", after, before)
	}
}

// firstCloseness reads the closeness of the first pairing, once everything that
// was saved is worked in: the page says so while it is not.
func (s *studio) firstCloseness(b *tab) string {
	for range 30 {
		b.open("/standings")
		if !js[bool](b, `document.body.innerText.includes("is being worked in")`) {
			break
		}
	}
	return js[string](b, `document.querySelector(".stand .big").innerText`)
}

// Without a script the row's link leads to the same readings.
func TestJourneyStandingsWithoutScript(t *testing.T) {
	s := demoStudio(t)
	b := newTab(t, s.base(), screen{width: 390, height: 844, mobile: true, noScript: true})
	b.open(pairingPage)
	b.see("Larkspur 7 in Pebble tumbler", "curve")
	b.click("Back to the standings")
	b.see("What to try next")
}
