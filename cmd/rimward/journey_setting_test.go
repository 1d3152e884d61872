package main

import (
	"context"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/sqlite"
)

// pouredAgain pours a fresh batch of the shelf's wax into candles, some time
// ago.
func (s *studio) pouredAgain(ago time.Duration, candles int) journal.Pour {
	s.tb.Helper()
	pour := journal.Pour{At: s.now().Add(-ago), Wax: 1, LoadBasis: journal.OfWax}
	err := s.store.Write(context.Background(), func(tx *sqlite.Tx) error {
		if err := tx.SavePour(&pour); err != nil {
			return err
		}
		for range candles {
			if err := tx.SaveCandle(&journal.Candle{Pour: pour.ID, Vessel: 1, Wick: 1, Wicks: 1}); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		s.tb.Fatal(err)
	}
	return pour
}

// The tops of a pour of three are looked at by keyboard, from the bench: the
// first two are as they should be, the third sweats; a slip comes back with all
// that was typed.
func TestJourneyLookAtTheTops(t *testing.T) {
	s := emptyStudio(t)
	s.shelved(0)
	s.pouredAgain(25*time.Hour, 3)
	b := newTab(t, s.base(), laptop)
	b.open("/")
	b.click("Look at the tops of pour 2")
	b.see("25 h ago")
	if got := b.focused(); got != "c1.fine" {
		t.Fatalf("the look begins at %q", got)
	}
	b.keys = 0
	b.press(spaceKey, enterKey, spaceKey, enterKey)
	t.Logf("two candles as they should be: %d key presses", b.keys)
	b.put("c3.sweating", "heavy")
	b.fill("c3.stuck", "140")
	b.click("Save the set checks")
	b.see("Set checks of 2-A and 2-B saved", "Between 0 and 100 %")
	if got := b.value("c3.sweating") + "|" + b.value("c3.stuck"); got != "heavy|140" {
		t.Errorf("the row came back as %q", got)
	}
	b.shot("tops-back")
	b.fill("c3.stuck", "90")
	b.click("Save the set checks")
	b.see("2-C sweats", "How they set", "Smooth top, stuck all round", "Heavy sweating, stuck to 90 % of the wall.")
	b.open("/")
	if text := js[string](b, `document.body.innerText`); containsAll(text, "Look at the tops") {
		t.Error("the bench still asks for the tops")
	}
	b.open("/candles/3")
	b.see("Oil beads stood on the cold wax, heavy, 25 h after the pour", "Use less oil in the next pour")
	b.open("/settled")
	b.see("Meadow blend", "1 of 3", "not enough yet", "One pour only")
	b.shot("settled-one-pour")
}

// tickAll ticks that every candle is as it should be.
func (t *tab) tickAll() { js[bool](t, `(document.querySelector("[name=all_fine]").click(), true)`) }

// A look on a phone without scripts, before the candles are set, and again
// after.
func TestJourneyLookTooSoonWithoutScripts(t *testing.T) {
	s := emptyStudio(t)
	s.shelved(0)
	s.pouredAgain(5*time.Hour, 2)
	b := newTab(t, s.base(), screen{width: 390, height: 844, mobile: true, noScript: true})
	b.open("/pours/2/tops")
	b.see("A full day has not passed yet")
	b.shot("tops-early")
	b.tickAll()
	b.click("Save the set checks")
	b.see("Set checks of 2-A and 2-B saved", "before a full 24 h")
	s.later(20 * time.Hour)
	b.open("/")
	b.click("Look at the tops of pour 2")
	b.see("looked at 5 h after the pour")
	b.tickAll()
	b.click("Save the set checks")
	b.see("Set checks of 2-A and 2-B saved")
	b.open("/")
	if text := js[string](b, `document.body.innerText`); containsAll(text, "Look at the tops") {
		t.Error("the bench still asks for the tops")
	}
}
