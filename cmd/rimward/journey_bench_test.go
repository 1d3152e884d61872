package main

import (
	"context"
	"testing"
	"time"

	"rimward/internal/journal"
	"rimward/internal/quantity"
	"rimward/internal/sqlite"
)

// seen saves a check of one width.
func (s *studio) seen(b journal.Burn, at time.Time, width quantity.Millimetres) {
	s.tb.Helper()
	err := s.store.Write(context.Background(), func(tx *sqlite.Tx) error {
		return tx.SaveCheck(&journal.Check{Burn: b.ID, At: at, WidthA: &width})
	})
	if err != nil {
		s.tb.Fatal(err)
	}
}

// A check that another device saves comes to the open bench by itself.
func TestJourneySecondDevice(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(time.Hour, s.shelved(2)...)
	b := newTab(t, s.base(), laptop)
	b.open("/")
	b.see("no pool measured yet")
	js[bool](b, `(document.querySelector("a.check-now").focus(), window.rimwardSame = true)`)
	s.seen(burns[0], s.now(), 57)
	js[bool](b, `document.dispatchEvent(new Event("visibilitychange"))`)
	b.see("57", "75 % of width")
	if !js[bool](b, `window.rimwardSame === true && document.activeElement.matches("a.check-now")`) {
		t.Error("the page was loaded anew, or lost its focus")
	}
}

// Timers stay right: what they say follows the studio's clock, not the hour at
// which the page was made; four hours end with one sentence and not before.
func TestJourneyTimers(t *testing.T) {
	s := emptyStudio(t)
	burns := s.lit(2*time.Hour+50*time.Minute, s.shelved(1)...)
	s.seen(burns[0], burns[0].LitAt.Add(2*time.Hour), 60)
	b := newTab(t, s.base(), phone)
	b.open("/")
	b.see("2 h 50", "in 10 min")
	if text := b.text(); containsAll(text, "Put it out now") || containsAll(text, "does not answer") {
		t.Errorf("the bench warns too soon:\n%s", text)
	}
	// The laptop sleeps for half an hour: the page's own clock is moved.
	js[bool](b, `(() => { const now = Date.now; Date.now = () => now() + 30 * 60000; document.dispatchEvent(new Event("visibilitychange")); return true })()`)
	b.see("3 h 20", "20 min late")
	js[bool](b, `(() => { const now = Date.now; Date.now = () => now() + 60 * 60000; document.dispatchEvent(new Event("visibilitychange")); return true })()`)
	b.see("4 h 20", "Put it out now")
}

// The bench says so when the program does not answer, and recovers.
func TestJourneyServerAway(t *testing.T) {
	s := emptyStudio(t)
	s.lit(time.Hour, s.shelved(1)...)
	b := newTab(t, s.base(), laptop)
	b.open("/")
	s.stop()
	js[bool](b, `document.dispatchEvent(new Event("visibilitychange"))`)
	b.see("The program does not answer")
	s.start()
	js[bool](b, `document.dispatchEvent(new Event("visibilitychange"))`)
	for end := time.Now().Add(5 * time.Second); containsAll(b.text(), "does not answer"); time.Sleep(50 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("the bench never noticed that the program is back")
		}
	}
}
